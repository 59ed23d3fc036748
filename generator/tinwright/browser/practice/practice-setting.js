// @ts-check
// How far off everything stands at each angle: the browser's half of tinwright/practice/setting.py.
// needs: practice-fault.js
// joined: practice.js

(function (root) {
  "use strict";
  const { screws, wandering } = root.tinwrightPracticeFault;
  const angles = 24;
  const stepIn = 0.0025;
  const scatterIn = 0.00015;
  const rocked = 0.5;
  const cosines = [
    1, 0.9659258262890683, 0.8660254037844386, 0.7071067811865476, 0.5, 0.25881904510252074, 0, -0.25881904510252074,
    -0.5, -0.7071067811865476, -0.8660254037844386, -0.9659258262890683, -1, -0.9659258262890683, -0.8660254037844386,
    -0.7071067811865476, -0.5, -0.25881904510252074, 0, 0.25881904510252074, 0.5, 0.7071067811865476,
    0.8660254037844386, 0.9659258262890683,
  ];
  /** @type {Record<string, number[]>} */
  const spreads = {
    all: cosines.map(() => 1),
    tilt: cosines,
    part: cosines.map((cosine) => (cosine >= 0 ? 1 : 0)),
    place: cosines.map((cosine) => (cosine > 0.9 ? 1 : 0)),
  };
  /** @type {TinwrightPracticeSetting["practiceEffects"]} */
  const practiceEffects = {
    "base-plate-out-of-parallel": [["press", 1, "tilt"]],
    "base-pressure-high": [["press", 1, "all"]],
    "base-pressure-low": [["press", -1, "all"]],
    "can-slips": [["slack", 1.5, "part"]],
    "chuck-base-distance-large": [["press", -1, "all"]],
    "chuck-base-distance-small": [["press", 1, "all"]],
    "chuck-broken": [["broken", 8, "place"]],
    "chuck-lip-too-high": [["seat", 1, "all"]],
    "chuck-loose": [
      ["slack", 0.7, "tilt"],
      ["first", 0.5, "tilt"],
    ],
    "chuck-not-seated": [["seat", 0.8, "all"]],
    "chuck-worn": [
      ["slack", 1, "all"],
      ["first", 0.5, "tilt"],
    ],
    "chuck-wrong-size": [
      ["flange", -0.6, "all"],
      ["flange", -0.6, "tilt"],
      ["packed", 0.6, "tilt"],
    ],
    "first-roller-loose": [["first", 1, "all"]],
    "first-roller-tight": [["first", -1, "all"]],
    "first-roller-worn": [["curl", -1, "all"]],
    "flange-bent": [
      ["flange", -1, "place"],
      ["bump", 1, "place"],
    ],
    "flange-mushroomed": [["flange", 1, "all"]],
    "flange-short": [["flange", -1, "all"]],
    "lid-curl-bent": [
      ["curl", -1, "place"],
      ["bump", 1, "place"],
    ],
    "lid-curl-not-formed": [["curl", -1, "all"]],
    "lid-curl-wrinkled": [["wrinkle", 6, "all"]],
    "lid-misplaced": [["curl", 1, "tilt"]],
    "plate-changed": [["packed", 1, "all"]],
    "product-in-seam": [
      ["packed", 1, "place"],
      ["curl", -1, "place"],
      ["bump", 1, "place"],
    ],
    "roller-end-play": [["curl", 0.8, "tilt"]],
    "roller-height-wrong": [["curl", 1, "all"]],
    "second-operation-skipped": [["second", 4, "all"]],
    "second-roller-loose": [["second", 1, "all"]],
    "second-roller-tight": [["second", -1, "all"]],
    "second-roller-worn": [["second", 0.8, "all"]],
    "side-seam-lap-thick": [
      ["packed", 1, "place"],
      ["bump", 1, "place"],
    ],
    "spindle-play": [
      ["slack", 0.7, "tilt"],
      ["curl", 0.6, "tilt"],
    ],
    "too-few-turns": [["second", 1.2, "part"]],
    "two-lids": [["packed", 12, "all"]],
  };
  /** @type {Record<string, ["press" | "first" | "second", number]>} */
  const turns = { "base-pressure": ["press", 1], "first-roller": ["first", -1], "second-roller": ["second", -1] };
  const inPercent = ["wrinkle", "broken"];

  /** @returns {PracticeSetting} */
  const nothingOff = () => ({
    ...{ press: 0, first: 0, second: 0, slack: 0, seat: 0, flange: 0 },
    ...{ curl: 0, packed: 0, bump: 0, wrinkle: 0, broken: 0 },
  });

  /** @param {PracticeFault} fault @param {PracticeChance} chance */
  function placeOf(fault, chance) {
    if (fault.at !== null) return Math.floor((fault.at * angles + 180) / 360) % angles;
    return wandering.includes(fault.kind) ? chance.whole(angles) : 0;
  }

  /**
   * A can held too loosely rocks.
   * @param {PracticeSetting} everywhere
   * @param {Map<PracticeSettingPart, number[]>} here
   */
  function rock(everywhere, here) {
    const loose = -everywhere.press - stepIn;
    if (loose <= 0) return;
    const sizes = here.get("packed") || cosines.map(() => 0);
    here.set(
      "packed",
      sizes.map((found, angle) => found + rocked * loose * cosines[angle]),
    );
  }

  /** @type {TinwrightPracticeSetting["setAround"]} */
  function setAround(faults, turned, chance) {
    const everywhere = nothingOff();
    for (const part of /** @type {const} */ (["press", "first", "second"])) {
      everywhere[part] = (chance.draw() * 2 - 1) * scatterIn;
    }
    for (const screw of screws) {
      const [part, way] = turns[screw];
      everywhere[part] = everywhere[part] + (turned[screw] || 0) * way * stepIn;
    }
    /** @type {Map<PracticeSettingPart, number[]>} */
    const here = new Map();
    for (const fault of faults) {
      const place = placeOf(fault, chance);
      for (const [part, factor, spread] of practiceEffects[fault.kind]) {
        const size = factor * fault.amount * (inPercent.includes(part) ? 1 : stepIn);
        if (spread === "all") everywhere[part] = everywhere[part] + size;
        else {
          const sizes = here.get(part) || cosines.map(() => 0);
          here.set(
            part,
            sizes.map((found, angle) => found + size * spreads[spread][(angle - place + angles) % angles]),
          );
        }
      }
    }
    rock(everywhere, here);
    return cosines.map((_, angle) => {
      const setting = { ...everywhere };
      for (const [part, sizes] of here) setting[part] = everywhere[part] + sizes[angle];
      return setting;
    });
  }

  root.tinwrightPracticeSetting = { angles, stepIn, practiceEffects, setAround };
})(globalThis);
