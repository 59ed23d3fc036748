// @ts-check
// The measured check of the bench log: readings as on the page Check a seam, read by the same rules, and its verdict.
// needs: bench-advice.js bench-log-words.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const { data: bench, make, say, select } = globals.tinwrightBench;
  const seaming = globals.tinwrightSeaming;
  const words = globals.tinwrightBenchLogWords;
  const SEAM_CHECK = "tinwright.seam-check";
  const MEASURED = ["seam-thickness", "seam-width", "countersink", "body-hook", "cover-hook"];
  const MOST_POINTS = 12;

  /**
   * @typedef {{specification: string, method: string, unit: string, tightness: string, endPlate: string, bodyPlate: string, points: Object<string, string>[]}} Typed
   */

  /** @param {any} value */
  const text = (value) => (typeof value === "string" ? value.slice(0, 40) : "");

  /** Keeps of a stored state only what these boxes could hold. @param {any} kept @returns {Typed} */
  function soundTyped(kept) {
    const given = kept && typeof kept === "object" ? kept : {};
    const points = (Array.isArray(given.points) ? given.points.slice(0, MOST_POINTS) : []).map(
      (/** @type {any} */ point) => Object.fromEntries(MEASURED.map((name) => [name, text(point && point[name])])),
    );
    while (points.length < 3) points.push(Object.fromEntries(MEASURED.map((name) => [name, ""])));
    return {
      specification: text(given.specification),
      method: given.method === "optical" ? "optical" : "micrometer",
      unit: given.unit === "mm" ? "mm" : "in",
      tightness: text(given.tightness),
      endPlate: text(given.endPlate),
      bodyPlate: text(given.bodyPlate),
      points,
    };
  }

  /** What was typed last into Check a seam; null when nothing was. @returns {Typed|null} */
  function fromSeamCheck() {
    try {
      const typed = soundTyped(JSON.parse(localStorage.getItem(SEAM_CHECK) || "null"));
      return typed.tightness || typed.points.some((point) => Object.values(point).some(Boolean)) ? typed : null;
    } catch {
      return null;
    }
  }

  /** The boxes of an event already written. @param {LogEvent} event @returns {Typed} */
  function fromEvent(event) {
    const readings = event.readings || [];
    const round = readings.filter(({ dimension }) => MEASURED.includes(dimension));
    const tight = readings.find(({ dimension }) => dimension === "tightness");
    const points = [...new Set(round.map(({ point }) => point))].map((point) =>
      Object.fromEntries(
        round.filter((reading) => reading.point === point).map(({ dimension, value }) => [dimension, String(value)]),
      ),
    );
    return soundTyped({ ...event, points, tightness: tight ? String(tight.value) : "" });
  }

  /** The boxes, and what they come to. */
  class Measured {
    /** @param {Typed} typed @param {string} can id of the can that is sealed @param {() => void} changed */
    constructor(typed, can, changed) {
      this.typed = typed;
      this.changed = changed;
      if (!bench.specifications.some((/** @type {any} */ spec) => spec.id === typed.specification)) {
        const fits = bench.specifications.find(
          (/** @type {any} */ spec) => spec.cans.includes(words.canTitle(can)) || spec.cans.includes(can),
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
      return bench.specifications.find((/** @type {any} */ spec) => spec.id === this.typed.specification) || null;
    }

    build() {
      this.boxes.clear();
      const specifications = [
        ["", "none: no verdict"],
        ...bench.specifications.map((/** @type {any} */ spec) => [spec.id, spec.title]),
      ];
      const set = (/** @type {"specification"|"method"|"unit"} */ name) => (/** @type {string} */ value) => {
        this.typed[name] = value;
        this.judge();
      };
      const rows = MEASURED.map((name) =>
        make(
          "fieldset",
          { class: "tw-log__row" },
          make("legend", {}, words.upper(say(name))),
          ...this.typed.points.map((point, index) =>
            this.box(`Point ${index + 1}`, `bl-${index}-${name}`, point[name], false, (value) => {
              point[name] = value;
            }),
          ),
        ),
      );
      this.element.replaceChildren(
        make(
          "p",
          { class: "tw-quiet" },
          "Write them as you read them: .055, 55 thou, 1.40 mm. Leave empty what you did not measure.",
        ),
        ...rows,
        this.box("Tightness, worst place, %", "bl-tight", this.typed.tightness, true, (value) => {
          this.typed.tightness = value;
        }),
        make(
          "details",
          {},
          make("summary", {}, "Specification, method, unit"),
          select("Seam specification", "bl-spec", specifications, this.typed.specification, set("specification")),
          select(
            "Method",
            "bl-method",
            [
              ["micrometer", "micrometer: three points or more"],
              ["optical", "optical: two points or more"],
            ],
            this.typed.method,
            set("method"),
          ),
          select(
            "Unit, when none is written",
            "bl-unit",
            [
              ["in", "inches"],
              ["mm", "millimeters"],
            ],
            this.typed.unit,
            set("unit"),
          ),
        ),
        this.verdict,
      );
      this.judge();
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
     * @returns {any}
     */
    read(input) {
      const { percent, ask } = /** @type {{percent: boolean, ask: HTMLElement}} */ (this.boxes.get(input));
      if (!input.value.trim()) {
        if (ask.firstChild) ask.replaceChildren();
        return null;
      }
      const entry = percent ? seaming.parsePercent(input.value) : seaming.parseReading(input.value, this.typed.unit);
      if (entry.value !== null) {
        if (ask.firstChild) ask.replaceChildren();
        return entry;
      }
      this.isUnread = true;
      const box = make("div", { class: "tw-ask" }, make("span", {}, entry.question));
      if (entry.suggestion !== null) {
        const suggestion = percent ? String(entry.suggestion) : `${entry.suggestion} in`;
        const take = () => {
          input.value = suggestion;
          input.dispatchEvent(new Event("input"));
          input.focus();
        };
        box.append(" ", make("button", { type: "button", class: "tw-button", onclick: take }, `Yes: ${suggestion}`));
      }
      ask.replaceChildren(box);
      return null;
    }

    judge() {
      this.isUnread = false;
      this.readings = [];
      /** @type {number[]} */
      const steps = [];
      /** @type {string[]} */
      const units = [];
      for (const input of this.boxes.keys()) {
        const entry = this.read(input);
        if (entry === null) continue;
        const [, point, dimension] = /^bl-(\d+)-(.+)$/.exec(input.id) || ["", "", "tightness"];
        this.readings.push({
          dimension,
          point: dimension === "tightness" ? "worst" : String(Number(point) + 1),
          value: entry.value,
        });
        steps.push(entry.step || 0);
        units.push(entry.unit);
      }
      const spec = this.specification();
      this.outcome = "";
      if (!this.readings.length) {
        this.verdict.replaceChildren();
        this.changed();
        return;
      }
      const { endPlate, bodyPlate, unit, method } = this.typed;
      const typed = (/** @type {string} */ plate) =>
        plate ? seaming.parseReading(plate, unit) : { value: null, step: null };
      const [end, body] = [typed(endPlate), typed(bodyPlate)];
      const seam = {
        method,
        unit: seaming.findUnit(units, unit),
        readings: this.readings.map((reading, place) => ({ ...reading, step: steps[place] })),
        endPlateIn: end.value ?? (spec && spec.endPlate),
        bodyPlateIn: body.value ?? (spec && spec.bodyPlate),
        endPlateStep: end.step || 0,
        bodyPlateStep: body.step || 0,
      };
      const judged = seaming.judge(seam, spec ? spec.limits : null, bench.uncertainties, [], bench.variant);
      const unconfirmed = spec ? spec.unconfirmed : "";
      const found = seaming.holdUnconfirmed(judged, unconfirmed);
      const questions = seaming
        .findQuestions(seam, spec ? spec.limits : { overlapVariant: bench.variant }, bench.uncertainties)
        .map((/** @type {any} */ question) => question.text);
      // What cannot be read, or may be a slip, may be the very reading that is out.
      this.outcome =
        found.outcome === "accept" && (this.isUnread || questions.length) ? "measure-again" : found.outcome;
      const reasons = [
        ...(unconfirmed ? [unconfirmed] : []),
        ...(this.isUnread ? ["A box could not be read."] : []),
        ...questions,
        ...judged.reasons,
      ];
      this.verdict.replaceChildren(
        make(
          "div",
          { class: `tw-verdict tw-verdict--${this.outcome}` },
          make(
            "p",
            { class: "tw-verdict__word" },
            words.RESULTS[this.outcome]
              ? `The readings say: ${words.RESULTS[this.outcome].toLowerCase()}`
              : "No verdict: there is no limit to judge by",
          ),
          make("ul", { class: "tw-list" }, ...reasons.slice(0, 4).map((reason) => make("li", {}, reason))),
          spec && spec.invented
            ? make(
                "p",
                { class: "tw-note" },
                "The specification is invented as an example. Do not judge a real can by it.",
              )
            : null,
        ),
      );
      this.changed();
    }
  }

  globals.tinwrightBenchLogMeasured = { Measured, fromEvent, fromSeamCheck, soundTyped };
})(globalThis);
