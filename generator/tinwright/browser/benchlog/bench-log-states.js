// @ts-check
// What follows from each session of the log: what is due, held and missed. Worked out once for each line written.
// needs: bench-log-due.js bench-log-start.js bench-log-stop.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { today } = root.tinwrightElements;
  const { compareText } = root.tinwrightBenchLog;
  const { missedSoFar } = root.tinwrightBenchLogLate;
  const { readBench } = root.tinwrightBenchLogBench;
  const { dueAt } = root.tinwrightBenchLogDue;
  const { clock } = root.tinwrightBenchLogStart;
  const { heldOf } = root.tinwrightBenchLogStop;
  const data = root.tinwrightBenchLogData;

  /** @param {KeptSession} kept */
  const isToday = (kept) => kept.session.date === today();

  class States {
    /** @param {KeptLog} log */
    constructor(log) {
      this.log = log;
      /** @type {WeakMap<LogEvent[], {bench: LogBench, held: LogStop|null, missed: LogMissed[]}>} */
      this.known = new WeakMap();
    }

    /** @param {KeptSession} kept @returns {LogState} */
    of(kept) {
      const { session } = kept;
      let found = this.known.get(session.events);
      if (!found) {
        const bench = readBench(session.events, data.policy, data.dispositions);
        found = { bench, held: heldOf(session, this.earlier(session)), missed: missedSoFar(bench) };
        this.known.set(session.events, found);
      }
      const isDue = isToday(kept) && !found.bench.closed;
      return { ...found, dues: isDue ? dueAt(found.bench, clock()) : [] };
    }

    /** The session of the same sealer before this one. @param {LogSession} session @returns {LogSession|null} */
    earlier({ date, kitchen, sealer }) {
      const earlier = this.log.sessions
        .map((kept) => kept.session)
        .filter((each) => each.sealer === sealer && each.kitchen === kitchen && each.date < date);
      return earlier.sort((one, other) => compareText(one.date, other.date)).pop() || null;
    }

    /** The sessions of one day. @param {string} date */
    on(date) {
      return this.log.sessions.filter(({ session }) => session.date === date);
    }
  }

  root.tinwrightBenchLogStates = { States, isToday };
})(globalThis);
