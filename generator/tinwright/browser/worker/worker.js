// @ts-check
// The service worker: keeps every page of the site on the device, and answers from there.
// The build puts a list before it, `tinwrightKept = { version, files: { address: hash }, opened: { address: hash } }`;
// what stands under `opened` is kept from when the reader first opens it.

(function () {
  "use strict";
  const worker = /** @type {any} */ (self);
  /** @type {{version: string, files: Object<string, string>, opened: Object<string, string>}} */
  const { version, files, opened } = worker.tinwrightKept;
  const hashes = new Map([...Object.entries(files), ...Object.entries(opened)]);
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
    const sent = await fetch(scope + address, { cache: "no-cache", credentials: "same-origin" });
    if (!sent.ok) throw new Error(`${address}: ${sent.status}`);
    const content = await sent.arrayBuffer();
    if ((await hashOf(content)) !== hashes.get(address)) throw new Error(`${address}: not the file of this version`);
    return lasting(content, sent.headers);
  }

  /** An answer to keep. @param {ArrayBuffer} content @param {Headers} sent */
  function lasting(content, sent) {
    const headers = new Headers(sent);
    // These are true of the sending only.
    for (const said of ["accept-ranges", "content-encoding", "content-length", "vary"]) headers.delete(said);
    return new Response(content, { status: 200, headers });
  }

  /** Caches of earlier versions of this site; those of a site at another address are left alone. */
  const before = async () => (await caches.keys()).filter((key) => key.startsWith(ours) && key !== name);

  async function install() {
    const cache = await caches.open(name);
    const old = await Promise.all((await before()).map((key) => caches.open(key)));
    const waiting = Object.keys(files);
    for (const address of Object.keys(opened)) {
      const found = await Promise.all(old.map((place) => place.match(scope + address, { ignoreSearch: true })));
      if (found.some(Boolean)) waiting.push(address); // opened once: there without a signal in the new version, too
    }
    async function work() {
      for (let address = waiting.pop(); address !== undefined; address = waiting.pop()) {
        const key = keyOf(address);
        if (await cache.match(key)) continue;
        let same;
        for (const place of old) same = same || (await place.match(key));
        await cache.put(key, same || (await fetched(address)));
      }
    }
    await Promise.all(Array.from({ length: AT_ONCE }, work));
  }

  async function activate() {
    await Promise.all((await before()).map((key) => caches.delete(key)));
    await worker.clients.claim();
  }

  /** What is kept of a file of the list. @param {string} address */
  const kept = (address) => (hashes.has(address) ? caches.match(keyOf(address), { cacheName: name }) : undefined);

  /** The address of a file on this site; query and fragment do not count. @param {string} url */
  function addressOf(url) {
    const path = decoded(new URL(url).pathname.slice(new URL(scope).pathname.length));
    return path === "" || path.endsWith("/") ? `${path}index.html` : path;
  }

  /** @param {string} path */
  function decoded(path) {
    try {
      return decodeURI(path);
    } catch {
      return path;
    }
  }

  /**
   * Keeps a file that the reader opened, if it is the one of this version.
   * @param {string} address
   * @param {Response} whole
   */
  async function keep(address, whole) {
    const content = await whole.arrayBuffer();
    // The reader may have removed the copy.
    if ((await hashOf(content)) !== hashes.get(address) || !(await caches.has(name))) return;
    await (await caches.open(name)).put(keyOf(address), lasting(content, whole.headers));
  }

  /** @param {any} event */
  async function answer(event) {
    /** @type {Request} */
    const request = event.request;
    const address = addressOf(request.url);
    const found = await kept(address);
    if (found) return found;
    try {
      const sent = await fetch(request);
      if (address in opened && sent.status === 200) {
        // Without room to keep it, it is read all the same.
        event.waitUntil(keep(address, sent.clone()).catch(() => undefined));
      }
      return sent;
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
    if (event.request.method === "GET" && event.request.url.startsWith(scope)) event.respondWith(answer(event));
  });
})();
