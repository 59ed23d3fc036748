// @ts-check
// The browser's half of tinwright.benchlog.policy: what the policy asks for now, and what was missed.
// Plain values in, plain values out.
// needs: bench-log-rules.js
// joined: bench-log.js

/**
 * @typedef {{testCans: number, recheckCans: number, recheckMinutes: number}} LogPolicy
 * @typedef {{check: string, reasons: string[], cansLeft: number, minutesLeft: number|null, testCans: number,
 *   canNumber: number|null, askedBy: LogEvent|null}} LogDue
 * @typedef {{check: string, reasons: string[], after: number, allowed: number, canNumber: number|null,
 *   askedBy: LogEvent|null, overrun?: string}} LogAsked `overrun`: when the first can too many was sealed
 * @typedef {{check: string, reasons: string[], at: string, cans: CanRange, askedBy: LogEvent|null, made: LogEvent|null,
 *   times: number}} LogMissed
 */

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const rules = globals.tinwrightBenchLog;
  const { CHECKS, cansShown, checkedCan, counted, outcomeOf, seconds } = rules;
  const TOUCH = /** @type {Object<string, string>} */ ({
    "set-up": "set-up", adjustment: "adjustment", "can-change": "size", "lid-lot": "lid-lot",
  });
  const IN_A_PAUSE = ["pause", "heated", "cause", "hold", "release", "discard"];
  const TEST_CAN_IS_ENOUGH = ["jam", "long-stop"];

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
      /** When the day was closed. */
      this.closed = "";
      /** When the last can was sealed, and the second of the look before it. @type {[string, number|null]} */
      this.sealed = ["", null];
      /** @type {LogMissed[]} */
      this.missed = [];
    }

    /** @param {LogEvent} event */
    read(event) {
      this.endPause(event);
      this.count(event);
      const outcome = outcomeOf(event, this.dispositions);
      if (outcome === "failed") this.failed(event);
      else if (outcome === "good") this.good(event);
      else if (CHECKS.includes(event.kind)) {
        this.ask({ check: "measure-again", reasons: ["measure-again"], after: this.counter, allowed: 0, canNumber: checkedCan(event), askedBy: event });
      } else if (TOUCH[event.kind]) this.askRow(event.kind === "set-up" && this.counter === 0 ? "start" : TOUCH[event.kind], event);
      else if (event.kind === "jam") this.askNextCan("jam", event);
      else if (event.kind === "pause") this.pausedAt = this.pausedAt === null ? seconds(event.at) : this.pausedAt;
      else if (event.kind === "close") this.closed = event.at;
    }

    /** @param {LogEvent} event */
    count(event) {
      const shown = cansShown(event);
      if (shown <= this.counter) return;
      this.counter = shown;
      this.sealed = [event.at, this.checkedAt];
      this.asked = this.asked.map((asked) => (!asked.overrun && asked.after + asked.allowed < shown ? { ...asked, overrun: event.at } : asked));
    }

    /** Seconds of work since a look, the last one. @param {number} until second of the day @param {number|null} since second of the look */
    worked(until, since = this.checkedAt) {
      return since === null ? 0 : Math.max(0, until - since);
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
        if (this.row >= this.policy.testCans) this.made(event, (asked) => asked.check === "test-cans");
      }
      this.settle(event, can, event.kind === "measured-check");
      this.lookedAt(can === null ? this.counter : can, event);
    }

    /** @param {LogEvent} event */
    failed(event) {
      if (CHECKS.includes(event.kind)) {
        const can = checkedCan(event);
        if (can !== null) this.settle(event, can, true);
        this.made(event, (asked) => asked.check === "measure-again");
        this.lookedAt(can === null ? this.counter : can, event);
      }
      this.askRow("failed", event);
    }

    /** Takes looks asked for as made. @param {LogEvent} event @param {number|null} can null for a test can @param {boolean} measured */
    settle(event, can, measured) {
      this.made(event, (asked) => {
        if (asked.check === "measure-again") return measured && (can === null || can >= (asked.canNumber || 1));
        if (asked.check !== "next-can") return false;
        return can === null ? asked.reasons.every((reason) => TEST_CAN_IS_ENOUGH.includes(reason)) : can > asked.after;
      });
    }

    /** @param {LogEvent} event @param {(asked: LogAsked) => boolean} isMade */
    made(event, isMade) {
      const made = this.asked.filter(isMade);
      this.asked = this.asked.filter((asked) => !made.includes(asked));
      for (const asked of made) this.missed.push(...this.late(asked, event));
    }

    /** @param {number} can @param {LogEvent} event */
    lookedAt(can, event) {
      if (can < this.counter && can <= this.checked) return;
      const now = seconds(event.at);
      this.missed.push(...this.lateInterval(this.worked(now), event.at, event));
      this.checked = Math.max(this.checked, can);
      this.checkedAt = now;
      this.sealed = [event.at, now];
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
        if (asked.check !== "test-cans") return true;
        this.missed.push(...this.late(before, null));
        return false;
      });
      this.asked.push(merged);
    }

    /** That a check was made too late, or never. @param {LogAsked} asked @param {LogEvent|null} made @returns {LogMissed[]} */
    late({ check, reasons, after, canNumber, askedBy, overrun }, made) {
      const first = Math.min(canNumber || after + 1, after + 1);
      return overrun && first <= this.counter ? [{ check, reasons, at: overrun, cans: [first, this.counter], askedBy, made, times: 1 }] : [];
    }

    /** That too much was sealed since the last look. @param {number} worked @param {string} at @param {LogEvent|null} made @returns {LogMissed[]} */
    lateInterval(worked, at, made) {
      const sealed = this.counter - this.checked;
      const byCans = Math.floor(Math.max(0, sealed - 1) / this.policy.recheckCans);
      const byMinutes = sealed > 1 ? Math.floor(Math.max(0, worked - 1) / (this.policy.recheckMinutes * 60)) : 0;
      const reasons = [...(byCans ? ["interval-cans"] : []), ...(byMinutes ? ["interval-minutes"] : [])];
      return reasons.length ? [{ check: "check", reasons, at, cans: [this.checked + 1, this.counter], askedBy: null, made, times: Math.max(byCans, byMinutes) }] : [];
    }

    /** What was missed as the log stands; what may still be made in time is not. @returns {LogMissed[]} */
    missedSoFar() {
      const open = this.asked.flatMap((asked) => {
        const isBegun = this.counter > asked.after || asked.check === "measure-again";
        return this.late({ ...asked, overrun: asked.overrun || (isBegun ? this.closed : "") }, null);
      });
      const [at, since] = this.sealed;
      const all = [...this.missed, ...open, ...this.lateInterval(this.worked(seconds(at), since), at, null)];
      return all.sort((one, other) => seconds(one.at) - seconds(other.at) || one.cans[0] - other.cans[0] || one.cans[1] - other.cans[1]);
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
        const worked = this.worked(this.pausedAt === null ? now : Math.min(now, this.pausedAt));
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

  /**
   * Each check that the policy asked for in one session and that was not made, or made too late.
   * @param {LogEvent[]} events @param {LogPolicy} policy @param {Object<string, string>} [dispositions] @returns {LogMissed[]}
   */
  const missedChecks = (events, policy, dispositions = {}) => readBench(events, policy, dispositions).missedSoFar();

  Object.assign(rules, { isNow, missedChecks, readBench, whatIsDue });
})(globalThis);
