// @ts-check
// Keeps the bench log on this device: for each session a text that only ever grows, one line of JSON for each thing
// written. A line is kept the moment it is written; a line that cannot be read is left where it is, and told.
// needs: bench-log-writing.js
// joined: bench-log.js

/**
 * @typedef {{key: string, session: LogSession, lines: LogEvent[], unread: string[], pending: string[], disputed: Set<string>}} KeptSession
 */

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const rules = globals.tinwrightBenchLog;
  const KEY = "tinwright.bench-log.";
  const DEVICE = `${KEY}device`;
  const FORMAT = "tinwright-bench-log";
  const VERSION = 1;
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

  /** @param {string} key */
  const isSessionKey = (key) => key.startsWith(KEY) && /^\d{4}-\d{2}-\d{2}\.\d+$/.test(key.slice(KEY.length));

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
   * @param {Object<string, {needs: string[], may: string[]}>} kinds
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
    for (const entry of TEXTS)
      {if (allowed.includes(entry) && isText(value[entry]) && value[entry]) event[entry] = value[entry];}
    for (const entry of NUMBERS) if (allowed.includes(entry) && isNumber(value[entry])) event[entry] = value[entry];
    if (allowed.includes("torn_down") && value.torn_down === true) event.torn_down = true;
    if (allowed.includes("readings") && Array.isArray(value.readings)) {
      const readings = value.readings
        .slice(0, 200)
        .filter(
          (/** @type {any} */ reading) =>
            isObject(reading) && isText(reading.dimension) && isText(reading.point) && Number.isFinite(reading.value),
        );
      if (readings.length)
        {event.readings = readings.map((/** @type {any} */ { dimension, point, value: number }) => ({
          dimension,
          point,
          value: number,
        }));}
    }
    return problemsOf(event, kind, results).length ? null : event;
  }

  /**
   * The entries that are missing or make no sense, as `benchlog.events.problems_of` finds them.
   * @param {any} event @param {{needs: string[], may: string[]}} kind @param {Object<string, string[]>} results
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

  /**
   * How few cans a version lets go, as `_caution` in the office: a failure before all, what was struck before what clears cans.
   * @param {LogEvent} event
   * @returns {number[]}
   */
  function caution(event) {
    const letsGo = event.kind === "release" || event.kind === "discard";
    const cans = event.first === undefined ? -1 : (event.last || 0) - event.first;
    const [clears, struck, tells, fails] = [0, 1, 2, 3];
    const result = event.result || "";
    let [weight, seesLess, furtherBack] = [tells, 0, 0];
    if (event.struck) weight = struck;
    else if (["bad", "reject"].includes(result) || event.kind === "hold" || event.defect) {
      [weight, seesLess, furtherBack] = [fails, event.defect ? 0 : 1, -(event.can_number || 0)];
    } else if (letsGo || ["good", "accept"].includes(result)) {
      const can = rules.checkedCan(event);
      [weight, seesLess, furtherBack] = [clears, -rules.reachOf(event), can === null ? -1e9 : -can];
    }
    return [weight, letsGo ? -cans : cans, seesLess, furtherBack];
  }

  /**
   * Of two of one id and revision, the one to go by until somebody decides, as `most_cautious` in the office.
   * @param {LogEvent} one
   * @param {LogEvent} other
   */
  function moreCautious(one, other) {
    const [mine, theirs] = [caution(one), caution(other)];
    const place = mine.findIndex((weight, at) => weight !== theirs[at]);
    return place >= 0 && theirs[place] > mine[place] ? other : one;
  }

  /**
   * What stands: of each event its newest revision.
   * @param {LogEvent[]} lines
   * @returns {{events: LogEvent[], disputed: Set<string>}}
   */
  function latest(lines) {
    /** @type {Map<string, LogEvent>} */
    const found = new Map();
    /** @type {Set<string>} */
    const disputed = new Set();
    for (const line of lines) {
      const before = found.get(line.id);
      const [was, is] = before ? [before.revision || 1, line.revision || 1] : [0, 1];
      if (!before || is > was) {
        found.set(line.id, line);
        disputed.delete(line.id);
      } else if (is === was && !isSame(before, line)) {
        found.set(line.id, moreCautious(before, line));
        disputed.add(line.id);
      }
    }
    return { events: [...found.values()], disputed };
  }

  class Log {
    /**
     * @param {Object<string, {needs: string[], may: string[]}>} kinds @param {Object<string, string[]>} results
     * @param {{add: (key: string, lines: string[]) => Promise<void>, read: () => Promise<CopiedLine[]>}} copy
     */
    constructor(kinds, results, copy) {
      this.copy = copy;
      this.kinds = kinds;
      this.results = results;
      /** @type {KeptSession[]} */
      this.sessions = [];
      /** Texts under keys of ours that are no session at all. @type {{key: string, text: string}[]} */
      this.lost = [];
      /** Why the last thing written is not kept; empty when all is. */
      this.notKept = "";
      /** How many writes are on their way to the disk. */
      this.onTheWay = 0;
      /** Called when that changes. */
      this.tellOnTheWay = () => undefined;
      this.device = "";
      this.number = 0;
      this.read();
    }

    /** @returns {Storage|null} */
    storage() {
      try {
        return globals.localStorage;
      } catch {
        return null;
      }
    }

    /** Reads everything anew; what could not be kept stays. */
    read() {
      const storage = this.storage();
      const unkept = this.sessions.filter((session) => session.pending.length);
      this.sessions = [];
      this.lost = [];
      if (storage) {
        for (const key of Object.keys(storage)
          .filter((name) => name.startsWith(KEY))
          .sort(rules.compareText)) {
          const text = storage.getItem(key) || "";
          if (!isSessionKey(key)) continue;
          const session = this.parse(key, text);
          if (session) this.sessions.push(session);
          else this.lost.push({ key, text });
        }
        const [device, number] = (storage.getItem(DEVICE) || "").split(" ");
        if (/^[a-z0-9]{6}$/.test(device)) {
          this.device = device;
          this.number = Math.max(this.number, /^\d{1,9}$/.test(number) ? Number(number) : 0);
        }
      }
      for (const kept of unkept) {
        const known = this.sessions.find((session) => session.key === kept.key);
        if (known) {
          known.pending = kept.pending;
          this.join(
            known,
            kept.pending.map((line) => JSON.parse(line)),
          );
        } else this.sessions.push(kept);
      }
      if (!this.device) this.device = newDevice();
      for (const { lines } of this.sessions) {
        for (const { id } of lines)
          {if (id.startsWith(`${this.device}-`)) this.number = Math.max(this.number, rules.written(id));}
      }
    }

    /** @param {string} key @param {string} text @returns {KeptSession|null} */
    parse(key, text) {
      /** @type {LogSession|null} */
      let head = null;
      /** @type {LogEvent[]} */
      const lines = [];
      const unread = [];
      for (const line of text.split("\n")) {
        if (!line) continue;
        const value = parsed(line);
        const newHead = isObject(value) ? soundHead(value.session) : null;
        const event = newHead ? null : soundEvent(value, this.kinds, this.results);
        if (newHead) head = newHead;
        else if (event) lines.push(event);
        else unread.push(line);
      }
      if (!head) return null;
      const { events, disputed } = latest(lines);
      return { key, session: { ...head, events }, lines, unread, pending: [], disputed };
    }

    /** @param {KeptSession} kept @param {any[]} values lines just written */
    join(kept, values) {
      for (const value of values) {
        const head = soundHead(value.session);
        if (head) kept.session = { ...head, events: kept.session.events };
        else kept.lines.push(value);
      }
      const { events, disputed } = latest(kept.lines);
      kept.session.events = events;
      kept.disputed = disputed;
    }

    /**
     * Appends lines to a session, at once; tells by `notKept` when the device does not take them.
     * @param {KeptSession} kept
     * @param {any[]} values
     */
    append(kept, values) {
      const lines = values.map((value) => JSON.stringify(value));
      this.join(kept, values);
      kept.pending.push(...lines);
      this.keep(kept);
      this.onTheWay += 1;
      this.copy.add(kept.key, lines).finally(() => {
        this.onTheWay -= 1;
        this.tellOnTheWay();
      });
      this.tellOnTheWay();
    }

    /** Brings back from the second copy what the first has lost. @returns {Promise<number>} how many lines */
    async recover() {
      /** @type {Map<string, string[]>} */
      const copied = new Map();
      for (const { key, line } of await this.copy.read()) {
        if (isSessionKey(key)) copied.set(key, [...(copied.get(key) || []), line]);
      }
      const storage = this.storage();
      let found = 0;
      for (const [key, lines] of copied) {
        const known = new Set(((storage && storage.getItem(key)) || "").split("\n"));
        const missing = lines.filter((line) => !known.has(line) && parsed(line) !== undefined);
        if (!missing.length) continue;
        found += missing.length;
        const kept = this.sessions.find((session) => session.key === key) || this.parse(key, missing.join("\n"));
        if (!kept) continue;
        if (!this.sessions.includes(kept)) this.sessions.push(kept);
        kept.pending.push(...missing);
        this.keep(kept);
      }
      if (found) this.read();
      return found;
    }

    /** Tries to keep what is pending. @param {KeptSession} kept */
    keep(kept) {
      try {
        const storage = globals.localStorage;
        const text = storage.getItem(kept.key) || "";
        // A line cut off by whatever cut it off must not take the next one with it.
        const start = text && !text.endsWith("\n") ? `${text}\n` : text;
        storage.setItem(kept.key, `${start}${kept.pending.join("\n")}\n`);
        kept.pending = [];
        this.notKept = this.sessions.some((session) => session.pending.length) ? this.notKept : "";
      } catch (error) {
        this.notKept = error instanceof DOMException && error.name === "QuotaExceededError" ? "full" : "forbidden";
      }
    }

    /** Tries again to keep all that is not kept yet. */
    keepAll() {
      for (const session of this.sessions) if (session.pending.length) this.keep(session);
    }

    /** @param {LogSession} head @returns {KeptSession} */
    start(head) {
      const same = this.sessions.find(
        ({ session }) =>
          session.date === head.date && session.kitchen === head.kitchen && session.sealer === head.sealer,
      );
      if (same) {
        this.append(same, [{ session: { ...head, events: undefined } }]);
        return same;
      }
      let number = 1;
      const storage = this.storage();
      const isTaken = (/** @type {string} */ key) =>
        this.sessions.some((session) => session.key === key) || (storage !== null && storage.getItem(key) !== null);
      while (isTaken(`${KEY}${head.date}.${number}`)) number += 1;
      /** @type {KeptSession} */
      const kept = {
        key: `${KEY}${head.date}.${number}`,
        session: { ...head, events: [] },
        lines: [],
        unread: [],
        pending: [],
        disputed: new Set(),
      };
      this.sessions.push(kept);
      this.append(kept, [{ session: { ...head, events: undefined } }]);
      return kept;
    }

    /** An id never given before, also not by another window of this page. */
    newId() {
      const storage = this.storage();
      const [device, number] = ((storage && storage.getItem(DEVICE)) || "").split(" ");
      if (device === this.device && /^\d{1,9}$/.test(number)) this.number = Math.max(this.number, Number(number));
      this.number += 1;
      try {
        if (storage) storage.setItem(DEVICE, `${this.device} ${this.number}`);
      } catch {
        // The line itself will tell that nothing can be kept.
      }
      return `${this.device}-${this.number}`;
    }

    /**
     * @param {KeptSession} kept
     * @param {Object<string, any>} entries all but the id
     * @returns {LogEvent|null} null when it is incomplete
     */
    write(kept, entries) {
      const after = this.others(kept);
      const event = soundEvent(
        { ...entries, id: `${this.device}-1`, ...(after ? { after } : {}) },
        this.kinds,
        this.results,
      );
      if (!event) return null;
      event.id = this.newId();
      this.append(kept, [event]);
      return event;
    }

    /**
     * What others had written before what is written now, unless an own line says it already: it comes after that.
     * @param {KeptSession} kept
     * @returns {string}
     */
    others(kept) {
      const after = rules.lastWritten(kept.lines, this.device);
      const own = kept.lines.filter(({ id }) => rules.sourceOf(id) === this.device);
      return own.some((line) => line.after === after) ? "" : after;
    }

    /**
     * Writes an event anew, in its next revision.
     * @param {KeptSession} kept
     * @param {Object<string, any>} changed
     * @returns {LogEvent|null}
     */
    revise(kept, changed) {
      const newest = Math.max(...kept.lines.filter(({ id }) => id === changed.id).map(({ revision }) => revision || 1));
      const event = soundEvent({ ...changed, revision: newest + 1 }, this.kinds, this.results);
      if (event) this.append(kept, [event]);
      return event;
    }

    /**
     * The file of one day.
     * @param {string} date
     * @returns {{format: string, version: number, device: string, sessions: LogSession[]}}
     */
    exported(date) {
      const sessions = this.sessions
        .filter(({ session }) => session.date === date)
        .map(({ session }) => ({ ...session, events: rules.inOrder(session.events) }));
      return { format: FORMAT, version: VERSION, device: this.device, sessions };
    }

    /**
     * Takes in a file of another phone; nothing that is here already is changed by it.
     * @param {string} text
     * @returns {{sessions: number, added: number, disputed: number, refused: number}|null} null when it is no such file
     */
    take(text) {
      const value = parsed(text);
      if (!isObject(value) || value.format !== FORMAT || value.version !== VERSION || !Array.isArray(value.sessions))
        {return null;}
      const told = { sessions: 0, added: 0, disputed: 0, refused: 0 };
      for (const given of value.sessions.slice(0, 100)) {
        const head = soundHead(given);
        if (!head || !Array.isArray(given.events)) {
          told.refused += 1;
          continue;
        }
        told.sessions += 1;
        const events = given.events
          .slice(0, 20000)
          .map((/** @type {any} */ event) => soundEvent(event, this.kinds, this.results));
        told.refused += events.filter((/** @type {any} */ event) => event === null).length;
        const known = this.sessions.find(
          ({ session }) =>
            session.date === head.date && session.kitchen === head.kitchen && session.sealer === head.sealer,
        );
        const kept = known || this.start(head);
        const fresh = events.filter(
          (/** @type {any} */ event) => event !== null && !kept.lines.some((line) => isSame(line, event)),
        );
        if (fresh.length) this.append(kept, fresh);
        told.added += fresh.length;
        told.disputed += kept.disputed.size;
      }
      return told;
    }
  }

  /** @param {string} text @returns {any} */
  function parsed(text) {
    try {
      return JSON.parse(text);
    } catch {
      return undefined;
    }
  }

  /** Six letters and digits that no other phone is likely to have. */
  function newDevice() {
    const letters = "abcdefghjkmnpqrstuvwxyz23456789";
    const numbers = new Uint32Array(6);
    crypto.getRandomValues(numbers);
    return [...numbers].map((number) => letters[number % letters.length]).join("");
  }

  globals.tinwrightBenchLogStore = {
    DEVICE,
    FORMAT,
    KEY,
    Log,
    latest,
    moreCautious,
    problemsOf,
    soundEvent,
    soundHead,
  };
})(globalThis);
