// @ts-check
// The seam that a setting makes: the browser's half of tinwright/practice/seam.py, which says why.
// needs: practice-setting.js
// joined: practice.js

(function (root) {
  "use strict";
  const { stepIn } = root.tinwrightPracticeSetting;
  const bend = 1.1415926535897931;
  const [drawnByPress, heldByPress] = [0.6, 1.2];
  const [drawnByFirst, heldByFirst] = [0.6, 1.6];
  const lifted = 0.4;
  const spread = 0.2;
  const healthyTightness = 90;
  const [tightnessPerSecond, tightnessPerFirst] = [4000, 2000];

  /** @param {number} value */
  const notBelowZero = (value) => (value > 0 ? value : 0);

  /** @param {PracticeCan} can @param {string} dimension @returns {number} */
  function aimOf(can, dimension) {
    const limit = (can.limits.limits || []).find((each) => each.dimension === dimension);
    if (!limit || typeof limit.aim !== "number") throw new RangeError(`expected an aim for ${dimension}`);
    return limit.aim;
  }

  /** @param {PracticeSetting} setting */
  function tightnessOf(setting) {
    const second = notBelowZero(setting.second) * tightnessPerSecond;
    const first = notBelowZero(setting.first) * tightnessPerFirst;
    return notBelowZero(healthyTightness - second - first - setting.wrinkle - setting.broken);
  }

  /** @param {number} steps */
  function ridgeOf(steps) {
    if (steps >= 2.5) return "none";
    if (steps >= 1) return "light";
    return steps <= -2 ? "heavy" : "even";
  }

  /** What the sheet says of a healthy seam. @param {PracticeCan} can */
  const healthy = (can) => ({
    countersink: aimOf(can, "countersink"),
    width: aimOf(can, "seam-width"),
    thickness: aimOf(can, "seam-thickness"),
    bodyHook: aimOf(can, "body-hook"),
    coverHook: aimOf(can, "cover-hook"),
    end: can.limits.endPlateIn || 0,
    body: can.limits.bodyPlateIn || 0,
  });

  /** @param {PracticeSetting} setting @param {ReturnType<typeof healthy>} aims @returns {PracticeSection} */
  function shapeSection(setting, aims) {
    const { press, first, second } = setting;
    const countersink = aims.countersink + (press > 0 ? press : press * lifted) + setting.seat;
    const metal = aims.countersink + aims.width + aims.coverHook + setting.curl;
    const coverHook = notBelowZero(metal - countersink - aims.width - bend * first);
    let drawn = press * (press > 0 ? drawnByPress : heldByPress);
    drawn = drawn + first * (first > 0 ? drawnByFirst : heldByFirst) - setting.seat;
    const bodyHook = notBelowZero(aims.bodyHook + setting.flange + drawn);
    const plates = 3 * aims.end + 2 * aims.body;
    const free = aims.thickness - plates + second;
    const thickness = plates + setting.packed + setting.slack + free;
    const width = aims.width + (free < 0 ? -free * spread : 0);
    const overlap = coverHook + bodyHook + aims.end - width;
    const tightness = tightnessOf(setting);
    return { countersink, width, thickness, bodyHook, coverHook, overlap, tightness, ridge: ridgeOf(second / stepIn) };
  }

  /** @type {TinwrightPracticeSeam["makeSeam"]} */
  function makeSeam(settings, can) {
    const aims = healthy(can);
    return { settings, sections: settings.map((setting) => shapeSection(setting, aims)) };
  }

  /** @type {Record<string, Exclude<keyof PracticeSection, "ridge">>} */
  const parts = {
    countersink: "countersink",
    "seam-width": "width",
    "seam-thickness": "thickness",
    "body-hook": "bodyHook",
    "cover-hook": "coverHook",
    overlap: "overlap",
    tightness: "tightness",
  };

  /** @type {TinwrightPracticeSeam["seamAround"]} */
  const seamAround = (seam, dimension) => seam.sections.map((section) => section[parts[dimension]]);

  root.tinwrightPracticeSeam = { makeSeam, seamAround };
})(globalThis);
