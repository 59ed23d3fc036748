// @ts-check
// Under the thumb: the keys of what is done most, all others behind *More*, and the form that takes their place.
// needs: bench-log-keys.js bench-log-remembered.js bench-log-states.js bench-log-store.js bench-log-tabs.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { button, make } = root.tinwrightElements;
  const { key } = root.tinwrightBenchLogKeys;
  const { recall, remember } = root.tinwrightBenchLogRemembered;
  const { KEY } = root.tinwrightBenchLogStore;
  const { Tabs } = root.tinwrightBenchLogTabs;
  const data = root.tinwrightBenchLogData;
  const words = root.tinwrightBenchLogWords;
  const STEP = `${KEY}step`;
  const MORE = [
    "sealed",
    "jam",
    "new-run",
    "pause",
    "set-up",
    "defect",
    "cause",
    "can-change",
    "lid-lot",
    "hold",
    "release",
    "discard",
    "close",
  ];

  class Pad {
    /** @param {LogDesk} desk */
    constructor(desk) {
      this.desk = desk;
      /** How many cans the second + key adds. */
      this.step = Math.min(99, Math.max(2, Number(recall(STEP)) || 6));
      this.tabs = new Tabs(desk);
      this.undone = make("div", { class: "tw-log__last" });
      this.one = key("+1 can sealed", () => desk.seal(1), "first");
      this.element = make("div", { class: "tw-log__pad" });
    }

    /** The keys. */
    showKeys() {
      const ask = (/** @type {string} */ label, /** @type {string} */ kind) => key(label, () => this.desk.ask(kind));
      this.element.className = "tw-log__pad";
      this.element.replaceChildren(
        this.undone,
        this.tabs.element,
        make(
          "div",
          { class: "tw-log__grid" },
          this.one,
          key(`+${this.step}`, () => this.desk.seal(this.step)),
          ask("Test can", "test-can"),
          ask("Look", "visual-check"),
          ask("Measure", "measured-check"),
          ask("In canner", "heated"),
          ask("Adjusted", "adjustment"),
          key("More", () => this.showMore()),
        ),
      );
    }

    /** @param {boolean} isLate whether something comes before another can is sealed */
    setLate(isLate) {
      // Cans sealed in spite of it are still written down: the log tells what happened.
      this.one.classList.toggle("tw-log__key--later", isLate);
    }

    /** Leads the keyboard to the first key. */
    focus() {
      this.one.focus({ preventScroll: true });
    }

    /** Puts a form in the place of the keys. @param {LogForm} form @param {boolean} isMoved whether to go there */
    showForm({ element, head }, isMoved) {
      this.element.className = "tw-log__pad tw-log__pad--asking";
      this.element.replaceChildren(element);
      if (!isMoved) return;
      head.focus({ preventScroll: true });
      element.scrollIntoView({ block: "start" });
    }

    /** How many cans the second + key adds, to be changed. */
    stepField() {
      const box = /** @type {HTMLInputElement} */ (
        make("input", { type: "text", id: "bl-step", inputmode: "numeric", value: this.step, maxlength: 2 })
      );
      box.addEventListener("input", () => {
        if (!/^\d{1,2}$/.test(box.value) || Number(box.value) < 2) return;
        this.step = Number(box.value);
        remember(STEP, box.value);
      });
      const label = make("label", { for: "bl-step" }, "The second + button adds this many cans");
      return make("div", {}, label, box);
    }

    showMore() {
      const { desk } = this;
      const isPaused = desk.isPaused();
      /** @type {Record<string, string>} */
      const labels = { sealed: "Type the cans", pause: isPaused ? "Go on" : "Pause" };
      const head = make("h2", { class: "tw-log__head", tabindex: "-1" }, "More");
      const keys = MORE.map((kind) => key(labels[kind] || data.kinds[kind].label, () => desk.ask(kind)));
      const element = make(
        "div",
        { class: "tw-log__panel" },
        head,
        make(
          "div",
          { class: "tw-log__grid tw-log__grid--two" },
          ...keys,
          key("Correct the session", () => desk.begin(true)),
          key("Back", () => desk.showKeys(true), "quiet"),
        ),
        this.stepField(),
      );
      desk.showForm({ element, head });
    }

    /** What was written last, with the way to undo it. @param {LogEvent|null} event */
    showLast(event) {
      const isThere = this.undone.contains(document.activeElement);
      if (!event) {
        this.undone.replaceChildren();
        return;
      }
      const said = `${event.at.slice(0, 5)} ${words.eventText(event)}${event.struck ? " · struck out" : ""}`;
      const undo = button(event.struck ? "Bring it back" : "Undo", () => this.desk.strike(event));
      this.undone.replaceChildren(make("span", {}, said), undo);
      if (isThere) undo.focus();
    }
  }

  root.tinwrightBenchLogPad = { Pad };
})(globalThis);
