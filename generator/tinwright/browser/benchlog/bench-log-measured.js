// @ts-check
// The measured check of the bench log: readings as on the page Check a seam, read by the same rules, and its verdict.
// needs: bench-advice.js bench-log-typed.js bench-log-words.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { data: records, say, select } = /** @type {LogAdvice} */ (/** @type {any} */ (root).tinwrightBench);
  const seaming = /** @type {LogSeaming} */ (/** @type {any} */ (root).tinwrightSeaming);
  const { button, make } = root.tinwrightElements;
  const { MEASURED } = root.tinwrightBenchLogTyped;
  const words = root.tinwrightBenchLogWords;
  const METHODS = /** @type {[string, string][]} */ ([
    ["micrometer", "micrometer: three points or more"],
    ["optical", "optical: two points or more"],
  ]);
  const UNITS = /** @type {[string, string][]} */ ([
    ["in", "inches"],
    ["mm", "millimeters"],
  ]);
  const MOST_REASONS = 4;

  /** The boxes, and what they come to. */
  class Measured {
    /** @param {LogTyped} typed @param {string} can id of the can that is sealed @param {() => void} changed */
    constructor(typed, can, changed) {
      this.typed = typed;
      this.changed = changed;
      if (!this.specification()) {
        const fits = records.specifications.find(
          ({ cans }) => cans.includes(words.canTitle(can)) || cans.includes(can),
        );
        typed.specification = fits ? fits.id : "";
      }
      /** @type {LogReading[]} */
      this.readings = [];
      this.outcome = "";
      this.isUnread = false;
      /** @type {Map<HTMLInputElement, {percent: boolean, ask: HTMLElement}>} */
      this.boxes = new Map();
      this.verdict = make("div", { class: "tw-log__verdict" });
      this.element = make("div", { class: "tw-log__measured" });
      this.build();
    }

    specification() {
      return records.specifications.find(({ id }) => id === this.typed.specification) || null;
    }

    build() {
      this.boxes.clear();
      const { typed } = this;
      const rows = MEASURED.map((name) => this.row(name));
      this.element.replaceChildren(
        make(
          "p",
          { class: "tw-quiet" },
          "Write them as you read them: .055, 55 thou, 1.40 mm. Leave empty what you did not measure.",
        ),
        ...rows,
        this.box("Tightness, worst place, %", "bl-tight", typed.tightness, true, (value) => {
          typed.tightness = value;
        }),
        this.settings(),
        this.verdict,
      );
      this.judge();
    }

    /** The boxes of one dimension. @param {string} name */
    row(name) {
      const boxes = this.typed.points.map((point, index) =>
        this.box(`Point ${index + 1}`, `bl-${index}-${name}`, point[name], false, (value) => {
          point[name] = value;
        }),
      );
      return make("fieldset", { class: "tw-log__row" }, make("legend", {}, words.upper(say(name))), ...boxes);
    }

    /** How the readings are to be read and judged. */
    settings() {
      const { specification, method, unit } = this.typed;
      const specifications = /** @type {[string, string][]} */ ([
        ["", "none: no verdict"],
        ...records.specifications.map(({ id, title }) => [id, title]),
      ]);
      const set = (/** @type {"specification"|"method"|"unit"} */ name) => (/** @type {string} */ value) => {
        this.typed[name] = value;
        this.judge();
      };
      return make(
        "details",
        {},
        make("summary", {}, "Specification, method, unit"),
        select("Seam specification", "bl-spec", specifications, specification, set("specification")),
        select("Method", "bl-method", METHODS, method, set("method")),
        select("Unit, when none is written", "bl-unit", UNITS, unit, set("unit")),
      );
    }

    /**
     * @param {string} label
     * @param {string} id
     * @param {string} value
     * @param {boolean} percent
     * @param {(value: string) => void} set
     */
    box(label, id, value, percent, set) {
      const input = /** @type {HTMLInputElement} */ (
        make("input", {
          type: "text",
          id,
          inputmode: "decimal",
          autocomplete: "off",
          value,
          "aria-describedby": `${id}-ask`,
        })
      );
      const ask = make("div", { id: `${id}-ask`, "aria-live": "polite" });
      input.addEventListener("input", () => {
        set(input.value);
        this.judge();
      });
      this.boxes.set(input, { percent, ask });
      return make("div", {}, make("label", { for: id }, label), input, ask);
    }

    /**
     * Reads one box; its question stands beside it, with one tap to take the suggestion.
     * @param {HTMLInputElement} input
     * @returns {(SeamEntry & {value: number})|null}
     */
    read(input) {
      const { percent, ask } = /** @type {{percent: boolean, ask: HTMLElement}} */ (this.boxes.get(input));
      if (!input.value.trim()) {
        if (ask.firstChild) ask.replaceChildren();
        return null;
      }
      const entry = percent ? seaming.parsePercent(input.value) : seaming.parseReading(input.value, this.typed.unit);
      const { value } = entry;
      if (value !== null) {
        if (ask.firstChild) ask.replaceChildren();
        return { ...entry, value };
      }
      this.isUnread = true;
      const box = make("div", { class: "tw-ask" }, make("span", {}, entry.question));
      if (entry.suggestion !== null) {
        const suggestion = percent ? String(entry.suggestion) : `${entry.suggestion} in`;
        const use = () => {
          input.value = suggestion;
          input.dispatchEvent(new Event("input"));
          input.focus();
        };
        box.append(" ", button(`Yes: ${suggestion}`, use));
      }
      ask.replaceChildren(box);
      return null;
    }

    /** Reads every box. @returns {{steps: number[], units: string[]}} the last digit and the unit of each reading */
    readAll() {
      this.isUnread = false;
      this.readings = [];
      /** @type {number[]} */
      const steps = [];
      /** @type {string[]} */
      const units = [];
      for (const input of this.boxes.keys()) {
        const entry = this.read(input);
        if (entry === null) continue;
        const [, place, dimension] = /^bl-(\d+)-(.+)$/.exec(input.id) || ["", "", "tightness"];
        const point = dimension === "tightness" ? "worst" : String(Number(place) + 1);
        this.readings.push({ dimension, point, value: entry.value });
        steps.push(entry.step || 0);
        units.push(entry.unit);
      }
      return { steps, units };
    }

    /** The readings as the rules of the seam take them. @param {{steps: number[], units: string[]}} read */
    seam({ steps, units }) {
      const { endPlate, bodyPlate, unit, method } = this.typed;
      const spec = this.specification();
      const typed = (/** @type {string} */ plate) =>
        plate ? seaming.parseReading(plate, unit) : { value: null, step: null };
      const [end, body] = [typed(endPlate), typed(bodyPlate)];
      return {
        method,
        unit: seaming.findUnit(units, unit),
        readings: this.readings.map((reading, place) => ({ ...reading, step: steps[place] })),
        endPlateIn: end.value ?? (spec && spec.endPlate),
        bodyPlateIn: body.value ?? (spec && spec.bodyPlate),
        endPlateStep: end.step || 0,
        bodyPlateStep: body.step || 0,
      };
    }

    judge() {
      const read = this.readAll();
      this.outcome = "";
      if (this.readings.length) this.verdict.replaceChildren(this.verdictOf(this.seam(read)));
      else this.verdict.replaceChildren();
      this.changed();
    }

    /** @param {any} seam */
    verdictOf(seam) {
      const spec = this.specification();
      const limits = spec ? spec.limits : null;
      const judged = seaming.judge(seam, limits, records.uncertainties, [], records.variant);
      const unconfirmed = spec ? spec.unconfirmed : "";
      const { outcome } = seaming.holdUnconfirmed(judged, unconfirmed);
      const questions = seaming
        .findQuestions(seam, limits || { overlapVariant: records.variant }, records.uncertainties)
        .map(({ text }) => text);
      // What cannot be read, or may be a slip, may be the very reading that is out.
      this.outcome = outcome === "accept" && (this.isUnread || questions.length) ? "measure-again" : outcome;
      const reasons = [unconfirmed, this.isUnread ? "A box could not be read." : "", ...questions, ...judged.reasons]
        .filter(Boolean)
        .slice(0, MOST_REASONS);
      const said = words.RESULTS[this.outcome]
        ? `The readings say: ${words.RESULTS[this.outcome].toLowerCase()}`
        : "No verdict: there is no limit to judge by";
      const invented = "The specification is invented as an example. Do not judge a real can by it.";
      return make(
        "div",
        { class: `tw-verdict tw-verdict--${this.outcome}` },
        make("p", { class: "tw-verdict__word" }, said),
        make("ul", { class: "tw-list" }, ...reasons.map((reason) => make("li", {}, reason))),
        spec && spec.invented ? make("p", { class: "tw-note" }, invented) : null,
      );
    }
  }

  root.tinwrightBenchLogMeasured = { Measured };
})(globalThis);
