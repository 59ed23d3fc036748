// @ts-check
// The bench log leaves the phone: as a file, shared, or as text to copy.
// needs: elements.js bench-log-exchange.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { save: download } = root.tinwrightElements;
  const { exported } = root.tinwrightBenchLogExchange;
  const SAVED = "tinwright.bench-log.saved";

  /** @param {KeptLog} log @param {string} date */
  const nameOf = (log, date) => `bench-log-${date}-${log.device}.json`;
  /** @param {KeptLog} log @param {string} date */
  const textOf = (log, date) => `${JSON.stringify(exported(log, date), null, 1)}\n`;
  /** How many lines there are of a day. @param {KeptLog} log @param {string} date @returns {number} */
  const linesOf = (log, date) =>
    log.sessions.reduce(
      (/** @type {number} */ sum, /** @type {any} */ kept) =>
        sum + (kept.session.date === date ? kept.lines.length : 0),
      0,
    );

  /** @returns {Object<string, any>} */
  function savedLines() {
    try {
      const found = JSON.parse(localStorage.getItem(SAVED) || "{}");
      return found && typeof found === "object" ? found : {};
    } catch {
      return {};
    }
  }

  /** Lines of a day that are in no file yet. @param {KeptLog} log @param {string} date @returns {number} */
  function unsaved(log, date) {
    const saved = savedLines();
    const lines = Object.prototype.hasOwnProperty.call(saved, date) && Number.isInteger(saved[date]) ? saved[date] : 0;
    return Math.max(0, linesOf(log, date) - lines);
  }

  /** @param {KeptLog} log @param {string} date */
  function noteSaved(log, date) {
    try {
      localStorage.setItem(SAVED, JSON.stringify({ ...savedLines(), [date]: linesOf(log, date) }));
    } catch {
      // It will say once more that there are lines in no file.
    }
  }

  /** @param {KeptLog} log @param {string} date @returns {string} the file's name */
  function save(log, date) {
    download(nameOf(log, date), textOf(log, date), "application/json");
    noteSaved(log, date);
    return nameOf(log, date);
  }

  /** Whether this browser can hand such a file to another app. */
  const canShare = () =>
    "share" in navigator &&
    Boolean(navigator.canShare) &&
    navigator.canShare({ files: [new File(["{}"], "bench-log.json", { type: "application/json" })] });

  /** @param {KeptLog} log @param {string} date @returns {Promise<boolean>} whether it was shared */
  async function share(log, date) {
    try {
      await navigator.share({
        files: [new File([textOf(log, date)], nameOf(log, date), { type: "application/json" })],
      });
    } catch {
      return false;
    }
    noteSaved(log, date);
    return true;
  }

  root.tinwrightBenchLogFile = { canShare, save, share, textOf, unsaved };
})(globalThis);
