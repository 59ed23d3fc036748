// @ts-check
// Which version of an event stands, as `logbook.merging` in the office.
// needs: bench-log-rules.js bench-log-sound.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { checkedCan, reachOf } = root.tinwrightBenchLog;
  const { isSame } = root.tinwrightBenchLogSound;

  /**
   * How few cans a version lets go, as `_caution` in the office: a failure before all, what was struck
   * before what clears cans.
   * @param {LogEvent} event
   * @returns {number[]}
   */
  function caution(event) {
    const letsGo = event.kind === "release" || event.kind === "discard";
    const cans = event.first === undefined ? -1 : (event.last || 0) - event.first;
    const [clears, struck, tells, fails] = [0, 1, 2, 3];
    const result = event.result || "";
    let [weight, seesLess, furtherBack] = [tells, 0, 0];
    if (event.struck) weight = struck;
    else if (["bad", "reject"].includes(result) || event.kind === "hold" || event.defect) {
      [weight, seesLess, furtherBack] = [fails, event.defect ? 0 : 1, -(event.can_number || 0)];
    } else if (letsGo || ["good", "accept"].includes(result)) {
      const can = checkedCan(event);
      [weight, seesLess, furtherBack] = [clears, -reachOf(event), can === null ? -1e9 : -can];
    }
    return [weight, letsGo ? -cans : cans, seesLess, furtherBack];
  }

  /**
   * Of two of one id and revision, the one to go by until somebody decides, as `most_cautious` in the office.
   * @param {LogEvent} one
   * @param {LogEvent} other
   */
  function moreCautious(one, other) {
    const [mine, theirs] = [caution(one), caution(other)];
    const place = mine.findIndex((weight, at) => weight !== theirs[at]);
    return place >= 0 && theirs[place] > mine[place] ? other : one;
  }

  /**
   * What stands: of each event its newest revision.
   * @param {LogEvent[]} lines
   * @returns {{events: LogEvent[], disputed: Set<string>}}
   */
  function latest(lines) {
    /** @type {Map<string, LogEvent>} */
    const found = new Map();
    /** @type {Set<string>} */
    const disputed = new Set();
    for (const line of lines) {
      const before = found.get(line.id);
      const [was, is] = before ? [before.revision || 1, line.revision || 1] : [0, 1];
      if (!before || is > was) {
        found.set(line.id, line);
        disputed.delete(line.id);
      } else if (is === was && !isSame(before, line)) {
        found.set(line.id, moreCautious(before, line));
        disputed.add(line.id);
      }
    }
    return { events: [...found.values()], disputed };
  }

  root.tinwrightBenchLogMerging = { latest, moreCautious };
})(globalThis);
