// @ts-check
// The records as the page's data has them, and what leads where: the browser's half of tinwright/advice/profiles.py.
// needs: seaming.js
// joined: bench-advice.js

(function (root) {
  "use strict";
  const data = root.tinwrightData;
  const { constants } = root.tinwrightSeaming;
  // Without a prototype, so that a stored id such as "constructor" is not taken for a record.
  /** @type {Record<string, CauseData>} */
  const causes = Object.create(null);
  for (const cause of data.causes) causes[cause.cause] = cause;
  /** @type {Record<string, DefectData>} */
  const defects = Object.create(null);
  for (const defect of data.defects) defects[defect.id] = defect;

  /** What each defect is, said as dimensions. */
  const measured = Object.fromEntries(data.defects.map((defect) => [defect.id, defect.measured]));

  /** Of a stored list, the defects that exist, each once. @param {any} value @returns {string[]} */
  const knownDefects = (value) =>
    Array.isArray(value) ? [...new Set(value)].filter((id) => typeof id === "string" && id in defects) : [];

  /**
   * The defect that a dimension or computed value out of its limits is; null when no record is about it.
   * @param {string} value
   * @param {string} direction
   */
  function defectOf(value, direction) {
    for (const name of [value, constants.toldAs[value] || value]) {
      const fitting = data.defects.filter(({ outOf }) => outOf.some(([one, way]) => one === name && way === direction));
      fitting.sort((one, other) => one.outOf.length - other.outOf.length);
      if (fitting.length) return fitting[0].id;
    }
    return null;
  }

  /** Whether any record says what to do about a value that is out. @param {string} value @param {string} direction */
  const leadsSomewhere = (value, direction) =>
    defectOf(value, direction) !== null || data.causes.some((cause) => cause.effects[value] === direction);

  root.tinwrightBenchRecords = { causes, data, defectOf, defects, knownDefects, leadsSomewhere, measured };
})(globalThis);
