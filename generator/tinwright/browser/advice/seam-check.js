// @ts-check
// <tw-seam-check>: readings in; verdict, drawing, causes and correction out. Nothing leaves the device.
// needs: bench-slip.js seam-picture.js

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const {
    adviseOnSigns, data, defectOf, defects, keeper, knownDefects, leadsSomewhere, make, rebuild, sayAdvice, sayCan, sayNowhere, select, signsFrom,
  } = globals.tinwrightBench;
  const { seamSlip } = globals.tinwrightSlip;
  const seaming = globals.tinwrightSeaming;
  const { beside } = globals.tinwrightPicture;
  const MEASURED = ["countersink", "seam-width", "seam-thickness", "body-hook", "cover-hook"];
  const OUTCOMES = /** @type {Object<string, string>} */ ({
    accept: "accept", "measure-again": "measure again", reject: "reject", "no-limit": "no limit to judge by",
    "not-measured": "not measured",
  });
  const ACTIONS = /** @type {Object<string, string>} */ ({
    accept: "This seam passes. It says nothing about the other cans: keep looking at every seam.",
    "measure-again": "Set this can aside. Measure again before you decide; fill no more cans until then.",
    reject: "Do not use this can, and do not taste it. Stop. Hold every can sealed since the last good check.",
    "no-limit": "No verdict: there is no seam specification to judge by. Set the can aside until there is one.",
  });

  /** @param {string} text */
  const upper = (text) => text.charAt(0).toUpperCase() + text.slice(1);

  class TwSeamCheck extends HTMLElement {
    constructor() {
      super();
      this.keeper = keeper("tinwright.seam-check");
      /** @type {Object<string, any>} */
      this.state = {};
      this.judged = make("div", { class: "tw-bench__judged" });
      this.advice = make("div", { class: "tw-bench__advice" });
      this.result = make("div", { class: "tw-bench__result" }, this.judged, this.advice);
      this.frame = 0;
      /** @type {HTMLElement} */
      this.said = make("p", { class: "tw-quiet", role: "status" });
      this.unread = false;
      this.unit = "in";
    }

    connectedCallback() {
      this.state = this.sound(this.keeper.read());
      this.build();
    }

    /** Keeps of a stored state only what this page could have written. @param {Object<string, any>} kept */
    sound(kept) {
      const text = (/** @type {any} */ value) => (typeof value === "string" ? value.slice(0, 40) : "");
      const points = Array.isArray(kept.points) ? kept.points.slice(0, 12) : [];
      while (points.length < 3) points.push({});
      return {
        specification: text(kept.specification),
        sealer: text(kept.sealer),
        method: kept.method === "optical" ? "optical" : "micrometer",
        unit: kept.unit === "mm" ? "mm" : "in",
        endPlate: text(kept.endPlate),
        bodyPlate: text(kept.bodyPlate),
        tightness: text(kept.tightness),
        points: points.map((/** @type {any} */ point) => Object.fromEntries(MEASURED.map((name) => [name, text(point && point[name])]))),
        seen: knownDefects(kept.seen),
      };
    }

    change() {
      this.keeper.write(this.state);
      this.judge();
    }

    /** Shows a changed state. @param {string} [goTo] id of the field to go to */
    renew(goTo) {
      this.keeper.write(this.state);
      rebuild(this, () => this.build(), goTo);
    }

    /** @param {string} label @param {string} id @param {string} value @param {(value: string) => void} set */
    field(label, id, value, set) {
      const box = /** @type {HTMLInputElement} */ (make("input", { type: "text", id, inputmode: "decimal", autocomplete: "off", value, "aria-describedby": `${id}-ask` }));
      box.addEventListener("input", () => { set(box.value); this.change(); });
      return make("div", {}, make("label", { for: id }, label), box, make("div", { id: `${id}-ask`, "aria-live": "polite" }));
    }

    build() {
      const state = this.state;
      const specifications = [["", "none: values without a verdict"], ...data.specifications.map((/** @type {any} */ spec) => [spec.id, `${spec.cans.length ? `${spec.cans.join(", ")}: ` : ""}${spec.title}`])];
      const sealers = [["", "not named"], ...data.sealers.map((/** @type {any} */ sealer) => [sealer.id, sealer.title])];
      const set = (/** @type {string} */ name) => (/** @type {string} */ value) => { state[name] = value; this.renew(); };
      const form = make("form", { class: "tw-bench__form", onsubmit: (/** @type {Event} */ event) => event.preventDefault() },
        make("fieldset", {}, make("legend", {}, "The can and the sealer"), make("div", { class: "tw-bench__two" },
          select("Seam specification", "sc-spec", specifications, state.specification, set("specification")),
          select("Sealer", "sc-sealer", sealers, state.sealer, set("sealer")),
          select("Method", "sc-method", [["micrometer", "micrometer: three points or more"], ["optical", "optical: two points or more"]], state.method, set("method")),
          select("Unit, when none is written", "sc-unit", [["in", "inches"], ["mm", "millimeters"]], state.unit, set("unit"))),
        make("div", { class: "tw-bench__two" },
          this.field("End plate", "sc-end", state.endPlate, (value) => { state.endPlate = value; }),
          this.field("Body plate", "sc-body", state.bodyPlate, (value) => { state.bodyPlate = value; }),
          this.field("Tightness, worst place, %", "sc-tight", state.tightness, (value) => { state.tightness = value; })),
        this.specification() ? make("p", { class: "tw-quiet" }, "Plates left empty are those of the specification.") : null));
      const readings = make("fieldset", {}, make("legend", {}, "Readings"),
        make("p", {}, "Write them as you read them: .055, 55 thou, 1.40 mm. Leave empty what you did not measure. Stay at least 1/2 in away from the side seam. They are never averaged."));
      state.points.forEach((/** @type {any} */ point, /** @type {number} */ index) => {
        const grid = make("div", { class: "tw-bench__grid" });
        for (const name of MEASURED) {
          grid.append(this.field(upper(data.words[name]), `sc-${index}-${name}`, point[name], (value) => { point[name] = value; }));
        }
        readings.append(make("div", { class: "tw-bench__point", role: "group", "aria-label": `Point ${index + 1}` },
          make("p", { class: "tw-label" }, `Point ${index + 1}${data.points[index] ? `: ${data.points[index]}` : ""}`), grid));
      });
      readings.append(make("div", { class: "tw-bench__buttons" }, make("button", {
        type: "button", class: "tw-button", disabled: state.points.length >= 12,
        onclick: () => { state.points.push(Object.fromEntries(MEASURED.map((name) => [name, ""]))); this.renew(`sc-${state.points.length - 1}-${MEASURED[0]}`); },
      }, "Add a point")));
      const ticks = make("details", { open: state.seen.length > 0 }, make("summary", {}, "What was seen or felt"));
      for (const defect of data.defects) {
        if (defect.outOf.length) continue;
        const box = /** @type {HTMLInputElement} */ (make("input", { type: "checkbox", checked: state.seen.includes(defect.id) }));
        box.addEventListener("change", () => {
          state.seen = state.seen.filter((/** @type {string} */ id) => id !== defect.id);
          if (box.checked) state.seen.push(defect.id);
          this.change();
        });
        ticks.append(make("label", { class: "tw-tick" }, box, make("span", {}, make("strong", {}, defect.title), ` ${defect.summary}`)));
      }
      form.append(readings, make("fieldset", {}, make("legend", {}, "Seen or felt"), ticks));
      this.replaceChildren(form,
        make("div", { class: "tw-bench__buttons" },
          make("button", { type: "button", class: "tw-button", onclick: () => window.print() }, "Print this slip"),
          make("button", { type: "button", class: "tw-button", onclick: () => { this.keeper.clear(); this.state = this.sound({}); rebuild(this, () => this.build(), "sc-spec"); } }, "Clear and start again"),
          data.benchLog ? make("a", { class: "tw-button", href: `${data.benchLog}#measured-check` }, "Write it in the bench log") : null),
        make("p", { class: "tw-quiet" }, "What you type stays on this device."), this.said, this.result);
      this.judge();
    }

    specification() {
      return data.specifications.find((/** @type {any} */ spec) => spec.id === this.state.specification) || null;
    }

    sealer() {
      return data.sealers.find((/** @type {any} */ sealer) => sealer.id === this.state.sealer) || null;
    }

    /**
     * Reads one box; puts its question beside it, with one tap to take the suggestion.
     * @param {string} id @param {string} text @param {boolean} percent @param {(text: string) => void} set
     * @returns {{value: number, step: number, unit: string}|null}
     */
    read(id, text, percent, set) {
      const place = this.querySelector(`#${CSS.escape(id)}-ask`);
      if (place) place.replaceChildren();
      if (!text.trim()) return null;
      const entry = percent ? seaming.parsePercent(text) : seaming.parseReading(text, this.state.unit);
      if (entry.value === null) this.unread = true;
      if (entry.value === null && place) {
        const ask = make("div", { class: "tw-ask" }, make("span", {}, entry.question));
        if (entry.suggestion !== null) {
          const suggestion = percent ? String(entry.suggestion) : `${entry.suggestion} in`;
          ask.append(" ", make("button", { type: "button", class: "tw-button", onclick: () => { set(suggestion); this.renew(id); } }, `Yes: ${suggestion}`));
        }
        place.append(ask);
      }
      return entry.value === null ? null : { value: entry.value, step: entry.step || 0, unit: entry.unit };
    }

    /** The seam as typed, in inches, with the unit most of it was typed in. @returns {any} */
    readings() {
      const state = this.state;
      this.unread = false;
      const spec = this.specification();
      /** @type {any[]} */
      const readings = [];
      /** @type {string[]} */
      const units = [];
      state.points.forEach((/** @type {any} */ point, /** @type {number} */ index) => {
        for (const name of MEASURED) {
          const found = this.read(`sc-${index}-${name}`, point[name], false, (text) => { point[name] = text; });
          if (!found) continue;
          readings.push({ dimension: name, point: String(index + 1), value: found.value, step: found.step });
          units.push(found.unit);
        }
      });
      const tight = this.read("sc-tight", state.tightness, true, (text) => { state.tightness = text; });
      if (tight) readings.push({ dimension: "tightness", point: "worst", value: tight.value });
      const end = this.read("sc-end", state.endPlate, false, (text) => { state.endPlate = text; });
      const body = this.read("sc-body", state.bodyPlate, false, (text) => { state.bodyPlate = text; });
      return {
        method: state.method, readings, unit: seaming.findUnit(units, state.unit),
        endPlateIn: end ? end.value : spec ? spec.endPlate : null, bodyPlateIn: body ? body.value : spec ? spec.bodyPlate : null,
        endPlateStep: end ? end.step : 0, bodyPlateStep: body ? body.step : 0,
      };
    }

    judge() {
      const spec = this.specification();
      const sealer = this.sealer();
      const seam = this.readings();
      this.unit = seam.unit;
      cancelAnimationFrame(this.frame);
      const seen = this.state.seen.map((/** @type {string} */ id) => ({ defect: id, title: defects[id].title, disposition: defects[id].disposition }));
      if (!seam.readings.length && !seen.length) {
        this.said.textContent = "";
        this.advice.replaceChildren();
        this.judged.replaceChildren(make("p", {}, "The verdict and the drawing come up here as you type."));
        return;
      }
      let verdict = seaming.judge(seam, spec ? spec.limits : null, data.uncertainties, seen, data.variant);
      verdict = seaming.holdUnconfirmed(verdict, spec ? spec.unconfirmed : "");
      if (this.unread) {
        // What cannot be read may be the very reading that is out.
        const outcome = verdict.outcome === "accept" ? "measure-again" : verdict.outcome;
        verdict = { ...verdict, outcome, reasons: ["A box could not be read. Put that right before you accept this can.", ...verdict.reasons] };
      }
      this.said.textContent = `Verdict: ${OUTCOMES[verdict.outcome]}.`;
      const box = make("div", { class: `tw-verdict tw-verdict--${verdict.outcome}` },
        make("p", { class: "tw-verdict__word" }, upper(OUTCOMES[verdict.outcome])),
        make("p", {}, make("strong", {}, ACTIONS[verdict.outcome]), " ",
          verdict.outcome === "accept" || !data.fails ? null : make("a", { href: data.fails }, "What to do when a check fails")),
        make("ul", { class: "tw-list" }, ...verdict.reasons.map((/** @type {string} */ reason) => make("li", {}, reason))));
      if (spec) box.append(make("p", {}, "Judged by: ", make("a", { href: spec.page }, spec.title), "."));
      if (spec && spec.invented) box.append(make("p", { class: "tw-note" }, "The specification is invented as an example. Do not judge a real can by it."));
      box.append(...sayCan(this.state.seen));
      const asked = seaming.findQuestions(seam, spec ? spec.limits : { overlapVariant: data.variant }, data.uncertainties);
      const questions = asked.map((/** @type {any} */ question) => this.question(question));
      /** @type {Object<string, string>} */
      const directions = seaming.findDirections(verdict);
      const out = Object.entries(directions).filter(([, direction]) => direction !== "normal");
      if (seen.length || out.length) {
        const outBy = seaming.findAmounts(verdict);
        // The verdict has this frame of the screen to itself; the causes have the next.
        this.frame = requestAnimationFrame(() => this.advice.replaceChildren(
          ...(questions.length ? [make("p", {}, make("strong", {}, "Answer the questions first: a slip changes all that follows."))] : []),
          ...sayAdvice(adviseOnSigns(signsFrom(this.state.seen, directions), sealer, outBy), sealer)));
      } else {
        this.advice.replaceChildren();
      }
      this.judged.replaceChildren(make("h2", {}, "Verdict"), seamSlip(this.state, MEASURED, spec, sealer), box, ...questions, ...this.names(verdict, out), beside(seam, verdict), this.parts(verdict));
    }

    /**
     * What the values out of their limits are called, and which of them nobody can say anything about.
     * @param {any} verdict @param {[string, string][]} out
     */
    names(verdict, out) {
      const ids = verdict.parts.filter((/** @type {any} */ part) => part.way).map((/** @type {any} */ part) => defectOf(part.dimension, part.way));
      const links = [...new Set(ids)].filter((id) => id !== null).map((id) => make("a", { href: defects[id].page }, defects[id].title));
      const named = make("p", {}, "What is out is called: ");
      links.forEach((link, place) => named.append(place ? ", " : "", link));
      named.append(".");
      return [
        ...(links.length ? [named] : []),
        ...out.filter(([value, way]) => !leadsSomewhere(value, way)).map(([value, way]) => make("p", {}, make("strong", {}, sayNowhere(value, way)))),
      ];
    }

    /** A question about a reading; one tap puts a likely slip right. @param {any} question */
    question(question) {
      const { kind, dimension, point, text } = question;
      const ask = make("div", { class: "tw-ask" }, make("span", {}, text));
      if (kind === "unit" && this.unit === this.state.unit) {
        const [unit, words] = this.state.unit === "mm" ? ["in", "inches"] : ["mm", "millimeters"];
        ask.append(" ", make("button", { type: "button", class: "tw-button", onclick: () => { this.state.unit = unit; this.renew("sc-unit"); } }, `Yes: ${words}`));
      }
      const row = this.state.points[Number(point) - 1];
      const entry = row && point ? seaming.parseReading(row[dimension], this.state.unit) : null;
      if (entry && entry.value !== null && (kind === "millimeters" || kind === "decimal-point")) {
        const small = entry.value < seaming.constants.leastIn;
        const value = kind === "millimeters" ? entry.value / 25.4 : small ? entry.value * 10 : entry.value / 10;
        const meant = seaming.lengthText(value, kind === "millimeters" ? "in" : entry.unit);
        ask.append(" ", make("button", { type: "button", class: "tw-button",
          onclick: () => { row[dimension] = meant; this.renew(`sc-${Number(point) - 1}-${dimension}`); } }, `Yes: ${meant}`));
      }
      return ask;
    }

    /** @param {any} part */
    limits(part) {
      const { low, high, dimension, unit } = part;
      if (low !== null && high !== null) return `limits ${seaming.spanText(dimension, low, high, unit)}`;
      if (low !== null) return `at least ${seaming.valueText(dimension, low, unit)}`;
      return high !== null ? `at most ${seaming.valueText(dimension, high, unit)}` : "";
    }

    /** @param {any} verdict */
    parts(verdict) {
      const list = make("ul", { class: "tw-parts" });
      for (const part of verdict.parts) {
        const value = part.least === null ? "–" : seaming.spanText(part.dimension, part.least, part.greatest, part.unit);
        const item = make("li", {}, make("div", { class: "tw-parts__head" },
          make("span", { class: "tw-parts__name" }, seaming.constants.labels[part.dimension]), make("span", {}, value), make("span", { class: "tw-quiet" }, this.limits(part)),
          make("span", { class: `tw-parts__outcome tw-parts__outcome--${part.outcome}` }, OUTCOMES[part.outcome])));
        if (part.reason) item.append(make("p", {}, part.reason));
        if (part.formula) item.append(this.formula(part));
        list.append(item);
      }
      return list;
    }

    /** @param {any} part */
    formula(part) {
      const formula = seaming.formulas[part.formula];
      const numbers = Object.fromEntries(part.inputs.map((/** @type {[string, number]} */ [symbol, value]) => [symbol, seaming.lengthText(value, part.unit).replace(` ${part.unit}`, "")]));
      const details = make("details", {}, make("summary", {}, "How this was worked out"));
      details.addEventListener("toggle", () => {
        if (details.children.length > 1) return;
        const parsed = new DOMParser().parseFromString(formula.mathml, "application/xml").documentElement;
        details.append(document.importNode(parsed, true),
          make("p", {}, `${formula.symbol} = ${seaming.formulaPlain(part.formula, numbers)}${formula.variant ? ` (variant ${formula.variant})` : ""}`),
          make("p", { class: "tw-evidence" }, formula.gradeText));
        if (part.uncertainty) details.append(make("p", {}, `Standard uncertainty of this value: ${seaming.valueText(part.dimension, part.uncertainty, part.unit)}.`));
      });
      return details;
    }
  }

  if (!customElements.get("tw-seam-check")) customElements.define("tw-seam-check", TwSeamCheck);
})(globalThis);
