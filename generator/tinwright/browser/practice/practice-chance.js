// @ts-check
// Chance that is the same as in Python: the browser's half of tinwright/practice/chance.py.
// joined: practice.js

(function (root) {
  "use strict";
  /**
   * Numbers in no order that anybody sees, the same for the same seed (Marsaglia 2003).
   * @type {TinwrightPracticeChance["startChance"]}
   */
  function startChance(seed) {
    let state = seed >>> 0;
    function draw() {
      state ^= state << 13;
      state ^= state >>> 17;
      state ^= state << 5;
      return (state >>> 0) / 4294967296;
    }
    return {
      draw,
      whole: (count) => Math.floor(draw() * count),
      error: (uncertainty) => (draw() + draw() + draw() - 1.5) * 2 * uncertainty,
    };
  }

  root.tinwrightPracticeChance = { startChance };
})(globalThis);
