// @ts-check
// This seam beside a good one, to scale, with what the drawing leaves unsaid.
// needs: bench-advice.js seam-drawing.js
// joined: seam-check.js

(function (root) {
  "use strict";
  const { make } = root.tinwrightBench;
  const { GOOD_SEAM, section } = root.tinwrightDrawing;
  const { constants, extremes, lengthText } = root.tinwrightSeaming;
  const MOST_DRAWN_IN = 0.5;
  /** @type {[string, keyof SectionDimensions][]} */
  const DRAWN = [
    ["body-hook", "bodyHook"],
    ["cover-hook", "coverHook"],
    ["seam-width", "seamWidth"],
    ["seam-thickness", "seamThickness"],
    ["countersink", "countersink"],
  ];
  const MAKE_OVERLAP = ["body-hook", "cover-hook", "seam-width"];
  /** @type {Record<string, HTMLElement>} */
  const drawnGood = {};

  /** The good seam, drawn once for each unit. @param {string|undefined} unit */
  function good(unit = "in") {
    const caption = "A good seam, for comparison. Its dimensions are for drawing only.";
    drawnGood[unit] =
      drawnGood[unit] ||
      make(
        "figure",
        { class: "tw-figure" },
        section(GOOD_SEAM, { title: "A good seam, to scale", unit }),
        make("figcaption", {}, caption),
      );
    return drawnGood[unit];
  }

  /**
   * The seam to draw, from its worst readings: the shortest hooks, unless one is too long, and the most of the rest.
   * @type {TinwrightPicture["worstSeam"]}
   */
  function worstSeam(seam, verdict) {
    const dims = { ...GOOD_SEAM };
    /** @type {string[]} */
    const guessed = [];
    for (const [name, key] of DRAWN) {
      const found = extremes(seam, name);
      const part = verdict.parts.find((each) => each.dimension === name);
      const tooLong = part && part.high !== null && part.greatest !== null && part.greatest > part.high;
      if (found) dims[key] = name.endsWith("hook") && !tooLong ? found.least : found.greatest;
      else guessed.push(name);
    }
    if (seam.endPlateIn) dims.endPlate = seam.endPlateIn;
    if (seam.bodyPlateIn) dims.bodyPlate = seam.bodyPlateIn;
    return { dims, guessed };
  }

  /** The seam as measured, at its worst, beside a good one. @type {TinwrightPicture["beside"]} */
  function beside(seam, verdict) {
    const { dims, guessed } = worstSeam(seam, verdict);
    if (guessed.length === DRAWN.length || !verdict.parts.length) return make("span");
    if (MAKE_OVERLAP.some((name) => guessed.includes(name))) guessed.push("overlap");
    if (!Object.values(dims).every((value) => value > 0 && value < MOST_DRAWN_IN)) {
      return make("p", { class: "tw-ask" }, "No drawing: a reading is far too large for a seam.");
    }
    const out = verdict.parts.filter((part) => part.outcome === "reject").map((part) => part.dimension);
    const title = "This seam, to scale, from its worst readings";
    const caption = make("figcaption", {}, `${title}. What is out of limits is hatched and marked OUT.`);
    caption.append(aside(dims, verdict, guessed, seam.unit));
    const drawn = section(dims, { title, out, guessed, unit: seam.unit });
    const mine = make("figure", { class: "tw-figure tw-figure--bad" }, drawn, caption);
    return make("div", { class: "tw-figures" }, mine, good(seam.unit));
  }

  /**
   * What the drawing leaves unsaid.
   * @param {SectionDimensions} dims
   * @param {SeamVerdict} verdict
   * @param {string[]} guessed
   * @param {string} [unit]
   */
  function aside(dims, verdict, guessed, unit) {
    const taken = guessed.filter((name) => name !== "overlap").map((name) => constants.labels[name].toLowerCase());
    const overlap = verdict.parts.find((part) => part.dimension === "overlap");
    const drawn = lengthText(dims.coverHook + dims.bodyHook + dims.endPlate - dims.seamWidth, unit);
    const differs = overlap && overlap.least !== null && lengthText(overlap.least, unit) !== drawn;
    return (
      (differs ? " The overlap is that of the drawing; the list below has the worst the readings allow." : "") +
      (taken.length ? ` Not measured, drawn as in the good seam: ${taken.join(", ")}.` : "")
    );
  }

  root.tinwrightPicture = { beside, worstSeam };
})(globalThis);
