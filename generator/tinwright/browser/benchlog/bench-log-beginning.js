// @ts-check
// What a form of the bench log begins with, from what the day has shown so far.
// needs: bench-log-due.js bench-log-holding.js bench-log-start.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { ONE_RUN, joined, runLetter, runOf, without } = root.tinwrightBenchLog;
  const { counted, counterOf, inOrder } = root.tinwrightBenchLogWriting;
  const { whatIsDue } = root.tinwrightBenchLogDue;
  const { walk } = root.tinwrightBenchLogHolding;
  const { clock } = root.tinwrightBenchLogStart;
  const data = root.tinwrightBenchLogData;

  /** Names the run of a can, from the second run on. @param {number} can @returns {{run?: string}} */
  const inRun = (can) => (runOf(can) ? { run: runLetter(runOf(can)) } : {});

  /** The next cans, as entries. @param {LogEvent[]} events @param {number} number how many @returns {LogEntries} */
  function nextCans(events, number) {
    const counter = counterOf(events);
    const first = (counter % ONE_RUN) + 1;
    return { first, last: first + number - 1, ...inRun(counter) };
  }

  /** @param {LogEvent[]} events @returns {LogEntries} a counter that was set back */
  const newRun = (events) => ({ run: runLetter(runOf(counterOf(events)) + 1) });

  /**
   * The runs that a form may choose from; one that cans may begin is among them.
   * @param {string} kind
   * @param {LogEvent[]} events
   * @returns {[string, string][]}
   */
  function runChoices(kind, events) {
    const last = runOf(counterOf(events));
    const runs = Array.from({ length: last + 1 }, (_, run) => {
      const said = run ? `Cans ${runLetter(run)}1 and on` : "First run: cans without a letter";
      return /** @type {[string, string]} */ ([runLetter(run), said]);
    });
    const next = runLetter(last + 1);
    return kind === "sealed" ? [...runs, [next, `The counter was set back: cans ${next}1 and on`]] : runs;
  }

  /** The first of some cans, as entries. @param {CanRange[]} ranges @returns {LogEntries} */
  const firstOf = ([range]) =>
    range ? { first: range[0] % ONE_RUN, last: range[1] % ONE_RUN, ...inRun(range[0]) } : {};

  /** The can that is sealed now. @param {LogSession} session */
  function canOf(session) {
    const last = counted(session.events)
      .filter((event) => event.can)
      .pop();
    return (last && last.can) || session.can || "";
  }

  /**
   * The cans that a form is about, as far as its kind is about any.
   * @param {string} kind
   * @param {LogEvent[]} events
   * @param {number} step how many cans a sealed row is likely to have
   * @returns {LogEntries}
   */
  function cansFor(kind, events, step) {
    const count = counterOf(events);
    const [counter, base] = [count % ONE_RUN, runOf(count) * ONE_RUN];
    if (kind === "visual-check") return { can_number: counter || 1 };
    if (kind === "measured-check") {
      const dues = whatIsDue(events, data.policy, clock(), data.dispositions);
      return counter && !dues.some(({ check }) => check === "test-cans") ? { can_number: counter } : {};
    }
    if (kind === "sealed") return { first: counter + 1, last: counter + step };
    const read = walk(events, data.dispositions, data.reaches);
    if (kind === "heated") {
      const heated = Math.max(base, ...read.heated.map(([, end]) => end)) - base;
      return heated < counter ? { first: heated + 1, last: counter } : {};
    }
    const held = read.stillHeld();
    const all = joined(held.notHeated, held.heated);
    if (kind === "release") return firstOf(without(all, read.bad));
    return kind === "discard" ? firstOf(all) : {};
  }

  /** @param {string} kind @param {LogSession} session @param {number} step @returns {LogEntries & {sealer: string}} */
  function entriesFor(kind, session, step) {
    const { events, sealer } = session;
    const by = [...inOrder(events)].reverse().find((event) => event.by);
    const defect = [...counted(events)].reverse().find((event) => event.defect);
    return {
      kind,
      sealer,
      ...inRun(counterOf(events)),
      ...(by && kind !== "release" ? { by: by.by } : {}),
      ...(["set-up", "can-change"].includes(kind) ? { can: canOf(session) } : {}),
      ...(kind === "cause" && defect ? { defect: defect.defect } : {}),
      ...cansFor(kind, events, step),
    };
  }

  root.tinwrightBenchLogBeginning = { canOf, entriesFor, newRun, nextCans, runChoices };
})(globalThis);
