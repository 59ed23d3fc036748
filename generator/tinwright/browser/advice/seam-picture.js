// @ts-check
// This seam beside a good one, to scale, with what the drawing leaves unsaid.
// needs: bench-advice.js seam-drawing.js
// joined: seam-check.js

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const { make } = globals.tinwrightBench;
  const drawing = globals.tinwrightDrawing;
  const seaming = globals.tinwrightSeaming;
  /** @type {Object<string, HTMLElement>} */
  const drawnGood = {};

  /** The good seam, drawn once for each unit. @param {string} unit */
  const good = (unit) => (drawnGood[unit] = drawnGood[unit] || make("figure", { class: "tw-figure" },
    drawing.section(drawing.GOOD_SEAM, { title: "A good seam, to scale", unit }),
    make("figcaption", {}, "A good seam, for comparison. Its dimensions are for drawing only.")));

  /**
   * The seam to draw, from its worst readings: the shortest hooks, unless one is too long, and the greatest of the rest.
   * @param {any} seam @param {any} verdict @returns {{dims: any, guessed: string[]}} with what was not measured
   */
  function worstSeam(seam, verdict) {
    const dims = { ...drawing.GOOD_SEAM };
    /** @type {string[]} */
    const guessed = [];
    const keys = { "body-hook": "bodyHook", "cover-hook": "coverHook", "seam-width": "seamWidth", "seam-thickness": "seamThickness", countersink: "countersink" };
    for (const [name, key] of Object.entries(keys)) {
      const found = seaming.extremes(seam, name);
      const part = verdict.parts.find((/** @type {any} */ each) => each.dimension === name);
      const tooLong = part && part.high !== null && part.greatest > part.high;
      if (found) dims[key] = name.endsWith("hook") && !tooLong ? found.least : found.greatest;
      else guessed.push(name);
    }
    if (seam.endPlateIn) dims.endPlate = seam.endPlateIn;
    if (seam.bodyPlateIn) dims.bodyPlate = seam.bodyPlateIn;
    return { dims, guessed };
  }

  /** The seam as measured, at its worst, beside a good one. @param {any} seam @param {any} verdict @returns {Node} */
  function beside(seam, verdict) {
    const { dims, guessed } = worstSeam(seam, verdict);
    if (guessed.length === 5 || !verdict.parts.length) return make("span");
    if (guessed.includes("body-hook") || guessed.includes("cover-hook") || guessed.includes("seam-width")) guessed.push("overlap");
    const out = verdict.parts.filter((/** @type {any} */ part) => part.outcome === "reject").map((/** @type {any} */ part) => part.dimension);
    const plausible = Object.values(dims).every((value) => value > 0 && value < 0.5);
    if (!plausible) return make("p", { class: "tw-ask" }, "No drawing: a reading is far too large for a seam.");
    return make("div", { class: "tw-figures" },
      make("figure", { class: "tw-figure tw-figure--bad" }, drawing.section(dims, { title: "This seam, to scale, from its worst readings", out, guessed, unit: seam.unit }),
        make("figcaption", {}, "This seam, to scale, from its worst readings. What is out of limits is hatched and marked OUT.", aside(dims, verdict, guessed, seam.unit))),
      good(seam.unit));
  }

  /** What the drawing leaves unsaid. @param {any} dims @param {any} verdict @param {string[]} guessed @param {string} unit */
  function aside(dims, verdict, guessed, unit) {
    const taken = guessed.filter((name) => name !== "overlap").map((name) => seaming.constants.labels[name].toLowerCase());
    const overlap = verdict.parts.find((/** @type {any} */ part) => part.dimension === "overlap");
    const drawn = seaming.lengthText(dims.coverHook + dims.bodyHook + dims.endPlate - dims.seamWidth, unit);
    const differs = overlap && overlap.least !== null && seaming.lengthText(overlap.least, unit) !== drawn;
    return (differs ? " The overlap is that of the drawing; the list below has the worst the readings allow." : "")
      + (taken.length ? ` Not measured, drawn as in the good seam: ${taken.join(", ")}.` : "");
  }

  globals.tinwrightPicture = { beside, worstSeam };
})(globalThis);
