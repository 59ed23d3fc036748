// @ts-check
// The browser's half of tinwright.benchlog.holding: which cans to hold, which are still held, which nobody looked at.
// needs: bench-log-rules.js
// joined: bench-log.js

/**
 * @typedef {{event: LogEvent, first: number, counter: number, since: LogEvent|null, until: LogEvent|null, last: number}} LogFailure
 * @typedef {{event: LogEvent, cans: CanRange[], heated: CanRange[], since: LogEvent|null, until: LogEvent|null,
 *   lookedAt: LogEvent[]}} LogHold
 * @typedef {{notHeated: CanRange[], heated: CanRange[]}} LogHeld
 * @typedef {{change: LogEvent, cans: CanRange[], since: LogEvent|null}} LogUnchecked
 */

(function (root) {
  "use strict";
  const rules = /** @type {any} */ (root).tinwrightBenchLog;
  const { CHANGES, cansShown, checkedCan, counted, joined, outcomeOf, shared, without } = rules;

  /** The log of one session read in order, as far as it has got. */
  class Walk {
    /** @param {Object<string, string>} dispositions */
    constructor(dispositions) {
      this.dispositions = dispositions;
      this.counter = 0;
      /** Good checks that stand: the can each vouches up to. @type {[number, LogEvent][]} */
      this.goods = [];
      this.inOneGo = 0;
      /** Failures, and orders to hold. @type {{failure: LogFailure|null, order: LogEvent|null}[]} */
      this.reasons = [];
      /** @type {{change: LogEvent, known: number, last: number, since: LogEvent|null}[]} */
      this.changes = [];
      /** @type {CanRange[]} */ this.held = [];
      /** @type {CanRange[]} */ this.heated = [];
      /** @type {CanRange[]} */ this.released = [];
      /** @type {CanRange[]} */ this.discarded = [];
    }

    /** @param {LogEvent} event */
    read(event) {
      const shown = cansShown(event);
      if (shown > this.counter) {
        if (this.failures().some((failure) => failure.until === null)) this.held = joined(this.held, [[this.counter + 1, shown]]);
        this.counter = shown;
        this.inOneGo = this.goods.length;
      }
      /** @type {CanRange[]} */
      const cans = [[event.first || 1, event.last || 0]];
      const outcome = outcomeOf(event, this.dispositions);
      if (outcome === "failed") this.fail(event);
      else if (outcome === "good") this.vouch(event);
      else if (CHANGES.includes(event.kind) || event.kind === "close") this.change(event);
      else if (event.kind === "heated") this.heated = joined(this.heated, cans);
      else if (event.kind === "hold") {
        this.reasons.push({ failure: null, order: event });
        this.held = joined(this.held, cans);
      } else if (event.kind === "release" && event.reason && event.by) {
        this.released = joined(this.released, cans);
        this.held = without(this.held, cans);
      } else if (event.kind === "discard") this.discarded = joined(this.discarded, cans);
    }

    /** @returns {LogFailure[]} */
    failures() {
      return /** @type {LogFailure[]} */ (this.reasons.map(({ failure }) => failure).filter((failure) => failure !== null));
    }

    /** The highest can up to `before` that a good check vouches for, and that check. @param {number} before @returns {[number, LogEvent|null]} */
    lastGood(before) {
      /** @type {[number, LogEvent|null]} */
      let found = [0, null];
      for (const [number, event] of this.goods) if (found[0] <= number && number <= before) found = [number, event];
      return found;
    }

    /** @param {LogEvent} event */
    fail(event) {
      this.goods.length = Math.min(this.goods.length, this.inOneGo);
      const bad = checkedCan(event);
      const [number, since] = this.lastGood(bad === null ? this.counter : bad - 1);
      this.reasons.push({ failure: { event, first: number + 1, counter: this.counter, since, until: null, last: 0 }, order: null });
      this.held = joined(this.held, [[number + 1, this.counter]]);
    }

    /** @param {LogEvent} event */
    vouch(event) {
      const can = checkedCan(event);
      this.goods.push([can === null ? this.counter : can, event]);
      for (const failure of this.failures()) {
        if (failure.until === null && (can === null || can > failure.counter)) {
          failure.until = event;
          failure.last = this.counter;
        }
      }
    }

    /** @param {LogEvent} event */
    change(event) {
      const [number, since] = this.lastGood(this.counter);
      const before = this.changes[this.changes.length - 1];
      this.changes.push({ change: event, known: Math.max(number, before ? before.last : 0), last: this.counter, since });
      this.inOneGo = this.goods.length;
    }

    /** @returns {LogHold[]} */
    holds() {
      return this.reasons.map(({ failure, order }) => {
        if (!failure) {
          const event = /** @type {LogEvent} */ (order);
          const cans = joined([[event.first || 1, event.last || 0]]);
          return { event, cans, heated: shared(cans, this.heated), since: null, until: null, lookedAt: [] };
        }
        const cans = joined([[failure.first, failure.until === null ? this.counter : failure.last]]);
        const lookedAt = this.goods.map(([, event]) => event)
          .filter((event) => shared(cans, [[checkedCan(event) || 0, checkedCan(event) || 0]]).length > 0);
        return { event: failure.event, cans, heated: shared(cans, this.heated), since: failure.since, until: failure.until, lookedAt };
      });
    }

    /** @returns {LogHeld} */
    stillHeld() {
      const held = without(this.held, this.discarded);
      return { notHeated: without(held, this.heated), heated: shared(held, this.heated) };
    }

    /** @returns {LogUnchecked[]} */
    unchecked() {
      const settled = joined(this.released, this.discarded, ...this.holds().map((hold) => hold.cans));
      /** @type {LogUnchecked[]} */
      const found = [];
      for (const { change, known, last, since } of this.changes) {
        const lookedAt = this.goods.filter(([number, event]) => checkedCan(event) && known < number && number <= last).map(([number]) => number);
        const cans = without([[Math.max(known, ...lookedAt) + 1, last]], settled);
        if (cans.length) found.push({ change, cans, since });
      }
      return found;
    }
  }

  /** @param {LogEvent[]} events @param {Object<string, string>} dispositions */
  function walk(events, dispositions) {
    const found = new Walk(dispositions);
    for (const event of counted(events)) found.read(event);
    return found;
  }

  /**
   * The cans of the sealer's last session that the first failure of this one reaches back to; null when none.
   * @param {LogEvent[]} dayBefore @param {LogEvent[]} day @param {Object<string, string>} [dispositions]
   * @returns {LogHold|null}
   */
  function heldFromDayBefore(dayBefore, day, dispositions = {}) {
    const failed = walk(day, dispositions).holds().find((hold) => hold.event.kind !== "hold");
    if (!failed || failed.since !== null) return null;
    const before = walk(dayBefore, dispositions);
    const [number, since] = before.lastGood(before.counter);
    const cans = without([[number + 1, before.counter]], before.discarded);
    return cans.length ? { event: failed.event, cans, heated: shared(cans, before.heated), since, until: null, lookedAt: [] } : null;
  }

  Object.assign(rules, {
    /** @param {LogEvent[]} events @param {Object<string, string>} [dispositions] */
    cansToHold: (events, dispositions = {}) => walk(events, dispositions).holds(),
    heldFromDayBefore,
    /** @param {LogEvent[]} events @param {Object<string, string>} [dispositions] */
    stillHeld: (events, dispositions = {}) => walk(events, dispositions).stillHeld(),
    /** @param {LogEvent[]} events @param {Object<string, string>} [dispositions] */
    uncheckedBeforeChange: (events, dispositions = {}) => walk(events, dispositions).unchecked(),
    walk,
  });
})(globalThis);
