// @ts-check
// The verdict on a seam: the browser's half of tinwright/seaming/verdict.py.
// needs: seaming-formulas.js seaming-values.js seaming-wording.js seaming-readings.js seaming-guard.js
// needs: seaming-computed.js seaming-questions.js
// joined: seaming.js

(function (root) {
  "use strict";
  const { constants } = root.tinwrightSeamingFormulas;
  const { get, isMissing, orNull } = root.tinwrightSeamingValues;
  const { spanText, valueText } = root.tinwrightSeamingWording;
  const { extremes, pointsNeeded } = root.tinwrightSeamingReadings;
  const { compare, conformanceProbability, readingUncertainty } = root.tinwrightSeamingGuard;
  const { compute } = root.tinwrightSeamingComputed;
  const { findQuestions } = root.tinwrightSeamingQuestions;

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
    for (const dimension of constants.dimensions) {
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
    reason: `${constants.labels[name]} has a limit but was not measured.`,
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
        `${constants.labels[dimension]} was read at ${found.points} of ${needed} points: ` +
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
      part.reason = `${constants.labels[name]} comes from too few points: read the others before you accept.`;
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
    const label = constants.labels[name];
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
    const probability = Math.min(...values.map(({ value, error }) => conformanceProbability(value, low, high, error)));
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
        .map((part) => constants.labels[part.dimension])
        .join(", ");
      if (unstated) {
        reasons.push(`No error of the instrument is stated for: ${unstated}. Near a limit, be careful.`);
      }
    }
    if (overall === "accept" || overall === "no-limit") reasons.push(EYE_NOTE);
    return { outcome: overall, parts, reasons };
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
      directions[get(constants.toldAs, part.dimension, part.dimension)] = part.way;
      for (const [symbol] of part.inputs) delete directions[constants.dimensionOf[symbol]];
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

  root.tinwrightSeamingVerdict = { findAmounts, findDirections, judge };
})(globalThis);
