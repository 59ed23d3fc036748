// @ts-check
// The form of the seam check: what is typed, and the question beside what cannot be read.
// needs: bench-advice.js
// joined: seam-check.js

(function (root) {
  "use strict";
  const { button, buttons, data, knownDefects, make, select, tick } = root.tinwrightBench;
  const seaming = root.tinwrightSeaming;
  const MEASURED = ["countersink", "seam-width", "seam-thickness", "body-hook", "cover-hook"];
  const FEWEST_POINTS = 3;
  const MOST_POINTS = 12;
  const HOW =
    "Write them as you read them: .055, 55 thou, 1.40 mm. Leave empty what you did not measure. " +
    "Stay at least 1/2 in away from the side seam. They are never averaged.";

  /** @param {string} text */
  const upper = (text) => text.charAt(0).toUpperCase() + text.slice(1);

  /** Keeps of a stored state only what this page could have written. @type {TinwrightSeamEntry["sound"]} */
  function sound(kept) {
    const text = (/** @type {any} */ value) => (typeof value === "string" ? value.slice(0, 40) : "");
    /** @type {any[]} */
    const points = Array.isArray(kept.points) ? kept.points.slice(0, MOST_POINTS) : [];
    while (points.length < FEWEST_POINTS) points.push({});
    return {
      specification: text(kept.specification),
      sealer: text(kept.sealer),
      method: kept.method === "optical" ? "optical" : "micrometer",
      unit: kept.unit === "mm" ? "mm" : "in",
      endPlate: text(kept.endPlate),
      bodyPlate: text(kept.bodyPlate),
      tightness: text(kept.tightness),
      points: points.map((point) => Object.fromEntries(MEASURED.map((name) => [name, text(point && point[name])]))),
      seen: knownDefects(kept.seen),
    };
  }

  /** @param {SpecificationData} spec @returns {[string, string]} */
  const choiceOf = ({ cans, id, title }) => [id, `${cans.length ? `${cans.join(", ")}: ` : ""}${title}`];

  /** The form. @type {TinwrightSeamEntry["formOf"]} */
  function formOf(state, page) {
    const stop = (/** @type {Event} */ event) => event.preventDefault();
    const parts = [canAndSealer(state, page), readings(state, page), seenOrFelt(state, page)];
    return make("form", { class: "tw-bench__form", onsubmit: stop }, ...parts);
  }

  /** @param {SeamState} state @param {SeamPage} page */
  function canAndSealer(state, page) {
    /** @type {[string, string][]} */
    const specifications = [["", "none: values without a verdict"], ...data.specifications.map(choiceOf)];
    /** @type {[string, string][]} */
    const sealers = [["", "not named"]];
    for (const sealer of data.sealers) sealers.push([sealer.id, sealer.title]);
    /** @type {[string, string][]} */
    const methods = [
      ["micrometer", "micrometer: three points or more"],
      ["optical", "optical: two points or more"],
    ];
    /** @type {[string, string][]} */
    const units = [
      ["in", "inches"],
      ["mm", "millimeters"],
    ];
    const set = (/** @type {"specification"|"sealer"|"method"|"unit"} */ name) => (/** @type {string} */ value) => {
      state[name] = value;
      page.renew();
    };
    const lists = make(
      "div",
      { class: "tw-bench__two" },
      select("Seam specification", "sc-spec", specifications, state.specification, set("specification")),
      select("Sealer", "sc-sealer", sealers, state.sealer, set("sealer")),
      select("Method", "sc-method", methods, state.method, set("method")),
      select("Unit, when none is written", "sc-unit", units, state.unit, set("unit")),
    );
    const isChosen = data.specifications.some((spec) => spec.id === state.specification);
    const note = isChosen
      ? make("p", { class: "tw-quiet" }, "Plates left empty are those of the specification.")
      : null;
    return make("fieldset", {}, make("legend", {}, "The can and the sealer"), lists, plates(state, page), note);
  }

  /** @param {SeamState} state @param {SeamPage} page */
  function plates(state, page) {
    const box = (/** @type {"endPlate"|"bodyPlate"|"tightness"} */ name, label = "", id = "") =>
      field(page, label, id, state[name], (value) => {
        state[name] = value;
      });
    return make(
      "div",
      { class: "tw-bench__two" },
      box("endPlate", "End plate", "sc-end"),
      box("bodyPlate", "Body plate", "sc-body"),
      box("tightness", "Tightness, worst place, %", "sc-tight"),
    );
  }

  /** @param {SeamState} state @param {SeamPage} page */
  function readings(state, page) {
    const all = make("fieldset", {}, make("legend", {}, "Readings"), make("p", {}, HOW));
    state.points.forEach((point, index) => all.append(pointBox(point, index, page)));
    const add = () => {
      state.points.push(Object.fromEntries(MEASURED.map((name) => [name, ""])));
      page.renew(`sc-${state.points.length - 1}-${MEASURED[0]}`);
    };
    all.append(buttons(button("Add a point", add, { disabled: state.points.length >= MOST_POINTS })));
    return all;
  }

  /** @param {Record<string, string>} point @param {number} index @param {SeamPage} page */
  function pointBox(point, index, page) {
    const grid = make("div", { class: "tw-bench__grid" });
    for (const name of MEASURED) {
      const set = (/** @type {string} */ value) => {
        point[name] = value;
      };
      grid.append(field(page, upper(data.words[name]), `sc-${index}-${name}`, point[name], set));
    }
    const name = `Point ${index + 1}`;
    const head = make("p", { class: "tw-label" }, data.points[index] ? `${name}: ${data.points[index]}` : name);
    return make("div", { class: "tw-bench__point", role: "group", "aria-label": name }, head, grid);
  }

  /**
   * A box to type into, with the place for its question.
   * @param {SeamPage} page
   * @param {string} label
   * @param {string} id
   * @param {string} value
   * @param {(value: string) => void} set
   */
  function field(page, label, id, value, set) {
    const asks = { inputmode: "decimal", autocomplete: "off", "aria-describedby": `${id}-ask` };
    const box = /** @type {HTMLInputElement} */ (make("input", { type: "text", id, value, ...asks }));
    box.addEventListener("input", () => {
      set(box.value);
      page.change();
    });
    const place = make("div", { id: `${id}-ask` });
    return make("div", {}, make("label", { for: id }, label), box, place);
  }

  /** @param {SeamState} state @param {SeamPage} page */
  function seenOrFelt(state, page) {
    const ticks = make("details", { open: state.seen.length > 0 }, make("summary", {}, "What was seen or felt"));
    for (const defect of data.defects.filter(({ outOf }) => !outOf.length)) {
      const change = (/** @type {boolean} */ checked) => {
        state.seen = state.seen.filter((id) => id !== defect.id);
        if (checked) state.seen.push(defect.id);
        page.change();
      };
      ticks.append(tick(defect, state.seen.includes(defect.id), change));
    }
    return make("fieldset", {}, make("legend", {}, "Seen or felt"), ticks);
  }

  /**
   * Reads one box; puts its question beside it, with one tap to take the suggestion.
   * @param {SeamState} state
   * @param {SeamPage} page
   * @param {{id: string, text: string, percent?: boolean, set: (text: string) => void}} box
   */
  function readBox(state, page, { id, text, percent = false, set }) {
    const place = page.querySelector(`#${CSS.escape(id)}-ask`);
    if (place) place.replaceChildren();
    if (!text.trim()) return null;
    const entry = percent ? seaming.parsePercent(text) : seaming.parseReading(text, state.unit);
    if (entry.value !== null) return { value: entry.value, step: entry.step || 0, unit: entry.unit };
    page.unread = true;
    if (place) {
      const ask = make("div", { class: "tw-ask" }, make("span", {}, entry.question));
      if (entry.suggestion !== null) {
        const suggestion = percent ? String(entry.suggestion) : `${entry.suggestion} in`;
        const take = () => {
          set(suggestion);
          page.renew(id);
        };
        ask.append(" ", button(`Yes: ${suggestion}`, take));
      }
      place.append(ask);
    }
    return null;
  }

  /** The seam as typed, in inches, with the unit most of it was typed in. @type {TinwrightSeamEntry["readSeam"]} */
  function readSeam(state, page, spec) {
    page.unread = false;
    /** @type {Reading[]} */
    const found = [];
    /** @type {string[]} */
    const units = [];
    state.points.forEach((point, index) => {
      for (const name of MEASURED) {
        const set = (/** @type {string} */ text) => {
          point[name] = text;
        };
        const read = readBox(state, page, { id: `sc-${index}-${name}`, text: point[name], set });
        if (!read) continue;
        found.push({ dimension: name, point: String(index + 1), value: read.value, step: read.step });
        units.push(read.unit);
      }
    });
    const box = (/** @type {"endPlate"|"bodyPlate"|"tightness"} */ name, id = "", percent = false) => {
      const set = (/** @type {string} */ text) => {
        state[name] = text;
      };
      return readBox(state, page, { id, text: state[name], percent, set });
    };
    const tight = box("tightness", "sc-tight", true);
    if (tight) found.push({ dimension: "tightness", point: "worst", value: tight.value });
    const [end, body] = [box("endPlate", "sc-end"), box("bodyPlate", "sc-body")];
    return {
      method: state.method,
      readings: found,
      unit: seaming.findUnit(units, state.unit),
      endPlateIn: end ? end.value : spec && spec.endPlate,
      bodyPlateIn: body ? body.value : spec && spec.bodyPlate,
      endPlateStep: end ? end.step : 0,
      bodyPlateStep: body ? body.step : 0,
    };
  }

  root.tinwrightSeamEntry = { MEASURED, formOf, readSeam, sound };
})(globalThis);
