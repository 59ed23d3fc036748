// @ts-check
// Keeps the site on this device for reading without a signal, and says when there is a new version of it.
// Only over http and https, and only where the site has a manifest: not from a folder, and not while it is edited.

(function () {
  "use strict";
  const NO_COPY = "tinwright.no-copy";
  const manifest = document.querySelector("link[rel=manifest]");
  if (
    !(manifest instanceof HTMLLinkElement) ||
    !("serviceWorker" in navigator) ||
    !/^https?:$/.test(location.protocol)
  ) {
    return;
  }
  if (document.documentElement.classList.contains("tw-embed") || refused()) return;
  const worker = new URL("sw.js", manifest.href).href;

  function refused() {
    try {
      return localStorage.getItem(NO_COPY) !== null;
    } catch {
      return true; // whoever blocks storage wants nothing kept
    }
  }

  /** Puts a notice on the page. @param {ServiceWorker} waiting the new version */
  function notice(waiting) {
    if (document.querySelector(".tw-update")) return;
    const box = document.createElement("div");
    box.className = "tw-update";
    const said = document.createElement("p");
    said.setAttribute("role", "status");
    const use = document.createElement("button");
    use.type = "button";
    use.className = "tw-button";
    use.textContent = "Use the new version";
    const later = document.createElement("button");
    later.type = "button";
    later.className = "tw-button";
    later.textContent = "Later";
    use.addEventListener("click", () => {
      use.disabled = true;
      said.textContent = "Changing to the new version …";
      waiting.postMessage({ tinwright: "use-new-version" });
    });
    later.addEventListener("click", () => box.remove());
    box.append(said, use, later);
    document.body.append(box);
    // A status is read out when its words change while it stands on the page.
    setTimeout(() => {
      said.textContent = "There is a new version of this site. What you see may be out of date.";
    }, 50);
  }

  /** @param {ServiceWorkerRegistration} registration */
  function watch(registration) {
    if (registration.waiting && navigator.serviceWorker.controller) notice(registration.waiting);
    const follow = () => {
      const coming = registration.installing;
      if (!coming) return;
      coming.addEventListener("statechange", () => {
        if (coming.state === "installed" && navigator.serviceWorker.controller) notice(coming);
      });
    };
    registration.addEventListener("updatefound", follow);
    follow();
  }

  // The first version takes over a page without a reload: the page is already what it would bring.
  let controlled = navigator.serviceWorker.controller !== null;
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (controlled) location.reload();
    controlled = true;
  });
  // After the page has all it needs itself. Where no copy can be kept, reading goes on without.
  const start = () =>
    navigator.serviceWorker
      .register(worker, { updateViaCache: "none" })
      .then(watch)
      .catch(() => undefined);
  if (document.readyState === "complete") start();
  else window.addEventListener("load", start);
})();
