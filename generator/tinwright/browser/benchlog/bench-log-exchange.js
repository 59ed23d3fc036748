// @ts-check
// The file of one day: what the log writes into it, and what it reads from the file of another phone.
// needs: bench-log-sound.js bench-log-writing.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { isObject, isSame, parsed, soundEvent, soundHead } = root.tinwrightBenchLogSound;
  const { inOrder } = root.tinwrightBenchLogWriting;
  const FORMAT = "tinwright-bench-log";
  const VERSION = 1;
  const MOST_SESSIONS = 100;
  const MOST_EVENTS = 20_000;

  /** @param {KeptLog} log @param {string} date @returns {LogFile} */
  function exported(log, date) {
    const sessions = log.sessions
      .filter(({ session }) => session.date === date)
      .map(({ session }) => ({ ...session, events: inOrder(session.events) }));
    return { format: FORMAT, version: VERSION, device: log.device, sessions };
  }

  /**
   * Imports the file of another phone; nothing that is here already is changed by it.
   * @param {KeptLog} log
   * @param {string} text
   * @returns {LogImported|null} null when it is no such file
   */
  function importFile(log, text) {
    const value = parsed(text);
    if (!isObject(value) || value.format !== FORMAT || value.version !== VERSION) return null;
    if (!Array.isArray(value.sessions)) return null;
    const said = { sessions: 0, added: 0, disputed: 0, refused: 0 };
    for (const given of value.sessions.slice(0, MOST_SESSIONS)) {
      const head = soundHead(given);
      if (!head || !Array.isArray(given.events)) {
        said.refused += 1;
        continue;
      }
      said.sessions += 1;
      /** @type {(LogEvent|null)[]} */
      const read = given.events
        .slice(0, MOST_EVENTS)
        .map((/** @type {any} */ event) => soundEvent(event, log.kinds, log.results));
      const events = read.flatMap((event) => (event ? [event] : []));
      said.refused += read.length - events.length;
      const kept = log.sessionOf(head) || log.start(head);
      const fresh = events.filter((event) => !kept.lines.some((line) => isSame(line, event)));
      if (fresh.length) log.append(kept, fresh);
      said.added += fresh.length;
      said.disputed += kept.disputed.size;
    }
    return said;
  }

  root.tinwrightBenchLogExchange = { exported, importFile };
})(globalThis);
