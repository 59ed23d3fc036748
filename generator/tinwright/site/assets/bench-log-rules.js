// @ts-check
// The browser's half of tinwright.benchlog: what an event says, cans as ranges, and what the policy asks for now.
// Plain values in, plain values out. Events have the names of the log's file: `can_number`, `lid_lot`, `torn_down`.

/**
 * @typedef {{dimension: string, point: string, value: number}} LogReading
 * @typedef {{id: string, at: string, kind: string, revision?: number, struck?: boolean, by?: string, can_number?: number,
 *   first?: number, last?: number, result?: string, can?: string, lid_lot?: string, defect?: string, cause?: string,
 *   adjuster?: string, direction?: string, turns?: string, method?: string, specification?: string,
 *   readings?: LogReading[], torn_down?: boolean, reason?: string, note?: string}} LogEvent
 * @typedef {{date: string, kitchen: string, sealer: string, can?: string, lid_lot?: string, supervisor?: string,
 *   product?: string, events: LogEvent[]}} LogSession
 * @typedef {[number, number]} CanRange first and last can, both meant
 * @typedef {{testCans: number, recheckCans: number, recheckMinutes: number}} LogPolicy
 * @typedef {{check: string, reasons: string[], cansLeft: number, minutesLeft: number|null, testCans: number,
 *   canNumber: number|null, askedBy: LogEvent|null}} LogDue
 * @typedef {{check: string, reasons: string[], after: number, allowed: number, canNumber: number|null,
 *   askedBy: LogEvent|null}} LogAsked
 */

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const CHECKS = ["test-can", "visual-check", "measured-check"];
  const CHANGES = ["set-up", "adjustment", "jam", "can-change"];
  const SHOW_CANS = ["sealed", "heated", "defect"];
  const TOUCH = /** @type {Object<string, string>} */ ({
    "set-up": "set-up", adjustment: "adjustment", "can-change": "size", "lid-lot": "lid-lot",
  });
  const IN_A_PAUSE = ["pause", "heated", "cause", "hold", "release", "discard"];
  const TEST_CAN_IS_ENOUGH = ["jam", "long-stop"];

  // ---- events ----

  /** @param {string} at */
  const withSeconds = (at) => (at.length > 5 ? at : `${at}:00`);

  /** @param {string} id @returns {number} the number an id ends in */
  function written(id) {
    const number = id.slice(id.lastIndexOf("-") + 1);
    return /^\d+$/.test(number) ? Number(number) : 0;
  }

  /** @param {string} one @param {string} other */
  const compareText = (one, other) => (one < other ? -1 : one > other ? 1 : 0);

  /** Sort by time, those of one time in the order of their ids' numbers. @param {LogEvent[]} events @returns {LogEvent[]} */
  const inOrder = (events) => [...events].sort((one, other) =>
    compareText(withSeconds(one.at), withSeconds(other.at)) || written(one.id) - written(other.id) || compareText(one.id, other.id));

  /** @type {WeakMap<LogEvent[], LogEvent[]>} */
  const sorted = new WeakMap();

  /** Those that count, in order; sorted once for each list, which must not be changed afterwards. @param {LogEvent[]} events */
  function counted(events) {
    const found = sorted.get(events) || inOrder(events.filter((event) => !event.struck));
    sorted.set(events, found);
    return found;
  }

  /** @param {LogEvent} event @param {Object<string, string>} dispositions @returns {"good"|"failed"|""} */
  function outcomeOf(event, dispositions) {
    const known = event.defect && Object.prototype.hasOwnProperty.call(dispositions, event.defect);
    const disposition = known ? dispositions[event.defect || ""] : event.defect ? "hold" : "cosmetic";
    if (event.kind === "defect") {
      const bad = disposition !== "cosmetic" && (disposition !== "discard-part" || event.first !== undefined);
      return bad ? "failed" : "";
    }
    if (!CHECKS.includes(event.kind)) return "";
    const harmless = disposition === "cosmetic" || disposition === "discard-part";
    if (event.result === "bad" || event.result === "reject" || !harmless) return "failed";
    return event.result === "good" || event.result === "accept" ? "good" : "";
  }

  /** The can a check or a found defect is about; null for a test can or an unknown can. @param {LogEvent} event @returns {number|null} */
  function checkedCan(event) {
    const number = event.kind === "defect" ? event.first : event.kind === "test-can" || !CHECKS.includes(event.kind) ? undefined : event.can_number;
    return number === undefined ? null : number;
  }

  /** The highest can that must be sealed for this to be true. @param {LogEvent} event @returns {number} */
  function cansShown(event) {
    const last = SHOW_CANS.includes(event.kind) ? Math.max(event.first || 0, event.last || 0) : 0;
    return Math.max(last, event.can_number || 0);
  }

  /** Seconds since midnight. @param {string} at @returns {number} */
  function seconds(at) {
    const [hours, minutes, rest = 0] = at.split(":").map(Number);
    return hours * 3600 + minutes * 60 + rest;
  }

  /** The last can sealed. @param {LogEvent[]} events @returns {number} */
  const counterOf = (events) => events.reduce((most, event) => (event.struck ? most : Math.max(most, cansShown(event))), 0);

  // ---- ranges of cans ----

  /** All cans of some ranges. @param {CanRange[][]} parts @returns {CanRange[]} */
  function joined(...parts) {
    /** @type {CanRange[]} */
    const found = [];
    const sorted = parts.flat().filter(([first, last]) => first <= last).sort((one, other) => one[0] - other[0] || one[1] - other[1]);
    for (const [first, last] of sorted) {
      const before = found[found.length - 1];
      if (before && first <= before[1] + 1) found[found.length - 1] = [before[0], Math.max(before[1], last)];
      else found.push([first, last]);
    }
    return found;
  }

  /** The cans of `ranges` that are not in `taken`. @param {CanRange[]} ranges @param {CanRange[]} taken @returns {CanRange[]} */
  function without(ranges, taken) {
    let left = joined(ranges);
    for (const [first, last] of joined(taken)) {
      left = joined(left.flatMap(([low, high]) => /** @type {CanRange[]} */ ([[low, Math.min(high, first - 1)], [Math.max(low, last + 1), high]])));
    }
    return left;
  }

  /** @param {CanRange[]} one @param {CanRange[]} other @returns {CanRange[]} */
  const shared = (one, other) => without(one, without(one, other));

  /** @param {CanRange[]} ranges @returns {number} */
  const count = (ranges) => joined(ranges).reduce((sum, [first, last]) => sum + last - first + 1, 0);

  // ---- what is due ----

  /** The log of one session read in order, as far as it has got. */
  class Bench {
    /** @param {LogPolicy} policy @param {Object<string, string>} dispositions */
    constructor(policy, dispositions) {
      this.policy = policy;
      this.dispositions = dispositions;
      this.counter = 0;
      /** @type {LogAsked[]} */
      this.asked = [
        { check: "test-cans", reasons: ["start"], after: 0, allowed: 0, canNumber: null, askedBy: null },
        { check: "next-can", reasons: ["start"], after: 0, allowed: 1, canNumber: 1, askedBy: null },
      ];
      this.row = 0;
      this.checked = 0;
      /** @type {number|null} */
      this.checkedAt = null;
      /** @type {number|null} */
      this.pausedAt = null;
      this.closed = false;
    }

    /** @param {LogEvent} event */
    read(event) {
      this.endPause(event);
      this.counter = Math.max(this.counter, cansShown(event));
      const outcome = outcomeOf(event, this.dispositions);
      if (outcome === "failed") this.failed(event);
      else if (outcome === "good") this.good(event);
      else if (CHECKS.includes(event.kind)) {
        this.ask({ check: "measure-again", reasons: ["measure-again"], after: this.counter, allowed: 0, canNumber: checkedCan(event), askedBy: event });
      } else if (TOUCH[event.kind]) this.askRow(event.kind === "set-up" && this.counter === 0 ? "start" : TOUCH[event.kind], event);
      else if (event.kind === "jam") this.askNextCan("jam", event);
      else if (event.kind === "pause") this.pausedAt = this.pausedAt === null ? seconds(event.at) : this.pausedAt;
      else if (event.kind === "close") this.closed = true;
    }

    /** @param {LogEvent} event */
    endPause(event) {
      if (this.pausedAt === null || IN_A_PAUSE.includes(event.kind)) return;
      const length = Math.max(0, seconds(event.at) - this.pausedAt);
      this.pausedAt = null;
      if (this.checkedAt !== null) this.checkedAt += length;
      if (length > this.policy.recheckMinutes * 60 && event.kind !== "close") this.askNextCan("long-stop", event);
    }

    /** @param {LogEvent} event */
    good(event) {
      const can = checkedCan(event);
      if (event.kind === "test-can") {
        this.row += 1;
        if (this.row >= this.policy.testCans) this.asked = this.asked.filter((asked) => asked.check !== "test-cans");
      }
      this.settle(can, event.kind === "measured-check");
      this.lookedAt(can === null ? this.counter : can, event);
    }

    /** @param {LogEvent} event */
    failed(event) {
      if (CHECKS.includes(event.kind)) {
        const can = checkedCan(event);
        if (can !== null) this.settle(can, true);
        this.asked = this.asked.filter((asked) => asked.check !== "measure-again");
        this.lookedAt(can === null ? this.counter : can, event);
      }
      this.askRow("failed", event);
    }

    /** Takes looks asked for as made. @param {number|null} can null for a test can @param {boolean} measured */
    settle(can, measured) {
      this.asked = this.asked.filter((asked) => {
        if (asked.check === "measure-again") return !(measured && (can === null || can >= (asked.canNumber || 1)));
        if (asked.check !== "next-can") return true;
        return can === null ? !asked.reasons.every((reason) => TEST_CAN_IS_ENOUGH.includes(reason)) : can <= asked.after;
      });
    }

    /** @param {number} can @param {LogEvent} event */
    lookedAt(can, event) {
      if (can < this.counter && can <= this.checked) return;
      this.checked = Math.max(this.checked, can);
      this.checkedAt = seconds(event.at);
    }

    /** @param {string} reason @param {LogEvent} event */
    askRow(reason, event) {
      this.row = 0;
      this.ask({ check: "test-cans", reasons: [reason], after: this.counter, allowed: 0, canNumber: null, askedBy: event });
      this.askNextCan(reason, event);
    }

    /** @param {string} reason @param {LogEvent} event */
    askNextCan(reason, event) {
      this.ask({ check: "next-can", reasons: [reason], after: this.counter, allowed: 1, canNumber: this.counter + 1, askedBy: event });
    }

    /** Asks for a check, in one with what is asked for already if no can was sealed since. @param {LogAsked} asked */
    ask(asked) {
      let merged = asked;
      this.asked = this.asked.filter((before) => {
        if (before.check !== asked.check) return true;
        if (before.after === asked.after) {
          merged = { ...merged, reasons: [...new Set([...before.reasons, ...merged.reasons])] };
          return false;
        }
        return asked.check !== "test-cans";
      });
      this.asked.push(merged);
    }

    /** @param {number} now second of the day @returns {LogDue[]} */
    due(now) {
      /** @type {LogDue[]} */
      const found = this.asked.map(({ check, reasons, after, allowed, canNumber, askedBy }) => ({
        check, reasons, cansLeft: after + allowed - this.counter, minutesLeft: null,
        testCans: check === "test-cans" ? this.policy.testCans - this.row : 0, canNumber, askedBy,
      }));
      if (this.checkedAt !== null) {
        const cansLeft = this.policy.recheckCans - (this.counter - this.checked);
        const until = this.pausedAt === null ? now : Math.min(now, this.pausedAt);
        const worked = Math.max(0, until - this.checkedAt);
        const minutesLeft = Math.floor((this.policy.recheckMinutes * 60 - worked) / 60);
        const over = [...(cansLeft <= 0 ? ["interval-cans"] : []), ...(minutesLeft <= 0 ? ["interval-minutes"] : [])];
        const reasons = over.length ? over : ["interval-cans", "interval-minutes"];
        found.push({ check: "check", reasons, cansLeft, minutesLeft, testCans: 0, canNumber: null, askedBy: null });
      }
      return found.sort((one, other) => Number(isNow(other)) - Number(isNow(one)));
    }
  }

  /** Whether it comes before another can is sealed. @param {LogDue} due */
  const isNow = (due) => due.cansLeft <= 0 || (due.minutesLeft !== null && due.minutesLeft <= 0);

  /** @param {LogEvent[]} events @param {LogPolicy} policy @param {Object<string, string>} dispositions */
  function readBench(events, policy, dispositions) {
    const bench = new Bench(policy, dispositions);
    for (const event of counted(events)) bench.read(event);
    return bench;
  }

  /**
   * What is due in one session, the most urgent first; nothing once the day is closed.
   * @param {LogEvent[]} events @param {LogPolicy} policy @param {string} now @param {Object<string, string>} [dispositions]
   * @returns {LogDue[]}
   */
  function whatIsDue(events, policy, now, dispositions = {}) {
    const bench = readBench(events, policy, dispositions);
    return bench.closed ? [] : bench.due(seconds(now));
  }

  globals.tinwrightBenchLog = {
    CHANGES, CHECKS, cansShown, checkedCan, compareText, count, counted, counterOf, inOrder, isNow, joined, outcomeOf,
    readBench, seconds, shared, whatIsDue, withSeconds, without, written,
  };
})(globalThis);
