// @ts-check
// What follows from the readings: the browser's half of tinwright/seaming/computed.py.
// needs: seaming-formulas.js seaming-values.js seaming-readings.js seaming-formula.js seaming-guard.js
// joined: seaming.js

(function (root) {
  "use strict";
  const { constants, formulas } = root.tinwrightSeamingFormulas;
  const { get, orNull } = root.tinwrightSeamingValues;
  const { extremes, pointsNeeded } = root.tinwrightSeamingReadings;
  const { formulaIsDefined, formulaUncertainty, formulaValue } = root.tinwrightSeamingFormula;
  const { readingUncertainty } = root.tinwrightSeamingGuard;

  /** @param {SeamReadings} seam @param {string} symbol @returns {Extremes|null} */
  function span(seam, symbol) {
    if (symbol !== "Te" && symbol !== "Tb") return extremes(seam, constants.dimensionOf[symbol]);
    const plate = orNull(symbol === "Te" ? seam.endPlateIn : seam.bodyPlateIn);
    const step = (symbol === "Te" ? seam.endPlateStep : seam.bodyPlateStep) || 0;
    if (plate === null) return null;
    return {
      least: plate,
      greatest: plate,
      leastAt: "",
      greatestAt: "",
      points: 1,
      leastStep: step,
      greatestStep: step,
      coarsestStep: step,
    };
  }

  /** @param {SeamReadings} seam @param {Object<string, number>} uncertainties @returns {Computed|null} */
  function readOverlap(seam, uncertainties) {
    const read = extremes(seam, "overlap");
    if (!read) return null;
    const stated = get(uncertainties, "overlap", 0);
    return {
      quantity: "overlap",
      formula: "",
      least: read.least,
      greatest: read.greatest,
      uncertainty: readingUncertainty(stated, read.leastStep),
      uncertaintyMost: readingUncertainty(stated, read.coarsestStep),
      enoughPoints: read.points >= pointsNeeded(seam, "overlap"),
      inputs: [],
    };
  }

  /**
   * @param {SeamReadings} seam
   * @param {string} name
   * @param {Object<string, number>} uncertainties
   * @returns {Computed}
   */
  function computeOne(seam, name, uncertainties) {
    const formula = formulas[name];
    const quantity = formula.quantity;
    /** @type {Object<string, number>} */ const worst = {};
    /** @type {Object<string, number>} */ const best = {};
    /** @type {Object<string, number>} */ const errors = {};
    /** @type {Object<string, number>} */ const most = {};
    /** @type {[string, number][]} */ const inputs = [];
    let enoughPoints = true;
    const missing = () => ({
      quantity,
      formula: name,
      least: null,
      greatest: null,
      uncertainty: 0,
      uncertaintyMost: 0,
      enoughPoints,
      inputs: [],
    });
    for (const symbol of formula.symbols) {
      const found = span(seam, symbol);
      if (!found) return missing();
      const isPlate = symbol === "Te" || symbol === "Tb";
      const rising = isPlate || constants.raises[quantity].includes(symbol);
      worst[symbol] = rising ? found.least : found.greatest;
      best[symbol] = rising ? found.greatest : found.least;
      const stated = get(uncertainties, constants.dimensionOf[symbol], 0);
      errors[symbol] = readingUncertainty(stated, rising ? found.leastStep : found.greatestStep);
      most[symbol] = readingUncertainty(stated, found.coarsestStep);
      const needed = isPlate ? 1 : pointsNeeded(seam, constants.dimensionOf[symbol]);
      enoughPoints = enoughPoints && found.points >= needed;
      inputs.push([symbol, worst[symbol]]);
    }
    // Percentages of the room inside the seam mean nothing when there is no room.
    if (!formulaIsDefined(name, worst) || !formulaIsDefined(name, best)) return missing();
    return {
      quantity,
      formula: name,
      least: formulaValue(name, worst),
      greatest: formulaValue(name, best),
      uncertainty: formulaUncertainty(name, worst, errors),
      uncertaintyMost: formulaUncertainty(name, worst, most),
      enoughPoints,
      inputs,
    };
  }

  /**
   * Compute everything that follows from the readings, at its worst and best.
   * @param {SeamReadings} seam @param {string} variant @param {Object<string, number>} uncertainties
   * @returns {Computed[]}
   */
  function compute(seam, variant, uncertainties) {
    if (!constants.variants.includes(variant)) {
      throw new RangeError(`expected percent overlap by formula A, B or C, got '${variant}'`);
    }
    const percent = `percent-overlap-${variant.toLowerCase()}`;
    const names = ["overlap-a", percent, "body-hook-butting", "free-space", "compactness"];
    return names.map(
      (name) => (name === "overlap-a" && readOverlap(seam, uncertainties)) || computeOne(seam, name, uncertainties),
    );
  }

  root.tinwrightSeamingComputed = { compute, computeOne };
})(globalThis);
