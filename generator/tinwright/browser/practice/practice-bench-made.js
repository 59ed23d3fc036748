// @ts-check
// Scenarios to play: those of the records, and endless ones made from a number.
// needs: practice.js
// joined: practice-bench.js

(function (root) {
  "use strict";
  const data = root.tinwrightPracticeData;
  const { practiceRemedies, startChance } = root.tinwrightPracticeBench;
  const MADE = 4;

  /** @param {PracticePlay} play @returns {PracticeScenario} */
  function scenarioOf(play) {
    return {
      scenario: play.id,
      faults: play.faults,
      sealer: data.sealers[play.sealer].plain,
      can: data.cans[play.can].plain,
      minutes: data.minutes,
      uncertainties: data.uncertainties,
      budgetCans: play.cans,
      budgetMinutes: play.minutes,
      foodBefore: play.food,
      grade: play.grade,
      seed: play.seed,
    };
  }

  /**
   * A sealer set wrong by chance, the same for the same grade and number.
   * @param {number} grade @param {number} seed @returns {PracticePlay}
   */
  function makePlay(grade, seed) {
    const chance = startChance(seed);
    const like = data.plays.filter((play) => play.grade === grade);
    const base = like[chance.whole(like.length)];
    // What hides at grade 2 hides at any grade: draw from the causes that the records play at this grade.
    const kinds = [...new Set(like.flatMap((play) => play.faults.map(({ kind }) => kind)))].sort();
    const faults = [{ kind: kinds[chance.whole(kinds.length)], amount: 0, at: null }];
    while (grade === 3 && faults.length < 2) {
      const kind = kinds[chance.whole(kinds.length)];
      if (practiceRemedies[kind].target !== practiceRemedies[faults[0].kind].target) {
        faults.push({ kind, amount: 0, at: null });
      }
    }
    for (const fault of faults) fault.amount = fault.kind === "base-pressure-low" ? 3 : MADE + chance.whole(2);
    const [cans, minutes] = faults.length > 1 ? [16, 420] : [10, 270];
    const title = `Any sealer, number ${seed}`;
    const story = "Nobody tells you anything: a sealer, a can, and a seam that may be wrong.";
    const food = 6 * chance.whole(3);
    return { ...base, id: `made-${grade}-${seed}`, title, story, faults, cans, minutes, food, seed };
  }

  root.tinwrightPracticeMade = { makePlay, scenarioOf };
})(globalThis);
