// @ts-check
// The seam of a practice can as it was measured: drawn to scale, and its readings as a table.
// needs: elements.js seam-drawing.js seaming.js practice-bench-words.js practice.js
// joined: practice-bench.js

(function (root) {
  "use strict";
  const { make } = root.tinwrightElements;
  const { GOOD_SEAM, section } = root.tinwrightDrawing;
  const { DIMENSIONS } = root.tinwrightPracticeWords;
  const { judgeReadings } = root.tinwrightPracticeBench;
  const { findDirections } = root.tinwrightSeaming;
  /** @type {Record<string, string>} */
  const SAID = { reject: "OUT", "measure-again": "too near to tell", accept: "within" };
  /** @type {[string, "bodyHook"|"coverHook"|"seamWidth"|"seamThickness"|"countersink"][]} */
  const DRAWN = [
    ["body-hook", "bodyHook"],
    ["cover-hook", "coverHook"],
    ["seam-width", "seamWidth"],
    ["seam-thickness", "seamThickness"],
    ["countersink", "countersink"],
  ];

  /** @param {Limit|undefined} limit @param {SeamLimits} limits @param {string} dimension */
  function limitText(limit, limits, dimension) {
    if (dimension === "tightness") return limits.tightnessLow ? `${limits.tightnessLow}% or more` : "";
    if (!limit) return "";
    const [low, high] = [limit.low, limit.high];
    if (typeof low === "number" && typeof high === "number") return `${low.toFixed(3)} to ${high.toFixed(3)}`;
    return typeof low === "number"
      ? `${low.toFixed(3)} or more`
      : typeof high === "number"
        ? `up to ${high.toFixed(3)}`
        : "";
  }

  /** @param {PracticeReading[]} readings @param {SeamLimits} limits @param {SeamVerdict} verdict */
  function table(readings, limits, verdict) {
    const rows = Object.keys(DIMENSIONS).flatMap((dimension) => {
      const mine = readings.filter((each) => each.dimension === dimension);
      if (!mine.length) return [];
      const limit = (limits.limits || []).find((each) => each.dimension === dimension);
      const values = mine.map(({ value }) => (dimension === "tightness" ? `${value}%` : value.toFixed(3))).join("  ");
      const part = verdict.parts.find((each) => each.dimension === dimension);
      const text = (part && SAID[part.outcome]) || "";
      const said = text === SAID.accept ? text : make("strong", {}, text);
      return [
        make(
          "tr",
          {},
          make("th", { scope: "row" }, DIMENSIONS[dimension]),
          make("td", {}, values),
          make("td", {}, limitText(limit, limits, dimension)),
          make("td", {}, said),
        ),
      ];
    });
    const head = make("tr", {}, ...["", "Read, in", "Sheet", ""].map((text) => make("th", { scope: "col" }, text)));
    return make("table", { class: "tw-table" }, make("thead", {}, head), make("tbody", {}, ...rows));
  }

  /** @type {TinwrightPracticeDrawn["drawSeam"]} */
  function drawSeam(scenario, readings) {
    if (!readings.length) return null;
    const { limits } = scenario.can;
    const verdict = judgeReadings(scenario, readings);
    const directions = findDirections(verdict);
    const dims = { ...GOOD_SEAM };
    /** @type {string[]} */
    const guessed = [];
    for (const [name, key] of DRAWN) {
      const values = readings.filter(({ dimension }) => dimension === name).map(({ value }) => value);
      const limit = (limits.limits || []).find((each) => each.dimension === name);
      if (values.length) dims[key] = directions[name] === "smaller" ? Math.min(...values) : Math.max(...values);
      else {
        guessed.push(name);
        if (limit && limit.aim) dims[key] = limit.aim;
      }
    }
    if (limits.endPlateIn) dims.endPlate = limits.endPlateIn;
    if (limits.bodyPlateIn) dims.bodyPlate = limits.bodyPlateIn;
    if (guessed.some((name) => name !== "countersink" && name !== "seam-thickness")) guessed.push("overlap");
    const title = "The seam as measured, to scale";
    const caption = guessed.length ? "As measured; the rest drawn as it should be." : "As measured, at its worst.";
    return make(
      "div",
      {},
      make(
        "figure",
        { class: "tw-figure" },
        section(dims, {
          title,
          out: verdict.parts.filter(({ way }) => way).map(({ dimension }) => dimension),
          guessed,
        }),
        make("figcaption", {}, caption),
      ),
      table(readings, limits, verdict),
    );
  }

  root.tinwrightPracticeDrawn = { drawSeam };
})(globalThis);
