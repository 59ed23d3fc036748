// @ts-check
// What a careful technician does next, from what is known: the browser's half of tinwright/practice/careful.py.
// needs: practice-fault.js practice-known.js seaming.js
// joined: practice.js

(function (root) {
  "use strict";
  const { practiceRemedies, screws } = root.tinwrightPracticeFault;
  const { findKnown, judgeCan } = root.tinwrightPracticeKnown;
  const { orderChecks, rank } = root.tinwrightSeaming;
  const CHECKS = ["look", "measure", "tear-down"];
  const HANDS_IN = ["gauge", "look-at-part", "turn", "restack", "clean", "refit", "swap"];
  /** @type {Record<string, string>} */
  const LOOK_FIRST = {
    "base-pressure": "base-height",
    "first-roller": "first-roller",
    "second-roller": "second-roller",
  };

  /** @param {string} verb @param {string} [target] @param {number} [amount] @returns {PracticeAction} */
  const act = (verb, target = "", amount = 0) => ({ verb, target, amount });

  /** @type {TinwrightPracticeCareful["nextStep"]} */
  function nextStep(scenario, log, causes) {
    const known = findKnown(scenario, log);
    const action = wanted(scenario, known, causes);
    if (scenario.sealer.drive === "motor") {
      if (known.hasPower && HANDS_IN.includes(action.verb) && action.target !== "operation") return act("unplug");
      if (!known.hasPower && action.verb === "test-can") return act("plug-in");
    }
    return action;
  }

  /** @param {PracticeScenario} scenario @param {PracticeKnown} known @param {CauseProfile[]} causes */
  function wanted(scenario, known, causes) {
    for (let can = 1; can <= scenario.foodBefore; can++) if (!known.decided.has(can)) return act("hold", "", can);
    if (known.found.length) {
      const { verb, target } = practiceRemedies[known.found[0]];
      return act(verb, target);
    }
    if (known.turning) return turned(scenario, known, known.turning);
    if (!known.lastCan) return act("test-can");
    const check = (known.goodCans ? CHECKS.slice(0, 2) : CHECKS).find((each) => !(each in known.checked));
    if (check) return act(check);
    return known.goodCans && known.causes.length ? finished(known) : searched(scenario, known, causes);
  }

  /** @type {TinwrightPracticeCareful["safeStep"]} */
  function safeStep(scenario, screw) {
    const found = scenario.sealer.adjusters.find(({ adjuster }) => adjuster === screw);
    return found ? found.safeStepEighths : 1;
  }

  /** @param {PracticeScenario} scenario @param {PracticeKnown} known @param {string} screw */
  function turned(scenario, known, screw) {
    if (!(screw in known.feels)) return act("gauge", screw);
    const step = safeStep(scenario, screw);
    return act("turn", screw, known.feels[screw] === "loose" ? step : -step);
  }

  /** @param {PracticeKnown} known */
  function finished(known) {
    if (known.goodCans < 2) return act("test-can");
    const undeclared = known.causes.find((cause) => !known.declared.has(cause));
    return undeclared ? act("declare-cause", undeclared) : act("declare-fit");
  }

  /** @param {PracticeScenario} scenario @param {PracticeKnown} known @param {CauseProfile[]} causes */
  function searched(scenario, known, causes) {
    for (const target of targets(scenario, known, causes)) {
      const first = LOOK_FIRST[target];
      if (!screws.includes(target)) {
        if (!known.looked.has(target)) return act("look-at-part", target);
      } else if (!(target in known.feels)) return act("gauge", target);
      else if (!known.looked.has(first)) return act("look-at-part", first);
      else if (known.feels[target] !== "drags") return turned(scenario, known, target);
    }
    return act("give-up");
  }

  /** @param {PracticeScenario} scenario @param {PracticeKnown} known @param {CauseProfile[]} causes */
  function targets(scenario, known, causes) {
    const [, signs] = judgeCan(scenario, known.checked);
    const suspects = causes.filter(({ cause }) => cause in practiceRemedies);
    const checks = rank(suspects, signs).causes.map(({ cause, share }) => {
      const [{ adjuster, minutes }] = suspects.filter((each) => each.cause === cause);
      return { cause, adjuster, minutes, share };
    });
    const named = orderChecks(checks.filter(({ share }) => share > 0)).map(({ cause }) => cause);
    const rest = checks.map(({ cause }) => cause).filter((cause) => !named.includes(cause));
    return [...new Set([...named, ...rest].map((cause) => practiceRemedies[cause].target))];
  }

  root.tinwrightPracticeCareful = { nextStep, safeStep };
})(globalThis);
