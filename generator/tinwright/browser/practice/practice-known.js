// @ts-check
// What the learner can know at a step of a round: the browser's half of tinwright/practice/known.py.
// needs: seaming.js
// joined: practice.js

(function (root) {
  "use strict";
  const { findDirections, judge } = root.tinwrightSeaming;
  const CHECKS = ["look", "measure", "tear-down"];
  const CHANGING = ["turn", "restack", "clean", "refit", "swap", "redo"];
  /** @type {Record<string, Record<string, string>>} */
  const CAUSE_OF = {
    "base-pressure": { loose: "base-pressure-low", tight: "base-pressure-high" },
    "first-roller": { loose: "first-roller-loose", tight: "first-roller-tight" },
    "second-roller": { loose: "second-roller-loose", tight: "second-roller-tight" },
  };

  /** @param {PracticeKnown} known @param {string[]} causes */
  function add(known, causes) {
    for (const cause of causes) if (!known.causes.includes(cause)) known.causes.push(cause);
  }

  /** A change was made. @param {PracticeKnown} known @param {PracticeOutcome["action"]} action */
  function noteChange(known, { verb, target, amount }) {
    [known.lastCan, known.goodCans, known.checked] = [0, 0, {}];
    delete known.feels[target];
    known.turning = verb === "turn" ? target : "";
    if (verb !== "turn") known.found = [];
    else if (!known.causes.some((cause) => cause.startsWith(target))) {
      add(known, [CAUSE_OF[target][amount > 0 ? "loose" : "tight"]]);
    }
  }

  /** @param {PracticeKnown} known @param {PracticeOutcome} outcome */
  function note(known, outcome) {
    const { verb, target, amount } = outcome.action;
    if (outcome.refused) return;
    if (CHANGING.includes(verb)) noteChange(known, outcome.action);
    else if (verb === "test-can") [known.lastCan, known.checked] = [outcome.can || 0, {}];
    else if (CHECKS.includes(verb) && outcome.can === known.lastCan) known.checked[verb] = outcome;
    else if (verb === "gauge") {
      known.feels[target] = outcome.feel;
      if (outcome.feel === "drags") known.turning = "";
    } else if (verb === "look-at-part") {
      known.looked.add(target);
      known.found = [...outcome.found];
      add(known, outcome.found);
    } else if (verb === "unplug" || verb === "plug-in") known.hasPower = verb === "plug-in";
    else if (verb === "hold" || verb === "throw-away") known.decided.add(amount);
    else if (verb === "declare-cause") known.declared.add(target);
  }

  /** @type {TinwrightPracticeKnown["findKnown"]} */
  function findKnown(scenario, log) {
    /** @type {PracticeKnown} */
    const known = {
      hasPower: scenario.sealer.drive === "motor",
      decided: new Set(),
      lastCan: 0,
      checked: {},
      goodCans: 0,
      feels: {},
      looked: new Set(),
      found: [],
      turning: "",
      causes: [],
      declared: new Set(),
    };
    for (const outcome of log) {
      note(known, outcome);
      const { verb } = outcome.action;
      const checks = CHECKS.filter((check) => check in known.checked).length;
      const isTorn = "tear-down" in known.checked;
      if (verb === "measure" && checks === 2 && !isTorn) {
        if (known.goodCans > 0 && judgeCan(scenario, known.checked)[0]) known.goodCans += 1;
      } else if (verb === "tear-down" && checks === CHECKS.length) {
        known.goodCans = Math.max(known.goodCans, judgeCan(scenario, known.checked)[0] ? 1 : 0);
      }
    }
    return known;
  }

  /** @type {TinwrightPracticeKnown["judgeReadings"]} */
  function judgeReadings(scenario, readings, shown = []) {
    const { limits } = scenario.can;
    const seam = { method: "micrometer", readings, endPlateIn: limits.endPlateIn, bodyPlateIn: limits.bodyPlateIn };
    const seen = shown.map(({ defect }) => ({ defect, title: defect, disposition: "reject" }));
    return judge(seam, limits, scenario.uncertainties, seen);
  }

  /** @type {TinwrightPracticeKnown["judgeCan"]} */
  function judgeCan(scenario, checked) {
    const outcomes = Object.values(checked);
    const shown = outcomes.map((outcome) => outcome.shown).find((found) => found.length) || [];
    const readings = outcomes.flatMap((outcome) => outcome.readings);
    const directions = findDirections(judgeReadings(scenario, readings, shown));
    const isBad = shown.length > 0 || Object.values(directions).some((direction) => direction !== "normal");
    const degrees = shown.length ? shown[0].degrees : null;
    const extent = degrees === null ? null : degrees === 360 ? "all-round" : degrees <= 60 ? "one-place" : "part-round";
    return [!isBad, { defects: shown.map(({ defect }) => defect), directions, extent }];
  }

  root.tinwrightPracticeKnown = { findKnown, judgeCan, judgeReadings };
})(globalThis);
