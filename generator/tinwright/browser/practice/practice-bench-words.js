// @ts-check
// What is done at the practice bench and what comes of it, in words.
// needs: practice.js
// joined: practice-bench.js

(function (root) {
  "use strict";
  const data = root.tinwrightPracticeData;
  /** @type {Record<string, string>} */
  const SCREWS = {
    "base-pressure": "base pressure",
    "first-roller": "first roller",
    "second-roller": "second roller",
  };
  /** What can be looked at, and what there is to say of it. @type {Record<string, string>} */
  const PARTS = {
    "can-lot": "the empty cans and their flange",
    "lid-lot": "the lids and their curl",
    operation: "how the can is sealed",
    chuck: "the chuck",
    "chuck-shaft": "the chuck shaft",
    "base-plate": "the base plate",
    "base-height": "the spacers",
    "roller-height": "the height of the rollers",
    "first-roller": "the groove of the first roller",
    "second-roller": "the groove of the second roller",
  };
  /** @type {[string, string, string][]} */
  const CHANGES = [
    ["swap", "can-lot", "Take cans from another box"],
    ["swap", "lid-lot", "Take lids from another sleeve"],
    ["redo", "operation", "Wipe the rim, one lid, and seal slowly by the steps"],
    ["clean", "chuck", "Clean the chuck"],
    ["refit", "chuck", "Seat the chuck again"],
    ["swap", "chuck", "Put in another chuck"],
    ["swap", "chuck-shaft", "Put in another chuck shaft"],
    ["clean", "base-plate", "Clean the base plate and its seat"],
    ["restack", "base-height", "Put in the spacers of the set-up sheet"],
    ["refit", "roller-height", "Set the height of the rollers again"],
    ["swap", "first-roller", "Put in another first roller"],
    ["swap", "second-roller", "Put in another second roller"],
  ];
  /** @type {Record<string, string>} */
  const FEELS = {
    "first-roller/loose": "loose. The first roller stands too far from the chuck",
    "first-roller/tight": "tight. The first roller stands too near the chuck",
    "second-roller/loose": "loose. The second roller stands too far from the chuck",
    "second-roller/tight": "tight. The second roller stands too near the chuck",
    "base-pressure/loose": "The clamped can turns easily by hand: too little pressure",
    "base-pressure/tight": "The clamped can does not move, and the lever is hard to bring up: too much pressure",
    "base-pressure/drags": "The clamped can is held firmly, and the lever goes up as it should",
  };
  /** @type {Record<string, string>} */
  const REFUSED = {
    "no-can": "There is no whole can to look at. Seal one first.",
    "no-budget": "Your cans or minutes are used up. Decide now.",
    unplugged: "The sealer has no power. Plug it in to seal.",
    finished: "This round is over.",
    unknown: "That cannot be done here.",
  };
  /** @type {Record<string, string>} */
  const DIMENSIONS = {
    countersink: "Countersink depth",
    "seam-width": "Seam width",
    "seam-thickness": "Seam thickness",
    "body-hook": "Body hook",
    "cover-hook": "Cover hook",
    tightness: "Tightness",
  };

  /** @param {string} text */
  const upper = (text) => text.charAt(0).toUpperCase() + text.slice(1);
  /** @param {number} eighths */
  function turns(eighths) {
    for (const parts of [1, 2, 4]) {
      if ((eighths * parts) % 8 === 0) return parts === 1 ? `${eighths / 8}` : `${(eighths * parts) / 8}/${parts}`;
    }
    return `${eighths}/8`;
  }

  /** What was done. @param {{verb: string, target?: string, amount?: number}} action */
  function sayAction({ verb, target = "", amount = 0 }) {
    const change = CHANGES.find(([each, what]) => each === verb && what === target);
    if (change) return change[2];
    if (verb === "turn") {
      return `${amount > 0 ? "Tighten" : "Loosen"} the ${SCREWS[target]} by ${turns(Math.abs(amount))} turn`;
    }
    if (verb === "gauge") {
      return target === "base-pressure" ? "Try to turn the clamped can" : `Try the gauge of the ${SCREWS[target]}`;
    }
    if (verb === "look-at-part") return `Look at ${PARTS[target] || target}`;
    if (verb === "hold") return `Hold can ${amount}`;
    if (verb === "seal-food") return `Seal ${amount} cans of food`;
    if (verb === "declare-cause") return `Name the cause: ${titleOf(target)}`;
    return DONE[verb] || verb;
  }
  /** @type {Record<string, string>} */
  const DONE = {
    "test-can": "Seal a test can",
    "first-operation": "Run the first operation only",
    look: "Look at the can and feel the seam",
    measure: "Measure the seam from outside",
    "tear-down": "Tear the can down and measure the hooks",
    unplug: "Unplug the sealer",
    "plug-in": "Plug the sealer in",
    "declare-fit": "Declare the sealer fit",
    "give-up": "Give up",
  };

  /** @param {string} cause */
  const titleOf = (cause) => (data.causes[cause] ? data.causes[cause].title : cause.replace(/-/g, " "));
  /** @param {string} defect */
  const defectTitle = (defect) => (data.defects[defect] ? data.defects[defect].title : defect.replace(/-/g, " "));

  /** Where on the can, and how far. @param {PracticeShown} shown @param {number} aroundMm */
  function sayWhere({ at, degrees }, aroundMm) {
    if (degrees >= 360) return "all the way around";
    const places = ["at the side seam", "a quarter around from the side seam", "across from the side seam"];
    places.push("three quarters around from the side seam");
    const middle = Math.floor(((at + degrees / 2 + 45) % 360) / 90);
    return `for about ${Math.round((degrees / 360) * aroundMm)} mm, ${places[middle]}`;
  }

  /** @param {PracticeOutcome} outcome @param {number} aroundMm @returns {string} */
  function sayOutcome(outcome, aroundMm) {
    const { action, refused, shown, feel, found, can } = outcome;
    if (refused) return REFUSED[refused] || REFUSED.unknown;
    if (outcome.caution) return "Stop. Your hands were in the sealer while it had power. The round is over.";
    if (action.verb === "gauge" || (action.verb === "first-operation" && feel)) return sayFeel(outcome);
    if (action.verb === "look-at-part") {
      if (!found.length) return `Nothing wrong with ${PARTS[action.target]}.`;
      return `Found: ${found.map(titleOf).join("; ")}.`;
    }
    if (["look", "measure", "tear-down"].includes(action.verb)) {
      const seen = shown.map((each) => `${defectTitle(each.defect)}, ${sayWhere(each, aroundMm)}`);
      const what = seen.length ? `${seen.join(". ")}.` : "Nothing wrong to see or feel.";
      return `Can ${can}. ${action.verb === "look" ? what : sayReadings(outcome)}`;
    }
    if (action.verb === "test-can") return `Can ${can} is sealed. Look at it, measure it, tear it down.`;
    if (action.verb === "turn" || CHANGES.some(([verb]) => verb === action.verb)) {
      return "Done. A test can will show what it did.";
    }
    return "Done.";
  }

  /** @param {PracticeOutcome} outcome */
  function sayFeel({ action, feel }) {
    if (action.verb === "first-operation") return `The first operation ${FIRST[feel]}.`;
    const said = FEELS[`${action.target}/${feel}`];
    if (action.target === "base-pressure") return `${said}.`;
    return `The gauge is ${said || "right: it drags as it should"}.`;
  }
  /** @type {Record<string, string>} */
  const FIRST = {
    drags: "looks like the sample",
    loose: "is loose: the curl is not turned in",
    tight: "is tight: the curl is pressed flat",
  };

  /** @param {PracticeOutcome} outcome */
  function sayReadings({ readings }) {
    /** @type {Map<string, string[]>} */
    const told = new Map();
    for (const { dimension, value } of readings) {
      const text = dimension === "tightness" ? `${value}%` : value.toFixed(3);
      told.set(dimension, [...(told.get(dimension) || []), text]);
    }
    const unit = (/** @type {string} */ name) => (name === "tightness" ? "" : " in");
    return `${[...told].map(([name, values]) => `${DIMENSIONS[name]} ${values.join(", ")}${unit(name)}`).join("; ")}.`;
  }

  root.tinwrightPracticeWords = {
    CHANGES,
    DIMENSIONS,
    PARTS,
    SCREWS,
    defectTitle,
    sayAction,
    sayOutcome,
    sayWhere,
    titleOf,
    turns,
    upper,
  };
})(globalThis);
