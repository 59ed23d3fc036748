// @ts-check
// <tw-filter>: shows of a list what fits the ticks.

(function () {
  "use strict";

  /**
   * How many groups of ticks an item fits: one of the ticked values in each.
   * @param {HTMLElement} item @param {Map<string, string[]>} wanted
   */
  const fit = (item, wanted) =>
    Array.from(wanted).filter(([name, values]) => {
      const has = (item.dataset[name] || "").split(" ");
      return values.some((value) => has.includes(value));
    }).length;

  /**
   * `<tw-filter data-items=".tw-card">`: shows the items whose data attributes hold a ticked value of each group, or of
   * most groups.
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
      const fits = items.map((item) => fit(item, wanted));
      // nobody is left with nothing: when none fits every group of ticks, those come that fit most of them
      const most = Math.max(0, ...fits);
      items.forEach((item, place) => {
        item.hidden = fits[place] < most;
      });
      const shown = items.filter((item) => !item.hidden).length;
      this.hideEmptyGroups(items);
      this.say(shown, items.length, wanted.size - most);
    }

    /** @param {number} shown @param {number} all @param {number} missed groups of ticks that nothing shown fits */
    say(shown, all, missed) {
      const output = this.querySelector("output");
      const near = shown < all ? `Nothing fits all you ticked. ${shown} nearly do.` : "Nothing fits what you ticked.";
      const words = missed > 0 ? near : `${shown} of ${all} shown`;
      if (output && output.textContent !== words) output.textContent = words;
      const next = this.querySelector(".tw-filter__next");
      if (next instanceof HTMLElement) next.hidden = missed <= 0;
      const again = this.querySelector("button");
      if (again) again.hidden = !this.boxes().some((box) => box.checked);
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
