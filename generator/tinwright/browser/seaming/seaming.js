// The browser's half of tinwright.seaming: the same functions under the same names in camelCase, with the same answers.
// Needs seaming-formulas.js. Plain values in, plain values out: nothing here touches the page or asks the network.
// needs: seaming-formulas.js

/**
 * @typedef {{text: string, value: number|null, question: string, suggestion: number|null, step: number|null,
 *   unit: string}} Entry
 * @typedef {{dimension: string, point: string, value: number, step?: number}} Reading
 * @typedef {{least: number, greatest: number, leastAt: string, greatestAt: string, points: number, leastStep: number,
 *   greatestStep: number, coarsestStep: number}} Extremes
 * @typedef {{method: string, readings: Reading[], endPlateIn?: number|null, bodyPlateIn?: number|null,
 *   endPlateStep?: number, bodyPlateStep?: number, unit?: string}} SeamReadings
 * @typedef {{kind: string, dimension: string, point: string, text: string}} Question
 * @typedef {{dimension: string, low?: number|null, aim?: number|null, high?: number|null}} Limit
 * @typedef {{limits?: Limit[], percentOverlapLow?: number|null, overlapVariant?: string, buttingLow?: number|null,
 *   tightnessLow?: number|null, endPlateIn?: number|null, bodyPlateIn?: number|null}} SeamLimits
 * @typedef {{defect: string, title: string, disposition: string}} SeenDefect
 * @typedef {{quantity: string, formula: string, least: number|null, greatest: number|null, uncertainty: number,
 *   uncertaintyMost: number, enoughPoints: boolean, inputs: [string, number][]}} Computed
 * @typedef {{dimension: string, least: number|null, greatest: number|null, low: number|null, aim: number|null,
 *   high: number|null, uncertainty: number, outcome: string, probability: number|null, outBy: number, formula: string,
 *   reason: string, inputs: [string, number][], way: string, unit: string}} DimensionVerdict
 * @typedef {{outcome: string, parts: DimensionVerdict[], reasons: string[]}} SeamVerdict
 * @typedef {{cause: string, adjuster: string, minutes: number, likelihoods: Object<string, string>,
 *   effects: Object<string, string>, effectLikelihoods: Object<string, Object<string, string>>, extents: string[],
 *   repeats: string[], after: string[]}} CauseProfile
 * @typedef {{defects?: string[], absent?: string[], directions?: Object<string, string>, extent?: string|null,
 *   repeats?: string|null, lastChange?: string|null}} Signs
 * @typedef {{kind: string, key: string, answer: string}} Sign
 * @typedef {{kind: string, key: string, first: string[], second: string[]}} Distinction
 * @typedef {{cause: string, word: string, share: number, reasons: {sign: Sign, stance: string}[]}} Ranked
 * @typedef {{causes: Ranked[], unknownShare: number, explained: boolean, apart: Distinction[]}} Ranking
 * @typedef {{sealer: string, defect: string, cause: string, times: number}} Confirmed
 * @typedef {Object<string, Object<string, number>>} Cases
 * @typedef {{own: Cases, others: Cases, behind: Object<string, string[]>}} Experience
 * @typedef {{kind: string, key: string, minutes: number, answers: string[]}} Ask
 * @typedef {{cause: string, adjuster: string, minutes: number, share: number}} Check
 * @typedef {{adjuster: string, tighten?: string|null, loosen?: string|null, travelPerTurnIn?: number|null,
 *   safeStep?: [number, number]|null}} Screw
 * @typedef {{adjuster: string, direction: string, how: string|null, turns: [number, number]|null,
 *   amount: string, notes: string[], retest: string}} CorrectionAdvice
 */

