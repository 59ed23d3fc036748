// @ts-check
// What a careful technician would do next, from what is known at that step and no more.
// needs: practice.js seaming.js
// joined: practice-bench.js

(function (root) {
  "use strict";
  const data = root.tinwrightPracticeData;
  const { practiceRemedies, screws } = root.tinwrightPracticeBench;
  const { orderChecks, rank } = root.tinwrightSeaming;
  const CHANGING = ["turn", "restack", "clean", "refit", "swap", "redo"];
  const CHECKS = ["look", "measure", "tear-down"];

  /** What is out in readings: the limits broken, by dimension. @type {TinwrightPracticeCareful["outOf"]} */
  function outOf(readings, limits) {
    /** @type {Record<string, string>} */
    const out = {};
    for (const { dimension, value } of readings) {
      const limit = (limits.limits || []).find((each) => each.dimension === dimension);
      const low = dimension === "tightness" ? limits.tightnessLow : limit && limit.low;
      const high = limit && limit.high;
      if (low !== null && low !== undefined && value < low) out[dimension] = "smaller";
      if (high !== null && high !== undefined && value > high) out[dimension] = "larger";
    }
    return out;
  }

  /** What is known after some steps. @param {PracticeScenario} scenario @param {PracticeOutcome[]} log */
  function knownFrom(scenario, log) {
    const known = {
      held: new Set(),
      checks: new Set(),
      can: 0,
      good: 0,
      bad: false,
      torn: false,
      defects: new Set(),
      directions: /** @type {Record<string, string>} */ ({}),
      feels: /** @type {Record<string, string>} */ ({}),
      parts: /** @type {Record<string, string[]>} */ ({}),
    };
    for (const outcome of log) if (!outcome.refused) learn(known, outcome, scenario);
    return known;
  }

  /** @param {ReturnType<typeof knownFrom>} known @param {PracticeOutcome} outcome @param {PracticeScenario} scenario */
  function learn(known, { action, can, shown, readings, feel, found }, scenario) {
    const { verb, target, amount } = action;
    if (verb === "hold" || verb === "throw-away") known.held.add(amount);
    if (verb === "test-can") [known.can, known.checks, known.bad] = [can || 0, new Set(), false];
    if (verb === "gauge") known.feels[target] = feel;
    if (verb === "look-at-part") known.parts[target] = found;
    if (CHECKS.includes(verb)) {
      known.checks.add(verb);
      known.torn = known.torn || verb === "tear-down";
      const out = outOf(readings, scenario.can.limits);
      if (shown.length || Object.keys(out).length) known.bad = true;
      for (const { defect } of shown) known.defects.add(defect);
      Object.assign(known.directions, out);
      const whole = CHECKS.every((each) => known.checks.has(each)) || (known.good && known.checks.has("measure"));
      if (whole && !known.bad) known.good += 1;
    }
    if (CHANGING.includes(verb)) {
      [known.can, known.good, known.bad] = [0, 0, false];
      [known.defects, known.directions] = [new Set(), {}];
      delete known.feels[target];
      delete known.parts[target];
    }
  }

  /** @type {TinwrightPracticeCareful["carefulNext"]} */
  function carefulNext(scenario, log) {
    const known = knownFrom(scenario, log);
    const free = Array.from({ length: scenario.foodBefore }, (_, index) => index + 1).find(
      (can) => !known.held.has(can),
    );
    if (free) return { verb: "hold", target: "", amount: free };
    if (!known.can) return { verb: "test-can" };
    const check = CHECKS.find((each) => !known.checks.has(each));
    // Once the hooks are known, what is seen and measured outside says soon enough that a change was not the last.
    const enough = check === "tear-down" && (known.good > 0 || (known.bad && known.torn));
    if (check && !enough) return { verb: check };
    if (known.bad) return nextCheck(scenario, known);
    return known.good < 2 ? { verb: "test-can" } : { verb: "declare-fit" };
  }

  /** @param {PracticeScenario} scenario @param {ReturnType<typeof knownFrom>} known @returns {PracticeAction} */
  function nextCheck(scenario, known) {
    const seen = Object.values(known.parts).find((found) => found.length);
    if (seen) return { verb: practiceRemedies[seen[0]].verb, target: practiceRemedies[seen[0]].target };
    const off = screws.find((screw) => known.feels[screw] && known.feels[screw] !== "drags");
    if (off) {
      const step = stepOf(scenario, off);
      return { verb: "turn", target: off, amount: known.feels[off] === "loose" ? step : -step };
    }
    const signs = { defects: [...known.defects], directions: known.directions };
    const ranked = rank(data.profiles, signs).causes;
    const profile = (/** @type {string} */ cause) => data.profiles.find((each) => each.cause === cause);
    const checks = ranked.flatMap(({ cause, share }) => {
      const found = profile(cause);
      return found ? [{ cause, adjuster: found.adjuster, minutes: found.minutes, share }] : [];
    });
    for (const { cause } of orderChecks(checks.slice(0, 12))) {
      const { verb, target } = practiceRemedies[cause];
      if (verb === "turn") {
        if (known.feels[target] === undefined) return { verb: "gauge", target };
      } else if (known.parts[target] === undefined) return { verb: "look-at-part", target };
    }
    const rest = screws.find((screw) => known.feels[screw] === undefined);
    return rest ? { verb: "gauge", target: rest } : { verb: "give-up" };
  }

  /** @param {PracticeScenario} scenario @param {string} screw */
  function stepOf(scenario, screw) {
    const found = scenario.sealer.adjusters.find((each) => each.adjuster === screw);
    return found ? found.safeStepEighths : 1;
  }

  root.tinwrightPracticeCareful = { carefulNext, outOf, stepOf };
})(globalThis);
