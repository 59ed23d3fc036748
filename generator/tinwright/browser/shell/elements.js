// @ts-check
// Making elements and handing over files: what every component of the site does alike.

(function (root) {
  "use strict";

  /**
   * Makes an element. Text is only ever set as text, so nothing in it can become markup.
   * @param {string} tag
   * @param {Object<string, any>} [attributes] `on*` are listeners
   * @param {...(Node|string|null|undefined)} children
   * @returns {HTMLElement}
   */
  function make(tag, attributes = {}, ...children) {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) {
      if (value === null || value === undefined || value === false) continue;
      if (typeof value === "function") element.addEventListener(name.slice(2), value);
      else element.setAttribute(name, value === true ? "" : String(value));
    }
    for (const child of children) if (child !== null && child !== undefined) element.append(child);
    return element;
  }

  /** @param {string} text @param {() => void} act @param {Object<string, any>} [more] attributes */
  const button = (text, act, more = {}) =>
    make("button", { type: "button", class: "tw-button", onclick: act, ...more }, text);

  /**
   * Hands a text over as a file.
   * @param {string} name
   * @param {string} text
   * @param {string} type
   */
  function save(name, text, type) {
    const address = URL.createObjectURL(new Blob([text], { type }));
    make("a", { href: address, download: name }).click();
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
  }

  /** The day where the reader is, such as 2026-11-25. */
  function today() {
    const now = new Date();
    return [now.getFullYear(), now.getMonth() + 1, now.getDate()]
      .map((part) => String(part).padStart(2, "0"))
      .join("-");
  }

  root.tinwrightElements = { button, make, save, today };
})(globalThis);
