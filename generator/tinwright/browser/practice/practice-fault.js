// @ts-check
// What can be wrong on the practice bench, and what puts it right: the browser's half of tinwright/practice/fault.py.
// joined: practice.js

(function (root) {
  "use strict";
  /** @type {Record<string, PracticeRemedy>} */
  const practiceRemedies = {
    "base-pressure-high": { verb: "turn", target: "base-pressure" },
    "base-pressure-low": { verb: "turn", target: "base-pressure" },
    "first-roller-loose": { verb: "turn", target: "first-roller" },
    "first-roller-tight": { verb: "turn", target: "first-roller" },
    "second-roller-loose": { verb: "turn", target: "second-roller" },
    "second-roller-tight": { verb: "turn", target: "second-roller" },
    "chuck-base-distance-large": { verb: "restack", target: "base-height" },
    "chuck-base-distance-small": { verb: "restack", target: "base-height" },
    "base-plate-out-of-parallel": { verb: "clean", target: "base-plate" },
    "can-slips": { verb: "clean", target: "chuck" },
    "chuck-loose": { verb: "refit", target: "chuck" },
    "chuck-not-seated": { verb: "refit", target: "chuck" },
    "chuck-broken": { verb: "swap", target: "chuck" },
    "chuck-lip-too-high": { verb: "swap", target: "chuck" },
    "chuck-worn": { verb: "swap", target: "chuck" },
    "chuck-wrong-size": { verb: "swap", target: "chuck" },
    "spindle-play": { verb: "swap", target: "chuck-shaft" },
    "roller-end-play": { verb: "refit", target: "roller-height" },
    "roller-height-wrong": { verb: "refit", target: "roller-height" },
    "first-roller-worn": { verb: "swap", target: "first-roller" },
    "second-roller-worn": { verb: "swap", target: "second-roller" },
    "flange-bent": { verb: "swap", target: "can-lot" },
    "flange-mushroomed": { verb: "swap", target: "can-lot" },
    "flange-short": { verb: "swap", target: "can-lot" },
    "side-seam-lap-thick": { verb: "swap", target: "can-lot" },
    "lid-curl-bent": { verb: "swap", target: "lid-lot" },
    "lid-curl-not-formed": { verb: "swap", target: "lid-lot" },
    "lid-curl-wrinkled": { verb: "swap", target: "lid-lot" },
    "plate-changed": { verb: "swap", target: "lid-lot" },
    "lid-misplaced": { verb: "redo", target: "operation" },
    "product-in-seam": { verb: "redo", target: "operation" },
    "second-operation-skipped": { verb: "redo", target: "operation" },
    "too-few-turns": { verb: "redo", target: "operation" },
    "two-lids": { verb: "redo", target: "operation" },
  };
  const screws = ["base-pressure", "first-roller", "second-roller"];
  const wandering = [
    ...["can-slips", "chuck-loose", "flange-bent", "lid-curl-bent"],
    ...["lid-misplaced", "product-in-seam", "roller-end-play", "too-few-turns"],
  ];

  root.tinwrightPracticeFault = { practiceRemedies, screws, wandering };
})(globalThis);
