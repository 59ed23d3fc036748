// @ts-check
// What a person should look at again: the browser's half of tinwright/seaming/questions.py.
// needs: seaming-formulas.js seaming-values.js seaming-wording.js seaming-readings.js seaming-formula.js
// needs: seaming-guard.js seaming-computed.js
// joined: seaming.js

(function (root) {
  "use strict";
  const { constants } = root.tinwrightSeamingFormulas;
  const { get, orNull } = root.tinwrightSeamingValues;
  const { inchesText, lengthText, percentText, spanText } = root.tinwrightSeamingWording;
  const { extremes, pointsNeeded } = root.tinwrightSeamingReadings;
  const { formulaValue } = root.tinwrightSeamingFormula;
  const { readingUncertainty } = root.tinwrightSeamingGuard;
  const { compute, computeOne } = root.tinwrightSeamingComputed;

  const UNITS = /** @type {Object<string, string>} */ ({ in: "inches", mm: "millimeters" });

  /**
   * Find what a person should look at again; no seam is accepted while one of these is open.
   * @param {SeamReadings} seam @param {SeamLimits|null} [limits] for its plates and its variant of the percent overlap
   * @param {Object<string, number>} [uncertainties]
   * @returns {Question[]}
   */
  function findQuestions(seam, limits = null, uncertainties = {}) {
    /** @type {Question[]} */
    const found = [];
    /** @param {string} kind @param {string} dimension @param {string} point @param {string} text */
    const ask = (kind, dimension, point, text) => found.push({ kind, dimension, point, text });
    const { leastIn, mostIn, mmFrom } = constants;
    const unit = seam.unit || "in";
    /** Whether a reading is no dimension as it stands, but would be one in the other unit. @param {Reading} reading */
    const fitsOther = ({ value }) =>
      unit === "mm"
        ? value < leastIn && leastIn <= value * 25.4 && value * 25.4 <= mostIn
        : value >= mmFrom && leastIn <= value / 25.4 && value / 25.4 <= mostIn;
    const lengths = seam.readings.filter(({ dimension }) => dimension !== "tightness");
    const strange = lengths.filter(fitsOther);
    if (strange.length >= constants.wrongUnit && 2 * strange.length > lengths.length) {
      const [first] = strange;
      const much = unit === "mm" ? "hardly anything" : "far too much";
      const [here, there] = unit === "mm" ? ["mm", "in"] : ["in", "mm"];
      const text =
        `${strange.length} readings are ${much} in ${UNITS[here]}, such as ${constants.labels[first.dimension]}, ` +
        `point ${first.point}: ${lengthText(first.value, here)}. Were they read in ${UNITS[there]}? ` +
        `Then set the unit to ${UNITS[there]}.`;
      ask("unit", "", "", text);
      askPoints(seam, ask);
      return found;
    }
    askSlips(seam, unit, ask);
    askPlates(seam, limits, unit, ask);
    askPoints(seam, ask);
    askContradictions(seam, unit, ask);
    askOverlaps(seam, (limits && limits.overlapVariant) || "A", uncertainties, unit, ask);
    return found;
  }

  /** @typedef {(kind: string, dimension: string, point: string, text: string) => void} Asking */

  /** @param {SeamReadings} seam @param {string} unit @param {Asking} ask */
  function askSlips(seam, unit, ask) {
    const { labels, dimensions, mostIn, leastIn, mmFrom } = constants;
    for (const { dimension, point, value } of seam.readings) {
      if (dimension === "tightness") continue;
      const at = `${labels[dimension]}, point ${point}: ${lengthText(value, unit)}`;
      if (value >= mmFrom && unit === "in") {
        const text = `${at} is far too much. Was it read in millimeters (${inchesText(value / 25.4)})?`;
        ask("millimeters", dimension, point, text);
      } else if (value > mostIn) {
        const meant = lengthText(value / 10, unit);
        const text = `${at} is far too much. Is the decimal point in the right place (${meant})?`;
        ask("decimal-point", dimension, point, text);
      } else if (value < leastIn) {
        const meant = lengthText(value * 10, unit);
        const text = `${at} is hardly anything. Is the decimal point in the right place (${meant})?`;
        ask("decimal-point", dimension, point, text);
      }
    }
    for (const dimension of dimensions) {
      const read = extremes(seam, dimension);
      if (!read || dimension === "tightness" || read.least < leastIn || read.greatest > mostIn) continue;
      if (read.greatest >= constants.spread * read.least) {
        const text =
          `${labels[dimension]} is ${lengthText(read.least, unit)} at one point and ` +
          `${lengthText(read.greatest, unit)} at another. Is one of them a slip?`;
        ask("spread", dimension, "", text);
      }
    }
  }

  /** @param {SeamReadings} seam @param {SeamLimits|null} limits @param {string} unit @param {Asking} ask */
  function askPlates(seam, limits, unit, ask) {
    /** @type {[string, number|null, number|null][]} */
    const plates = [
      ["end", orNull(seam.endPlateIn), limits ? orNull(limits.endPlateIn) : null],
      ["body", orNull(seam.bodyPlateIn), limits ? orNull(limits.bodyPlateIn) : null],
    ];
    for (const [name, value, sheet] of plates) {
      if (value === null) {
        const text = `How thick is the ${name} plate? Without it some values cannot be computed.`;
        ask("plate-missing", `${name}-plate`, "", text);
        continue;
      }
      const given = `The ${name} plate is given as ${lengthText(value, unit)}`;
      if (!(constants.plateLeastIn <= value && value <= constants.plateMostIn)) {
        ask("plate-odd", `${name}-plate`, "", `${given}. Is that right for can plate?`);
      } else if (sheet !== null && Math.abs(value - sheet) > constants.platePart * sheet + constants.close) {
        const text =
          `${given}; the specification is for ${lengthText(sheet, unit)}. Is it a slip? If the plate is ` +
          "another one, this specification is not for these cans: ask the supplier.";
        ask("plate-differs", `${name}-plate`, "", text);
      }
    }
  }

  /** @param {SeamReadings} seam @param {Asking} ask */
  function askPoints(seam, ask) {
    for (const dimension of constants.dimensions) {
      const read = extremes(seam, dimension);
      const needed = pointsNeeded(seam, dimension);
      if (read && read.points < needed) {
        const text =
          `${constants.labels[dimension]} was read at ${read.points} of ${needed} points. Can you read it at ` +
          `${needed} points spread evenly around the can?`;
        ask("too-few-points", dimension, "", text);
      }
    }
  }

  /** @param {SeamReadings} seam @param {string} unit @param {Asking} ask */
  function askContradictions(seam, unit, ask) {
    const end = orNull(seam.endPlateIn);
    const body = orNull(seam.bodyPlateIn);
    const width = extremes(seam, "seam-width");
    for (const dimension of ["body-hook", "cover-hook"]) {
      const hook = extremes(seam, dimension);
      if (hook && width && hook.greatest > width.least) {
        const text =
          `${constants.labels[dimension]} is ${lengthText(hook.greatest, unit)}, longer than the seam is wide ` +
          `(${lengthText(width.least, unit)}). Is one of the two a slip?`;
        ask("hook-longer-than-seam", dimension, "", text);
      }
    }
    if (end === null || body === null) return;
    if (width && width.least <= 2 * end + body) {
      const text =
        `Seam width is ${lengthText(width.least, unit)}, no more than three sheets of plate. ` +
        "Are width and plate thickness right?";
      ask("width-too-small", "seam-width", "", text);
    }
    const thickness = extremes(seam, "seam-thickness");
    if (thickness && formulaValue("free-space", { S: thickness.least, Te: end, Tb: body }) < -constants.close) {
      const text =
        `Seam thickness is ${lengthText(thickness.least, unit)}, thinner than its five sheets of plate. ` +
        "Are thickness and plate thickness right?";
      ask("free-space-negative", "seam-thickness", "", text);
    }
  }

  /**
   * @param {SeamReadings} seam @param {string} variant @param {Object<string, number>} uncertainties
   * @param {string} unit @param {Asking} ask
   */
  function askOverlaps(seam, variant, uncertainties, unit, ask) {
    const { labels, full, close, apart } = constants;
    for (const { quantity, greatest } of compute(seam, variant, uncertainties)) {
      const most = greatest || 0;
      if (["percent-overlap", "body-hook-butting"].includes(quantity) && most > full + close) {
        const text =
          `${labels[quantity]} comes to ${percentText(most)}, more than there is room for. ` +
          "Are hooks, width and plate thickness right?";
        ask("more-than-room", quantity, "", text);
      }
    }
    const read = extremes(seam, "overlap");
    const formula = computeOne(seam, "overlap-a", uncertainties);
    if (!read || formula.least === null || formula.greatest === null) return;
    const gap = Math.max(read.least - formula.greatest, formula.least - read.greatest);
    const one = readingUncertainty(get(uncertainties, "overlap", 0), read.coarsestStep);
    const other = formula.uncertaintyMost;
    if (gap > apart * Math.sqrt(one * one + other * other) + close) {
      const seen = spanText("overlap", read.least, read.greatest, unit);
      const due = spanText("overlap", formula.least, formula.greatest, unit);
      const text = `Overlap was read as ${seen}, but hooks, width and plate give ${due}. Which of them is a slip?`;
      ask("overlap-contradicts", "overlap", "", text);
    }
  }

  root.tinwrightSeamingQuestions = { findQuestions };
})(globalThis);
