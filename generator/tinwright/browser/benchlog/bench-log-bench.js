// @ts-check
// The browser's half of tinwright.benchlog.policy: the log of one session read in order, and what each line asks for.
// needs: bench-log-late.js bench-log-writing.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { CHECKS, LOOKED_AT, ONE_RUN, TORN_DOWN, outcomeOf, reachOf, runOf, seconds } = root.tinwrightBenchLog;
  const { linesOf } = root.tinwrightBenchLogWriting;
  const { late, lateEnd, lateInterval, workedOf } = root.tinwrightBenchLogLate;
  const TOUCH = /** @type {Object<string, string>} */ ({
    "set-up": "set-up",
    adjustment: "adjustment",
    "can-change": "size",
    "lid-lot": "lid-lot",
  });
  const IN_A_PAUSE = ["pause", "heated", "cause", "hold", "release", "discard"];
  const TEST_CAN_IS_ENOUGH = ["jam", "long-stop"];

  /** The log of one session read in order, as far as it has got. Cans are counted through all runs of the counter. */
  class Bench {
    /** @param {LogPolicy} policy @param {Object<string, string>} dispositions */
    constructor(policy, dispositions) {
      this.policy = policy;
      this.dispositions = dispositions;
      this.counter = 0;
      /** How many cans were sealed before each run. */
      this.runs = [0];
      /** @type {LogAsked[]} */
      this.asked = [
        { check: "test-cans", reasons: ["start"], after: 0, allowed: 0, canNumber: null, askedBy: null },
        { check: "next-can", reasons: ["start"], after: 0, allowed: 1, canNumber: 1, askedBy: null },
      ];
      this.row = 0;
      const blank = { checked: 0, checkedAt: null };
      /** @type {LogInterval} */
      this.look = {
        check: "check",
        reach: LOOKED_AT,
        names: ["interval-cans", "interval-minutes"],
        cans: policy.recheckCans,
        minutes: policy.recheckMinutes,
        ...blank,
        sealed: ["", 0],
      };
      this.intervals = [this.look];
      this.tearsDown = Boolean(policy.teardownCans || policy.teardownMinutes);
      if (this.tearsDown) {
        this.asked.splice(1, 0, {
          check: "teardown",
          reasons: ["start"],
          after: 0,
          allowed: 0,
          canNumber: null,
          askedBy: null,
        });
        this.intervals.push({
          check: "teardown",
          reach: TORN_DOWN,
          names: ["teardown-cans", "teardown-minutes"],
          cans: policy.teardownCans || 0,
          minutes: policy.teardownMinutes || 0,
          ...blank,
          sealed: ["", 0],
        });
      }
      /** The last can that a check found good which reaches as far as the one at the end. */
      this.goodAtTheEnd = 0;
      /** @type {number|null} */
      this.pausedAt = null;
      /** When the day was closed. */
      this.closed = "";
      /** @type {LogMissed[]} */
      this.missed = [];
      this.clock = 0;
      /** Seconds by which the clock went back so far. */
      this.setBack = 0;
    }

    /** @param {LogLine} line */
    read(line) {
      const { event } = line;
      const now = event.on ? this.clock : this.time(event.at);
      this.endPause(event, now);
      this.count(line, now);
      const can = this.place(line.can);
      const outcome = outcomeOf(event, this.dispositions);
      if (outcome === "failed") this.failed(event, can, now);
      else if (outcome === "good") this.good(event, can, now);
      else if (CHECKS.includes(event.kind)) {
        this.ask({
          check: "measure-again",
          reasons: ["measure-again"],
          after: this.counter,
          allowed: 0,
          canNumber: can,
          askedBy: event,
        });
      } else if (TOUCH[event.kind]) {
        this.askRow(event.kind === "set-up" && this.counter === 0 ? "start" : TOUCH[event.kind], event);
      } else if (event.kind === "jam") this.askNextCan("jam", event);
      else if (event.kind === "pause") this.pausedAt = this.pausedAt === null ? now : this.pausedAt;
      else if (event.kind === "close") {
        this.closed = event.at;
        this.missed.push(...lateEnd(this, event));
      }
    }

    /** A time as seconds of the day; a clock that was set back stands still and then goes on. @param {string} at */
    time(at) {
      let now = seconds(at) + this.setBack;
      if (now < this.clock) {
        this.setBack += this.clock - now;
        now = this.clock;
      }
      this.clock = now;
      return now;
    }

    /** The how manieth can of the day it is. @param {number|null} can @returns {number|null} */
    place(can) {
      if (can === null) return null;
      while (runOf(can) >= this.runs.length) this.runs.push(this.counter);
      return this.runs[runOf(can)] + (can % ONE_RUN);
    }

    /** @param {number} place @returns {number} */
    can(place) {
      let run = this.runs.length - 1;
      while (run && this.runs[run] >= place) run -= 1;
      return run * ONE_RUN + place - this.runs[run];
    }

    /** @param {LogLine} line @param {number} now */
    count(line, now) {
      const shown = this.place(line.shown) || 0;
      if (shown <= this.counter) return;
      this.counter = shown;
      for (const each of this.intervals) each.sealed = [line.event.at, workedOf(each, now)];
      this.asked = this.asked.map((asked) =>
        !asked.overrun && asked.after + asked.allowed < shown ? { ...asked, overrun: line.event.at } : asked,
      );
    }

    /** @param {LogEvent} event @param {number} now */
    endPause(event, now) {
      if (this.pausedAt === null || IN_A_PAUSE.includes(event.kind)) return;
      const length = Math.max(0, now - this.pausedAt);
      this.pausedAt = null;
      for (const each of this.intervals) if (each.checkedAt !== null) each.checkedAt += length;
      if (length > this.policy.recheckMinutes * 60 && event.kind !== "close") this.askNextCan("long-stop", event);
    }

    /** @param {LogEvent} event @param {number|null} can @param {number} now */
    good(event, can, now) {
      if (event.kind === "test-can") {
        this.row += 1;
        if (this.row >= this.policy.testCans) this.made(event, (asked) => asked.check === "test-cans");
      }
      this.settle(event, can, event.kind === "measured-check");
      const through = can === null ? this.counter : can;
      this.lookedAt(through, event, now);
      if (reachOf(event) >= (this.policy.endCheck || 0)) this.goodAtTheEnd = Math.max(this.goodAtTheEnd, through);
    }

    /** @param {LogEvent} event @param {number|null} can @param {number} now */
    failed(event, can, now) {
      if (CHECKS.includes(event.kind)) {
        if (can !== null) this.settle(event, can, true);
        this.made(event, (asked) => asked.check === "measure-again");
        this.lookedAt(can === null ? this.counter : can, event, now);
      }
      this.askRow("failed", event);
    }

    /**
     * Takes checks asked for as made.
     * @param {LogEvent} event
     * @param {number|null} can null for a test can
     * @param {boolean} measured
     */
    settle(event, can, measured) {
      this.made(event, (asked) => {
        if (asked.check === "measure-again") return measured && (can === null || can >= (asked.canNumber || 1));
        if (asked.check === "teardown") return reachOf(event) >= TORN_DOWN && (can === null || can > asked.after);
        if (asked.check !== "next-can") return false;
        return can === null ? asked.reasons.every((reason) => TEST_CAN_IS_ENOUGH.includes(reason)) : can > asked.after;
      });
    }

    /** @param {LogEvent} event @param {(asked: LogAsked) => boolean} isMade */
    made(event, isMade) {
      const made = this.asked.filter(isMade);
      this.asked = this.asked.filter((asked) => !made.includes(asked));
      for (const asked of made) this.missed.push(...late(this, asked, event));
    }

    /** @param {number} can @param {LogEvent} event @param {number} now */
    lookedAt(can, event, now) {
      for (const each of this.intervals) {
        if (reachOf(event) < each.reach || (can < this.counter && can <= each.checked)) continue;
        this.missed.push(...lateInterval(this, each, workedOf(each, now), event.at, event));
        each.checked = Math.max(each.checked, can);
        each.checkedAt = now;
        each.sealed = [event.at, 0];
      }
    }

    /** @param {string} reason @param {LogEvent} event */
    askRow(reason, event) {
      this.row = 0;
      for (const check of ["test-cans", ...(this.tearsDown ? ["teardown"] : [])]) {
        this.ask({ check, reasons: [reason], after: this.counter, allowed: 0, canNumber: null, askedBy: event });
      }
      this.askNextCan(reason, event);
    }

    /** @param {string} reason @param {LogEvent} event */
    askNextCan(reason, event) {
      this.ask({
        check: "next-can",
        reasons: [reason],
        after: this.counter,
        allowed: 1,
        canNumber: this.counter + 1,
        askedBy: event,
      });
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
        if (!["test-cans", "teardown"].includes(asked.check)) return true;
        this.missed.push(...late(this, before, null));
        return false;
      });
      this.asked.push(merged);
    }
  }

  /**
   * @param {LogEvent[]} events
   * @param {LogPolicy} policy
   * @param {Record<string, string>} dispositions
   * @returns {LogBench}
   */
  function readBench(events, policy, dispositions) {
    const bench = new Bench(policy, dispositions);
    for (const line of linesOf(events)) bench.read(line);
    return bench;
  }

  root.tinwrightBenchLogBench = { readBench };
})(globalThis);
