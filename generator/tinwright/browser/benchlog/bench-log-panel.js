// @ts-check
// What has to be said of one event: the form that takes the place of the buttons, and gives it to whoever asked for it.
// needs: bench-log-fields.js bench-log-keys.js bench-log-measured.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { button, make } = root.tinwrightElements;
  const data = root.tinwrightBenchLogData;
  const words = root.tinwrightBenchLogWords;
  const { key } = root.tinwrightBenchLogKeys;
  const { LABELS, NUMBERS, fieldOf, timeField } = root.tinwrightBenchLogFields;
  const { Measured } = root.tinwrightBenchLogMeasured;
  const { fromEvent, fromSeamCheck, soundTyped } = root.tinwrightBenchLogTyped;
  const ORDER = [
    "run",
    "can_number",
    "first",
    "last",
    "can",
    "lid_lot",
    "adjuster",
    "direction",
    "turns",
    "defect",
    "cause",
    "torn_down",
    "reason",
    "by",
    "note",
  ];
  const KINDEST_FIRST = ["accept", "measure-again", "reject"];

  class Panel {
    /** @param {PanelTask} task */
    constructor(task) {
      this.task = task;
      this.kind = data.kinds[task.kind];
      /** @type {Record<string, any>} */
      this.entries = { ...task.entries, ...(task.event || {}) };
      this.missing = make("p", { class: "tw-log__missing", role: "alert" });
      this.buttons = make("div", { class: "tw-log__keys" });
      this.head = make(
        "h2",
        { class: "tw-log__head", tabindex: "-1" },
        task.event ? `Correct: ${this.kind.label}` : this.kind.label,
      );
      this.isTouched = false;
      this.measured = this.kind.may.includes("readings") ? this.makeMeasured() : null;
      this.element = make("form", {
        class: "tw-log__panel",
        novalidate: true,
        onsubmit: (/** @type {Event} */ event) => {
          event.preventDefault();
          if (!data.results[task.kind]) this.write();
        },
      });
      this.build();
    }

    makeMeasured() {
      const { event, typed, can } = this.task;
      let isBuilt = false;
      const measured = new Measured(soundTyped(event ? fromEvent(event) : typed), can, () => {
        this.isTouched = this.isTouched || isBuilt;
        this.showButtons();
      });
      isBuilt = true;
      return measured;
    }

    /** @param {string} entry */
    isNeeded(entry) {
      return this.kind.needs.includes(entry);
    }

    build() {
      const { task } = this;
      const fields = this.allowed().map((entry) => ({ entry, element: this.field(entry) }));
      const isAside = (/** @type {string} */ entry) => ["by", "note"].includes(entry) && !this.isNeeded(entry);
      const shown = fields.filter(({ entry }) => !isAside(entry)).map(({ element }) => element);
      const hidden = fields.filter(({ entry }) => isAside(entry)).map(({ element }) => element);
      const parts = [
        this.head,
        task.note ? make("p", { class: "tw-note" }, task.note) : null,
        task.event || task.isTimed ? timeField(this.entries) : null,
        task.kind === "set-up" ? this.sheet() : null,
        this.measured && !task.event && !task.typed ? this.seamCheck() : null,
        ...shown,
        this.measured && this.measured.element,
        make(
          "details",
          { open: Boolean(task.event && (task.event.by || task.event.note)) },
          make("summary", {}, hidden.length > 1 ? "Who, and a note" : "A note"),
          ...hidden,
        ),
        this.missing,
        this.buttons,
      ];
      this.element.replaceChildren(...parts.flatMap((part) => (part ? [part] : [])));
      this.showButtons();
    }

    /** The entries that the form asks for, in their order. */
    allowed() {
      const own = [...this.kind.needs, ...this.kind.may];
      const hasRuns = this.task.runs.length > 1 && own.some((entry) => NUMBERS.includes(entry));
      const allowed = [...own, ...(hasRuns ? ["run"] : []), "by", "note"];
      return ORDER.filter((entry) => allowed.includes(entry));
    }

    /** @param {string} entry */
    field(entry) {
      return fieldOf(entry, {
        task: this.task,
        entries: this.entries,
        isNeeded: this.isNeeded(entry),
        value: this.entries[entry],
        set: (value) => {
          this.entries[entry] = value;
        },
      });
    }

    /** The keys that lead to a result, or the one that writes it down. */
    resultKeys() {
      const { task } = this;
      const suggested = this.measured ? this.measured.outcome : "";
      const results = data.results[task.kind];
      if (!results) return [key(task.event ? "Save" : "Write it down", () => this.write(), "first")];
      return results.map((result) => {
        const isSuggested = result === suggested;
        const look = `${result}${isSuggested ? " first" : ""}`;
        return key(words.RESULTS[result], () => this.write(result), look, isSuggested ? "as the readings say" : "");
      });
    }

    /** What leads to a result, or to one button; and the way back. */
    showButtons() {
      if (!this.element) return;
      const { task } = this;
      const strike = task.event
        ? [key(task.event.struck ? "Bring it back" : "Strike it out", () => task.strike(), "quiet")]
        : [];
      this.buttons.replaceChildren(
        key("Back", () => task.close(), "quiet"),
        ...strike,
        ...this.resultKeys(),
      );
    }

    /** Where to find how the can is set up on the sealer. */
    sheet() {
      const sealer = this.task.entries.sealer || "";
      const sheets = data.setUps[sealer] || {};
      const place = make("p", { class: "tw-go" });
      const show = () => {
        const { can } = this.entries;
        const said = `Set-up sheet: ${words.canTitle(can)} on the ${words.sealerTitle(sealer).toLowerCase()}`;
        place.replaceChildren(
          sheets[can]
            ? make("a", { href: sheets[can] }, said)
            : make("span", {}, "There is no set-up sheet for this can on this sealer: ask before you seal."),
        );
      };
      this.element.addEventListener("change", show);
      show();
      return place;
    }

    /** Offers what was typed into Check a seam. */
    seamCheck() {
      const typed = fromSeamCheck();
      const use = () => {
        this.task.typed = typed;
        this.isTouched = true;
        this.measured = this.makeMeasured();
        this.build();
      };
      return make(
        "p",
        { class: "tw-bench__buttons" },
        typed ? button("Take the readings from Check a seam", use) : null,
        make("a", { class: "tw-button", href: data.seamCheck }, "Check a seam, with the drawing"),
      );
    }

    /**
     * The entries of a measured check, with a note where the result is kinder than the readings.
     * @param {string} result
     */
    measuredEntries(result) {
      if (!this.measured || !(this.isTouched || !this.task.event)) return {};
      const { readings, typed, outcome } = this.measured;
      const entries = { readings, method: typed.method, specification: typed.specification };
      if (KINDEST_FIRST.indexOf(result) >= KINDEST_FIRST.indexOf(outcome)) return entries;
      const before = this.entries.note ? `${this.entries.note}. ` : "";
      return { ...entries, note: `${before}The readings say ${words.RESULTS[outcome].toLowerCase()}` };
    }

    /** @param {string} [result] */
    write(result = "") {
      const wrong = NUMBERS.filter((entry) => Number.isNaN(this.entries[entry]));
      const entries = { ...this.entries, ...(result ? { result } : {}), ...this.measuredEntries(result) };
      this.missing.textContent = wrong.length
        ? `Write a whole number: ${wrong.map((entry) => LABELS[entry].toLowerCase()).join(", ")}.`
        : this.task.write(entries);
    }
  }

  root.tinwrightBenchLogPanel = { Panel };
})(globalThis);
