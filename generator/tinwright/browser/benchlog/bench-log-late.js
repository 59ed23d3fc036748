// @ts-check
// The browser's half of tinwright.benchlog.policy: which checks of a session were missed, or made too late.
// needs: bench-log-rules.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { seconds } = root.tinwrightBenchLog;

  /** Seconds of work since its last check. @param {LogInterval} interval @param {number} until second of the day */
  const workedOf = ({ checkedAt }, until) => (checkedAt === null ? 0 : Math.max(0, until - checkedAt));

  /**
   * That a check was made too late, or never.
   * @param {LogBench} bench
   * @param {LogAsked} asked
   * @param {LogEvent|null} made
   * @returns {LogMissed[]}
   */
  function late(bench, { check, reasons, after, canNumber, askedBy, overrun }, made) {
    const first = Math.min(canNumber || after + 1, after + 1);
    if (!overrun || first > bench.counter) return [];
    return [
      { check, reasons, at: overrun, cans: [bench.can(first), bench.can(bench.counter)], askedBy, made, times: 1 },
    ];
  }

  /**
   * That too much was sealed since the last check.
   * @param {LogBench} bench
   * @param {LogInterval} each
   * @param {number} worked
   * @param {string} at
   * @param {LogEvent|null} made
   * @returns {LogMissed[]}
   */
  function lateInterval(bench, each, worked, at, made) {
    const sealed = bench.counter - each.checked;
    const byCans = each.cans ? Math.floor(Math.max(0, sealed - 1) / each.cans) : 0;
    const byMinutes = each.minutes && sealed > 1 ? Math.floor(Math.max(0, worked - 1) / (each.minutes * 60)) : 0;
    const reasons = each.names.filter((_, place) => [byCans, byMinutes][place]);
    if (!reasons.length || (each.check === "teardown" && each.checkedAt === null)) return [];
    const cans = /** @type {CanRange} */ ([bench.can(each.checked + 1), bench.can(bench.counter)]);
    return [{ check: each.check, reasons, at, cans, askedBy: null, made, times: Math.max(byCans, byMinutes) }];
  }

  /**
   * The cans that the check at the end of the session is still to be made for.
   * @param {LogBench} bench
   * @returns {CanRange|null}
   */
  function cansAtTheEnd(bench) {
    return bench.policy.endCheck && bench.goodAtTheEnd < bench.counter
      ? [bench.can(bench.goodAtTheEnd + 1), bench.can(bench.counter)]
      : null;
  }

  /** @param {LogBench} bench @param {LogEvent} event the close @returns {LogMissed[]} */
  function lateEnd(bench, event) {
    const cans = cansAtTheEnd(bench);
    return cans
      ? [{ check: "end-check", reasons: ["end"], at: event.at, cans, askedBy: event, made: null, times: 1 }]
      : [];
  }

  /**
   * What was missed as the log stands; what may still be made in time is not.
   * @param {LogBench} bench
   * @returns {LogMissed[]}
   */
  function missedSoFar(bench) {
    const open = bench.asked.flatMap((asked) => {
      const isBegun = bench.counter > asked.after || asked.check === "measure-again";
      return late(bench, { ...asked, overrun: asked.overrun || (isBegun ? bench.closed : "") }, null);
    });
    const intervals = bench.intervals.flatMap((each) =>
      lateInterval(bench, each, each.sealed[1], each.sealed[0], null),
    );
    return [...bench.missed, ...open, ...intervals].sort(
      (one, other) => seconds(one.at) - seconds(other.at) || one.cans[0] - other.cans[0] || one.cans[1] - other.cans[1],
    );
  }

  root.tinwrightBenchLogLate = { cansAtTheEnd, late, lateEnd, lateInterval, missedSoFar, workedOf };
})(globalThis);