(function (root) {
  "use strict";
  /** @type {any} */
  const seaming = (root.tinwrightSeaming = root.tinwrightSeaming || {});

  const FORMULAS = () => seaming.formulas;
  const C = () => seaming.constants;

  /** @param {*} value */
  const isMissing = (value) => value === null || value === undefined;
  /** @param {*} value */
  const orNull = (value) => (isMissing(value) ? null : value);
  /** @param {Object<string, *>|undefined} map @param {string} key @param {*} fallback */
  const get = (map, key, fallback) =>
    map && Object.prototype.hasOwnProperty.call(map, key) ? map[key] : fallback;
  /** @param {string} one @param {string} other */
  const compareText = (one, other) => (one < other ? -1 : one > other ? 1 : 0);

  // ---- words ----

  /** @param {number} value @param {number} places @param {number} least */
  function decimal(value, places, least) {
    const scale = 10 ** places;
    const units = Math.floor(Math.abs(value) * scale + 0.5);
    const sign = value < 0 && units ? "-" : "";
    let digits = String(units % scale).padStart(places, "0");
    while (digits.length > least && digits.endsWith("0")) digits = digits.slice(0, -1);
    const whole = Math.floor(units / scale);
    return digits ? `${sign}${whole}.${digits}` : `${sign}${whole}`;
  }

  /** @param {number} value */
  const inchesText = (value) => `${decimal(value, 4, 3)} in`;
  /** A length in the unit of the readings. @param {number} value @param {string} [unit] `in` or `mm` */
  const lengthText = (value, unit = "in") => (unit === "mm" ? `${decimal(value * 25.4, 3, 2)} mm` : inchesText(value));
  /** @param {number} value */
  const percentText = (value) => `${decimal(value, 1, 0)}%`;
  /** @param {string} dimension */
  const isPercent = (dimension) => C().percents.includes(dimension);
  /** @param {string} dimension @param {number} value @param {string} [unit] */
  const valueText = (dimension, value, unit = "in") =>
    isPercent(dimension) ? percentText(value) : lengthText(value, unit);

  /** @param {string} dimension @param {number} least @param {number} greatest @param {string} [unit] */
  function spanText(dimension, least, greatest, unit = "in") {
    const low = valueText(dimension, least, unit);
    const high = valueText(dimension, greatest, unit);
    return low === high ? low : `${low.replace(/ in$| mm$|%$/, "")} to ${high}`;
  }

  // ---- readings ----

  const DIGITS = 9;
  const BLANK = "[ \\t\\r\\n\u00a0]";
  const WRITTEN = new RegExp(
    `^${BLANK}*(?:(?<whole>[0-9]+)(?:${BLANK}+|-)(?<top>[0-9]+)/(?<bottom>[0-9]+)|(?<top2>[0-9]+)/(?<bottom2>[0-9]+)` +
      `|(?<units>[0-9]*)(?<part>[.][0-9]*)?)${BLANK}*(?<unit>[A-Za-z"″%]*)[.]?${BLANK}*$`,
  );
  const UNREADABLE = "This cannot be read as a measurement. Write it like .055, 55 thou or 1.40 mm.";

  /**
   * The number written as a quotient of whole numbers, which divide without loss of a digit; null when there is none.
   * @param {Object<string, string|undefined>} match
   * @returns {[number, number]|null}
   */
  function numberOf(match) {
    if (match.units === undefined) {
      const whole = match.whole || "0";
      const top = match.top || match.top2 || "";
      const bottom = match.bottom || match.bottom2 || "";
      if ((whole + top + bottom).length > DIGITS || Number(bottom) === 0) return null;
      return [Number(whole) * Number(bottom) + Number(top), Number(bottom)];
    }
    const part = (match.part || "").slice(1);
    const digits = match.units + part;
    if (!digits || digits.length > DIGITS) return null;
    return [Number(digits), 10 ** part.length];
  }

  /**
   * @param {string} text @param {number|null} value @param {string} [question] @param {number|null} [suggestion]
   * @param {number|null} [step] @param {string} [unit]
   */
  const entry = (text, value, question = "", suggestion = null, step = null, unit = "") => ({
    text,
    value,
    question,
    suggestion,
    step,
    unit,
  });

  /** @param {[number, number]} number @param {string} unit */
  function scaled([top, bottom], unit) {
    if (unit === "mm") return (top * 5) / (bottom * 127);
    return unit === "thou" ? top / (bottom * 1000) : top / bottom;
  }

  /**
   * The unit of the last place written: a hundredth for .08, a sixty-fourth for 5/64.
   * @param {Object<string, string|undefined>} match
   * @returns {[number, number]}
   */
  function stepOf(match) {
    if (match.units === undefined) return [1, Number(match.bottom || match.bottom2)];
    return [1, 10 ** (match.part || "").slice(1).length];
  }

  /**
   * The unit that most readings were written in; the sheet's own when there are as many of both.
   * @param {string[]} written @param {string} sheet
   * @returns {string}
   */
  function findUnit(written, sheet) {
    const inches = written.filter((unit) => unit === "in").length;
    const millimeters = written.filter((unit) => unit === "mm").length;
    if (inches === millimeters) return sheet;
    return inches > millimeters ? "in" : "mm";
  }

  /**
   * Read a length as people write it, in inches.
   * @param {string} text @param {string} [unit] `in` or `mm`: the unit of the sheet
   * @returns {Entry}
   */
  function parseReading(text, unit = "in") {
    if (text.split(",").length === 2) {
      const inner = parseReading(text.replace(",", "."), unit);
      if (inner.value !== null) return entry(text, null, "Is the comma a decimal point? Write a point.", inner.value);
    }
    const match = (WRITTEN.exec(text) || { groups: null }).groups;
    const number = match ? numberOf(match) : null;
    if (!match || !number) return entry(text, null, UNREADABLE);
    const word = match.unit.toLowerCase();
    const known = get(C().units, word, null);
    if (word && !known) return entry(text, null, UNREADABLE);
    if (number[0] === 0) {
      return entry(text, null, "Is this zero? Leave the box empty when it was not measured.");
    }
    if (!word && match.units !== undefined && !match.part) return bareWhole(text, number[0], unit);
    const own = known || unit;
    return entry(text, scaled(number, own), "", null, scaled(stepOf(match), own), own === "mm" ? "mm" : "in");
  }

  /** @param {string} text @param {number} number @param {string} unit @returns {Entry} */
  function bareWhole(text, number, unit) {
    const thou = String(number).padStart(3, "0");
    if (unit === "in" && thou.length === 3) {
      return entry(text, null, `Is this ${number} thousandths of an inch (.${thou})?`, number / 1000);
    }
    if (unit === "in") return entry(text, null, "This is far too much for a seam. Which unit is it in?");
    if (number >= 20) {
      const question = `Is this ${number} thousandths of an inch, or is a decimal point missing?`;
      return entry(text, null, question, number / 1000);
    }
    return entry(text, scaled([number, 1], "mm"), "", null, scaled([1, 1], "mm"), "mm");
  }

  /** Read a rating in percent. @param {string} text @returns {Entry} */
  function parsePercent(text) {
    const match = (WRITTEN.exec(text) || { groups: null }).groups;
    const number = match ? numberOf(match) : null;
    if (!match || !number || !["", "%"].includes(match.unit) || match.units === undefined) {
      return entry(text, null, "This cannot be read as a rating. Write a number from 0 to 100.");
    }
    const value = number[0] / number[1];
    if (value > 100) return entry(text, null, "A rating goes from 0 to 100. Is there a digit too many?");
    if (value > 0 && value <= 1) {
      const question = "Is this a part of one? Write it in percent, from 0 to 100.";
      return entry(text, null, question, (number[0] * 100) / number[1]);
    }
    return entry(text, value);
  }

  /**
   * Least and greatest reading of a dimension; there is no average on purpose.
   * @param {SeamReadings} seam @param {string} dimension
   * @returns {Extremes|null}
   */
  function extremes(seam, dimension) {
    const found = seam.readings.filter((reading) => reading.dimension === dimension);
    if (!found.length) return null;
    let least = found[0];
    let greatest = found[0];
    for (const reading of found) {
      if (reading.value < least.value) least = reading;
      if (reading.value > greatest.value) greatest = reading;
    }
    /** @param {(reading: Reading) => boolean} isMeant */
    const coarsest = (isMeant) => Math.max(...found.filter(isMeant).map((reading) => reading.step || 0));
    return {
      least: least.value,
      greatest: greatest.value,
      leastAt: least.point,
      greatestAt: greatest.point,
      points: new Set(found.map((reading) => reading.point)).size,
      leastStep: coarsest((reading) => reading.value === least.value),
      greatestStep: coarsest((reading) => reading.value === greatest.value),
      coarsestStep: coarsest(() => true),
    };
  }

  /** @param {SeamReadings} seam @param {string} dimension @returns {number} */
  const pointsNeeded = (seam, dimension) => (dimension === "tightness" ? 1 : C().pointsNeeded[seam.method]);

  // ---- formulas ----

  /** @param {string} name @param {Object<string, number>} values */
  const ordered = (name, values) =>
    FORMULAS()[name].symbols.map((/** @type {string} */ symbol) => values[symbol]);

  /** Compute a formula. @param {string} name @param {Object<string, number>} values @returns {number} */
  const formulaValue = (name, values) => FORMULAS()[name].evaluate(...ordered(name, values));

  /** @param {string} name @param {Object<string, number>} values @returns {boolean} */
  const formulaIsDefined = (name, values) => {
    const divisor = FORMULAS()[name].divisor;
    return divisor === null || divisor(...ordered(name, values)) > 0;
  };

  /**
   * Combined standard uncertainty, first order, uncorrelated (JCGM 100:2008, 5.1.2).
   * @param {string} name @param {Object<string, number>} values @param {Object<string, number>} uncertainties
   * @returns {number}
   */
  function formulaUncertainty(name, values, uncertainties) {
    const formula = FORMULAS()[name];
    const arguments_ = ordered(name, values);
    let total = 0;
    for (const symbol of formula.symbols) {
      const term = formula.partials[symbol](...arguments_) * get(uncertainties, symbol, 0);
      total = total + term * term;
    }
    return Math.sqrt(total);
  }

  /**
   * The right-hand side in one line, with numbers in place of the symbols given.
   * @param {string} name @param {Object<string, string>} [numbers]
   * @returns {string}
   */
  const formulaPlain = (name, numbers = {}) =>
    FORMULAS()[name].plain.replace(/[A-Z][A-Za-z]*/g, (/** @type {string} */ symbol) => get(numbers, symbol, symbol));

  // ---- what follows from the readings ----

  /** @param {SeamReadings} seam @param {string} symbol @returns {Extremes|null} */
  function span(seam, symbol) {
    if (symbol !== "Te" && symbol !== "Tb") return extremes(seam, C().dimensionOf[symbol]);
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

  /** @param {SeamReadings} seam @param {string} name @param {Object<string, number>} uncertainties @returns {Computed} */
  function computeOne(seam, name, uncertainties) {
    const formula = FORMULAS()[name];
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
      const rising = isPlate || C().raises[quantity].includes(symbol);
      worst[symbol] = rising ? found.least : found.greatest;
      best[symbol] = rising ? found.greatest : found.least;
      const stated = get(uncertainties, C().dimensionOf[symbol], 0);
      errors[symbol] = readingUncertainty(stated, rising ? found.leastStep : found.greatestStep);
      most[symbol] = readingUncertainty(stated, found.coarsestStep);
      const needed = isPlate ? 1 : pointsNeeded(seam, C().dimensionOf[symbol]);
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
    if (!C().variants.includes(variant)) {
      throw new RangeError(`expected percent overlap by formula A, B or C, got '${variant}'`);
    }
    const percent = `percent-overlap-${variant.toLowerCase()}`;
    const names = ["overlap-a", percent, "body-hook-butting", "free-space", "compactness"];
    return names.map(
      (name) => (name === "overlap-a" && readOverlap(seam, uncertainties)) || computeOne(seam, name, uncertainties),
    );
  }

  // ---- questions ----

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
    const { leastIn, mostIn, mmFrom } = C();
    const unit = seam.unit || "in";
    /** Whether a reading is no dimension as it stands, but would be one in the other unit. @param {Reading} reading */
    const fitsOther = ({ value }) =>
      unit === "mm"
        ? value < leastIn && leastIn <= value * 25.4 && value * 25.4 <= mostIn
        : value >= mmFrom && leastIn <= value / 25.4 && value / 25.4 <= mostIn;
    const lengths = seam.readings.filter(({ dimension }) => dimension !== "tightness");
    const strange = lengths.filter(fitsOther);
    if (strange.length >= C().wrongUnit && 2 * strange.length > lengths.length) {
      const [first] = strange;
      const much = unit === "mm" ? "hardly anything" : "far too much";
      const [here, there] = unit === "mm" ? ["mm", "in"] : ["in", "mm"];
      const text =
        `${strange.length} readings are ${much} in ${UNITS[here]}, such as ${C().labels[first.dimension]}, point ` +
        `${first.point}: ${lengthText(first.value, here)}. Were they read in ${UNITS[there]}? Then set the unit to ` +
        `${UNITS[there]}.`;
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
    const { labels, dimensions, mostIn, leastIn, mmFrom } = C();
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
      if (read.greatest >= C().spread * read.least) {
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
      if (!(C().plateLeastIn <= value && value <= C().plateMostIn)) {
        ask("plate-odd", `${name}-plate`, "", `${given}. Is that right for can plate?`);
      } else if (sheet !== null && Math.abs(value - sheet) > C().platePart * sheet + C().close) {
        const text =
          `${given}; the specification is for ${lengthText(sheet, unit)}. Is it a slip? If the plate is ` +
          "another one, this specification is not for these cans: ask the supplier.";
        ask("plate-differs", `${name}-plate`, "", text);
      }
    }
  }

  /** @param {SeamReadings} seam @param {Asking} ask */
  function askPoints(seam, ask) {
    for (const dimension of C().dimensions) {
      const read = extremes(seam, dimension);
      const needed = pointsNeeded(seam, dimension);
      if (read && read.points < needed) {
        const text =
          `${C().labels[dimension]} was read at ${read.points} of ${needed} points. Can you read it at ` +
          `${needed} points spread evenly round the can?`;
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
          `${C().labels[dimension]} is ${lengthText(hook.greatest, unit)}, longer than the seam is wide ` +
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
    if (thickness && formulaValue("free-space", { S: thickness.least, Te: end, Tb: body }) < -C().close) {
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
    const { labels, full, close, apart } = C();
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

  // ---- guard band ----

  /**
   * The standard uncertainty of an instrument with the rounding of what was written (JCGM 100:2008, 4.3.7, F.2.2.1).
   * @param {number} stated @param {number} step unit of the last place written; 0 when it is not known
   * @returns {number}
   */
  const readingUncertainty = (stated, step) => Math.sqrt(stated * stated + (step * step) / 12);

  /**
   * Compare a value with its limits (JCGM 106:2012): accept, measure-again or reject.
   * @param {number} value @param {number|null} low @param {number|null} high @param {number} uncertainty
   * @returns {string}
   */
  function compare(value, low, high, uncertainty) {
    const guard = C().guardFactor * uncertainty;
    const close = C().close;
    if ((low !== null && value < low - guard - close) || (high !== null && value > high + guard + close)) {
      return "reject";
    }
    if ((low !== null && value < low + guard - close) || (high !== null && value > high - guard + close)) {
      return "measure-again";
    }
    return "accept";
  }

  /** The error function, by its series of positive terms. @param {number} x */
  function errorFunction(x) {
    const size = Math.abs(x);
    if (size > 6) return x < 0 ? -1 : 1;
    let term = size;
    let sum = size;
    for (let n = 1; term > sum * 1e-17; n += 1) {
      term = (term * 2 * size * size) / (2 * n + 1);
      sum += term;
    }
    const value = (2 / Math.sqrt(Math.PI)) * Math.exp(-size * size) * sum;
    return x < 0 ? -value : value;
  }

  /** @param {number} z */
  const normal = (z) => 0.5 * (1 + errorFunction(z / Math.SQRT2));

  /**
   * Probability that the true value lies within the limits. Agrees with the Python half to 1e-12, not to the last bit.
   * @param {number} value @param {number|null} low @param {number|null} high @param {number} uncertainty
   * @returns {number}
   */
  function conformanceProbability(value, low, high, uncertainty) {
    if (uncertainty === 0) return compare(value, low, high, 0) === "accept" ? 1 : 0;
    const below = high === null ? 1 : normal((high - value) / uncertainty);
    const above = low === null ? 0 : normal((low - value) / uncertainty);
    return below - above;
  }

  // ---- verdict ----

  const NO_LIMITS =
    "No seam specification was chosen, so these are values without a verdict. " +
    "Ask your can supplier for the sheet for this can.";
  const ASKED = "A question about these readings is open. Answer it before you accept this can.";
  const UNIT = "The readings fit another unit than the one chosen. Nothing is judged until that is settled.";
  const EYE_NOTE = "Measuring is half of it: the seam must also look and feel right all the way round.";

  /**
   * Judge a seam from its readings, the chosen limits and what was seen on it.
   * @param {SeamReadings} seam @param {SeamLimits|null} limits @param {Object<string, number>} uncertainties
   * @param {SeenDefect[]} [defects] @param {string} [variant]
   * @returns {SeamVerdict}
   */
  function judge(seam, limits, uncertainties, defects = [], variant = "A") {
    if (Object.values(uncertainties).some((value) => value < 0)) {
      throw new RangeError("expected standard uncertainties of zero or more");
    }
    const given = limits || { overlapVariant: variant };
    /** @type {Object<string, Limit>} */
    const byDimension = {};
    for (const limit of given.limits || []) byDimension[limit.dimension] = limit;
    if (!isMissing(given.tightnessLow)) byDimension.tightness = { dimension: "tightness", low: given.tightnessLow };
    const parts = [];
    for (const dimension of C().dimensions) {
      if (dimension === "overlap") continue;
      const part = measured(seam, dimension, get(byDimension, dimension, null), get(uncertainties, dimension, 0));
      if (part) parts.push(part);
    }
    for (const computed of compute(seam, given.overlapVariant || "A", uncertainties)) {
      const name = computed.quantity;
      let limit = name === "overlap" ? get(byDimension, "overlap", null) : null;
      if (name === "percent-overlap" && !isMissing(given.percentOverlapLow)) {
        limit = { dimension: name, low: given.percentOverlapLow };
      } else if (name === "body-hook-butting" && !isMissing(given.buttingLow)) {
        limit = { dimension: name, low: given.buttingLow };
      }
      const part = judgeComputed(computed, limit, seam.unit || "in");
      if (part) parts.push(part);
    }
    const asked = findQuestions(seam, given, uncertainties).map((question) => question.kind);
    if (asked.includes("unit")) {
      // Numbers in the wrong unit judge nothing; what was seen still does.
      const outcome = defects.some(isUnusable) ? "reject" : "measure-again";
      return { outcome, parts: [], reasons: [...toldBy(defects), UNIT] };
    }
    return whole(parts, limits, defects, uncertainties, asked.length > 0);
  }

  /** @param {Limit} limit */
  const isOpen = (limit) => isMissing(limit.low) && isMissing(limit.high);

  /** @param {string} name @param {Limit} limit @param {string} unit @returns {DimensionVerdict} */
  const notMeasured = (name, limit, unit) => ({
    dimension: name,
    least: null,
    greatest: null,
    low: orNull(limit.low),
    aim: orNull(limit.aim),
    high: orNull(limit.high),
    uncertainty: 0,
    outcome: "not-measured",
    probability: null,
    outBy: 0,
    formula: "",
    reason: `${C().labels[name]} has a limit but was not measured.`,
    inputs: [],
    way: "",
    unit,
  });

  /** @param {SeamReadings} seam @param {string} dimension @param {Limit|null} limit @param {number} stated */
  function measured(seam, dimension, limit, stated) {
    const found = extremes(seam, dimension);
    const unit = seam.unit || "in";
    if (!found) return limit === null || isOpen(limit) ? null : notMeasured(dimension, limit, unit);
    const values = seam.readings
      .filter((reading) => reading.dimension === dimension)
      .map((reading) => ({ value: reading.value, error: readingUncertainty(stated, reading.step || 0) }));
    const part = judged(dimension, values, limit, "", unit);
    const needed = pointsNeeded(seam, dimension);
    if (part.outcome === "accept" && found.points < needed) {
      part.outcome = "measure-again";
      part.reason =
        `${C().labels[dimension]} was read at ${found.points} of ${needed} points: ` +
        "read the others before you accept.";
    }
    return part;
  }

  /** @param {Computed} computed @param {Limit|null} limit @param {string} unit */
  function judgeComputed(computed, limit, unit) {
    const name = computed.quantity;
    const { least, greatest } = computed;
    if (least === null || greatest === null) {
      return limit === null || isOpen(limit) ? null : notMeasured(name, limit, unit);
    }
    const values = [computed.uncertainty, computed.uncertaintyMost].flatMap((error) =>
      [least, greatest].map((value) => ({ value, error })),
    );
    const part = judged(name, values, limit, computed.formula, unit);
    part.inputs = computed.inputs;
    if (name === "overlap" && part.outcome !== "reject" && least < 0) {
      // No limit is needed for this one: hooks that do not meet are a false seam by definition.
      part.outcome = compare(least, 0, null, computed.uncertainty);
      const told = valueText(name, least, unit);
      const doubtful = part.outcome === "measure-again";
      part.reason = doubtful
        ? `Overlap ${told}: the hooks may not meet. Measure again.`
        : `Overlap ${told}: the hooks do not meet. That is a false seam.`;
      if (!doubtful) part.way = "smaller";
    } else if (limit !== null && part.outcome === "accept" && !computed.enoughPoints) {
      part.outcome = "measure-again";
      part.reason = `${C().labels[name]} comes from too few points: read the others before you accept.`;
    }
    return part;
  }

  const WORST_FIRST = ["reject", "measure-again", "accept"];

  /**
   * Judge values, each with its own standard uncertainty: the worst of them decides.
   * @param {string} name @param {{value: number, error: number}[]} values @param {Limit|null} limit
   * @param {string} formula @param {string} unit
   * @returns {DimensionVerdict}
   */
  function judged(name, values, limit, formula, unit) {
    const low = limit ? orNull(limit.low) : null;
    const aim = limit ? orNull(limit.aim) : null;
    const high = limit ? orNull(limit.high) : null;
    const label = C().labels[name];
    const least = Math.min(...values.map(({ value }) => value));
    const greatest = Math.max(...values.map(({ value }) => value));
    const part = { dimension: name, least, greatest, low, aim, high, formula, inputs: [], way: "", unit };
    if (low === null && high === null) {
      const reason = `${label} ${spanText(name, least, greatest, unit)}: no limit given.`;
      const uncertainty = Math.max(...values.map(({ error }) => error));
      return { ...part, uncertainty, outcome: "no-limit", probability: null, outBy: 0, reason };
    }
    const outcomes = values.map(({ value, error }) => compare(value, low, high, error));
    const outcome = WORST_FIRST.find((word) => outcomes.includes(word)) || "accept";
    const probability = Math.min(
      ...values.map(({ value, error }) => conformanceProbability(value, low, high, error)),
    );
    const uncertainty = Math.max(...values.filter((_, place) => outcomes[place] === outcome).map(({ error }) => error));
    const short = low !== null && least < low ? low - least : 0;
    const over = high !== null && greatest > high ? greatest - high : 0;
    const small = values.filter(({ value, error }) => compare(value, low, null, error) === outcome);
    const large = values.filter(({ value, error }) => compare(value, null, high, error) === outcome);
    let said;
    if (outcome === "accept") {
      const how = uncertainty > 0 ? " by more than the error of the readings" : "";
      said = `${spanText(name, least, greatest, unit)}: inside its limits${how}`;
    } else {
      /** @type {string[]} */
      const sides = [];
      /** @param {number} value @param {number} bound @param {string} words */
      const side = (value, bound, words) => {
        const told = valueText(name, value, unit);
        const limitText = valueText(name, bound, unit);
        if (outcome === "reject") sides.push(`${told} is ${words} allowed, ${limitText}`);
        else sides.push(`${told} is too near the limit ${limitText} to tell`);
      };
      if (small.length && low !== null) side(Math.min(...small.map(({ value }) => value)), low, "below the least");
      if (large.length && high !== null) side(Math.max(...large.map(({ value }) => value)), high, "above the most");
      said = sides.join(" and ");
    }
    let way = "";
    if (outcome === "reject") way = small.length && large.length ? "varies" : small.length ? "smaller" : "larger";
    const outBy = Math.max(short, over);
    return { ...part, uncertainty, outcome, probability, outBy, reason: `${label} ${said}.`, way };
  }

  /** @param {SeenDefect} defect */
  const isUnusable = (defect) => ["reject", "discard-part"].includes(defect.disposition);
  /** @param {SeenDefect} defect */
  const isHeld = (defect) => defect.disposition === "hold";
  /** What each defect seen means for the can, the worst first. @param {SeenDefect[]} defects */
  const toldBy = (defects) => [
    ...defects.filter(isUnusable).map(({ title }) => `${title}: do not use this can, whatever it measures.`),
    ...defects.filter(isHeld).map(({ title }) => `${title}: hold this can until it has been judged.`),
  ];

  /**
   * @param {DimensionVerdict[]} parts @param {SeamLimits|null} limits @param {SeenDefect[]} defects
   * @param {Object<string, number>} uncertainties @param {boolean} asked whether a question is open
   * @returns {SeamVerdict}
   */
  function whole(parts, limits, defects, uncertainties, asked) {
    const reasons = toldBy(defects);
    const outcomes = parts.map((part) => part.outcome);
    for (const outcome of ["reject", "measure-again", "not-measured"]) {
      for (const part of parts) if (part.outcome === outcome) reasons.push(part.reason);
    }
    let overall = "no-limit";
    if (defects.some(isUnusable) || outcomes.includes("reject")) {
      overall = "reject";
    } else if (defects.some(isHeld) || outcomes.includes("measure-again") || outcomes.includes("not-measured")) {
      overall = "measure-again";
    } else if (outcomes.includes("accept") && asked) {
      overall = "measure-again";
      reasons.push(ASKED);
    } else if (outcomes.includes("accept")) {
      overall = "accept";
      reasons.push("Every dimension with a limit is inside it.");
    }
    if (!limits) {
      reasons.push(NO_LIMITS);
    } else if (overall === "no-limit") {
      reasons.push("Nothing that was measured has a limit in this specification.");
    } else {
      const unstated = parts
        .filter((part) => lacksError(part, uncertainties))
        .map((part) => C().labels[part.dimension])
        .join(", ");
      if (unstated) {
        reasons.push(`No error of the instrument is stated for: ${unstated}. Near a limit, be careful.`);
      }
    }
    if (overall === "accept" || overall === "no-limit") reasons.push(EYE_NOTE);
    return { outcome: overall, parts, reasons };
  }

  /**
   * Hold back acceptance by limits that were not read against the paper they come from, and say so first.
   * @param {SeamVerdict} verdict @param {string} said what is to be said of them; nothing when they were read
   * @returns {SeamVerdict}
   */
  function holdUnconfirmed(verdict, said) {
    if (!said) return verdict;
    const outcome = verdict.outcome === "accept" ? "measure-again" : verdict.outcome;
    return { ...verdict, outcome, reasons: [said, ...verdict.reasons] };
  }

  /** @param {DimensionVerdict} part @param {Object<string, number>} uncertainties */
  const lacksError = (part, uncertainties) =>
    ["accept", "measure-again", "reject"].includes(part.outcome) &&
    !part.formula &&
    part.dimension !== "tightness" &&
    get(uncertainties, part.dimension, null) === null;

  /**
   * Which way each measured dimension is out beyond doubt; computed values only when they alone are out.
   * @param {SeamVerdict} verdict
   * @returns {Object<string, string>}
   */
  function findDirections(verdict) {
    /** @type {Object<string, string>} */
    const directions = {};
    const read = verdict.parts.filter((part) => !part.formula);
    for (const part of read) {
      if (part.way || part.outcome === "accept") directions[part.dimension] = part.way || "normal";
    }
    if (read.some((part) => part.way)) return directions;
    for (const part of verdict.parts) {
      if (!part.formula || !part.way) continue;
      directions[get(C().toldAs, part.dimension, part.dimension)] = part.way;
      for (const [symbol] of part.inputs) delete directions[C().dimensionOf[symbol]];
    }
    return directions;
  }

  /**
   * How far each value that is out beyond doubt lies outside its limits, inches or percent.
   * @param {SeamVerdict} verdict
   * @returns {Object<string, number>}
   */
  const findAmounts = (verdict) =>
    Object.fromEntries(verdict.parts.filter((part) => part.way).map((part) => [part.dimension, part.outBy]));

  // ---- causes ----

  const KINDS = ["defect", "absent", "direction", "extent", "repeats", "last-change"];

  /** Signs in the one order in which they are reckoned, each once. @param {Sign[]} signs @returns {Sign[]} */
  function signsInOrder(signs) {
    /** @param {Sign} sign */
    const place = (sign) => (sign.kind === "direction" ? C().dimensions.indexOf(sign.key) : 0);
    const once = new Map(signs.map((sign) => [`${sign.kind}/${sign.key}/${sign.answer}`, sign]));
    return [...once.values()].sort(
      (one, other) =>
        KINDS.indexOf(one.kind) - KINDS.indexOf(other.kind) ||
        place(one) - place(other) ||
        compareText(one.key, other.key),
    );
  }

  /** The signs one by one, in the order in which they are reckoned. @param {Signs} signs @returns {Sign[]} */
  function listSigns(signs) {
    /** @type {Sign[]} */
    const found = [];
    for (const key of signs.defects || []) found.push({ kind: "defect", key, answer: "seen" });
    for (const key of signs.absent || []) found.push({ kind: "absent", key, answer: "not-seen" });
    for (const key of C().dimensions) {
      const answer = get(signs.directions, key, null);
      if (answer) found.push({ kind: "direction", key, answer });
    }
    if (signs.extent) found.push({ kind: "extent", key: "", answer: signs.extent });
    if (signs.repeats) found.push({ kind: "repeats", key: "", answer: signs.repeats });
    if (signs.lastChange && signs.lastChange !== "nothing") {
      found.push({ kind: "last-change", key: "", answer: signs.lastChange });
    }
    return signsInOrder(found);
  }

  /** Probability of a sign when this is the cause. @param {CauseProfile} cause @param {Sign} sign @returns {number} */
  function weigh(cause, sign) {
    const constants = C();
    if (sign.kind === "defect") return constants.defectSeen[get(cause.likelihoods, sign.key, "")];
    if (sign.kind === "absent") return constants.defectAbsent[get(cause.likelihoods, sign.key, "")];
    if (sign.kind === "direction") return weighDirection(cause, sign);
    if (sign.kind === "last-change") {
      return cause.after.includes(sign.answer) ? constants.changeListed : constants.changeOther;
    }
    const listed = sign.kind === "extent" ? cause.extents : cause.repeats;
    if (!listed.length) return constants.placeUnknown;
    return listed.includes(sign.answer) ? constants.placeListed : constants.placeOther;
  }

  /** @param {CauseProfile} cause @param {Sign} sign @returns {number} */
  function weighDirection(cause, sign) {
    const constants = C();
    const likelihoods = get(cause.effectLikelihoods, sign.key, {});
    const likelihood = get(likelihoods, sign.answer, null);
    if (likelihood) return constants.directionAlong[likelihood][0];
    const effect = get(cause.effects, sign.key, null);
    if (effect === null) return constants.directionUnclaimed[sign.answer];
    if (effect === "disputed") return constants.directionUnknown[sign.answer];
    if (effect === "varies") return constants.directionVaries[sign.answer];
    const [along, normally, against, varies] = constants.directionAlong[get(likelihoods, effect, "occasional")];
    if (sign.answer === effect) return along;
    return sign.answer === "normal" ? normally : sign.answer === "varies" ? varies : against;
  }

  /** @param {Sign} sign @returns {number} */
  function weighUnknown(sign) {
    const constants = C();
    if (sign.kind === "defect") return constants.unknownSeen;
    if (sign.kind === "absent") return constants.unknownAbsent;
    if (sign.kind === "direction") return constants.directionUnknown[sign.answer];
    return sign.kind === "last-change" ? constants.changeOther : constants.placeUnknown;
  }

  /** Is a sign the fault itself, a defect seen or a dimension not as it should be? @param {Sign} sign */
  const isFault = (sign) => sign.kind === "defect" || (sign.kind === "direction" && sign.answer !== "normal");

  /** Is a sign a reason to offer the cause at all? @param {CauseProfile} cause @param {Sign} sign */
  const speaksFor = (cause, sign) => isFault(sign) && weigh(cause, sign) > weighUnknown(sign);

  /** @param {CauseProfile} cause @param {Sign} sign */
  const isAgainst = (cause, sign) => weigh(cause, sign) < weighUnknown(sign);

  /**
   * Bayes' rule for signs independent of each other given the cause.
   * @param {number[]} priors @param {number[][]} likelihoods
   * @returns {number[]}
   */
  function findPosterior(priors, likelihoods) {
    const products = priors.map((prior, place) => {
      let product = prior;
      for (const likelihood of likelihoods[place]) product = product * likelihood;
      return product;
    });
    let total = 0;
    for (const product of products) total = total + product;
    return products.map((product) => product / total);
  }

  /** @param {CauseProfile[]} causes @returns {CauseProfile[]} */
  const inOrder = (causes) =>
    [...causes].sort(
      (one, other) =>
        C().adjusters.indexOf(one.adjuster) - C().adjusters.indexOf(other.adjuster) ||
        compareText(one.cause, other.cause),
    );

  /**
   * Was the cause confirmed behind what this sign tells?
   * @param {Experience} experience @param {string} cause @param {Sign} sign
   */
  const isBehind = (experience, cause, sign) =>
    (sign.kind === "defect" || sign.kind === "direction") && get(experience.behind, cause, []).includes(sign.key);

  /**
   * The counts without those of causes that a sign speaks against, unless they were confirmed behind that very sign.
   * @param {CauseProfile[]} causes @param {Sign[]} found @param {Experience|null} experience
   * @returns {Experience|null}
   */
  function standingOf(causes, found, experience) {
    if (!experience) return null;
    const out = causes
      .filter((cause) => found.some((sign) => isAgainst(cause, sign) && !isBehind(experience, cause.cause, sign)))
      .map((cause) => cause.cause);
    /** @param {Object<string, any>} row */
    const left = (row) => Object.fromEntries(Object.entries(row).filter(([cause]) => !out.includes(cause)));
    /** @param {Cases} rows */
    const leftOf = (rows) => Object.fromEntries(Object.entries(rows).map(([key, row]) => [key, left(row)]));
    return { own: leftOf(experience.own), others: leftOf(experience.others), behind: left(experience.behind) };
  }

  /**
   * The share of each cause, in the order given, and last that of a cause which is none of them.
   * @param {CauseProfile[]} causes @param {Sign[]} found @param {Experience|null} [experience]
   * @returns {number[]}
   */
  function findShares(causes, found, experience = null) {
    const standing = standingOf(causes, found, experience);
    const cases = standing ? standing.behind : {};
    const priors = causes.map((cause) =>
      get(cases, cause.cause, null) || found.some((sign) => speaksFor(cause, sign)) ? 1 : 0,
    );
    return sharesFrom([...priors, 1], causes, found, standing);
  }

  /** As if a sign spoke for every cause. @param {CauseProfile[]} causes @param {Sign[]} found @returns {number[]} */
  const guessShares = (causes, found) => sharesFrom(new Array(causes.length + 1).fill(1), causes, found, null);

  /**
   * @param {number[]} priors @param {CauseProfile[]} causes @param {Sign[]} found @param {Experience|null} experience
   * @returns {number[]}
   */
  function sharesFrom(priors, causes, found, experience) {
    const columns = found.map((sign) => columnOf(causes, sign, experience));
    const shares = findPosterior(priors, priors.map((_, place) => columns.map((column) => column[place])));
    return shares.map((share) => Math.floor(share * C().finest + 0.5) / C().finest);
  }

  /**
   * The weights of a sign, with the cases confirmed behind it added.
   * @param {CauseProfile[]} causes @param {Sign} sign @param {Experience|null} experience
   * @returns {number[]}
   */
  function columnOf(causes, sign, experience) {
    let column = [...causes.map((cause) => weigh(cause, sign)), weighUnknown(sign)];
    if (!experience || !isFault(sign)) return column;
    const rows = [get(experience.others, sign.key, null), get(experience.own, sign.key, null)].filter(Boolean);
    if (rows.length) column = findPosterior(column.map(() => 1), column.map((weight) => [weight]));
    for (const row of rows) column = addCases(column, [...causes.map((cause) => get(row, cause.cause, 0)), 0]);
    return column;
  }

  /**
   * What was confirmed behind the defects that the signs tell of; null when that is nothing.
   * @param {Confirmed[]} confirmed @param {Object<string, Object<string, string>>} measured
   * @param {Signs} signs @param {string|null} [sealer]
   * @returns {Experience|null}
   */
  function findExperience(confirmed, measured, signs, sealer = null) {
    /** @type {Cases} */ const own = {};
    /** @type {Cases} */ const others = {};
    /** @type {Object<string, string[]>} */ const behind = {};
    for (const count of confirmed) {
      const parts = Object.entries(get(measured, count.defect, {}));
      if (parts.length) {
        if (parts.some(([dimension, direction]) => get(signs.directions, dimension, null) !== direction)) continue;
      } else if (!(signs.defects || []).includes(count.defect)) continue;
      const keys = parts.length ? parts.map(([dimension]) => dimension).sort(compareText) : [count.defect];
      // Several dimensions tell one defect: its cases count once, with the first of them.
      const rows = count.sealer === sealer ? own : others;
      const row = get(rows, keys[0], {});
      row[count.cause] = get(row, count.cause, 0) + count.times;
      rows[keys[0]] = row;
      behind[count.cause] = [...new Set([...get(behind, count.cause, []), ...keys])].sort(compareText);
    }
    if (!Object.keys(own).length && !Object.keys(others).length) return null;
    return { own, others, behind };
  }

  /** The mean of the Dirichlet posterior. @param {number[]} shares @param {number[]} counts @returns {number[]} */
  function addCases(shares, counts) {
    let total = 0;
    for (const count of counts) total = total + count;
    const prior = C().priorCases;
    return shares.map((share, place) => (prior * share + counts[place]) / (prior + total));
  }

  /**
   * Rank causes by the signs, and by what was confirmed before behind the defects told.
   * @param {CauseProfile[]} causes @param {Signs} signs @param {Experience|null} [experience]
   * @returns {Ranking}
   */
  function rank(causes, signs, experience = null) {
    const sorted = inOrder(causes);
    const found = listSigns(signs);
    const shares = findShares(sorted, found, experience);
    const unknown = shares[sorted.length];
    const top = Math.max(...shares);
    const standing = standingOf(sorted, found, experience);
    const placed = sorted
      .map((cause, place) => ({ cause, share: shares[place] }))
      .sort((one, other) => other.share - one.share);
    const ranked = placed.map(({ cause, share }) => ({
      cause: cause.cause,
      word: wordFor(share, top),
      share,
      reasons: found.map((sign) => ({ sign, stance: stanceOf(cause, sign, standing) })),
    }));
    const areTwo = ranked.length > 1 && ranked[1].word !== "unlikely";
    return {
      causes: ranked,
      unknownShare: unknown,
      explained: placed.length > 0 && placed[0].share > unknown,
      apart: areTwo ? findDistinctions(placed[0].cause, placed[1].cause, signs) : [],
    };
  }

  /** @param {number} share @param {number} top */
  function wordFor(share, top) {
    if (share * C().likelyPart >= top - C().closeShare) return "likely";
    return share * C().possiblePart >= top - C().closeShare ? "possible" : "unlikely";
  }

  /** @param {CauseProfile} cause @param {Sign} sign @param {Experience|null} experience */
  function stanceOf(cause, sign, experience) {
    const one = weigh(cause, sign);
    const other = weighUnknown(sign);
    if (one > other || (experience && isBehind(experience, cause.cause, sign))) return "supports";
    return one < other ? "contradicts" : "neutral";
  }

  /**
   * The signs not yet given that two causes differ in, the clearest first.
   * @param {CauseProfile} first @param {CauseProfile} second @param {Signs} signs
   * @returns {Distinction[]}
   */
  function findDistinctions(first, second, signs) {
    /** @type {{clarity: number, distinction: Distinction}[]} */
    const found = [];
    /** @param {string} kind @param {string} key @param {string[]} ones @param {string[]} others */
    const add = (kind, key, ones, others) => {
      const distinction = { kind, key, first: ones, second: others };
      found.push({ clarity: clarityOf(first, second, distinction), distinction });
    };
    for (const dimension of C().dimensions) {
      if (get(signs.directions, dimension, null) !== null) continue;
      const one = get(first.effects, dimension, null);
      const other = get(second.effects, dimension, null);
      if (one !== other && one !== "disputed" && other !== "disputed") {
        add("direction", dimension, [one || "normal"], [other || "normal"]);
      }
    }
    const known = [...(signs.defects || []), ...(signs.absent || [])];
    const defects = new Set([...Object.keys(first.likelihoods || {}), ...Object.keys(second.likelihoods || {})]);
    for (const defect of [...defects].filter((id) => !known.includes(id)).sort(compareText)) {
      const one = get(first.likelihoods, defect, null);
      const other = get(second.likelihoods, defect, null);
      if (one !== other) add("defect", defect, [one || "not-seen"], [other || "not-seen"]);
    }
    /** @param {string} kind @param {string|null|undefined} answer @param {string[]} ones @param {string[]} others */
    const addPlace = (kind, answer, ones, others) => {
      if (!answer && ones.length && others.length && !ones.some((one) => others.includes(one))) {
        add(kind, "", ones, others);
      }
    };
    addPlace("extent", signs.extent, first.extents, second.extents);
    addPlace("repeats", signs.repeats, first.repeats, second.repeats);
    found.sort((one, other) => other.clarity - one.clarity);
    return found.map((each) => each.distinction);
  }

  /** @param {CauseProfile} first @param {CauseProfile} second @param {Distinction} distinction */
  function clarityOf(first, second, distinction) {
    const answers = distinction.kind === "defect" ? ["seen"] : [...distinction.first, ...distinction.second];
    let clarity = 1;
    for (const answer of answers) {
      const sign = { kind: distinction.kind, key: distinction.key, answer };
      const one = weigh(first, sign);
      const other = weigh(second, sign);
      clarity = Math.max(clarity, one / other, other / one);
    }
    return clarity;
  }

  // ---- the next question ----

  /** What can still be asked, the quickest first. @param {CauseProfile[]} causes @param {Signs} signs @returns {Ask[]} */
  function listQuestions(causes, signs) {
    const { minutes, answers, gauged, dimensions } = C();
    /** @type {Ask[]} */
    const asks = [];
    if (!signs.repeats) asks.push({ kind: "repeats", key: "", minutes: minutes.repeats, answers: answers.repeats });
    const listed = new Set(causes.flatMap((cause) => cause.after));
    const changes = [...listed].filter((change) => change !== "nothing").sort(compareText);
    if (!signs.lastChange && changes.length) {
      asks.push({ kind: "last-change", key: "", minutes: minutes["last-change"], answers: changes });
    }
    if (!signs.extent) asks.push({ kind: "extent", key: "", minutes: minutes.extent, answers: answers.extent });
    const known = [...(signs.defects || []), ...(signs.absent || [])];
    const defects = new Set(causes.flatMap((cause) => Object.keys(cause.likelihoods || {})));
    for (const key of [...defects].filter((id) => !known.includes(id)).sort(compareText)) {
      asks.push({ kind: "defect", key, minutes: minutes.defect, answers: answers.defect });
    }
    const moved = new Set(
      causes.flatMap((cause) => [...Object.keys(cause.effects || {}), ...Object.keys(cause.effectLikelihoods || {})]),
    );
    for (const key of dimensions) {
      if (!moved.has(key) || get(signs.directions, key, null) !== null) continue;
      const kind = gauged.includes(key) ? "gauge" : "teardown";
      asks.push({ kind: "direction", key, minutes: minutes[kind], answers: answers.direction });
    }
    return asks.sort((one, other) => one.minutes - other.minutes);
  }

  /**
   * The quickest question with an answer that would put another cause on top; null when there is none.
   * @param {CauseProfile[]} causes @param {Signs} signs @param {Ask[]|null} [asks] @param {Experience|null} [experience]
   * @returns {Ask|null}
   */
  function findNext(causes, signs, asks = null, experience = null) {
    const sorted = inOrder(causes);
    const found = listSigns(signs);
    const top = topOf(findShares(sorted, found, experience));
    const guess = guessShares(sorted, found);
    /** @param {Sign} sign */
    const changes = (sign) => topOf(findShares(sorted, signsInOrder([...found, sign]), experience)) !== top;
    /** @type {Ask|null} */
    let chosen = null;
    let most = 0;
    for (const ask of asks || listQuestions(causes, signs)) {
      if (chosen && ask.minutes > chosen.minutes) continue;
      let chance = 0;
      for (const answer of ask.answers) {
        const kind = ask.kind === "defect" && answer === "not-seen" ? "absent" : ask.kind;
        const sign = { kind, key: ask.key, answer };
        const likelihood = chanceOf(sorted, guess, sign);
        if (likelihood >= C().worth && changes(sign)) chance = chance + likelihood;
      }
      if (chance > 0 && (!chosen || ask.minutes < chosen.minutes || chance > most)) {
        chosen = ask;
        most = chance;
      }
    }
    return chosen;
  }

  /** @param {CauseProfile[]} sorted @param {number[]} guess @param {Sign} sign */
  function chanceOf(sorted, guess, sign) {
    let total = 0;
    sorted.forEach((cause, place) => {
      total = total + guess[place] * weigh(cause, sign);
    });
    return total + guess[sorted.length] * weighUnknown(sign);
  }

  /** @param {number[]} shares */
  function topOf(shares) {
    const best = Math.max(...shares);
    return shares[shares.length - 1] === best ? shares.length - 1 : shares.indexOf(best);
  }

  // ---- order of checks ----

  /** Expected minutes to the fault. @param {Check[]} order @returns {number} */
  function expectedMinutes(order) {
    let total = 0;
    let elapsed = 0;
    for (const check of order) {
      elapsed = elapsed + check.minutes;
      total = total + check.share * elapsed;
    }
    return total;
  }

  /** @typedef {{checks: Check[], share: number, minutes: number}} Block */

  /** @param {Block} one @param {Block} other @param {boolean} orLevel */
  function isAhead(one, other, orLevel) {
    const left = one.share * other.minutes;
    const right = other.share * one.minutes;
    return orLevel ? left >= right : left > right;
  }

  /** @param {Block[]} blocks @returns {Block[]} */
  function byQuotient(blocks) {
    /** @type {Block[]} */
    const placed = [];
    for (const block of blocks) {
      let place = placed.length;
      while (place && isAhead(block, placed[place - 1], false)) place -= 1;
      placed.splice(place, 0, block);
    }
    return placed;
  }

  /** @param {Block[]} chain @returns {Block[]} */
  function bestPrefixes(chain) {
    /** @type {Block[]} */
    const blocks = [];
    for (const block of chain) {
      let last = block;
      while (blocks.length && isAhead(last, blocks[blocks.length - 1], true)) {
        const before = /** @type {Block} */ (blocks.pop());
        last = {
          checks: [...before.checks, ...last.checks],
          share: before.share + last.share,
          minutes: before.minutes + last.minutes,
        };
      }
      blocks.push(last);
    }
    return blocks;
  }

  /**
   * Checks in the order of least expected minutes: set-up before first roller before second roller.
   * @param {Check[]} checks
   * @returns {Check[]}
   */
  function orderChecks(checks) {
    const { adjusters, stages } = C();
    for (const check of checks) {
      if (!(check.minutes > 0) || !(check.share >= 0) || !adjusters.includes(check.adjuster)) {
        throw new RangeError(
          "expected a check with minutes above zero, a share of zero or more and a known adjuster, " +
            `got ${JSON.stringify(check)}`,
        );
      }
    }
    const sorted = [...checks].sort(
      (one, other) =>
        adjusters.indexOf(one.adjuster) - adjusters.indexOf(other.adjuster) || compareText(one.cause, other.cause),
    );
    /** @param {Check} check @returns {Block} */
    const single = (check) => ({ checks: [check], share: check.share, minutes: check.minutes });
    /** @type {Block[]} */
    const chain = [];
    for (const stage of [0, 1, 2]) {
      const inside = sorted.filter((check) => get(stages, check.adjuster, null) === stage);
      chain.push(...byQuotient(inside.map(single)));
    }
    const free = sorted.filter((check) => get(stages, check.adjuster, null) === null).map(single);
    return byQuotient([...bestPrefixes(chain), ...free]).flatMap((block) => block.checks);
  }

  // ---- correction ----

  /** Write a part of a turn. @param {[number, number]} turns @returns {string} */
  function turnsText([top, bottom]) {
    const amount = bottom === 1 ? String(top) : `${top}/${bottom}`;
    return top / bottom <= 1 ? `${amount} turn` : `${amount} turns`;
  }

  /**
   * Say how far and in what order to correct a cause: turns only where the sealer's record supports them.
   * @param {string} adjuster @param {string} direction @param {Screw|null} [screw] @param {number|null} [outByIn]
   * @returns {CorrectionAdvice}
   */
  function correct(adjuster, direction, screw = null, outByIn = null) {
    const constants = C();
    const isNearer = direction === "tighten" || direction === "raise";
    const isFarther = direction === "loosen" || direction === "lower";
    const isTurned = constants.setInSteps.includes(adjuster) && (isNearer || isFarther);
    /** @type {[[number, number]|null, string]} */
    let taken = [null, isTurned ? "Move it as little as you can." : ""];
    let how = null;
    if (isTurned && screw) {
      how = orNull(isNearer ? screw.tighten : screw.loosen);
      taken = amountOf(screw, outByIn);
    }
    const notes = isTurned ? [constants.lock] : [];
    if (adjuster === "first-roller") notes.push(constants.secondCannotMend, constants.checkFirst);
    else if (["chuck", "base-height", "base-pressure", "roller-height"].includes(adjuster)) notes.push(constants.allAfter);
    return { adjuster, direction, how, turns: taken[0], amount: taken[1], notes, retest: constants.retest };
  }

  /** @param {Screw} screw @param {number|null} outByIn @returns {[[number, number]|null, string]} */
  function amountOf(screw, outByIn) {
    const travel = orNull(screw.travelPerTurnIn);
    const step = screw.safeStep || null;
    if ((travel !== null && travel <= 0) || (step && step[0] <= 0)) {
      throw new RangeError("expected travel and safe step above zero");
    }
    if (outByIn !== null && outByIn < 0) throw new RangeError(`expected an amount of zero or more, got ${outByIn}`);
    if (!step) return [null, "Move it as little as you can."];
    if (travel === null || outByIn === null || outByIn === 0) {
      return [null, `Move it no more than ${turnsText(step)}.`];
    }
    const steps = Math.floor(outByIn / travel / (step[0] / step[1]) + 1e-9);
    if (steps < 1) return [null, `Move it a little, less than ${turnsText(step)}.`];
    return [step, `Move it ${turnsText(step)}, no more.`];
  }

  Object.assign(seaming, {
    addCases,
    compare,
    compute,
    conformanceProbability,
    correct,
    expectedMinutes,
    extremes,
    findAmounts,
    findDirections,
    findDistinctions,
    findExperience,
    findNext,
    findPosterior,
    findQuestions,
    findUnit,
    formulaIsDefined,
    formulaPlain,
    formulaUncertainty,
    formulaValue,
    inchesText,
    isFault,
    holdUnconfirmed,
    isPercent,
    judge,
    lengthText,
    listQuestions,
    listSigns,
    orderChecks,
    parsePercent,
    parseReading,
    percentText,
    pointsNeeded,
    rank,
    readingUncertainty,
    spanText,
    turnsText,
    valueText,
    weigh,
  });
})(/** @type {any} */ (globalThis));
