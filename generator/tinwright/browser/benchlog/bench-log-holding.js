// @ts-check
// The browser's half of tinwright.benchlog.holding: which cans to hold, which are still held, which nobody looked at.
// needs: bench-log-writing.js
// joined: bench-log.js

/** @typedef {{line: LogLine, clears: number, reach: number}} LogGood a good check that stands */

(function (root) {
  "use strict";
  const { CHANGES, ONE_RUN, checkedCan, joined, outcomeOf, reachNeeded, reachOf, shared, without } =
    root.tinwrightBenchLog;
  const { isAfter, linesOf, sealedCans } = root.tinwrightBenchLogWriting;

  /** The log of one session, read in the order of writing. */
  class Walk {
    /**
     * @param {LogEvent[]} events
     * @param {Object<string, string>} dispositions
     * @param {Object<string, number>} reaches
     */
    constructor(events, dispositions, reaches) {
      /** @type {LogLine[]} */
      this.lines = linesOf(events);
      this.reaches = reaches;
      /** @type {CanRange[]} */
      this.sealed = sealedCans(this.lines);
      const outcomes = this.lines.map((line) => outcomeOf(line.event, dispositions));
      this.failed = this.lines.filter((_, place) => outcomes[place] === "failed");
      this.changes = this.lines.filter(({ event }) => CHANGES.includes(event.kind) || event.kind === "close");
      /** @type {LogGood[]} */
      this.goods = this.lines
        .filter((line, place) => outcomes[place] === "good" && !this.isOverruled(line))
        .map((line) => ({ line, clears: line.can === null ? line.count : line.can, reach: reachOf(line.event) }));
      this.heated = this.ofKind("heated");
      this.discarded = this.ofKind("discard");
      this.bad = joined(
        this.failed.flatMap(({ can, cans, event }) => {
          if (can === null || !(can % ONE_RUN)) return [];
          return [cans && event.kind === "defect" ? cans : /** @type {CanRange} */ ([can, can])];
        }),
      );
      this.releases = this.lines.filter(({ event }) => event.kind === "release" && event.reason && event.by);
      const failed = new Set(this.failed);
      /** @type {{line: LogLine, hold: LogHold}[]} */
      this.reasons = this.lines.flatMap((line) => {
        if (failed.has(line)) return [{ line, hold: this.holdOf(line) }];
        if (line.event.kind !== "hold" || !line.cans) return [];
        const cans = joined([line.cans]);
        return [
          {
            line,
            hold: {
              event: line.event,
              cans,
              heated: shared(cans, this.heated),
              since: null,
              until: null,
              lookedAt: [],
              reach: 0,
            },
          },
        ];
      });
    }

    /** @param {string} kind @returns {CanRange[]} */
    ofKind(kind) {
      return joined(this.lines.flatMap(({ event, cans }) => (event.kind === kind && cans ? [cans] : [])));
    }

    /** Whether a failed check follows a good one in one go. @param {LogLine} good */
    isOverruled(good) {
      return this.failed.some(
        (failed) =>
          isAfter(failed, good) &&
          failed.count <= good.count &&
          !this.changes.some((change) => isAfter(change, good) && isAfter(failed, change)),
      );
    }

    /** The one that clears the most cans, of several the last. @param {LogGood[]} goods @returns {LogGood|null} */
    lastGood(goods) {
      /** @type {LogGood|null} */
      let found = null;
      for (const good of goods) if (!found || good.clears >= found.clears) found = good;
      return found;
    }

    /** @param {LogGood|null} good @param {number|null} [last] @returns {CanRange[]} */
    sealedAfter(good, last = null) {
      if (!this.sealed.length) return [];
      return shared(this.sealed, [
        [good ? good.clears + 1 : 0, last === null ? this.sealed[this.sealed.length - 1][1] : last],
      ]);
    }

    /** The last can that the log does not show to be sealed after a line. @param {LogLine} line */
    perhapsSealedBefore(line) {
      return Math.max(...this.lines.filter((other) => !isAfter(other, line)).map(({ shown }) => shown));
    }

    /** @param {LogLine} failed @returns {LogHold} */
    holdOf(failed) {
      const reach = reachNeeded(failed.event, this.reaches);
      const goods = this.goods.filter((good) => good.reach >= reach);
      const since = this.lastGood(
        goods.filter(({ line, clears }) => isAfter(failed, line) && (failed.can === null || clears < failed.can)),
      );
      const perhapsBefore = this.perhapsSealedBefore(failed);
      /** @type {LogGood|null} */
      let until = null;
      let last = Infinity;
      for (const good of goods) {
        if (!isAfter(good.line, failed) || (good.line.can !== null && good.line.can <= perhapsBefore)) continue;
        const before = this.perhapsSealedBefore(good.line);
        if (before < last) [until, last] = [good, before];
      }
      const cans = this.sealedAfter(since, until ? last : null);
      const lookedAt = this.goods
        .filter(({ line }) => shared(cans, [[line.can || 0, line.can || 0]]).length > 0)
        .map(({ line }) => line.event);
      return {
        event: failed.event,
        cans,
        heated: shared(cans, this.heated),
        since: since && since.line.event,
        until: until && until.line.event,
        lookedAt,
        reach,
      };
    }

    /**
     * The cans that a release lets go: of an order all it names, of a failure those sealed by then.
     * @param {LogLine} release
     * @param {LogHold} hold
     * @returns {CanRange[]}
     */
    letGo(release, hold) {
      const cans = release.cans ? [release.cans] : [];
      return hold.reach
        ? shared(cans, sealedCans(this.lines.filter((line) => line === release || isAfter(release, line))))
        : joined(cans);
    }

    /** @returns {LogHold[]} */
    holds() {
      return this.reasons.map(({ hold }) => hold);
    }

    /** Failures after which the sealer is not known to be good again. @returns {LogHold[]} */
    open() {
      return this.holds().filter(({ reach, until }) => reach && until === null);
    }

    /** @returns {LogHeld} */
    stillHeld() {
      const parts = this.reasons.map(({ line, hold }) =>
        without(
          hold.cans,
          joined(
            ...this.releases.filter((release) => isAfter(release, line)).map((release) => this.letGo(release, hold)),
          ),
        ),
      );
      const held = without(joined(...parts, this.bad), this.discarded);
      return { notHeated: without(held, this.heated), heated: shared(held, this.heated) };
    }

    /** @returns {LogUnchecked[]} */
    unchecked() {
      const settled = joined(
        this.releases.flatMap(({ cans }) => (cans ? [cans] : [])),
        this.discarded,
        ...this.holds().map((hold) => hold.cans),
      );
      const places = new Map(this.lines.map((line, place) => [line, place]));
      /** @param {LogLine} line @returns {number} */
      const placeOf = (line) => /** @type {number} */ (places.get(line));
      /** @type {LogUnchecked[]} */
      const found = [];
      let knownBefore = 0;
      for (const change of this.changes) {
        const place = placeOf(change);
        const good = this.lastGood(this.goods.filter(({ line }) => placeOf(line) < place));
        const last = Math.max(...this.lines.slice(0, place + 1).map(({ shown }) => shown));
        const known = Math.max(good ? good.clears : 0, knownBefore);
        knownBefore = Math.max(last, knownBefore);
        const lookedAt = this.goods
          .filter(({ line, clears }) => checkedCan(line.event) && known < clears && clears <= last)
          .map(({ clears }) => clears);
        const cans = without(shared(this.sealed, [[Math.max(known, ...lookedAt) + 1, last]]), settled);
        if (cans.length) found.push({ change: change.event, cans, since: good && good.line.event });
      }
      return found;
    }
  }

  /**
   * @param {LogEvent[]} events
   * @param {Object<string, string>} [dispositions]
   * @param {Object<string, number>} [reaches]
   */
  const walk = (events, dispositions = {}, reaches = {}) => new Walk(events, dispositions, reaches);

  /**
   * The cans of the sealer's last session that the failures of this one reach back to; null when none.
   * @param {LogEvent[]} dayBefore
   * @param {LogEvent[]} day
   * @param {Object<string, string>} [dispositions]
   * @param {Object<string, number>} [reaches]
   * @returns {LogHold|null}
   */
  function heldFromDayBefore(dayBefore, day, dispositions = {}, reaches = {}) {
    /** @type {LogHold|null} */
    let widest = null;
    for (const hold of walk(day, dispositions, reaches).holds()) {
      if (hold.reach && hold.since === null && (!widest || hold.reach > widest.reach)) widest = hold;
    }
    if (!widest) return null;
    const { event, reach } = widest;
    const before = walk(dayBefore, dispositions, reaches);
    const good = before.lastGood(before.goods.filter((each) => each.reach >= reach));
    const cans = without(before.sealedAfter(good), before.discarded);
    return cans.length
      ? {
          event,
          cans,
          heated: shared(cans, before.heated),
          since: good && good.line.event,
          until: null,
          lookedAt: [],
          reach,
        }
      : null;
  }

  root.tinwrightBenchLogHolding = {
    cansToHold: (events, dispositions = {}, reaches = {}) => walk(events, dispositions, reaches).holds(),
    heldFromDayBefore,
    stillHeld: (events, dispositions = {}, reaches = {}) => walk(events, dispositions, reaches).stillHeld(),
    uncheckedBeforeChange: (events, dispositions = {}, reaches = {}) => walk(events, dispositions, reaches).unchecked(),
    walk,
  };
})(globalThis);
