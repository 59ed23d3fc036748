// @ts-check
// What was confirmed before: the browser's half of tinwright/seaming/experience.py.
// needs: seaming-formulas.js seaming-values.js
// joined: seaming.js

(function (root) {
  "use strict";
  const { constants } = root.tinwrightSeamingFormulas;
  const { compareText, get } = root.tinwrightSeamingValues;

  /**
   * Was the cause confirmed behind what this sign tells?
   * @param {Experience} experience @param {string} cause @param {Sign} sign
   */
  const isBehind = (experience, cause, sign) =>
    (sign.kind === "defect" || sign.kind === "direction") &&
    (get(experience.behind, cause, null) || []).includes(sign.key);

  /**
   * What was confirmed behind the defects that the signs tell of; null when that is nothing.
   * @param {Confirmed[]} confirmed @param {Object<string, Object<string, string>>} measured
   * @param {Signs} signs @param {string|null} [sealer]
   * @returns {Experience|null}
   */
  function findExperience(confirmed, measured, signs, sealer = null) {
    /** @type {Cases} */ const own = {};
    /** @type {Cases} */ const others = {};
    /** @type {Object<string, string[]>} */ const behind = {};
    for (const count of confirmed) {
      const parts = Object.entries(get(measured, count.defect, {}));
      if (parts.length) {
        if (parts.some(([dimension, direction]) => get(signs.directions, dimension, null) !== direction)) continue;
      } else if (!(signs.defects || []).includes(count.defect)) continue;
      const keys = parts.length ? parts.map(([dimension]) => dimension).sort(compareText) : [count.defect];
      // Several dimensions tell one defect: its cases count once, with the first of them.
      const rows = count.sealer === sealer ? own : others;
      /** @type {Record<string, number>} */
      const row = get(rows, keys[0], {});
      row[count.cause] = get(row, count.cause, 0) + count.times;
      rows[keys[0]] = row;
      behind[count.cause] = [...new Set([...get(behind, count.cause, []), ...keys])].sort(compareText);
    }
    if (!Object.keys(own).length && !Object.keys(others).length) return null;
    return { own, others, behind };
  }

  /** The mean of the Dirichlet posterior. @param {number[]} shares @param {number[]} counts @returns {number[]} */
  function addCases(shares, counts) {
    let total = 0;
    for (const count of counts) total = total + count;
    const prior = constants.priorCases;
    return shares.map((share, place) => (prior * share + counts[place]) / (prior + total));
  }

  root.tinwrightSeamingExperience = { addCases, findExperience, isBehind };
})(globalThis);
