// @ts-check
// A round at the practice bench: the browser's half of tinwright/practice/round.py.
// needs: practice-chance.js practice-fault.js practice-setting.js practice-seam.js practice-showing.js
// needs: practice-reading.js
// joined: practice.js

(function (root) {
  "use strict";
  const { startChance } = root.tinwrightPracticeChance;
  const { practiceRemedies, screws } = root.tinwrightPracticeFault;
  const { practiceEffects, setAround } = root.tinwrightPracticeSetting;
  const { makeSeam, seamAround } = root.tinwrightPracticeSeam;
  const { findShown } = root.tinwrightPracticeShowing;
  const { readSeam } = root.tinwrightPracticeReading;

  const verbs = [
    ...["test-can", "first-operation", "look", "measure", "tear-down", "gauge", "look-at-part"],
    ...["turn", "restack", "clean", "refit", "swap", "redo", "unplug", "plug-in"],
    ...["seal-food", "hold", "throw-away", "let-go", "declare-cause", "declare-fit", "give-up"],
  ];
  const making = ["test-can", "first-operation", "seal-food"];
  /** @type {Record<string, string[]>} */
  const reading = {
    look: [],
    measure: ["countersink", "seam-width", "seam-thickness"],
    "tear-down": ["body-hook", "cover-hook", "tightness"],
  };
  const changing = ["restack", "clean", "refit", "swap", "redo"];
  const handsIn = ["gauge", "look-at-part", "turn", "restack", "clean", "refit", "swap"];
  /** @type {Record<string, string>} */
  const fates = { hold: "held", "throw-away": "thrown-away", "let-go": "let-go" };
  const free = [...Object.keys(fates), "declare-cause", "declare-fit", "give-up", "unplug", "plug-in"];
  /** @type {Record<string, PracticeSettingPart>} */
  const gauged = { "base-pressure": "press", "first-roller": "first", "second-roller": "second" };
  const operation = "operation";

  /** @type {TinwrightPracticeRound["isWithin"]} */
  function isWithin(seam, can) {
    if (findShown(seam.settings).length) return false;
    for (const limit of can.limits.limits || []) {
      const values = seamAround(seam, limit.dimension);
      if (typeof limit.low === "number" && Math.min(...values) < limit.low) return false;
      if (typeof limit.high === "number" && Math.max(...values) > limit.high) return false;
    }
    const low = can.limits.tightnessLow;
    return typeof low !== "number" || Math.min(...seamAround(seam, "tightness")) >= low;
  }

  /** By how many steps what a screw sets is off. @param {PracticeState} state @param {string} screw */
  function offBy(state, screw) {
    let off = screw === "base-pressure" ? state.turned[screw] : -state.turned[screw];
    for (const fault of state.faults) {
      if (practiceRemedies[fault.kind].target === operation) continue;
      for (const [part, factor, spread] of practiceEffects[fault.kind]) {
        if (part === gauged[screw] && spread === "all") off = off + factor * fault.amount;
      }
    }
    return off;
  }

  /** @param {PracticeState} state @param {string} screw */
  function feelOf(state, screw) {
    const off = screw === "base-pressure" ? -offBy(state, screw) : offBy(state, screw);
    if (off >= 1) return "loose";
    return off <= -1 ? "tight" : "drags";
  }

  /** @param {PracticeState} state */
  const isRepaired = (state) =>
    state.faults.every((fault) => practiceRemedies[fault.kind].verb === "turn") &&
    screws.every((screw) => Math.abs(offBy(state, screw)) <= 1);

  /**
   * @typedef {{
   *   scenario: PracticeScenario, log: PracticeOutcome[], cans: PracticeBenchedCan[], declared: string[],
   *   minutes: number, cansSpent: number, faults: PracticeFault[], turned: Record<string, number>,
   *   hasPower: boolean, isFinished: boolean, chance: PracticeChance,
   * }} PracticeState
   * @typedef {PracticeOutcome["action"]} Given
   */

  /** @param {PracticeState} state @param {boolean} isFood @param {boolean} isFinished */
  function make(state, isFood, isFinished) {
    const { can } = state.scenario;
    const seam = makeSeam(setAround(state.faults, state.turned, state.chance), can);
    const isGood = isFinished && isWithin(seam, can);
    state.cans.push({ number: state.cans.length + 1, seam, isGood, isFood, isFinished, isTorn: false, fate: "" });
  }

  /** @param {PracticeState} state @param {Given} action */
  function isKnown(state, { verb, target, amount }) {
    if (verb === "turn") return screws.includes(target) && amount !== 0;
    if (verb === "gauge") return target in gauged;
    if (verb in fates) return amount >= 1 && amount <= state.cans.length;
    if (verb === "seal-food") return amount >= 1 && amount <= 100;
    return verb !== "declare-cause" || target in practiceRemedies;
  }

  /** @param {PracticeState} state @param {Given} action */
  function refusal(state, action) {
    const { scenario } = state;
    const { verb } = action;
    if (state.isFinished) return "finished";
    if (!free.includes(verb) && state.minutes >= scenario.budgetMinutes) return "no-budget";
    if (making.includes(verb)) {
      if (verb !== "seal-food" && state.cansSpent >= scenario.budgetCans) return "no-budget";
      if (scenario.sealer.drive === "motor" && !state.hasPower) return "unplugged";
    }
    const last = state.cans[state.cans.length - 1];
    if (verb in reading && (!last || last.isTorn)) return "no-can";
    return isKnown(state, action) ? "" : "unknown";
  }

  /** @param {PracticeState} state @param {Given} action @returns {Partial<PracticeOutcome>} */
  function read(state, { verb }) {
    const can = state.cans[state.cans.length - 1];
    const shown = can.isFinished ? findShown(can.seam.settings) : [];
    if (verb === "tear-down") can.isTorn = true;
    const at = shown.length && shown[0].degrees < 360 ? shown[0].at : null;
    const readings = readSeam(can.seam, reading[verb], state.scenario.uncertainties, state.chance, at);
    return { can: can.number, readings, shown };
  }

  /** @param {PracticeState} state @param {Given} action @returns {Partial<PracticeOutcome>} */
  function seal(state, { verb, amount }) {
    if (verb === "seal-food") {
      for (let count = 0; count < amount; count += 1) make(state, true, true);
      return { can: state.cans.length };
    }
    make(state, false, verb === "test-can");
    state.cansSpent += 1;
    return { cans: 1, can: state.cans.length, feel: verb === "test-can" ? "" : feelOf(state, "first-roller") };
  }

  /** @param {PracticeState} state @param {Given} action */
  function decide(state, { verb, target }) {
    if (verb === "unplug" || verb === "plug-in") {
      state.hasPower = verb === "plug-in" && state.scenario.sealer.drive === "motor";
    } else if (verb === "declare-cause") state.declared.push(target);
    else state.isFinished = true;
  }

  /** @param {PracticeState} state @param {string} target */
  const lookAt = (state, target) =>
    [...new Set(state.faults.map((fault) => fault.kind))]
      .filter((kind) => practiceRemedies[kind].target === target && practiceRemedies[kind].verb !== "turn")
      .sort();

  /** @param {PracticeState} state @param {Given} action @returns {Partial<PracticeOutcome>} */
  function done(state, action) {
    const { verb, target, amount } = action;
    if (verb in reading) return read(state, action);
    if (making.includes(verb)) return seal(state, action);
    if (verb === "gauge") return { feel: feelOf(state, target) };
    if (verb === "look-at-part") return { found: lookAt(state, target) };
    if (verb in fates) {
      state.cans[amount - 1].fate = fates[verb];
      return { can: amount };
    }
    if (verb === "turn") state.turned[target] += amount;
    else if (changing.includes(verb)) {
      state.faults = state.faults.filter(({ kind }) => {
        const remedy = practiceRemedies[kind];
        return remedy.verb !== verb || remedy.target !== target;
      });
    } else decide(state, action);
    return {};
  }

  /** @param {PracticeState} state @param {PracticeAction} asked @returns {PracticeOutcome} */
  function act(state, asked) {
    const action = { verb: asked.verb, target: asked.target || "", amount: asked.amount || 0 };
    if (!verbs.includes(action.verb)) throw new RangeError(`expected one of ${verbs.join(", ")}, got ${action.verb}`);
    const nothing = { minutes: 0, cans: 0, can: null, readings: [], shown: [], feel: "", found: [] };
    const refused = refusal(state, action);
    if (refused) return { ...nothing, action, caution: "", refused };
    if (state.hasPower && handsIn.includes(action.verb) && action.target !== operation) {
      state.isFinished = true;
      return { ...nothing, action, caution: "motor-start", refused: "" };
    }
    const stated = state.scenario.minutes[action.verb];
    const minutes = stated === undefined ? (free.includes(action.verb) ? 0 : 1) : stated;
    state.minutes = state.minutes + minutes;
    return { ...nothing, action, caution: "", refused: "", ...done(state, action), minutes };
  }

  /** @type {TinwrightPracticeRound["startRound"]} */
  function startRound(scenario) {
    /** @type {PracticeState} */
    const state = {
      ...{ scenario, log: [], cans: [], declared: [], minutes: 0, cansSpent: 0, faults: scenario.faults },
      turned: Object.fromEntries(screws.map((screw) => [screw, 0])),
      ...{ hasPower: scenario.sealer.drive === "motor", isFinished: false, chance: startChance(scenario.seed) },
    };
    for (let count = 0; count < scenario.foodBefore; count += 1) make(state, true, true);
    return Object.defineProperties(
      /** @type {PracticeRound} */ ({
        do(action) {
          const outcome = act(state, action);
          state.log.push(outcome);
          return outcome;
        },
      }),
      {
        ...Object.fromEntries(
          Object.keys(state).map((name) => [name, { get: () => state[/** @type {keyof PracticeState} */ (name)] }]),
        ),
        isRepaired: { get: () => isRepaired(state) },
      },
    );
  }

  root.tinwrightPracticeRound = { startRound, isWithin };
})(globalThis);
