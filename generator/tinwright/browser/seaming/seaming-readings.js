// @ts-check
// Measurements as people write them: the browser's half of tinwright/seaming/readings.py.
// needs: seaming-formulas.js seaming-values.js
// joined: seaming.js

(function (root) {
  "use strict";
  const { constants } = root.tinwrightSeamingFormulas;
  const { get } = root.tinwrightSeamingValues;

  const DIGITS = 9;

  const BLANK = "[ \\t\\r\\n\u00a0]";

  const WRITTEN = new RegExp(
    `^${BLANK}*(?:(?<whole>[0-9]+)(?:${BLANK}+|-)(?<top>[0-9]+)/(?<bottom>[0-9]+)|(?<top2>[0-9]+)/(?<bottom2>[0-9]+)` +
      `|(?<units>[0-9]*)(?<part>[.][0-9]*)?)${BLANK}*(?<unit>[A-Za-z"″%]*)[.]?${BLANK}*$`,
  );

  const UNREADABLE = "This cannot be read as a measurement. Write it like .055, 55 thou or 1.40 mm.";

  /**
   * The number written as a quotient of whole numbers, which divide without loss of a digit; null when there is none.
   * @param {Object<string, string|undefined>} match
   * @returns {[number, number]|null}
   */
  function numberOf(match) {
    if (match.units === undefined) {
      const whole = match.whole || "0";
      const top = match.top || match.top2 || "";
      const bottom = match.bottom || match.bottom2 || "";
      if ((whole + top + bottom).length > DIGITS || Number(bottom) === 0) return null;
      return [Number(whole) * Number(bottom) + Number(top), Number(bottom)];
    }
    const part = (match.part || "").slice(1);
    const digits = match.units + part;
    if (!digits || digits.length > DIGITS) return null;
    return [Number(digits), 10 ** part.length];
  }

  /**
   * @param {string} text @param {number|null} value @param {string} [question] @param {number|null} [suggestion]
   * @param {number|null} [step] @param {string} [unit]
   */
  const entry = (text, value, question = "", suggestion = null, step = null, unit = "") => ({
    text,
    value,
    question,
    suggestion,
    step,
    unit,
  });

  /** @param {[number, number]} number @param {string} unit */
  function scaled([top, bottom], unit) {
    if (unit === "mm") return (top * 5) / (bottom * 127);
    return unit === "thou" ? top / (bottom * 1000) : top / bottom;
  }

  /**
   * The unit of the last place written: a hundredth for .08, a sixty-fourth for 5/64.
   * @param {Object<string, string|undefined>} match
   * @returns {[number, number]}
   */
  function stepOf(match) {
    if (match.units === undefined) return [1, Number(match.bottom || match.bottom2)];
    return [1, 10 ** (match.part || "").slice(1).length];
  }

  /**
   * The unit that most readings were written in; the sheet's own when there are as many of both.
   * @param {string[]} written @param {string} sheet
   * @returns {string}
   */
  function findUnit(written, sheet) {
    const inches = written.filter((unit) => unit === "in").length;
    const millimeters = written.filter((unit) => unit === "mm").length;
    if (inches === millimeters) return sheet;
    return inches > millimeters ? "in" : "mm";
  }

  /**
   * Read a length as people write it, in inches.
   * @param {string} text @param {string} [unit] `in` or `mm`: the unit of the sheet
   * @returns {Entry}
   */
  function parseReading(text, unit = "in") {
    if (text.split(",").length === 2) {
      const inner = parseReading(text.replace(",", "."), unit);
      if (inner.value !== null) return entry(text, null, "Is the comma a decimal point? Write a point.", inner.value);
    }
    const match = (WRITTEN.exec(text) || { groups: null }).groups;
    const number = match ? numberOf(match) : null;
    if (!match || !number) return entry(text, null, UNREADABLE);
    const word = match.unit.toLowerCase();
    const known = get(constants.units, word, null);
    if (word && !known) return entry(text, null, UNREADABLE);
    if (number[0] === 0) {
      return entry(text, null, "Is this zero? Leave the box empty when it was not measured.");
    }
    if (!word && match.units !== undefined && !match.part) return bareWhole(text, number[0], unit);
    const own = known || unit;
    return entry(text, scaled(number, own), "", null, scaled(stepOf(match), own), own === "mm" ? "mm" : "in");
  }

  /** @param {string} text @param {number} number @param {string} unit @returns {Entry} */
  function bareWhole(text, number, unit) {
    const thou = String(number).padStart(3, "0");
    if (unit === "in" && thou.length === 3) {
      return entry(text, null, `Is this ${number} thousandths of an inch (.${thou})?`, number / 1000);
    }
    if (unit === "in") return entry(text, null, "This is far too much for a seam. Which unit is it in?");
    if (number >= 20) {
      const question = `Is this ${number} thousandths of an inch, or is a decimal point missing?`;
      return entry(text, null, question, number / 1000);
    }
    return entry(text, scaled([number, 1], "mm"), "", null, scaled([1, 1], "mm"), "mm");
  }

  /** Read a rating in percent. @param {string} text @returns {Entry} */
  function parsePercent(text) {
    const match = (WRITTEN.exec(text) || { groups: null }).groups;
    const number = match ? numberOf(match) : null;
    if (!match || !number || !["", "%"].includes(match.unit) || match.units === undefined) {
      return entry(text, null, "This cannot be read as a rating. Write a number from 0 to 100.");
    }
    const value = number[0] / number[1];
    if (value > 100) return entry(text, null, "A rating goes from 0 to 100. Is there a digit too many?");
    if (value > 0 && value <= 1) {
      const question = "Is this a part of one? Write it in percent, from 0 to 100.";
      return entry(text, null, question, (number[0] * 100) / number[1]);
    }
    return entry(text, value);
  }

  /**
   * Least and greatest reading of a dimension; there is no average on purpose.
   * @param {SeamReadings} seam @param {string} dimension
   * @returns {Extremes|null}
   */
  function extremes(seam, dimension) {
    const found = seam.readings.filter((reading) => reading.dimension === dimension);
    if (!found.length) return null;
    let least = found[0];
    let greatest = found[0];
    for (const reading of found) {
      if (reading.value < least.value) least = reading;
      if (reading.value > greatest.value) greatest = reading;
    }
    /** @param {(reading: Reading) => boolean} isMeant */
    const coarsest = (isMeant) => Math.max(...found.filter(isMeant).map((reading) => reading.step || 0));
    return {
      least: least.value,
      greatest: greatest.value,
      leastAt: least.point,
      greatestAt: greatest.point,
      points: new Set(found.map((reading) => reading.point)).size,
      leastStep: coarsest((reading) => reading.value === least.value),
      greatestStep: coarsest((reading) => reading.value === greatest.value),
      coarsestStep: coarsest(() => true),
    };
  }

  /** @param {SeamReadings} seam @param {string} dimension @returns {number} */
  const pointsNeeded = (seam, dimension) => (dimension === "tightness" ? 1 : constants.pointsNeeded[seam.method]);

  root.tinwrightSeamingReadings = { extremes, findUnit, parsePercent, parseReading, pointsNeeded };
})(globalThis);
