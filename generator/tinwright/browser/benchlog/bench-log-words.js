// @ts-check
// What the bench log says: a line of the log, what is due, and which cans to hold.
// needs: bench-advice.js bench-log-due.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { data: records, defects, say } = root.tinwrightBench;
  const { spanText } = root.tinwrightSeaming;
  const data = root.tinwrightBenchLogData;
  const { MEASURED: MEASURES, ONE_RUN, TORN_DOWN, canName, count } = root.tinwrightBenchLog;
  const { runOfEvent } = root.tinwrightBenchLogWriting;
  const { isNow } = root.tinwrightBenchLogDue;
  const RESULTS = /** @type {Object<string, string>} */ ({
    good: "Good",
    bad: "Bad",
    accept: "Accept",
    "measure-again": "Measure again",
    reject: "Reject",
  });
  /** As the office's report says it. */
  const MISSED = /** @type {Object<string, string>} */ ({
    "test-cans": "Row of good test cans",
    "next-can": "Look at the very next can",
    "measure-again": "Measure again",
    check: "Look at a can",
    teardown: "Tear down a can",
    "end-check": "Check at the end of the session",
  });
  /** @type {Object<string, string>} */
  const causes = Object.create(null);
  for (const cause of records.causes) causes[cause.cause] = cause.title;

  /** @param {string} text */
  const upper = (text) => text.charAt(0).toUpperCase() + text.slice(1);
  /** @param {number} number @param {string} one @param {string} [more] */
  const many = (number, one, more = `${one}s`) => `${number} ${number === 1 ? one : more}`;
  /**
   * Its title, or the id itself when this site has no such record.
   * @param {{id: string, title: string}[]} list
   * @param {string} id
   */
  const titleOf = (list, id) => (list.find((each) => each.id === id) || { title: id }).title;
  /** @param {string} id */
  const sealerTitle = (id) => titleOf(records.sealers, id);
  /** @param {string} id */
  const canTitle = (id) => titleOf(data.cans, id);
  /** @param {string} id */
  const defectTitle = (id) => (Object.prototype.hasOwnProperty.call(defects, id) ? defects[id].title : id);
  /** @param {string} id */
  const causeTitle = (id) => causes[id] || id;
  /** @param {number} first @param {number} last */
  const span = (first, last) => (first === last ? canName(first) : `${canName(first)} to ${canName(last)}`);
  /** @param {CanRange[]} ranges */
  const spans = (ranges) => ranges.map(([first, last]) => span(first, last)).join(", ");
  /** `can 12` or `cans 13 to 17, 20`. @param {CanRange[]} ranges */
  const cans = (ranges) => `${count(ranges) === 1 ? "can" : "cans"} ${spans(ranges)}`;
  /** @param {LogEvent} event @returns {CanRange[]} */
  const rangeOf = (event) =>
    event.first === undefined && event.last === undefined
      ? []
      : [[named(event, event.first || event.last || 1), named(event, event.last || event.first || 1)]];
  /** The can of a number in an event. @param {LogEvent} event @param {number} number @returns {number} */
  const named = (event, number) => runOfEvent(event) * ONE_RUN + number;

  /** What was measured, one dimension after the other. @param {LogReading[]} readings */
  function readingsText(readings) {
    const dimensions = [...new Set(readings.map(({ dimension }) => dimension))];
    return dimensions
      .map((dimension) => {
        const values = readings.filter((reading) => reading.dimension === dimension).map(({ value }) => value);
        return `${say(dimension)} ${spanText(dimension, Math.min(...values), Math.max(...values))}`;
      })
      .join(", ");
  }

  /** What was done to the sealer or the work at it. @param {string} adjuster @param {string} direction */
  function adjusted(adjuster, direction) {
    const known = Object.prototype.hasOwnProperty.call(data.adjusted, adjuster) ? data.adjusted[adjuster] : {};
    if (Object.prototype.hasOwnProperty.call(known, direction)) return known[direction];
    return known[""] || `${say(direction)} the ${say(adjuster)}`;
  }

  /** What happened, without the time. @param {LogEvent} event */
  function eventText(event) {
    const kind = Object.prototype.hasOwnProperty.call(data.kinds, event.kind)
      ? data.kinds[event.kind].label
      : event.kind;
    const range = rangeOf(event);
    const on = range.length ? upper(cans(range)) : "";
    const parts = [];
    if (event.kind === "sealed") parts.push(`${on} sealed`);
    else if (event.kind === "heated") parts.push(`${on} put in the canner`);
    else if (event.kind === "new-run") parts.push(`${kind}: the next can is ${canName(named(event, 1))}`);
    else if (["hold", "release", "discard"].includes(event.kind)) {
      parts.push(`${on} ${{ hold: "held", release: "released", discard: "discarded" }[event.kind]}`);
    } else if (event.kind === "adjustment") {
      const how = event.turns ? ` ${event.turns} turn` : "";
      parts.push(upper(adjusted(event.adjuster || "", event.direction || "")) + how);
    } else {
      parts.push(kind + (event.can_number !== undefined ? `, can ${canName(named(event, event.can_number))}` : ""));
      if (range.length) parts.push(cans(range));
    }
    if (event.result) parts.push((RESULTS[event.result] || event.result).toLowerCase());
    if (event.can) parts.push(canTitle(event.can));
    if (event.lid_lot) parts.push(event.lid_lot);
    if (event.cause) parts.push(causeTitle(event.cause));
    if (event.defect) parts.push(defectTitle(event.defect));
    if (event.torn_down) parts.push("torn down");
    if (event.readings) parts.push(readingsText(event.readings));
    if (event.reason) parts.push(event.reason);
    if (event.note) parts.push(event.note);
    if (event.by) parts.push(`by ${event.by}`);
    if (event.on) parts.push(`on ${event.on}`);
    return parts.join(" · ");
  }

  /** @param {LogDue} due */
  function dueText(due) {
    const number = due.canNumber;
    if (due.check === "test-cans") {
      return `Make ${many(due.testCans, "good test can")}${due.testCans > 1 ? " in a row" : ""}`;
    }
    if (due.check === "measure-again") {
      return number === null ? "Measure a test can again" : `Measure can ${canName(number)} again`;
    }
    if (due.check === "next-can" && number !== null) return `Look at can ${canName(number)}`;
    if (due.check === "teardown") return "Tear down a test can";
    return "Look at the last can sealed";
  }

  /**
   * Which check was missed, why it was asked for, on which cans, and whether it was made later.
   * @param {LogMissed} missed
   */
  function missedText({ check, reasons, cans: range, made, times }) {
    const why = reasons.map((reason) => data.reasons[reason] || reason).join(", ");
    const often = times > 1 ? `, ${times} times over` : "";
    const later = made ? `made at ${made.at.slice(0, 5)}` : "not made";
    return `${MISSED[check]}${often}: ${why} · ${cans([range])} · ${later}`;
  }

  /** @param {LogDue} due */
  const dueWhy = (due) => due.reasons.map((reason) => data.reasons[reason] || reason).join("; ");

  /** How long until it is due, as one line. @param {LogDue} due */
  function dueWhen(due) {
    if (isNow(due)) return "now";
    if (due.check === "next-can") return "as soon as it is sealed";
    const left = [
      due.cansLeft === null ? "" : many(due.cansLeft, "can"),
      due.minutesLeft === null ? "" : many(due.minutesLeft, "minute"),
    ];
    return `in ${left.filter(Boolean).join(" or ")}`;
  }

  /** What is said aloud: only what changes what to do, so that no minute is announced. @param {LogDue[]} dues */
  function dueAloud(dues) {
    const now = dues.filter(isNow);
    if (now.length) return `Due now: ${now.map(dueText).join(". ")}.`;
    const next = dues.find((due) => due.check === "next-can");
    if (next) return `${dueText(next)} as soon as it is sealed.`;
    const check = dues.find((due) => due.check === "check");
    if (!check) return "";
    const soon = [];
    if (check.cansLeft !== null && check.cansLeft <= 3) soon.push("within 3 cans");
    if (check.minutesLeft !== null && check.minutesLeft <= 5) soon.push("within 5 minutes");
    return soon.length ? `The next check is due ${soon.join(" and ")}.` : "No check is due now.";
  }

  /** Which checks could have found the fault that holds cans, as the office's report says it. @param {LogHold} hold */
  function faultText({ reach, event }) {
    if (reach === TORN_DOWN && !event.defect) {
      return "The fault was not named, so only a can torn down counts as a good check. Name it: tap its line.";
    }
    if (reach === TORN_DOWN) return "Only a can torn down could have shown this fault.";
    return reach === MEASURES
      ? "Only a can that was measured could have shown this fault."
      : "Each check could have found this fault.";
  }

  const END = ["", "look at the last can", "measure the last can", "tear down a test can"];

  /**
   * What is to be done before the day is closed; empty when nothing is.
   * @param {CanRange|null} range cans that wait for it
   */
  function endText(range) {
    if (!range) return "";
    const wait = count([range]) === 1 ? "waits" : "wait";
    return `Before you close the day, ${END[data.policy.endCheck || 0]}: ${cans([range])} ${wait} for it.`;
  }

  root.tinwrightBenchLogWords = {
    RESULTS,
    endText,
    faultText,
    canTitle,
    cans,
    dueAloud,
    dueText,
    dueWhen,
    dueWhy,
    eventText,
    many,
    missedText,
    rangeOf,
    sealerTitle,
    upper,
  };
})(globalThis);
