// @ts-check
// <tw-filter>: shows of a list what fits the ticks.

(function () {
  "use strict";

  /**
   * `<tw-filter data-items=".tw-card">`: shows the items whose data attributes hold a ticked value of each group.
   * Without script the element stays hidden and every item is shown.
   */
  class TwFilter extends HTMLElement {
    connectedCallback() {
      this.addEventListener("change", () => this.apply());
      const all = this.querySelector("button");
      if (all) {
        all.addEventListener("click", () => {
          for (const box of this.boxes()) box.checked = false;
          this.apply();
        });
      }
      this.apply();
    }

    /** @returns {HTMLInputElement[]} */
    boxes() {
      return Array.from(this.querySelectorAll("input[type=checkbox]"));
    }

    apply() {
      /** @type {Map<string, string[]>} */
      const wanted = new Map();
      for (const box of this.boxes()) {
        if (box.checked) wanted.set(box.name, [...(wanted.get(box.name) || []), box.value]);
      }
      /** @type {HTMLElement[]} */
      const items = Array.from(document.querySelectorAll(this.dataset.items || ""));
      let shown = 0;
      for (const item of items) {
        const fits = Array.from(wanted).every(([name, values]) => {
          const has = (item.dataset[name] || "").split(" ");
          return values.some((value) => has.includes(value));
        });
        item.hidden = !fits;
        if (fits) shown += 1;
      }
      this.hideEmptyGroups(items);
      const output = this.querySelector("output");
      if (output) output.textContent = `${shown} of ${items.length} shown`;
    }

    /** @param {HTMLElement[]} items */
    hideEmptyGroups(items) {
      for (const list of new Set(items.map((item) => item.parentElement))) {
        if (!list) continue;
        const empty = Array.from(list.children).every((item) => item instanceof HTMLElement && item.hidden);
        list.hidden = empty;
        const heading = list.previousElementSibling;
        if (heading instanceof HTMLElement && /^H[2-4]$/.test(heading.tagName)) heading.hidden = empty;
      }
    }
  }

  if (!customElements.get("tw-filter")) customElements.define("tw-filter", TwFilter);
})();
