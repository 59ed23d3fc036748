// @ts-check
// The browser's half of tinwright.benchlog: what an event says, and cans as ranges.
// Plain values in, plain values out. Events have the names of the log's file: `can_number`, `lid_lot`, `torn_down`.
// joined: bench-log.js

(function (root) {
  "use strict";
  const CHECKS = ["test-can", "visual-check", "measured-check"];
  const CHANGES = ["set-up", "adjustment", "jam", "can-change"];
  const SHOW_CANS = ["sealed", "heated", "defect"];
  const HARMLESS = ["cosmetic", "watch"];
  /** What can be measured only in a seam that was cut open. */
  const INSIDE = ["body-hook", "cover-hook", "overlap", "tightness"];
  const [LOOKED_AT, MEASURED, TORN_DOWN] = [1, 2, 3];
  const ONE_RUN = 1e10;
  const LETTERS = 26;

  // ---- events ----

  /** @param {string} at */
  const withSeconds = (at) => (at.length > 5 ? at : `${at}:00`);

  /** @param {string} id @returns {number} the number an id ends in */
  function written(id) {
    const number = id.slice(id.lastIndexOf("-") + 1);
    return /^\d+$/.test(number) ? Number(number) : 0;
  }

  /** @param {string} one @param {string} other */
  const compareText = (one, other) => (one < other ? -1 : one > other ? 1 : 0);

  /** @param {LogEvent} event @param {Object<string, string>} dispositions @returns {"good"|"failed"|""} */
  function outcomeOf(event, dispositions) {
    const known = event.defect && Object.prototype.hasOwnProperty.call(dispositions, event.defect);
    const disposition = known ? dispositions[event.defect || ""] : event.defect ? "hold" : "cosmetic";
    if (event.kind === "defect") {
      const bad = !HARMLESS.includes(disposition) && (disposition !== "discard-part" || checkedCan(event) !== null);
      return bad ? "failed" : "";
    }
    if (!CHECKS.includes(event.kind)) return "";
    const harmless = HARMLESS.includes(disposition) || disposition === "discard-part";
    if (event.result === "bad" || event.result === "reject" || !harmless) return "failed";
    return (event.result === "good" || event.result === "accept") && disposition !== "watch" ? "good" : "";
  }

  /**
   * How far a check reached: looked at, measured outside, torn down; 0 for what is no check.
   * @param {LogEvent} event
   * @returns {number}
   */
  function reachOf(event) {
    if (!CHECKS.includes(event.kind)) return 0;
    if (event.torn_down || (event.readings || []).some(({ dimension }) => INSIDE.includes(dimension))) return TORN_DOWN;
    return event.kind === "measured-check" ? MEASURED : LOOKED_AT;
  }

  /**
   * How far a check must reach to find the fault; the widest where it is not known.
   * @param {LogEvent} event
   * @param {Object<string, number>} reaches
   * @returns {number}
   */
  const reachNeeded = (event, reaches) =>
    event.defect && Object.prototype.hasOwnProperty.call(reaches, event.defect) ? reaches[event.defect] : TORN_DOWN;

  /**
   * The can a check or a found defect is about; null for a test can or an unknown can.
   * @param {LogEvent} event
   * @returns {number|null}
   */
  function checkedCan(event) {
    const number =
      event.kind === "defect"
        ? (event.first ?? event.last)
        : event.kind === "test-can" || !CHECKS.includes(event.kind)
          ? undefined
          : event.can_number;
    return number === undefined ? null : number;
  }

  /** The highest can that must be sealed for this to be true. @param {LogEvent} event @returns {number} */
  function cansShown(event) {
    const last = SHOW_CANS.includes(event.kind) ? Math.max(event.first || 0, event.last || 0) : 0;
    return Math.max(last, event.can_number || 0);
  }

  /** Seconds since midnight. @param {string} at @returns {number} */
  function seconds(at) {
    const [hours, minutes, rest = 0] = at.split(":").map(Number);
    return hours * 3600 + minutes * 60 + rest;
  }

  // ---- ranges of cans ----

  /** All cans of some ranges. @param {CanRange[][]} parts @returns {CanRange[]} */
  function joined(...parts) {
    /** @type {CanRange[]} */
    const found = [];
    const sorted = parts
      .flat()
      .filter(([first, last]) => first <= last)
      .sort((one, other) => one[0] - other[0] || one[1] - other[1]);
    for (const [first, last] of sorted) {
      const before = found[found.length - 1];
      if (before && first <= before[1] + 1) found[found.length - 1] = [before[0], Math.max(before[1], last)];
      else found.push([first, last]);
    }
    return found;
  }

  /**
   * The cans of `ranges` that are not in `taken`.
   * @param {CanRange[]} ranges
   * @param {CanRange[]} taken
   * @returns {CanRange[]}
   */
  function without(ranges, taken) {
    let left = joined(ranges);
    for (const [first, last] of joined(taken)) {
      left = joined(
        left.flatMap(
          ([low, high]) =>
            /** @type {CanRange[]} */ ([
              [low, Math.min(high, first - 1)],
              [Math.max(low, last + 1), high],
            ]),
        ),
      );
    }
    return left;
  }

  /** @param {CanRange[]} one @param {CanRange[]} other @returns {CanRange[]} */
  const shared = (one, other) => without(one, without(one, other));

  /** @param {CanRange[]} ranges @returns {number} */
  const count = (ranges) => joined(ranges).reduce((sum, [first, last]) => sum + last - first + 1, 0);

  // ---- the names of cans ----

  /** @param {number} can */
  const runOf = (can) => Math.floor(can / ONE_RUN);

  /** A for the first run, whose cans go by their bare numbers. @param {number} run @returns {string} */
  function runLetter(run) {
    const higher = Math.floor(run / LETTERS);
    return (higher ? runLetter(higher - 1) : "") + String.fromCharCode(65 + (run % LETTERS));
  }

  /** @param {string} letters @returns {number} */
  const runNamed = (letters) => [...letters].reduce((run, letter) => run * LETTERS + letter.charCodeAt(0) - 64, 0) - 1;

  /** What is written on a can: `13`, or `B13` in the second run. @param {number} can */
  const canName = (can) => `${runOf(can) ? runLetter(runOf(can)) : ""}${can % ONE_RUN}`;

  root.tinwrightBenchLog = {
    CHANGES,
    CHECKS,
    LOOKED_AT,
    MEASURED,
    ONE_RUN,
    TORN_DOWN,
    canName,
    cansShown,
    checkedCan,
    compareText,
    count,
    joined,
    outcomeOf,
    reachNeeded,
    reachOf,
    runLetter,
    runNamed,
    runOf,
    seconds,
    shared,
    withSeconds,
    without,
    written,
  };
})(globalThis);
