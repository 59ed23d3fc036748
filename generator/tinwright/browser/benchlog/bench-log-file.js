// @ts-check
// The bench log leaves the phone: as a file, shared, or as text to copy; and as a table on paper.
// needs: bench-log-words.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const { make } = globals.tinwrightBench;
  const rules = globals.tinwrightBenchLog;
  const words = globals.tinwrightBenchLogWords;
  const SAVED = "tinwright.bench-log.saved";

  /** @param {any} log @param {string} date */
  const nameOf = (log, date) => `bench-log-${date}-${log.device}.json`;
  /** @param {any} log @param {string} date */
  const textOf = (log, date) => `${JSON.stringify(log.exported(date), null, 1)}\n`;
  /** How many lines there are of a day. @param {any} log @param {string} date @returns {number} */
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

  /** Lines of a day that are in no file yet. @param {any} log @param {string} date @returns {number} */
  function unsaved(log, date) {
    const saved = savedLines();
    const lines = Object.prototype.hasOwnProperty.call(saved, date) && Number.isInteger(saved[date]) ? saved[date] : 0;
    return Math.max(0, linesOf(log, date) - lines);
  }

  /** @param {any} log @param {string} date */
  function noteSaved(log, date) {
    try {
      localStorage.setItem(SAVED, JSON.stringify({ ...savedLines(), [date]: linesOf(log, date) }));
    } catch {
      // It will say once more that there are lines in no file.
    }
  }

  /** @param {string} name @param {string} text @param {string} type */
  function download(name, text, type) {
    const address = URL.createObjectURL(new Blob([text], { type }));
    make("a", { href: address, download: name }).click();
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
  }

  /** @param {any} log @param {string} date @returns {string} the file's name */
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

  /** @param {any} log @param {string} date @returns {Promise<boolean>} whether it was shared */
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

  /** The log of a day as a table for paper. @param {any} log @param {string} date @returns {HTMLElement} */
  function printed(log, date) {
    const box = make("div", { class: "tw-log__print" });
    for (const { session } of log.sessions.filter((/** @type {any} */ kept) => kept.session.date === date)) {
      const head = [
        session.date,
        session.kitchen,
        words.sealerTitle(session.sealer),
        words.canTitle(session.can || ""),
        session.lid_lot && `lids ${session.lid_lot}`,
        session.product,
        session.supervisor && `supervised by ${session.supervisor}`,
      ];
      const rows = rules
        .inOrder(session.events)
        .map((/** @type {LogEvent} */ event) =>
          make(
            "tr",
            {},
            make("td", {}, event.at.slice(0, 5)),
            make("td", {}, event.struck ? make("s", {}, words.eventText(event)) : words.eventText(event)),
            make("td", {}, event.struck ? "struck" : (event.revision || 1) > 1 ? "corrected" : ""),
          ),
        );
      box.append(
        make(
          "table",
          { class: "tw-table" },
          make("caption", {}, head.filter(Boolean).join(", ")),
          make("thead", {}, make("tr", {}, ...["Time", "What", ""].map((text) => make("th", { scope: "col" }, text)))),
          make("tbody", {}, ...rows),
        ),
      );
      const held = rules.stillHeld(
        session.events,
        globals.tinwrightBenchLogData.dispositions,
        globals.tinwrightBenchLogData.reaches,
      );
      const cans = rules.joined(held.notHeated, held.heated);
      if (cans.length) box.append(make("p", {}, make("strong", {}, `Still held: ${words.cans(cans)}.`)));
      /** @type {LogMissed[]} */
      const missed = rules.missedChecks(
        session.events,
        globals.tinwrightBenchLogData.policy,
        globals.tinwrightBenchLogData.dispositions,
      );
      if (missed.length)
        {box.append(
          make("p", {}, "Checks missed:"),
          make("ul", {}, ...missed.map((one) => make("li", {}, `${one.at.slice(0, 5)} ${words.missedText(one)}`))),
        );}
    }
    return box;
  }

  globals.tinwrightBenchLogFile = { SAVED, canShare, download, nameOf, printed, save, share, textOf, unsaved };
})(globalThis);
