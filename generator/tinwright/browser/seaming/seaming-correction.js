// @ts-check
// How far to turn, and what follows: the browser's half of tinwright/seaming/correction.py.
// needs: seaming-formulas.js seaming-sentences.js seaming-values.js
// joined: seaming.js

(function (root) {
  "use strict";
  const { constants } = root.tinwrightSeamingFormulas;
  const { sentence } = root.tinwrightSeamingSentences;
  const { orNull } = root.tinwrightSeamingValues;

  /** Write a part of a turn. @param {[number, number]} turns @returns {string} */
  function turnsText([top, bottom]) {
    const amount = bottom === 1 ? String(top) : `${top}/${bottom}`;
    return top / bottom <= 1 ? `${amount} turn` : `${amount} turns`;
  }

  /**
   * Say how far and in what order to correct a cause: turns only where the sealer's record supports them.
   * @param {string} adjuster @param {string} direction @param {Screw|null} [screw] @param {number|null} [outByIn]
   * @returns {CorrectionAdvice}
   */
  function correct(adjuster, direction, screw = null, outByIn = null) {
    const isNearer = direction === "tighten" || direction === "raise";
    const isFarther = direction === "loosen" || direction === "lower";
    const isTurned = constants.setInSteps.includes(adjuster) && (isNearer || isFarther);
    /** @type {[[number, number]|null, string]} */
    let taken = [null, isTurned ? sentence("move-least") : ""];
    let how = null;
    if (isTurned && screw) {
      how = orNull(isNearer ? screw.tighten : screw.loosen);
      taken = amountOf(screw, outByIn);
    }
    const notes = isTurned ? [sentence("lock")] : [];
    if (adjuster === "first-roller") notes.push(sentence("second-cannot-mend"), sentence("check-after-first"));
    else if (["chuck", "base-height", "base-pressure", "roller-height"].includes(adjuster)) {
      notes.push(sentence("all-after"));
    }
    return { adjuster, direction, how, turns: taken[0], amount: taken[1], notes, retest: sentence("retest") };
  }

  /** @param {Screw} screw @param {number|null} outByIn @returns {[[number, number]|null, string]} */
  function amountOf(screw, outByIn) {
    const travel = orNull(screw.travelPerTurnIn);
    const step = screw.safeStep || null;
    if ((travel !== null && travel <= 0) || (step && step[0] <= 0)) {
      throw new RangeError("expected travel and safe step above zero");
    }
    if (outByIn !== null && outByIn < 0) throw new RangeError(`expected an amount of zero or more, got ${outByIn}`);
    if (!step) return [null, sentence("move-least")];
    if (travel === null || outByIn === null || outByIn === 0) {
      return [null, sentence("move-at-most", { turns: turnsText(step) })];
    }
    const steps = Math.floor(outByIn / travel / (step[0] / step[1]) + 1e-9);
    if (steps < 1) return [null, sentence("move-less", { turns: turnsText(step) })];
    return [step, sentence("move", { turns: turnsText(step) })];
  }

  root.tinwrightSeamingCorrection = { correct, turnsText };
})(globalThis);
