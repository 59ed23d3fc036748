// @ts-check
// The service worker: keeps every page of the site on the device, and answers from there.
// The build puts the list before it: `tinwrightKept = { version, files: { address: hash } }`.

(function () {
  "use strict";
  const worker = /** @type {any} */ (self);
  /** @type {{version: string, files: Object<string, string>}} */
  const { version, files } = worker.tinwrightKept;
  const hashes = new Map(Object.entries(files));
  const scope = String(worker.registration.scope);
  const ours = `tinwright ${new URL(scope).pathname} `;
  const name = ours + version;
  const AT_ONCE = 6;

  /** Under which address a file of this content is kept. @param {string} address */
  const keyOf = (address) => `${scope}${address}?${hashes.get(address)}`;

  /** @param {ArrayBuffer} content first 16 digits of its SHA-256 */
  async function hashOf(content) {
    const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", content));
    return [...bytes.slice(0, 8)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  }

  /**
   * Fetches one file as it was built. A folder that is still being copied to the server, or a server that rewrites
   * pages, fails here: better the version before than a mixture.
   * @param {string} address
   */
  async function fetched(address) {
    const answer = await fetch(scope + address, { cache: "no-cache", credentials: "same-origin" });
    if (!answer.ok) throw new Error(`${address}: ${answer.status}`);
    const content = await answer.arrayBuffer();
    if ((await hashOf(content)) !== hashes.get(address)) throw new Error(`${address}: not the file of this version`);
    const headers = new Headers(answer.headers);
    for (const said of ["content-encoding", "content-length", "vary"]) headers.delete(said); // true of the sending only
    return new Response(content, { status: 200, headers });
  }

  /** Caches of earlier versions of this site; those of a site at another address are left alone. */
  const before = async () => (await caches.keys()).filter((key) => key.startsWith(ours) && key !== name);

  async function install() {
    const cache = await caches.open(name);
    const old = await Promise.all((await before()).map((key) => caches.open(key)));
    const waiting = [...hashes.keys()];
    async function work() {
      for (let address = waiting.pop(); address !== undefined; address = waiting.pop()) {
        const key = keyOf(address);
        if (await cache.match(key)) continue;
        let answer;
        for (const place of old) answer = answer || (await place.match(key));
        await cache.put(key, answer || (await fetched(address)));
      }
    }
    await Promise.all(Array.from({ length: AT_ONCE }, work));
  }

  async function activate() {
    await Promise.all((await before()).map((key) => caches.delete(key)));
    await worker.clients.claim();
  }

  /** What is kept of a file of the list; query and fragment do not count. @param {string} path */
  function kept(path) {
    const address = path === "" || path.endsWith("/") ? `${path}index.html` : path;
    return hashes.has(address) ? caches.match(keyOf(address), { cacheName: name }) : undefined;
  }

  /** @param {string} path */
  function decoded(path) {
    try {
      return decodeURI(path);
    } catch {
      return path;
    }
  }

  /** @param {Request} request */
  async function answer(request) {
    const found = await kept(decoded(new URL(request.url).pathname.slice(new URL(scope).pathname.length)));
    if (found) return found;
    try {
      return await fetch(request);
    } catch (error) {
      const missing = request.mode === "navigate" ? await kept("404.html") : undefined;
      if (missing) return new Response(missing.body, { status: 404, headers: missing.headers });
      throw error;
    }
  }

  worker.addEventListener("install", (/** @type {any} */ event) => event.waitUntil(install()));
  worker.addEventListener("activate", (/** @type {any} */ event) => event.waitUntil(activate()));
  worker.addEventListener("message", (/** @type {any} */ event) => {
    if (event.data && event.data.tinwright === "use-new-version") worker.skipWaiting();
  });
  worker.addEventListener("fetch", (/** @type {any} */ event) => {
    if (event.request.method === "GET" && event.request.url.startsWith(scope)) event.respondWith(answer(event.request));
  });
})();
