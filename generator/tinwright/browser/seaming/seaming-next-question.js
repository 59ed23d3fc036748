// @ts-check
// The question worth asking next: the browser's half of tinwright/seaming/next_question.py.
// needs: seaming-formulas.js seaming-values.js seaming-signs.js seaming-causes.js
// joined: seaming.js

(function (root) {
  "use strict";
  const { constants } = root.tinwrightSeamingFormulas;
  const { compareText, get } = root.tinwrightSeamingValues;
  const { listSigns, signsInOrder, weigh, weighUnknown } = root.tinwrightSeamingSigns;
  const { findShares, guessShares, inOrder } = root.tinwrightSeamingCauses;

  /**
   * What can still be asked, the quickest first.
   * @param {CauseProfile[]} causes
   * @param {Signs} signs
   * @returns {Ask[]}
   */
  function listQuestions(causes, signs) {
    const { minutes, answers, gauged, dimensions } = constants;
    /** @type {Ask[]} */
    const asks = [];
    if (!signs.repeats) asks.push({ kind: "repeats", key: "", minutes: minutes.repeats, answers: answers.repeats });
    const listed = new Set(causes.flatMap((cause) => cause.after));
    const changes = [...listed].filter((change) => change !== "nothing").sort(compareText);
    if (!signs.lastChange && changes.length) {
      asks.push({ kind: "last-change", key: "", minutes: minutes["last-change"], answers: changes });
    }
    if (!signs.extent) asks.push({ kind: "extent", key: "", minutes: minutes.extent, answers: answers.extent });
    const known = [...(signs.defects || []), ...(signs.absent || [])];
    const defects = new Set(causes.flatMap((cause) => Object.keys(cause.likelihoods || {})));
    for (const key of [...defects].filter((id) => !known.includes(id)).sort(compareText)) {
      asks.push({ kind: "defect", key, minutes: minutes.defect, answers: answers.defect });
    }
    const moved = new Set(
      causes.flatMap((cause) => [...Object.keys(cause.effects || {}), ...Object.keys(cause.effectLikelihoods || {})]),
    );
    for (const key of dimensions) {
      if (!moved.has(key) || get(signs.directions, key, null) !== null) continue;
      const kind = gauged.includes(key) ? "gauge" : "teardown";
      asks.push({ kind: "direction", key, minutes: minutes[kind], answers: answers.direction });
    }
    return asks.sort((one, other) => one.minutes - other.minutes);
  }

  /**
   * The quickest question with an answer that would put another cause on top; null when there is none.
   * @param {CauseProfile[]} causes
   * @param {Signs} signs
   * @param {Ask[]|null} [asks]
   * @param {Experience|null} [experience]
   * @returns {Ask|null}
   */
  function findNext(causes, signs, asks = null, experience = null) {
    const sorted = inOrder(causes);
    const found = listSigns(signs);
    const top = topOf(findShares(sorted, found, experience));
    const guess = guessShares(sorted, found);
    /** @param {Sign} sign */
    const changes = (sign) => topOf(findShares(sorted, signsInOrder([...found, sign]), experience)) !== top;
    /** @type {Ask|null} */
    let chosen = null;
    let most = 0;
    for (const ask of asks || listQuestions(causes, signs)) {
      if (chosen && ask.minutes > chosen.minutes) continue;
      let chance = 0;
      for (const answer of ask.answers) {
        const kind = ask.kind === "defect" && answer === "not-seen" ? "absent" : ask.kind;
        const sign = { kind, key: ask.key, answer };
        const likelihood = chanceOf(sorted, guess, sign);
        if (likelihood >= constants.worth && changes(sign)) chance = chance + likelihood;
      }
      if (chance > 0 && (!chosen || ask.minutes < chosen.minutes || chance > most)) {
        chosen = ask;
        most = chance;
      }
    }
    return chosen;
  }

  /** @param {CauseProfile[]} sorted @param {number[]} guess @param {Sign} sign */
  function chanceOf(sorted, guess, sign) {
    let total = 0;
    sorted.forEach((cause, place) => {
      total = total + guess[place] * weigh(cause, sign);
    });
    return total + guess[sorted.length] * weighUnknown(sign);
  }

  /** @param {number[]} shares */
  function topOf(shares) {
    const best = Math.max(...shares);
    return shares[shares.length - 1] === best ? shares.length - 1 : shares.indexOf(best);
  }

  root.tinwrightSeamingNextQuestion = { findNext, listQuestions };
})(globalThis);
