// @ts-check
// Comparing with limits, with a guard band: the browser's half of tinwright/seaming/guard.py.
// needs: seaming-formulas.js
// joined: seaming.js

(function (root) {
  "use strict";
  const { constants } = root.tinwrightSeamingFormulas;

  /**
   * The standard uncertainty of an instrument with the rounding of what was written (JCGM 100:2008, 4.3.7, F.2.2.1).
   * @param {number} stated @param {number} step unit of the last place written; 0 when it is not known
   * @returns {number}
   */
  const readingUncertainty = (stated, step) => Math.sqrt(stated * stated + (step * step) / 12);

  /**
   * Compare a value with its limits (JCGM 106:2012): accept, measure-again or reject.
   * @param {number} value @param {number|null} low @param {number|null} high @param {number} uncertainty
   * @returns {string}
   */
  function compare(value, low, high, uncertainty) {
    const guard = constants.guardFactor * uncertainty;
    const close = constants.close;
    if ((low !== null && value < low - guard - close) || (high !== null && value > high + guard + close)) {
      return "reject";
    }
    if ((low !== null && value < low + guard - close) || (high !== null && value > high - guard + close)) {
      return "measure-again";
    }
    return "accept";
  }

  /** The error function, by its series of positive terms. @param {number} x */
  function errorFunction(x) {
    const size = Math.abs(x);
    if (size > 6) return x < 0 ? -1 : 1;
    let term = size;
    let sum = size;
    for (let n = 1; term > sum * 1e-17; n += 1) {
      term = (term * 2 * size * size) / (2 * n + 1);
      sum += term;
    }
    const value = (2 / Math.sqrt(Math.PI)) * Math.exp(-size * size) * sum;
    return x < 0 ? -value : value;
  }

  /** @param {number} z */
  const normal = (z) => 0.5 * (1 + errorFunction(z / Math.SQRT2));

  /**
   * Probability that the true value lies within the limits. Agrees with the Python half to 1e-12, not to the last bit.
   * @param {number} value @param {number|null} low @param {number|null} high @param {number} uncertainty
   * @returns {number}
   */
  function conformanceProbability(value, low, high, uncertainty) {
    if (uncertainty === 0) return compare(value, low, high, 0) === "accept" ? 1 : 0;
    const below = high === null ? 1 : normal((high - value) / uncertainty);
    const above = low === null ? 0 : normal((low - value) / uncertainty);
    return below - above;
  }

  root.tinwrightSeamingGuard = { compare, conformanceProbability, readingUncertainty };
})(globalThis);
