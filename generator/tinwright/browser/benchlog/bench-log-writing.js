// @ts-check
// The browser's half of tinwright.benchlog.writing: the order in which a day was written, and the run of the counter
// that each line belongs to. The clock orders nothing but lines of which nothing else says what came first.
// needs: bench-log-rules.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { ONE_RUN, cansShown, checkedCan, compareText, joined, runNamed, runOf, withSeconds, written } =
    root.tinwrightBenchLog;

  /** Who wrote it. @param {string} id */
  const sourceOf = (id) => (/-\d+$/.test(id) ? id.slice(0, id.lastIndexOf("-")) : id);

  /** @param {LogEvent} event @returns {[string, number][]} */
  const afterOf = (event) => (event.after ? event.after.split(" ").map((id) => [sourceOf(id), written(id)]) : []);

  /** Sort in the order of writing. @param {LogEvent[]} events @returns {LogEvent[]} */
  function inOrder(events) {
    /** @type {Map<string, LogEvent[]>} */
    const waiting = new Map();
    const sorted = [...events].sort(
      (one, other) => written(one.id) - written(other.id) || compareText(one.id, other.id),
    );
    for (const event of sorted.reverse()) {
      const source = sourceOf(event.id);
      waiting.set(source, [...(waiting.get(source) || []), event]);
    }
    /** @param {LogEvent} event @param {string} source */
    const isReady = (event, source) =>
      afterOf(event).every(([other, last]) => {
        const queue = waiting.get(other);
        return other === source || !queue || written(queue[queue.length - 1].id) > last;
      });
    const found = [];
    while (waiting.size) {
      const heads = [...waiting]
        .map(([source, queue]) => ({ source, queue, event: queue[queue.length - 1] }))
        .sort((one, other) => compareText(one.source, other.source));
      // Lines that claim to come after each other are somebody's slip; then the name alone decides.
      const [next] = heads
        .filter(({ event, source }) => isReady(event, source))
        .sort((one, other) => compareText(withSeconds(one.event.at), withSeconds(other.event.at)))
        .concat(heads);
      next.queue.pop();
      found.push(next.event);
      if (!next.queue.length) waiting.delete(next.source);
    }
    return found;
  }

  /** What one source had written and knew, line after line. */
  class Source {
    constructor() {
      /** @type {number[]} */ this.numbers = [];
      /** @type {Map<string, number>[]} */ this.knowledge = [];
      /** The last can shown, and the last one written as sealed. @type {[number, number][]} */ this.counts = [];
    }

    /** How many of its lines have no higher number. @param {number} last */
    upTo(last) {
      let place = this.numbers.length;
      while (place && this.numbers[place - 1] > last) place -= 1;
      return place;
    }
  }

  /** @param {Map<string, number>} knows @param {Map<string, number>} more */
  function learn(knows, more) {
    for (const [name, last] of more) knows.set(name, Math.max(knows.get(name) ?? -1, last));
  }

  /** The lines of a session that count, in the order of writing. @param {LogEvent[]} events @returns {LogLine[]} */
  function readLines(events) {
    /** @type {Map<string, Source>} */
    const sources = new Map();
    const found = [];
    for (const event of inOrder(events)) {
      const name = sourceOf(event.id);
      const source = sources.get(name) || new Source();
      sources.set(name, source);
      const knows = new Map(source.knowledge[source.knowledge.length - 1] || []);
      for (const [other, last] of afterOf(event)) {
        const known = sources.get(other);
        const place = known ? known.upTo(last) : 0;
        if (known && place && other !== name) learn(knows, known.knowledge[place - 1]);
      }
      knows.set(name, written(event.id));
      let [before, sealed] = [0, 0];
      for (const [other, last] of knows) {
        const known = /** @type {Source} */ (sources.get(other));
        const place = known.upTo(last);
        if (!place) continue;
        before = Math.max(before, known.counts[place - 1][0]);
        sealed = Math.max(sealed, known.counts[place - 1][1]);
      }
      const line = lineOf(event, before, sealed, knows);
      let [shown, last] = source.counts[source.counts.length - 1] || [0, 0];
      if (!event.struck) {
        found.push(line);
        shown = Math.max(shown, line.shown);
        last = Math.max(last, event.kind === "sealed" ? line.shown : 0);
      }
      source.numbers.push(written(event.id));
      source.knowledge.push(knows);
      source.counts.push([shown, last]);
    }
    return found;
  }

  /**
   * @param {LogEvent} event
   * @param {number} before
   * @param {number} sealed
   * @param {Map<string, number>} knows
   * @returns {LogLine}
   */
  function lineOf(event, before, sealed, knows) {
    const [run, beginsRun] = runAt(event, before, sealed);
    const base = run * ONE_RUN;
    const [first, last] = [event.first || event.last, event.last || event.first];
    const number = checkedCan(event);
    const highest = cansShown(event);
    const shown = highest || event.kind === "new-run" ? base + highest : 0;
    return {
      event,
      run,
      beginsRun,
      cans: first && last ? [base + first, base + last] : null,
      can: number === null ? null : base + number,
      shown,
      count: Math.max(before, shown),
      before,
      knows,
    };
  }

  /**
   * The run of a line, and whether it begins it.
   * @param {LogEvent} event
   * @param {number} before
   * @param {number} sealed
   * @returns {[number, boolean]}
   */
  function runAt(event, before, sealed) {
    const now = runOf(before);
    if (event.run) return [runNamed(event.run), runNamed(event.run) > now];
    if (event.kind === "new-run") return [now + 1, true];
    if (event.kind !== "sealed") return [now, false];
    const [first, last] = [now * ONE_RUN + (event.first || 1), now * ONE_RUN + (event.last || 0)];
    const isWrittenLate = first > sealed && last >= before;
    const goesBack = first <= before && !isWrittenLate;
    return [now + Number(goesBack), goesBack];
  }

  /** Whether the log shows that a line was written after another. @param {LogLine} line @param {LogLine} other */
  const isAfter = (line, other) =>
    line !== other && (line.knows.get(sourceOf(other.event.id)) ?? -1) >= written(other.event.id);

  /** All cans sealed, run by run. @param {LogLine[]} lines @returns {CanRange[]} */
  function sealedCans(lines) {
    /** @type {Map<number, number>} */
    const lasts = new Map();
    for (const { shown } of lines) lasts.set(runOf(shown), Math.max(lasts.get(runOf(shown)) || 0, shown));
    return joined([...lasts].map(([run, last]) => [run * ONE_RUN + 1, last]));
  }

  /**
   * Lines at which the counter goes back although nobody wrote that it was set back.
   * @param {LogEvent[]} events
   * @returns {LogLine[]}
   */
  const counterWentBack = (events) =>
    linesOf(events).filter(({ beginsRun, event }) => beginsRun && event.kind === "sealed" && !event.run);

  /**
   * Each line whose time is before that of the line above it on the same phone or sheet, with that line.
   * @param {LogEvent[]} events
   * @returns {[LogEvent, LogEvent][]}
   */
  function clockWentBack(events) {
    /** @type {Map<string, LogEvent[]>} */
    const lists = new Map();
    for (const event of counted(events)) {
      const key = `${sourceOf(event.id)} ${event.on || ""}`;
      lists.set(key, [...(lists.get(key) || []), event]);
    }
    /** @type {[LogEvent, LogEvent][]} */
    const found = [];
    for (const list of lists.values()) {
      list.slice(1).forEach((event, place) => {
        if (withSeconds(event.at) < withSeconds(list[place].at)) found.push([list[place], event]);
      });
    }
    return found;
  }

  /**
   * What whoever writes now comes after: the last line of each other phone and sheet.
   * @param {LogEvent[]} events
   * @param {string} but
   * @returns {string}
   */
  function lastWritten(events, but) {
    /** @type {Map<string, number>} */
    const lasts = new Map();
    for (const { id } of events) lasts.set(sourceOf(id), Math.max(lasts.get(sourceOf(id)) || 0, written(id)));
    lasts.delete(but);
    return [...lasts]
      .sort(([one], [other]) => compareText(one, other))
      .map(([source, number]) => `${source}-${number}`)
      .join(" ");
  }

  /** @type {WeakMap<LogEvent[], LogLine[]>} */
  const read = new WeakMap();

  /** The line of an event as it was read last. @type {WeakMap<LogEvent, LogLine>} */
  const lines = new WeakMap();

  /**
   * The lines of a list, read once; the list must not be changed afterwards.
   * @param {LogEvent[]} events
   * @returns {LogLine[]}
   */
  function linesOf(events) {
    const found = read.get(events) || readLines(events);
    if (!read.has(events)) for (const line of found) lines.set(line.event, line);
    read.set(events, found);
    return found;
  }

  /** The run of the counter that the numbers of an event belong to. @param {LogEvent} event @returns {number} */
  function runOfEvent(event) {
    const line = lines.get(event);
    return line ? line.run : event.run ? runNamed(event.run) : 0;
  }

  /** Those that count, in order. @param {LogEvent[]} events @returns {LogEvent[]} */
  const counted = (events) => linesOf(events).map(({ event }) => event);

  /** The last can sealed. @param {LogEvent[]} events @returns {number} */
  const counterOf = (events) => linesOf(events).reduce((most, { shown }) => Math.max(most, shown), 0);

  root.tinwrightBenchLogWriting = {
    clockWentBack,
    counted,
    counterOf,
    counterWentBack,
    inOrder,
    isAfter,
    lastWritten,
    linesOf,
    readLines,
    runOfEvent,
    sealedCans,
    sourceOf,
  };
})(globalThis);
