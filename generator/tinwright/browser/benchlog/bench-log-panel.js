// @ts-check
// What has to be said of one event: the form that takes the place of the buttons, and gives it to whoever asked for it.
// needs: bench-log-measured.js bench-log-start.js
// joined: bench-log.js

/**
 * @typedef {{kind: string, event: LogEvent|null, entries: Object<string, any>, can: string, isTimed: boolean, typed: any,
 *   runs: [string, string][], note: string,
 *   write: (entries: Object<string, any>) => string, strike: () => void, close: () => void}} PanelTask
 * `write` returns what is missing, in words; empty when it is written.
 */

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const { data: bench, make, say, select } = globals.tinwrightBench;
  const data = globals.tinwrightBenchLogData;
  const words = globals.tinwrightBenchLogWords;
  const { Measured, fromEvent, fromSeamCheck, soundTyped } = globals.tinwrightBenchLogMeasured;
  const { cansOn } = globals.tinwrightBenchLogStart;
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
  const NUMBERS = ["can_number", "first", "last"];
  const LABELS = /** @type {Object<string, string>} */ ({
    run: "Run of the counter",
    can_number: "Can number",
    first: "First can",
    last: "Last can",
    can: "Can",
    lid_lot: "Lot of lids, as on the box",
    adjuster: "What was adjusted",
    direction: "Which way",
    turns: "How far",
    defect: "What was seen",
    cause: "Cause",
    torn_down: "The can was torn down",
    reason: "Why",
    by: "Who (initials or id)",
    note: "Note",
    result: "Result",
    at: "Time",
  });
  const TURNS = ["1/16", "1/8", "1/4", "3/8", "1/2", "3/4", "1", "1 1/2", "2"];

  class Panel {
    /** @param {PanelTask} task */
    constructor(task) {
      this.task = task;
      this.kind = data.kinds[task.kind];
      /** @type {Object<string, any>} */
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
      const own = [...this.kind.needs, ...this.kind.may];
      const hasRuns = task.runs.length > 1 && own.some((entry) => NUMBERS.includes(entry));
      const allowed = [...own, ...(hasRuns ? ["run"] : []), "by", "note"];
      const fields = ORDER.filter((entry) => allowed.includes(entry)).map((entry) => this.field(entry));
      const aside = ORDER.filter((entry) => ["by", "note"].includes(entry) && !this.isNeeded(entry));
      const shown = fields.filter(({ entry }) => !aside.includes(entry)).map(({ element }) => element);
      const hidden = fields.filter(({ entry }) => aside.includes(entry)).map(({ element }) => element);
      const when = task.event || task.isTimed ? [this.time()] : [];
      const sheet = task.kind === "set-up" ? this.sheet() : null;
      const seamCheck = this.measured && !task.event && !task.typed ? this.seamCheck() : null;
      const note = task.note ? [make("p", { class: "tw-note" }, task.note)] : [];
      this.element.replaceChildren(
        this.head,
        ...note,
        ...when,
        ...(sheet ? [sheet] : []),
        ...(seamCheck ? [seamCheck] : []),
        ...shown,
        ...(this.measured ? [this.measured.element] : []),
        make(
          "details",
          { open: Boolean(task.event && (task.event.by || task.event.note)) },
          make("summary", {}, hidden.length > 1 ? "Who, and a note" : "A note"),
          ...hidden,
        ),
        this.missing,
        this.buttons,
      );
      this.showButtons();
    }

    /** What leads to a result, or to one button; and the way back. */
    showButtons() {
      if (!this.element) return;
      const { task } = this;
      const results = data.results[task.kind];
      const suggested = this.measured ? this.measured.outcome : "";
      const keys = results
        ? results.map((/** @type {string} */ result) =>
            this.key(
              words.RESULTS[result],
              `${result}${result === suggested ? " first" : ""}`,
              () => this.write(result),
              result === suggested ? "as the readings say" : "",
            ),
          )
        : [this.key(task.event ? "Save" : "Write it down", "first", () => this.write())];
      const strike = task.event
        ? [this.key(task.event.struck ? "Bring it back" : "Strike it out", "quiet", () => task.strike())]
        : [];
      this.buttons.replaceChildren(
        this.key("Back", "quiet", () => task.close()),
        ...strike,
        ...keys,
      );
    }

    /** @param {string} label @param {string} look @param {() => void} act @param {string} [below] */
    key(label, look, act, below = "") {
      const looks = look
        .split(" ")
        .map((each) => ` tw-log__key--${each}`)
        .join("");
      return make(
        "button",
        { type: "button", class: `tw-log__key${looks}`, onclick: act },
        make("span", {}, label),
        below ? make("small", {}, below) : null,
      );
    }

    /** @param {string} entry @returns {{entry: string, element: HTMLElement}} */
    field(entry) {
      const id = `bl-${entry}`;
      const value = this.entries[entry];
      const set = (/** @type {any} */ given) => {
        this.entries[entry] = given;
      };
      const label = this.label(entry);
      if (NUMBERS.includes(entry)) return { entry, element: this.number(id, label, value, set) };
      if (entry === "torn_down") {
        const box = /** @type {HTMLInputElement} */ (make("input", { type: "checkbox", id, checked: value === true }));
        box.addEventListener("change", () => set(box.checked));
        return { entry, element: make("label", { class: "tw-tick" }, box, make("span", {}, label)) };
      }
      const choices = this.choices(entry);
      if (choices) {
        if (value && !choices.some(([key]) => key === value)) choices.push([value, value]);
        if (value === undefined && entry === "can" && choices.length) set(choices[0][0]);
        return { entry, element: select(label, id, choices, value || (entry === "run" ? "A" : ""), set) };
      }
      const box = /** @type {HTMLInputElement} */ (
        make("input", {
          type: "text",
          id,
          autocomplete: "off",
          maxlength: entry === "by" ? 20 : 200,
          value: value || "",
          autocapitalize: entry === "by" ? "characters" : "sentences",
        })
      );
      box.addEventListener("input", () => set(box.value.trim()));
      return { entry, element: make("div", {}, make("label", { for: id }, label), box) };
    }

    /** @param {string} entry */
    label(entry) {
      if (entry === "run") return LABELS.run;
      if (entry === "can_number" && this.task.kind === "measured-check") return "Can number (empty for a test can)";
      return LABELS[entry] + (this.isNeeded(entry) || ["torn_down", "by", "note"].includes(entry) ? "" : " (if known)");
    }

    /** @param {string} entry @returns {[string, string][]|null} */
    choices(entry) {
      const blank = /** @type {[string, string]} */ (["", this.isNeeded(entry) ? "choose" : "not named"]);
      const pairs = (/** @type {string[]} */ ids) => [
        blank,
        ...ids.map((id) => /** @type {[string, string]} */ ([id, words.upper(say(id))])),
      ];
      if (entry === "run") return [...this.task.runs];
      if (entry === "can") return cansOn(this.task.entries.sealer);
      if (entry === "adjuster") return pairs(data.adjusters);
      if (entry === "direction") return pairs(data.directions);
      if (entry === "turns")
        {return [
          ["", "not in turns"],
          ...TURNS.map((turns) => /** @type {[string, string]} */ ([turns, `${turns} turn`])),
        ];}
      if (entry === "defect")
        {return [blank, ...bench.defects.map((/** @type {any} */ defect) => [defect.id, defect.title])];}
      if (entry !== "cause") return null;
      const defect = this.entries.defect;
      const fits = (/** @type {any} */ cause) =>
        Number(Boolean(defect && Object.prototype.hasOwnProperty.call(cause.likelihoods, defect)));
      const sorted = [...bench.causes].sort((one, other) => fits(other) - fits(one));
      return [
        blank,
        ...sorted.map((/** @type {any} */ cause) => /** @type {[string, string]} */ ([cause.cause, cause.title])),
      ];
    }

    /** @param {string} id @param {string} label @param {any} value @param {(value: any) => void} set */
    number(id, label, value, set) {
      const box = /** @type {HTMLInputElement} */ (
        make("input", {
          type: "text",
          id,
          inputmode: "numeric",
          autocomplete: "off",
          maxlength: 9,
          value: value === undefined ? "" : value,
        })
      );
      const take = () =>
        set(/^\d{1,9}$/.test(box.value.trim()) ? Number(box.value) : box.value.trim() ? NaN : undefined);
      const step = (/** @type {number} */ by) => {
        box.value = String(Math.max(1, (Number(box.value) || 0) + by));
        take();
      };
      box.addEventListener("input", take);
      return make(
        "div",
        {},
        make("label", { for: id }, label),
        make(
          "div",
          { class: "tw-log__number" },
          make(
            "button",
            {
              type: "button",
              class: "tw-log__key tw-log__key--quiet",
              "aria-label": `${label}: one less`,
              onclick: () => step(-1),
            },
            "−",
          ),
          box,
          make(
            "button",
            {
              type: "button",
              class: "tw-log__key tw-log__key--quiet",
              "aria-label": `${label}: one more`,
              onclick: () => step(1),
            },
            "+",
          ),
        ),
      );
    }

    time() {
      const box = /** @type {HTMLInputElement} */ (
        make("input", { type: "time", id: "bl-at", value: (this.entries.at || "").slice(0, 5) })
      );
      box.addEventListener("input", () => {
        if (box.value) this.entries.at = box.value.slice(0, 5);
      });
      return make("div", {}, make("label", { for: "bl-at" }, LABELS.at), box);
    }

    sheet() {
      const { sealer } = this.task.entries;
      const sheets = data.setUps[sealer] || {};
      const place = make("p", { class: "tw-go" });
      const show = () => {
        const address = sheets[this.entries.can];
        place.replaceChildren(
          address
            ? make(
                "a",
                { href: address },
                `Set-up sheet: ${words.canTitle(this.entries.can)} on the ${words.sealerTitle(sealer).toLowerCase()}`,
              )
            : make("span", {}, "There is no set-up sheet for this can on this sealer: ask before you seal."),
        );
      };
      this.element.addEventListener("change", show);
      show();
      return place;
    }

    /** Takes over what was typed into Check a seam. */
    seamCheck() {
      const typed = fromSeamCheck();
      const take = () => {
        this.task.typed = typed;
        this.isTouched = true;
        this.measured = this.makeMeasured();
        this.build();
      };
      return make(
        "p",
        { class: "tw-bench__buttons" },
        typed
          ? make("button", { type: "button", class: "tw-button", onclick: take }, "Take the readings from Check a seam")
          : null,
        make("a", { class: "tw-button", href: data.seamCheck }, "Check a seam, with the drawing"),
      );
    }

    /** @param {string} [result] */
    write(result = "") {
      /** @type {Object<string, any>} */
      const entries = { ...this.entries, ...(result ? { result } : {}) };
      const wrong = NUMBERS.filter((entry) => Number.isNaN(entries[entry]));
      if (this.measured && (this.isTouched || !this.task.event)) {
        const { readings, typed, outcome } = this.measured;
        Object.assign(entries, { readings, method: typed.method, specification: typed.specification });
        const order = ["accept", "measure-again", "reject"];
        if (order.indexOf(result) < order.indexOf(outcome))
          {entries.note = `${entries.note ? `${entries.note}. ` : ""}The readings say ${words.RESULTS[outcome].toLowerCase()}`;}
      }
      const missing = wrong.length
        ? `Write a whole number: ${wrong.map((entry) => LABELS[entry].toLowerCase()).join(", ")}.`
        : this.task.write(entries);
      this.missing.textContent = missing;
    }
  }

  globals.tinwrightBenchLogPanel = { LABELS, Panel };
})(globalThis);
