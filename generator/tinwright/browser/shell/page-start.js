// @ts-check
// What must be done before the first paint and before the theme's own script: remembers light or dark, says that
// scripts run, shows the bare page in another page's frame, and holds the search index back until somebody searches.

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const script = /** @type {HTMLScriptElement} */ (document.currentScript);
  const site = new URL("..", script.src);
  let settled = false;

  /** What the theme calls `__palette` is kept as `tinwright.palette`. @param {string} name */
  const keyOf = (name) => `tinwright.${name.replace(/^_+/, "")}`;

  /** @param {Storage} [storage] */
  const chosen = (storage) => storage || localStorage;

  /**
   * Reads what the theme kept; nothing when storage is blocked or holds something else.
   * @param {string} name @param {Storage} [storage]
   */
  function read(name, storage) {
    try {
      const value = JSON.parse(chosen(storage).getItem(keyOf(name)) || "null");
      return name === "__palette" && !isPalette(value) ? null : value;
    } catch {
      return null;
    }
  }

  /**
   * Keeps what the theme asks to keep. It asks once on every page, before the reader has chosen anything: not then.
   * @param {string} name @param {any} value @param {Storage} [storage]
   */
  function write(name, value, storage) {
    if (name === "__palette" && !settled) {
      settled = true;
      return;
    }
    try {
      chosen(storage).setItem(keyOf(name), JSON.stringify(value));
    } catch {
      // Storage is full or blocked: the page works, but forgets.
    }
  }

  /** @param {any} value what the theme kept, or what somebody put in its place */
  function isPalette(value) {
    const words = value && value.color && typeof value.color === "object" ? Object.entries(value.color) : [];
    return (
      words.length > 0 &&
      Number.isInteger(value.index) &&
      words.every(([key, word]) => /^[a-z]+$/.test(key) && typeof word === "string")
    );
  }

  /** @param {string} text */
  const hash = (text) => [...text].reduce((sum, letter) => (sum << 5) - sum + letter.charCodeAt(0), 0);

  // The theme looks for these by name.
  Object.assign(globals, { __md_scope: site, __md_get: read, __md_set: write, __md_hash: hash });

  function dress() {
    const palette = read("__palette");
    if (!palette || palette.color.media === "(prefers-color-scheme)") return;
    for (const [key, word] of Object.entries(palette.color)) {
      document.body.setAttribute(`data-md-color-${key}`, String(word));
    }
  }

  document.documentElement.classList.add("tw-script");

  // As soon as the body is there, which is before it is painted.
  const waiting = new MutationObserver(() => {
    if (!document.body) return;
    waiting.disconnect();
    dress();
  });
  waiting.observe(document.documentElement, { childList: true });

  document.addEventListener("DOMContentLoaded", () => {
    // A browser that remembers what was ticked would show the page again with its menu open.
    for (const box of document.querySelectorAll(".md-toggle")) box.setAttribute("autocomplete", "off");
    // A link to a tab of a page opens that tab.
    const target = document.getElementById(location.hash.slice(1));
    if (target instanceof HTMLInputElement && target.name.startsWith("__tabbed_")) target.checked = true;
  });

  const asked = new URLSearchParams(location.search);

  // The theme asks for the search index, which is larger than any page, and for its searcher on each page. It gets them
  // when they are wanted: when the search is opened, or by an address that holds words to search for or to mark.
  /** @type {Promise<void>} */
  const searching = new Promise((resolve) => {
    if (asked.has("q") || asked.has("h")) resolve();
    const isSearch = (/** @type {EventTarget|null} */ target) =>
      target instanceof Element &&
      target.closest('[data-md-component^="search"], [for="__search"], #__search') !== null;
    for (const kind of ["pointerover", "pointerdown", "focusin", "change"]) {
      document.addEventListener(
        kind,
        (event) => {
          if (isSearch(event.target)) resolve();
        },
        { passive: true },
      );
    }
  });
  const index = new URL("search/search_index.json", site).href;
  globals.XMLHttpRequest = class extends XMLHttpRequest {
    /** @param {any[]} values */
    open(...values) {
      this.address = new URL(String(values[1]), location.href).href;
      return super.open(.../** @type {[string, string]} */ (values));
    }

    /** @param {any} [body] */
    send(body) {
      if (this.address === index) searching.then(() => super.send(body));
      else super.send(body);
    }
  };

  /** The searcher: what it is told before it is there waits for it. From a disk another one takes the place of this. */
  const Worker = root.Worker;
  globals.Worker = class extends EventTarget {
    /** @param {string|URL} address */
    constructor(address) {
      super();
      this.worker = searching.then(() => {
        const worker = new Worker(address);
        worker.addEventListener("message", ({ data }) => this.dispatchEvent(new MessageEvent("message", { data })));
        worker.addEventListener("error", ({ message }) => this.dispatchEvent(new ErrorEvent("error", { message })));
        return worker;
      });
    }

    /** @param {any} message */
    postMessage(message) {
      this.worker.then((worker) => worker.postMessage(message));
    }

    terminate() {
      this.worker.then((worker) => worker.terminate());
    }
  };

  if (asked.has("embed")) {
    document.documentElement.classList.add("tw-embed");
    const embed = document.createElement("script");
    embed.src = new URL("assets/embed.js", site).href;
    document.head.append(embed);
  }
})(globalThis);
