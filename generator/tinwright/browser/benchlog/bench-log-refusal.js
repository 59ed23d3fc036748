// @ts-check
// Why something is not written down as it was typed, in words.
// needs: bench-log-fields.js bench-log-holding.js bench-log-sound.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { ONE_RUN, canName, runNamed, runOf, shared } = root.tinwrightBenchLog;
  const { counterOf, lastWritten, readLines } = root.tinwrightBenchLogWriting;
  const { walk } = root.tinwrightBenchLogHolding;
  const { problemsOf } = root.tinwrightBenchLogSound;
  const { LABELS } = root.tinwrightBenchLogFields;
  const words = root.tinwrightBenchLogWords;
  const data = root.tinwrightBenchLogData;

  /** Whether these cans would begin a run that nobody named. @param {LogEvent[]} events @param {LogEntries} entries */
  function goesBack(events, entries) {
    const counter = counterOf(events);
    if (entries.kind !== "sealed") return false;
    if (entries.run && runNamed(entries.run) !== runOf(counter)) return false;
    const now = { ...entries, run: undefined, kind: "sealed", id: "now-1", at: "00:00" };
    const lines = readLines([...events, { ...now, after: lastWritten(events, "") }]);
    return lines.some(({ event, beginsRun }) => event.id === "now-1" && beginsRun);
  }

  /**
   * Cans found bad among those to be released.
   * @param {LogEvent[]} events
   * @param {LogEntries} entries
   * @returns {CanRange[]}
   */
  function badAmong(events, { kind, run, first = 0, last = 0 }) {
    if (kind !== "release") return [];
    const base = (run ? runNamed(run) : runOf(counterOf(events))) * ONE_RUN;
    return shared(walk(events, data.dispositions, data.reaches).bad, [[base + first, base + last]]);
  }

  /**
   * What is asked about before it is written; empty when nothing is.
   * @param {LogEvent[]} events
   * @param {LogEntries} entries
   */
  function refusalText(events, entries) {
    if (goesBack(events, entries)) {
      const counter = counterOf(events);
      const next = canName((runOf(counter) + 1) * ONE_RUN + (entries.first || 1));
      return (
        `The count stands at ${canName(counter)}. Was the counter set back? ` +
        `Then choose the new run: the cans are ${next} and so on. If not, correct the numbers.`
      );
    }
    const bad = badAmong(events, entries);
    return bad.length ? `Found bad, never released: ${words.cans(bad)}. Release the others, and discard it.` : "";
  }

  /** @param {LogEntries} entries */
  function missingText(entries) {
    const missing = problemsOf(entries, data.kinds[entries.kind || ""], data.results);
    return missing.length
      ? `Still needed, or not possible: ${missing.map((entry) => LABELS[entry].toLowerCase()).join(", ")}.`
      : "This cannot be written: look at the numbers again.";
  }

  root.tinwrightBenchLogRefusal = { missingText, refusalText };
})(globalThis);
