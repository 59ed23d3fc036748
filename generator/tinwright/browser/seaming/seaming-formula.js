// @ts-check
// What can be done with a formula: the browser's half of tinwright/seaming/formula.py.
// needs: seaming-formulas.js seaming-values.js
// joined: seaming.js

(function (root) {
  "use strict";
  const { formulas } = root.tinwrightSeamingFormulas;
  const { get } = root.tinwrightSeamingValues;

  /** @param {string} name @param {Object<string, number>} values */
  const ordered = (name, values) => formulas[name].symbols.map((/** @type {string} */ symbol) => values[symbol]);

  /** Compute a formula. @param {string} name @param {Object<string, number>} values @returns {number} */
  const formulaValue = (name, values) => formulas[name].evaluate(...ordered(name, values));

  /** @param {string} name @param {Object<string, number>} values @returns {boolean} */
  const formulaIsDefined = (name, values) => {
    const divisor = formulas[name].divisor;
    return divisor === null || divisor(...ordered(name, values)) > 0;
  };

  /**
   * Combined standard uncertainty, first order, uncorrelated (JCGM 100:2008, 5.1.2).
   * @param {string} name @param {Object<string, number>} values @param {Object<string, number>} uncertainties
   * @returns {number}
   */
  function formulaUncertainty(name, values, uncertainties) {
    const formula = formulas[name];
    const arguments_ = ordered(name, values);
    let total = 0;
    for (const symbol of formula.symbols) {
      const term = formula.partials[symbol](...arguments_) * get(uncertainties, symbol, 0);
      total = total + term * term;
    }
    return Math.sqrt(total);
  }

  /**
   * The right-hand side in one line, with numbers in place of the symbols given.
   * @param {string} name @param {Object<string, string>} [numbers]
   * @returns {string}
   */
  const formulaPlain = (name, numbers = {}) =>
    formulas[name].plain.replace(/[A-Z][A-Za-z]*/g, (/** @type {string} */ symbol) => get(numbers, symbol, symbol));

  root.tinwrightSeamingFormula = { formulaIsDefined, formulaPlain, formulaUncertainty, formulaValue };
})(globalThis);
