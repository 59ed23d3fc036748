// @ts-check
// Limits not read against their paper: the browser's half of tinwright/seaming/confirmed.py.
// joined: seaming.js

(function (root) {
  "use strict";
  /**
   * Hold back acceptance by limits that were not read against the paper they come from, and say so first.
   * @param {SeamVerdict} verdict @param {string} said what is to be said of them; nothing when they were read
   * @returns {SeamVerdict}
   */
  function holdUnconfirmed(verdict, said) {
    if (!said) return verdict;
    const outcome = verdict.outcome === "accept" ? "measure-again" : verdict.outcome;
    return { ...verdict, outcome, reasons: [said, ...verdict.reasons] };
  }

  root.tinwrightSeamingConfirmed = { holdUnconfirmed };
})(globalThis);
