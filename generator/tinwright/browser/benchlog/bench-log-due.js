// @ts-check
// The browser's half of tinwright.benchlog.policy: what the policy asks for now, and what was missed.
// Plain values in, plain values out.
// needs: bench-log-bench.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { seconds } = root.tinwrightBenchLog;
  const { cansAtTheEnd, missedSoFar, workedOf } = root.tinwrightBenchLogLate;
  const { readBench } = root.tinwrightBenchLogBench;

  /** Whether it comes before another can is sealed. @param {LogDue} due */
  const isNow = ({ cansLeft, minutesLeft }) => [cansLeft, minutesLeft].some((left) => left !== null && left <= 0);

  /**
   * What is due, the most urgent first.
   * @param {LogBench} bench
   * @param {string} at time of day
   * @returns {LogDue[]}
   */
  function dueAt(bench, at) {
    const now = Math.max(bench.clock, seconds(at) + bench.setBack);
    /** @type {LogDue[]} */
    const found = bench.asked.map(({ check, reasons, after, allowed, canNumber, askedBy }) => ({
      check,
      reasons,
      cansLeft: after + allowed - bench.counter,
      minutesLeft: null,
      testCans: check === "test-cans" ? bench.policy.testCans - bench.row : 0,
      canNumber: canNumber === null ? null : bench.can(canNumber),
      askedBy,
    }));
    for (const each of bench.intervals) {
      if (each.checkedAt === null || bench.asked.some(({ check }) => check === each.check)) continue;
      const cansLeft = each.cans ? each.cans - (bench.counter - each.checked) : null;
      const worked = workedOf(each, bench.pausedAt === null ? now : Math.min(now, bench.pausedAt));
      const minutesLeft = each.minutes ? Math.floor((each.minutes * 60 - worked) / 60) : null;
      const both = [cansLeft, minutesLeft];
      const over = each.names.filter((_, place) => {
        const left = both[place];
        return left !== null && left <= 0;
      });
      const reasons = over.length ? over : each.names.filter((_, place) => both[place] !== null);
      found.push({ check: each.check, reasons, cansLeft, minutesLeft, testCans: 0, canNumber: null, askedBy: null });
    }
    return found.sort((one, other) => Number(isNow(other)) - Number(isNow(one)));
  }

  /**
   * What is due in one session, the most urgent first; nothing once the day is closed.
   * @param {LogEvent[]} events
   * @param {LogPolicy} policy
   * @param {string} now
   * @param {Object<string, string>} [dispositions]
   * @returns {LogDue[]}
   */
  function whatIsDue(events, policy, now, dispositions = {}) {
    const bench = readBench(events, policy, dispositions);
    return bench.closed ? [] : dueAt(bench, now);
  }

  /**
   * Each check that the policy asked for in one session and that was not made, or made too late.
   * @param {LogEvent[]} events
   * @param {LogPolicy} policy
   * @param {Object<string, string>} [dispositions]
   * @returns {LogMissed[]}
   */
  const missedChecks = (events, policy, dispositions = {}) => missedSoFar(readBench(events, policy, dispositions));

  /**
   * As `benchlog.cans_before_end_check`.
   * @param {LogEvent[]} events
   * @param {LogPolicy} policy
   * @param {Object<string, string>} [dispositions]
   */
  const cansBeforeEndCheck = (events, policy, dispositions = {}) =>
    cansAtTheEnd(readBench(events, policy, dispositions));

  root.tinwrightBenchLogDue = { cansBeforeEndCheck, dueAt, isNow, missedChecks, whatIsDue };
})(globalThis);
