// @ts-check
// How numbers and dimensions are put in words: the browser's half of tinwright/seaming/wording.py.
// needs: seaming-formulas.js
// joined: seaming.js

(function (root) {
  "use strict";
  const { constants } = root.tinwrightSeamingFormulas;

  /** @param {number} value @param {number} places @param {number} least */
  function decimal(value, places, least) {
    const scale = 10 ** places;
    const units = Math.floor(Math.abs(value) * scale + 0.5);
    const sign = value < 0 && units ? "-" : "";
    let digits = String(units % scale).padStart(places, "0");
    while (digits.length > least && digits.endsWith("0")) digits = digits.slice(0, -1);
    const whole = Math.floor(units / scale);
    return digits ? `${sign}${whole}.${digits}` : `${sign}${whole}`;
  }

  /** @param {number} value */
  const inchesText = (value) => `${decimal(value, 4, 3)} in`;

  /** A length in the unit of the readings. @param {number} value @param {string} [unit] `in` or `mm` */
  const lengthText = (value, unit = "in") => (unit === "mm" ? `${decimal(value * 25.4, 3, 2)} mm` : inchesText(value));

  /** @param {number} value */
  const percentText = (value) => `${decimal(value, 1, 0)}%`;

  /** @param {string} dimension */
  const isPercent = (dimension) => constants.percents.includes(dimension);

  /** @param {string} dimension @param {number} value @param {string} [unit] */
  const valueText = (dimension, value, unit = "in") =>
    isPercent(dimension) ? percentText(value) : lengthText(value, unit);

  /** @param {string} dimension @param {number} least @param {number} greatest @param {string} [unit] */
  function spanText(dimension, least, greatest, unit = "in") {
    const low = valueText(dimension, least, unit);
    const high = valueText(dimension, greatest, unit);
    return low === high ? low : `${low.replace(/ in$| mm$|%$/, "")} to ${high}`;
  }

  root.tinwrightSeamingWording = { inchesText, isPercent, lengthText, percentText, spanText, valueText };
})(globalThis);
