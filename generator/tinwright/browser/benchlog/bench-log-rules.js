// @ts-check
// The browser's half of tinwright.benchlog: what an event says, and cans as ranges.
// Plain values in, plain values out. Events have the names of the log's file: `can_number`, `lid_lot`, `torn_down`.
// joined: bench-log.js

/**
 * @typedef {{dimension: string, point: string, value: number}} LogReading
 * @typedef {{id: string, at: string, kind: string, revision?: number, struck?: boolean, by?: string, can_number?: number,
 *   first?: number, last?: number, result?: string, can?: string, lid_lot?: string, defect?: string, cause?: string,
 *   adjuster?: string, direction?: string, turns?: string, method?: string, specification?: string,
 *   readings?: LogReading[], torn_down?: boolean, reason?: string, note?: string}} LogEvent
 * @typedef {{date: string, kitchen: string, sealer: string, can?: string, lid_lot?: string, supervisor?: string,
 *   product?: string, events: LogEvent[]}} LogSession
 * @typedef {[number, number]} CanRange first and last can, both meant
 */

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const CHECKS = ["test-can", "visual-check", "measured-check"];
  const CHANGES = ["set-up", "adjustment", "jam", "can-change"];
  const SHOW_CANS = ["sealed", "heated", "defect"];

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

  /** Sort by time, those of one time in the order of their ids' numbers. @param {LogEvent[]} events @returns {LogEvent[]} */
  const inOrder = (events) => [...events].sort((one, other) =>
    compareText(withSeconds(one.at), withSeconds(other.at)) || written(one.id) - written(other.id) || compareText(one.id, other.id));

  /** @type {WeakMap<LogEvent[], LogEvent[]>} */
  const sorted = new WeakMap();

  /** Those that count, in order; sorted once for each list, which must not be changed afterwards. @param {LogEvent[]} events */
  function counted(events) {
    const found = sorted.get(events) || inOrder(events.filter((event) => !event.struck));
    sorted.set(events, found);
    return found;
  }

  /** @param {LogEvent} event @param {Object<string, string>} dispositions @returns {"good"|"failed"|""} */
  function outcomeOf(event, dispositions) {
    const known = event.defect && Object.prototype.hasOwnProperty.call(dispositions, event.defect);
    const disposition = known ? dispositions[event.defect || ""] : event.defect ? "hold" : "cosmetic";
    if (event.kind === "defect") {
      const bad = disposition !== "cosmetic" && (disposition !== "discard-part" || event.first !== undefined);
      return bad ? "failed" : "";
    }
    if (!CHECKS.includes(event.kind)) return "";
    const harmless = disposition === "cosmetic" || disposition === "discard-part";
    if (event.result === "bad" || event.result === "reject" || !harmless) return "failed";
    return event.result === "good" || event.result === "accept" ? "good" : "";
  }

  /** The can a check or a found defect is about; null for a test can or an unknown can. @param {LogEvent} event @returns {number|null} */
  function checkedCan(event) {
    const number = event.kind === "defect" ? event.first : event.kind === "test-can" || !CHECKS.includes(event.kind) ? undefined : event.can_number;
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

  /** The last can sealed. @param {LogEvent[]} events @returns {number} */
  const counterOf = (events) => events.reduce((most, event) => (event.struck ? most : Math.max(most, cansShown(event))), 0);

  // ---- ranges of cans ----

  /** All cans of some ranges. @param {CanRange[][]} parts @returns {CanRange[]} */
  function joined(...parts) {
    /** @type {CanRange[]} */
    const found = [];
    const sorted = parts.flat().filter(([first, last]) => first <= last).sort((one, other) => one[0] - other[0] || one[1] - other[1]);
    for (const [first, last] of sorted) {
      const before = found[found.length - 1];
      if (before && first <= before[1] + 1) found[found.length - 1] = [before[0], Math.max(before[1], last)];
      else found.push([first, last]);
    }
    return found;
  }

  /** The cans of `ranges` that are not in `taken`. @param {CanRange[]} ranges @param {CanRange[]} taken @returns {CanRange[]} */
  function without(ranges, taken) {
    let left = joined(ranges);
    for (const [first, last] of joined(taken)) {
      left = joined(left.flatMap(([low, high]) => /** @type {CanRange[]} */ ([[low, Math.min(high, first - 1)], [Math.max(low, last + 1), high]])));
    }
    return left;
  }

  /** @param {CanRange[]} one @param {CanRange[]} other @returns {CanRange[]} */
  const shared = (one, other) => without(one, without(one, other));

  /** @param {CanRange[]} ranges @returns {number} */
  const count = (ranges) => joined(ranges).reduce((sum, [first, last]) => sum + last - first + 1, 0);

  globals.tinwrightBenchLog = {
    CHANGES, CHECKS, cansShown, checkedCan, compareText, count, counted, counterOf, inOrder, joined, outcomeOf, seconds, shared,
    withSeconds, without, written,
  };
})(globalThis);
