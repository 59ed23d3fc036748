// @ts-check
// Causes, the first check and the correction, as ids and numbers: the browser's half of tinwright/advice/advice.py.
// needs: seaming.js bench-records.js
// joined: bench-advice.js

(function (root) {
  "use strict";
  const seaming = root.tinwrightSeaming;
  const { causes, data, defectOf, defects, measured } = root.tinwrightBenchRecords;

  /**
   * What is measured or ruled out by a defect counts once, as the dimension; a value worked out from several readings
   * counts as the defect that it is. What defects tell both ways is uneven.
   * @type {TinwrightBenchAdvising["signsFrom"]}
   */
  function signsFrom(seen, directions) {
    /** @type {Record<string, string>} */
    const ways = {};
    for (const [name, way] of seen.flatMap((id) => (defects[id] ? Object.entries(measured[id]) : []))) {
      ways[name] = (ways[name] || way) === way ? way : "varies";
    }
    /** @type {Record<string, string>} */
    const read = {};
    const visible = seen.filter((id) => defects[id] && !Object.keys(measured[id]).length);
    for (const [name, way] of Object.entries({ ...ways, ...directions })) {
      if (seaming.constants.dimensions.includes(name)) {
        read[name] = way;
        continue;
      }
      const id = defectOf(name, way);
      if (id !== null && !Object.keys(measured[id]).length) visible.push(id);
    }
    return { defects: [...new Set(visible)], directions: read };
  }

  /** Causes, the first check and the correction. @type {TinwrightBenchAdvising["adviseOnSigns"]} */
  function adviseOnSigns(signs, sealer, outBy = {}) {
    const confirmed = data.seenHere ? data.seenHere.confirmed : [];
    const experience = seaming.findExperience(confirmed, measured, signs, sealer && sealer.id);
    const ranking = seaming.rank(data.causes, signs, experience);
    // What is worked out from readings is no question to somebody who looks.
    const asks = seaming
      .listQuestions(data.causes, signs)
      .filter((ask) => ask.kind !== "defect" || !defects[ask.key].outOf.length);
    const question = seaming.findNext(data.causes, signs, asks, experience);
    const told = seaming.listSigns(signs).some(seaming.isFault);
    if (!ranking.explained) {
      return { ranking, told, shown: [], order: [], question, correction: null, first: null, experience };
    }
    const shown = ranking.causes.filter((ranked) => ranked.word !== "unlikely");
    const first = causes[ranking.causes[0].cause];
    const correction = correctionOf(first, sealer, outBy);
    return { ranking, told, shown, order: orderOf(shown), question, correction, first: first.cause, experience };
  }

  /** Ids of causes in the order in which to check them. @param {Ranked[]} shown */
  function orderOf(shown) {
    const checks = shown.map(({ cause, share }) => {
      const { adjuster, minutes } = causes[cause];
      return { cause, adjuster, minutes, share };
    });
    return seaming.orderChecks(checks).map((check) => check.cause);
  }

  /** @param {CauseData} cause @param {SealerData|null} sealer @param {Record<string, number>} outBy */
  function correctionOf(cause, sealer, outBy) {
    // A rating in percent is no travel of a roller.
    const lengths = Object.keys(cause.effects).filter((dimension) => !seaming.isPercent(dimension));
    const amount = Math.max(0, ...lengths.map((dimension) => outBy[dimension] || 0));
    const screw = (sealer && sealer.screws[cause.adjuster]) || null;
    return seaming.correct(cause.adjuster, cause.direction, screw, amount || null);
  }

  root.tinwrightBenchAdvising = { adviseOnSigns, signsFrom };
})(globalThis);
