// @ts-check
// What the instruments show of a seam: the browser's half of tinwright/practice/reading.py.
// needs: practice-setting.js practice-seam.js
// joined: practice.js

(function (root) {
  "use strict";
  const { angles } = root.tinwrightPracticeSetting;
  const { seamAround } = root.tinwrightPracticeSeam;
  const points = [3, 11, 19];
  const perInch = 1000;

  /** @type {TinwrightPracticeReading["readSeam"]} */
  function readSeam(seam, dimensions, uncertainties, chance, worst) {
    const read = worst === null ? points : [...points, (Math.floor((worst * angles) / 360) + 1) % angles];
    /** @type {PracticeReading[]} */
    const found = [];
    for (const dimension of dimensions) {
      const around = seamAround(seam, dimension);
      if (dimension === "tightness") {
        const value = Math.max(1, Math.floor(Math.min(...around) / 10 + 0.5) * 10);
        found.push({ dimension, point: "1", value, step: 0 });
        continue;
      }
      read.forEach((angle, point) => {
        const shown = around[angle] + chance.error(uncertainties[dimension] || 0);
        const thousandths = Math.max(1, Math.floor(shown * perInch + 0.5));
        found.push({ dimension, point: `${point + 1}`, value: thousandths / perInch, step: 1 / perInch });
      });
    }
    return found;
  }

  root.tinwrightPracticeReading = { readSeam };
})(globalThis);
