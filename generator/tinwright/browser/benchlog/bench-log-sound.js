// @ts-check
// What may stand in the log: heads and events from storage and files, each with the entries of its kind and no others.
// joined: bench-log.js

(function (root) {
  "use strict";
  const MOST_TEXT = 500;
  const HEAD = ["date", "kitchen", "sealer", "can", "lid_lot", "supervisor", "product"];
  const TEXTS = [
    "by",
    "result",
    "can",
    "lid_lot",
    "defect",
    "cause",
    "adjuster",
    "direction",
    "turns",
    "method",
    "specification",
    "reason",
    "note",
    "run",
    "on",
    "after",
  ];
  const NUMBERS = ["can_number", "first", "last"];
  const ALWAYS = ["id", "at", "kind", "revision", "struck", "by", "can_number", "note", "run", "on", "after"];
  const FORMS = /** @type {Object<string, RegExp>} */ ({
    run: /^[A-Z]{1,2}$/,
    on: /^\d{4}-\d{2}-\d{2}$/,
    after: /^[A-Za-z0-9]{1,40}-\d{1,9}( [A-Za-z0-9]{1,40}-\d{1,9})*$/,
  });

  /** @param {string} text @returns {any} */
  function parsed(text) {
    try {
      return JSON.parse(text);
    } catch {
      return undefined;
    }
  }

  /** @param {any} value @returns {value is Object<string, any>} */
  const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);

  /** @param {any} value */
  const isText = (value) => typeof value === "string" && value.length <= MOST_TEXT;

  /** @param {any} value */
  const isNumber = (value) => Number.isSafeInteger(value) && value >= 0 && value < 1e9;

  /**
   * The head of a session, with blank entries left out; null when it is none.
   * @param {any} value @returns {LogSession|null}
   */
  function soundHead(value) {
    if (!isObject(value) || !isText(value.kitchen) || !isText(value.sealer)) return null;
    if (!/^\d{4}-\d{2}-\d{2}$/.test(value.date) || !value.kitchen || !value.sealer) return null;
    /** @type {any} */
    const head = { events: [] };
    for (const entry of HEAD) if (isText(value[entry]) && value[entry]) head[entry] = value[entry];
    return head;
  }

  /**
   * An event with its entries in one order and blank ones left out; null when it is none.
   * @param {any} value
   * @param {Record<string, LogKind>} kinds
   * @param {Object<string, string[]>} results
   * @returns {LogEvent|null}
   */
  function soundEvent(value, kinds, results) {
    if (!isObject(value) || !isText(value.id) || !/^[A-Za-z0-9]+-\d+$/.test(value.id)) return null;
    if (typeof value.at !== "string" || !/^([01]\d|2[0-3]):[0-5]\d(:[0-5]\d)?$/.test(value.at)) return null;
    if (typeof value.kind !== "string" || !Object.prototype.hasOwnProperty.call(kinds, value.kind)) return null;
    const kind = kinds[value.kind];
    const allowed = [...ALWAYS, ...kind.needs, ...kind.may];
    /** @type {any} */
    const event = {
      id: value.id,
      at: value.at,
      kind: value.kind,
      revision: isNumber(value.revision) && value.revision ? value.revision : 1,
    };
    if (value.struck === true) event.struck = true;
    for (const entry of TEXTS) {
      if (allowed.includes(entry) && isText(value[entry]) && value[entry]) event[entry] = value[entry];
    }
    for (const entry of NUMBERS) if (allowed.includes(entry) && isNumber(value[entry])) event[entry] = value[entry];
    if (allowed.includes("torn_down") && value.torn_down === true) event.torn_down = true;
    if (allowed.includes("readings") && Array.isArray(value.readings)) {
      const readings = value.readings
        .slice(0, 200)
        .filter(
          (/** @type {any} */ reading) =>
            isObject(reading) && isText(reading.dimension) && isText(reading.point) && Number.isFinite(reading.value),
        );
      if (readings.length) {
        event.readings = readings.map((/** @type {any} */ { dimension, point, value: number }) => ({
          dimension,
          point,
          value: number,
        }));
      }
    }
    return problemsOf(event, kind, results).length ? null : event;
  }

  /**
   * The entries that are missing or make no sense, as `benchlog.events.problems_of` finds them.
   * @param {any} event
   * @param {LogKind} kind
   * @param {Record<string, string[]>} results
   */
  function problemsOf(event, kind, results) {
    const found = kind.needs.filter((entry) => event[entry] === undefined || event[entry] === "");
    if (results[event.kind] && !results[event.kind].includes(event.result)) found.push("result");
    for (const entry of ["first", "last"]) if (event[entry] !== undefined && event[entry] < 1) found.push(entry);
    if (event.first !== undefined && event.last !== undefined && event.first > event.last) found.push("last");
    for (const [entry, form] of Object.entries(FORMS)) if (event[entry] && !form.test(event[entry])) found.push(entry);
    return [...new Set(found)];
  }

  /** @param {LogEvent} one @param {LogEvent} other */
  const isSame = (one, other) => JSON.stringify(one) === JSON.stringify(other);

  root.tinwrightBenchLogSound = { isObject, isSame, parsed, problemsOf, soundEvent, soundHead };
})(globalThis);
