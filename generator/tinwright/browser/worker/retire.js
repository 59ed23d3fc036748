// @ts-check
// Takes the place of the service worker while the site is edited: what was kept earlier at this address must not hide
// an edit. Serving this file as sw.js also retires a site for good.

(function () {
  "use strict";
  const worker = /** @type {any} */ (self);
  const ours = `tinwright ${new URL(String(worker.registration.scope)).pathname} `;

  async function retire() {
    for (const key of await caches.keys()) if (key.startsWith(ours)) await caches.delete(key);
    await worker.registration.unregister();
    for (const page of await worker.clients.matchAll({ type: "window" })) page.navigate(page.url);
  }

  worker.addEventListener("install", () => worker.skipWaiting());
  worker.addEventListener("activate", (/** @type {any} */ event) => event.waitUntil(retire()));
})();
