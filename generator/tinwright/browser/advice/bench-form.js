// @ts-check
// What the forms of the bench pages do alike: they keep what was typed, and build themselves anew.
// needs: elements.js
// joined: bench-advice.js

(function (root) {
  "use strict";
  const { button, make } = root.tinwrightElements;

  /** State kept on this device; works without when storage is blocked. @type {TinwrightBenchForm["keeper"]} */
  const keeper = (key) => ({
    read() {
      try {
        const found = JSON.parse(localStorage.getItem(key) || "{}");
        return found && typeof found === "object" && !Array.isArray(found) ? found : {};
      } catch {
        return {};
      }
    },
    write(state) {
      try {
        localStorage.setItem(key, JSON.stringify(state));
      } catch {
        // Storage is full or blocked: the page works, but forgets.
      }
    },
    clear() {
      try {
        localStorage.removeItem(key);
      } catch {
        // As above.
      }
    },
  });

  /**
   * Builds anew what is inside an element, and leaves the keyboard where it was.
   * @param {HTMLElement} host
   * @param {() => void} build
   * @param {string} [goTo] id of the field to go to instead
   */
  function rebuild(host, build, goTo = "") {
    const at = host.contains(document.activeElement) ? goTo || /** @type {Element} */ (document.activeElement).id : "";
    build();
    const field = at ? host.querySelector(`#${CSS.escape(at)}`) : null;
    if (field) /** @type {HTMLElement} */ (field).focus();
  }

  /** A list to choose from, with its label. @type {TinwrightBenchForm["select"]} */
  function select(label, id, choices, value, change) {
    const box = /** @type {HTMLSelectElement} */ (make("select", { id }));
    for (const [key, text] of choices) box.append(make("option", { value: key, selected: key === value }, text));
    box.addEventListener("change", () => change(box.value));
    return make("div", {}, make("label", { for: id }, label), box);
  }

  /** A box to tick for a defect, with what it looks like. @type {TinwrightBenchForm["tick"]} */
  function tick(defect, checked, change, more = {}) {
    const attributes = { type: "checkbox", checked, ...more };
    const box = /** @type {HTMLInputElement} */ (make("input", attributes));
    box.addEventListener("change", () => change(box.checked));
    const words = make("span", {}, make("strong", {}, defect.title), ` ${defect.summary}`);
    return make("label", { class: "tw-tick" }, box, words);
  }

  /** Buttons in a row; what is null is left out. @param {(Node|null)[]} each */
  const buttons = (...each) => make("div", { class: "tw-bench__buttons" }, ...each);

  root.tinwrightBenchForm = { button, buttons, keeper, rebuild, select, tick };
})(globalThis);
