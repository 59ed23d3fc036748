// @ts-check
// The fields of a form of the bench log: one for each entry of an event, made for thumbs.
// needs: bench-advice.js bench-log-start.js bench-log-words.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { data: records, say, select } = /** @type {LogAdvice} */ (/** @type {any} */ (root).tinwrightBench);
  const { make } = root.tinwrightElements;
  const data = root.tinwrightBenchLogData;
  const words = root.tinwrightBenchLogWords;
  const { cansOn } = root.tinwrightBenchLogStart;
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

  /** Entries that may always be left empty, and are not said to be. */
  const UNMARKED = ["torn_down", "by", "note"];

  /** @param {string} entry @param {PanelTask} task @param {boolean} isNeeded */
  function labelOf(entry, task, isNeeded) {
    if (entry === "run") return LABELS.run;
    if (entry === "can_number" && task.kind === "measured-check") return "Can number (empty for a test can)";
    return LABELS[entry] + (isNeeded || UNMARKED.includes(entry) ? "" : " (if known)");
  }

  /** @param {string} defect @returns {[string, string][]} those that can lead to the defect first */
  function causes(defect) {
    const fits = (/** @type {LogCause} */ { likelihoods }) =>
      Number(Boolean(defect && Object.prototype.hasOwnProperty.call(likelihoods, defect)));
    const sorted = [...records.causes].sort((one, other) => fits(other) - fits(one));
    return sorted.map(({ cause, title }) => [cause, title]);
  }

  /**
   * What may be chosen for an entry; null when it is typed.
   * @param {string} entry
   * @param {FieldTask} field
   * @returns {[string, string][]|null}
   */
  function choicesOf(entry, { task, entries, isNeeded }) {
    const blank = /** @type {[string, string]} */ (["", isNeeded ? "choose" : "not named"]);
    const pairs = (/** @type {string[]} */ ids) =>
      ids.map((id) => /** @type {[string, string]} */ ([id, words.upper(say(id))]));
    if (entry === "run") return [...task.runs];
    if (entry === "can") return cansOn(task.entries.sealer || "");
    if (entry === "adjuster") return [blank, ...pairs(data.adjusters)];
    if (entry === "direction") return [blank, ...pairs(data.directions)];
    if (entry === "turns") {
      return [
        ["", "not in turns"],
        ...TURNS.map((turns) => /** @type {[string, string]} */ ([turns, `${turns} turn`])),
      ];
    }
    if (entry === "defect") {
      return [blank, ...records.defects.map(({ id, title }) => /** @type {[string, string]} */ ([id, title]))];
    }
    return entry === "cause" ? [blank, ...causes(entries.defect || "")] : null;
  }

  /**
   * A number with one less and one more beside it.
   * @param {string} id
   * @param {string} label
   * @param {FieldTask} field
   */
  function numberField(id, label, { value, set }) {
    const box = /** @type {HTMLInputElement} */ (
      make("input", { type: "text", id, inputmode: "numeric", autocomplete: "off", maxlength: 9, value: value ?? "" })
    );
    const read = () => {
      const typed = box.value.trim();
      set(/^\d{1,9}$/.test(typed) ? Number(typed) : typed ? NaN : undefined);
    };
    const step = (/** @type {number} */ by, /** @type {string} */ sign, /** @type {string} */ said) =>
      make(
        "button",
        {
          type: "button",
          class: "tw-log__key tw-log__key--quiet",
          "aria-label": `${label}: ${said}`,
          onclick: () => {
            box.value = String(Math.max(1, (Number(box.value) || 0) + by));
            read();
          },
        },
        sign,
      );
    box.addEventListener("input", read);
    const row = make("div", { class: "tw-log__number" }, step(-1, "−", "one less"), box, step(1, "+", "one more"));
    return make("div", {}, make("label", { for: id }, label), row);
  }

  /** @param {string} id @param {string} label @param {FieldTask} field */
  function tickField(id, label, { value, set }) {
    const box = /** @type {HTMLInputElement} */ (make("input", { type: "checkbox", id, checked: value === true }));
    box.addEventListener("change", () => set(box.checked));
    return make("label", { class: "tw-tick" }, box, make("span", {}, label));
  }

  /** @param {string} id @param {string} label @param {FieldTask} field @param {boolean} isShort initials or an id */
  function textField(id, label, { value, set }, isShort) {
    const box = /** @type {HTMLInputElement} */ (
      make("input", {
        type: "text",
        id,
        autocomplete: "off",
        maxlength: isShort ? 20 : 200,
        value: value || "",
        autocapitalize: isShort ? "characters" : "sentences",
      })
    );
    box.addEventListener("input", () => set(box.value.trim()));
    return make("div", {}, make("label", { for: id }, label), box);
  }

  /** @param {string} entry @param {FieldTask} field @returns {HTMLElement} */
  function fieldOf(entry, field) {
    const { task, isNeeded, value, set } = field;
    const id = `bl-${entry}`;
    const label = labelOf(entry, task, isNeeded);
    if (NUMBERS.includes(entry)) return numberField(id, label, field);
    if (entry === "torn_down") return tickField(id, label, field);
    const choices = choicesOf(entry, field);
    if (!choices) return textField(id, label, field, entry === "by");
    if (value && !choices.some(([each]) => each === value)) choices.push([value, value]);
    if (value === undefined && entry === "can" && choices.length) set(choices[0][0]);
    return select(label, id, choices, value || (entry === "run" ? "A" : ""), set);
  }

  /** When it was. @param {LogEntries} entries changed by what is typed */
  function timeField(entries) {
    const box = /** @type {HTMLInputElement} */ (
      make("input", { type: "time", id: "bl-at", value: (entries.at || "").slice(0, 5) })
    );
    box.addEventListener("input", () => {
      if (box.value) entries.at = box.value.slice(0, 5);
    });
    return make("div", {}, make("label", { for: "bl-at" }, LABELS.at), box);
  }

  root.tinwrightBenchLogFields = { LABELS, NUMBERS, fieldOf, timeField };
})(globalThis);
