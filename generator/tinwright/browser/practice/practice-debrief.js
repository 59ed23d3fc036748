// @ts-check
// How a round went, line by line of the rubric: the browser's half of tinwright/practice/debrief.py.
// needs: seaming-formulas.js
// joined: practice.js

(function (root) {
  "use strict";
  const { stages } = root.tinwrightSeamingFormulas.constants;
  const rubric = {
    safe: "No hands in the sealer while a motor has power.",
    "can-first": "Look at a can, and hold what was sealed, before anything is changed.",
    order: "Base and chuck before the first roller, the first roller before the second.",
    step: "Never more than one safe step at a time.",
    retest: "A test can after each change, and a look at it.",
    "no-food": "No food before two good test cans, one of them torn down.",
    cause: "Every cause named, and no other.",
    cans: "Every food can that may leak held or thrown away.",
    fit: "The sealer is right when it is declared fit.",
  };
  const must = ["safe", "no-food", "cause", "cans", "fit"];
  const goodCans = 2;
  const changing = ["turn", "restack", "clean", "refit", "swap", "redo"];
  const checking = ["look", "measure", "tear-down"];
  /** @type {Record<string, string>} */
  const parts = { "base-plate": "base-height", "chuck-shaft": "chuck" };

  /** Counts the good test cans since the last change. @param {PracticeRound} bench */
  function countGoodCans(bench) {
    /** @type {Set<number>} */
    const checked = new Set();
    let torn = false;
    let since = 0;
    return {
      areEnough: () => checked.size >= goodCans && torn,
      /** @param {PracticeOutcome} outcome */
      note({ action, can }) {
        if (changing.includes(action.verb)) {
          checked.clear();
          torn = false;
          since = 0;
        } else if (action.verb === "test-can" || action.verb === "first-operation") since = can || 0;
        else if (checking.includes(action.verb) && can === since && bench.cans[since - 1].isGood) {
          checked.add(since);
          torn = torn || action.verb === "tear-down";
        }
      },
    };
  }

  /** @typedef {(line: string, at: number | null) => void} Break */

  /**
   * Follows the changes: what order they are made in, how far, and whether each is tested.
   * @param {PracticeRound} bench
   * @param {Break} broke
   */
  function followChanges(bench, broke) {
    const steps = Object.fromEntries(
      bench.scenario.sealer.adjusters.map((each) => [each.adjuster, each.safeStepEighths]),
    );
    let stage = 0;
    let untested = "";
    return {
      isUntested: () => untested !== "",
      tested: () => {
        untested = "";
      },
      /** @param {PracticeOutcome["action"]} action @param {number} at */
      change({ verb, target, amount }, at) {
        const found = stages[parts[target] || target];
        const now = found === undefined ? stage : found;
        if (now < stage) broke("order", at);
        stage = Math.max(stage, now);
        if (verb === "turn" && Math.abs(amount) > (steps[target] || 1)) broke("step", at);
        if (untested && !(verb === "turn" && untested === target)) broke("retest", at);
        untested = target;
      },
    };
  }

  /** @param {PracticeRound} bench @param {Break} broke */
  function breakOnTheWay(bench, broke) {
    const good = countGoodCans(bench);
    const changes = followChanges(bench, broke);
    /** @type {Set<number>} */
    const held = new Set();
    let [changed, looked] = [false, false];
    bench.log.forEach((outcome, at) => {
      const { action } = outcome;
      if (outcome.caution) broke("safe", at);
      if (outcome.refused || outcome.caution) return;
      good.note(outcome);
      if (checking.includes(action.verb)) {
        looked = true;
        changes.tested();
      } else if (action.verb === "hold" || action.verb === "throw-away") held.add(action.amount);
      else if (action.verb === "seal-food" && !good.areEnough()) broke("no-food", at);
      else if (action.verb === "declare-fit" && changes.isUntested()) broke("retest", at);
      else if (changing.includes(action.verb)) {
        const before = Array.from({ length: bench.scenario.foodBefore }, (_, index) => index + 1);
        if (!changed && !(looked && before.every((number) => held.has(number)))) broke("can-first", at);
        changed = true;
        changes.change(action, at);
      }
    });
  }

  /** @param {PracticeRound} bench @param {Break} broke */
  function breakAtTheEnd(bench, broke) {
    const last = bench.log.length ? bench.log.length - 1 : null;
    const wrong = new Set(bench.scenario.faults.map(({ kind }) => kind));
    const declared = new Set(bench.declared);
    if (declared.size !== wrong.size || [...wrong].some((kind) => !declared.has(kind))) broke("cause", last);
    const isLoose = bench.cans.some((can) => can.isFood && !can.isGood && !["held", "thrown-away"].includes(can.fate));
    if (isLoose) broke("cans", last);
    const ended = last === null ? null : bench.log[last];
    const isDeclared = ended !== null && ended.action.verb === "declare-fit" && !ended.refused;
    if (!isDeclared || !bench.isRepaired) broke("fit", last);
  }

  /** @type {TinwrightPracticeDebrief["debrief"]} */
  function debrief(bench, weights = {}) {
    /** @type {Map<string, number | null>} */
    const broken = new Map();
    /** @type {Break} */
    const broke = (line, at) => {
      if (!broken.has(line)) broken.set(line, at);
    };
    breakOnTheWay(bench, broke);
    breakAtTheEnd(bench, broke);
    let [whole, kept] = [0, 0];
    for (const line of Object.keys(rubric)) {
      const weight = weights[line] === undefined ? 1 : weights[line];
      whole = whole + weight;
      kept = kept + (broken.has(line) ? 0 : weight);
    }
    const judged = Object.keys(rubric).map((line) => {
      const at = broken.get(line);
      return { line, isKept: !broken.has(line), at: at === undefined ? null : at };
    });
    return {
      lines: judged,
      points: whole > 0 ? (100 * kept) / whole : 0,
      hasPassed: !must.some((line) => broken.has(line)),
      causes: bench.scenario.faults.map(({ kind }) => kind),
    };
  }

  root.tinwrightPracticeDebrief = { rubric, debrief };
})(globalThis);
