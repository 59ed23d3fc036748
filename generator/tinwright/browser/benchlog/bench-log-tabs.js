// @ts-check
// One tab for each sealer of the day, with its count and whether it waits for something.
// needs: bench-log-due.js bench-log-remembered.js bench-log-states.js bench-log-words.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { make } = root.tinwrightElements;
  const { isNow } = root.tinwrightBenchLogDue;
  const { isStale } = root.tinwrightBenchLogRemembered;
  const words = root.tinwrightBenchLogWords;

  /** @typedef {{key: string, title: string, below: string, isOpen: boolean}} LogTab */

  class Tabs {
    /** @param {LogDesk} desk */
    constructor(desk) {
      this.desk = desk;
      this.element = make("div", { class: "tw-log__tabs", role: "group", "aria-label": "Sealer" });
    }

    /** @param {KeptSession} kept the one that is open */
    show(kept) {
      const tabs = this.desk.states.on(kept.session.date).map((each) => this.tabOf(each, each.key === kept.key));
      if (!isStale(this.element, JSON.stringify(tabs))) return;
      const at = document.activeElement;
      const place = at ? [...this.element.children].indexOf(at) : -1;
      this.element.replaceChildren(...tabs.map((tab) => this.button(tab)), this.another());
      const moved = this.element.children[place];
      if (moved instanceof HTMLElement) moved.focus();
    }

    /** @param {KeptSession} kept @param {boolean} isOpen @returns {LogTab} */
    tabOf(kept, isOpen) {
      const { bench, held, dues } = this.desk.states.of(kept);
      const state = held ? "HOLD" : dues.some(isNow) ? "DUE" : bench.closed ? "closed" : "";
      const below = [`${bench.counter}`, state].filter(Boolean).join(" · ");
      return { key: kept.key, title: words.sealerTitle(kept.session.sealer), below, isOpen };
    }

    /** @param {LogTab} tab */
    button({ key, title, below, isOpen }) {
      const onclick = () => this.desk.choose(key);
      return make(
        "button",
        { type: "button", class: "tw-log__tab", "aria-pressed": String(isOpen), onclick },
        make("span", {}, title),
        make("small", {}, below),
      );
    }

    another() {
      const onclick = () => this.desk.begin();
      const look = "tw-log__tab tw-log__tab--new";
      return make("button", { type: "button", class: look, "aria-label": "Another sealer", onclick }, "+");
    }

    hasFocus() {
      return this.element.contains(document.activeElement);
    }

    /** Leads the keyboard to the tab that is open. */
    focus() {
      const open = this.element.querySelector("[aria-pressed=true]");
      if (open instanceof HTMLElement) open.focus({ preventScroll: true });
    }
  }

  root.tinwrightBenchLogTabs = { Tabs };
})(globalThis);
