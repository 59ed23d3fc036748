// @ts-check
// Small things that the page of the bench log remembers, and parts of it that are built again only when they change.
// joined: bench-log.js

(function (root) {
  "use strict";

  /** @param {string} key @returns {string} */
  function recall(key) {
    try {
      return localStorage.getItem(key) || "";
    } catch {
      return "";
    }
  }

  /** @param {string} key @param {string} value */
  function remember(key, value) {
    try {
      localStorage.setItem(key, value);
    } catch {
      // It is asked again next time.
    }
  }

  /** What stands in each part now, so that nothing is built, or said, twice. @type {WeakMap<HTMLElement, string>} */
  const standing = new WeakMap();

  /**
   * Whether a part shows something else than it should; it then counts as shown.
   * @param {HTMLElement} part
   * @param {string} sign
   */
  function isStale(part, sign) {
    if (standing.get(part) === sign) return false;
    standing.set(part, sign);
    return true;
  }

  /**
   * Puts something into a part unless just that stands there.
   * @param {HTMLElement} part
   * @param {HTMLElement|null} content
   */
  function put(part, content) {
    if (isStale(part, content ? content.outerHTML : "")) part.replaceChildren(...(content ? [content] : []));
  }

  root.tinwrightBenchLogRemembered = { isStale, put, recall, remember };
})(globalThis);
