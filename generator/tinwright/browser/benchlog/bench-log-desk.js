// @ts-check
// What the keys of the bench log do: write a line, ask for what is still to be said of it, correct it, strike it out.
// needs: bench-log-beginning.js bench-log-panel.js bench-log-refusal.js bench-log-states.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { today } = root.tinwrightElements;
  const { runLetter, runOf } = root.tinwrightBenchLog;
  const { counterOf, inOrder, runOfEvent } = root.tinwrightBenchLogWriting;
  const { cansBeforeEndCheck } = root.tinwrightBenchLogDue;
  const { canOf, entriesFor, newRun, runChoices } = root.tinwrightBenchLogBeginning;
  const { missingText, refusalText } = root.tinwrightBenchLogRefusal;
  const { isToday } = root.tinwrightBenchLogStates;
  const { clock } = root.tinwrightBenchLogStart;
  const { Panel } = root.tinwrightBenchLogPanel;
  const words = root.tinwrightBenchLogWords;
  const data = root.tinwrightBenchLogData;
  const AT_ONCE = ["jam", "new-run", "pause", "resume"];
  const DECISIONS = ["hold", "release", "discard"];

  /**
   * An event without what the form knows beside it.
   * @param {LogEntries & {sealer?: string}} entries
   * @returns {LogEntries}
   */
  function ownEntries(entries) {
    const own = { ...entries };
    delete own.sealer;
    return own;
  }

  /** @param {KeptLog} log @param {KeptSession} kept @param {LogEntries} entries @returns {LogWritten} */
  function write(log, kept, entries) {
    const own = ownEntries(entries);
    const refused = refusalText(kept.session.events, own);
    if (refused) return { event: null, missing: refused };
    const isLater = DECISIONS.includes(own.kind || "") && !isToday(kept);
    const event = log.write(kept, { ...own, ...(isLater ? { on: today() } : {}), at: own.at || clock() });
    return event ? { event, missing: "" } : { event, missing: missingText(own) };
  }

  /**
   * What is written at once, without a form; null when the kind asks for one.
   * @param {string} kind
   * @param {KeptSession} kept
   * @param {boolean} isPaused
   * @returns {LogEntries|null}
   */
  function atOnce(kind, { session }, isPaused) {
    if (!AT_ONCE.includes(kind)) return null;
    if (kind === "jam") return { kind };
    return kind === "new-run" ? { kind, ...newRun(session.events) } : { kind: isPaused ? "resume" : "pause" };
  }

  /**
   * The form of something new.
   * @param {LogDesk} desk
   * @param {KeptSession} kept
   * @param {string} kind
   * @param {LogTyped|null} typed
   */
  function newForm(desk, kept, kind, typed) {
    const { session } = kept;
    const { events } = session;
    const isTimed = !isToday(kept) && !DECISIONS.includes(kind);
    const last = inOrder(events).pop();
    const at = isTimed ? { at: (last ? last.at : "12:00").slice(0, 5) } : {};
    return new Panel({
      kind,
      event: null,
      entries: { ...entriesFor(kind, session, desk.step()), ...at },
      can: canOf(session),
      isTimed,
      typed,
      runs: runChoices(kind, events),
      note: kind === "close" ? words.endText(cansBeforeEndCheck(events, data.policy, data.dispositions)) : "",
      strike: () => undefined,
      close: () => desk.showKeys(true),
      write: (entries) => {
        const missing = desk.write(entries);
        if (!missing) desk.showKeys(true);
        return missing;
      },
    });
  }

  /** The form of something written already. @param {LogDesk} desk @param {KeptSession} kept @param {LogEvent} event */
  function correction(desk, kept, event) {
    const { events, sealer } = kept.session;
    return new Panel({
      kind: event.kind,
      event,
      entries: { sealer, ...(runOf(counterOf(events)) ? { run: runLetter(runOfEvent(event)) } : {}) },
      can: canOf(kept.session),
      isTimed: false,
      typed: null,
      runs: runChoices(event.kind, events),
      note: "",
      close: () => desk.showKeys(true),
      strike: () => {
        desk.strike(event);
        desk.showKeys(true);
      },
      write: (entries) => {
        const revised = desk.log.revise(kept, { ...event, ...ownEntries(entries) });
        if (!revised) return missingText(entries);
        desk.isDone(`Corrected: ${words.eventText(revised)}.`, revised);
        desk.showKeys(true);
        return "";
      },
    });
  }

  root.tinwrightBenchLogDesk = { atOnce, correction, newForm, write };
})(globalThis);
