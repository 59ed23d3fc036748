// @ts-check
// Keeps the bench log on this device: for each session a text that only ever grows, one line of JSON for each thing
// written. A line is kept the moment it is written; a line that cannot be read is left where it is, and said so.
// needs: bench-log-merging.js bench-log-sound.js bench-log-writing.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { compareText, written } = root.tinwrightBenchLog;
  const { lastWritten, sourceOf } = root.tinwrightBenchLogWriting;
  const { isObject, parsed, soundEvent, soundHead } = root.tinwrightBenchLogSound;
  const { latest } = root.tinwrightBenchLogMerging;
  const KEY = "tinwright.bench-log.";
  const DEVICE = `${KEY}device`;

  /** @param {string} key */
  const isSessionKey = (key) => key.startsWith(KEY) && /^\d{4}-\d{2}-\d{2}\.\d+$/.test(key.slice(KEY.length));

  class Log {
    /**
     * @param {Record<string, LogKind>} kinds
     * @param {Record<string, string[]>} results
     * @param {TinwrightBenchLogCopy} copy
     */
    constructor(kinds, results, copy) {
      this.copy = copy;
      this.kinds = kinds;
      this.results = results;
      /** @type {KeptSession[]} */
      this.sessions = [];
      /** Texts under keys of ours that are no session at all. @type {{key: string, text: string}[]} */
      this.lost = [];
      /** Why the last thing written is not kept; empty when all is. @type {""|"full"|"forbidden"} */
      this.notKept = "";
      /** How many writes are on their way to the disk. */
      this.onTheWay = 0;
      /** Called when that changes. @type {() => void} */
      this.tellOnTheWay = () => undefined;
      this.device = "";
      this.number = 0;
      this.read();
    }

    /** @returns {Storage|null} */
    storage() {
      try {
        return root.localStorage;
      } catch {
        return null;
      }
    }

    /** Reads everything again; what could not be kept stays. */
    read() {
      const storage = this.storage();
      const unkept = this.sessions.filter((session) => session.pending.length);
      this.sessions = [];
      this.lost = [];
      if (storage) {
        for (const key of Object.keys(storage)
          .filter((name) => name.startsWith(KEY))
          .sort(compareText)) {
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
        for (const { id } of lines) {
          if (id.startsWith(`${this.device}-`)) this.number = Math.max(this.number, written(id));
        }
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
        const storage = root.localStorage;
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

    /** @param {LogHead} head */
    sessionOf(head) {
      return this.sessions.find(
        ({ session }) =>
          session.date === head.date && session.kitchen === head.kitchen && session.sealer === head.sealer,
      );
    }

    /** @param {LogHead} head @returns {KeptSession} */
    start(head) {
      const same = this.sessionOf(head);
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
     * @param {LogEntries} entries all but the id
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
      const after = lastWritten(kept.lines, this.device);
      const own = kept.lines.filter(({ id }) => sourceOf(id) === this.device);
      return own.some((line) => line.after === after) ? "" : after;
    }

    /**
     * Writes an event again, as its next revision.
     * @param {KeptSession} kept
     * @param {LogEvent} changed
     * @returns {LogEvent|null}
     */
    revise(kept, changed) {
      const newest = Math.max(...kept.lines.filter(({ id }) => id === changed.id).map(({ revision }) => revision || 1));
      const event = soundEvent({ ...changed, revision: newest + 1 }, this.kinds, this.results);
      if (event) this.append(kept, [event]);
      return event;
    }
  }

  /** Six letters and digits that no other phone is likely to have. */
  function newDevice() {
    const letters = "abcdefghjkmnpqrstuvwxyz23456789";
    const numbers = new Uint32Array(6);
    crypto.getRandomValues(numbers);
    return [...numbers].map((number) => letters[number % letters.length]).join("");
  }

  root.tinwrightBenchLogStore = { KEY, Log };
})(globalThis);
