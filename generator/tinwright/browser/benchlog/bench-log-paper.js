// @ts-check
// The log of a day as a table for paper.
// needs: bench-log-holding.js bench-log-words.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { make } = root.tinwrightElements;
  const { joined } = root.tinwrightBenchLog;
  const { inOrder } = root.tinwrightBenchLogWriting;
  const { missedChecks } = root.tinwrightBenchLogDue;
  const { stillHeld } = root.tinwrightBenchLogHolding;
  const words = root.tinwrightBenchLogWords;
  const data = root.tinwrightBenchLogData;

  /** @param {LogSession} session */
  function headText({ date, kitchen, sealer, can, lid_lot: lids, product, supervisor }) {
    const lot = lids && `lids ${lids}`;
    const by = supervisor && `supervised by ${supervisor}`;
    const parts = [date, kitchen, words.sealerTitle(sealer), words.canTitle(can || ""), lot, product, by];
    return parts.filter(Boolean).join(", ");
  }

  /** @param {LogEvent} event */
  function row(event) {
    const said = words.eventText(event);
    const mark = event.struck ? "struck" : (event.revision || 1) > 1 ? "corrected" : "";
    return make(
      "tr",
      {},
      make("td", {}, event.at.slice(0, 5)),
      make("td", {}, event.struck ? make("s", {}, said) : said),
      make("td", {}, mark),
    );
  }

  /** @param {LogSession} session */
  function table(session) {
    const heads = ["Time", "What", ""].map((text) => make("th", { scope: "col" }, text));
    return make(
      "table",
      { class: "tw-table" },
      make("caption", {}, headText(session)),
      make("thead", {}, make("tr", {}, ...heads)),
      make("tbody", {}, ...inOrder(session.events).map(row)),
    );
  }

  /** The log of a day as a table for paper. @param {KeptLog} log @param {string} date @returns {HTMLElement} */
  function printed(log, date) {
    const box = make("div", { class: "tw-log__print" });
    for (const { session } of log.sessions.filter((kept) => kept.session.date === date)) {
      box.append(table(session));
      const held = stillHeld(session.events, data.dispositions, data.reaches);
      const cans = joined(held.notHeated, held.heated);
      if (cans.length) box.append(make("p", {}, make("strong", {}, `Still held: ${words.cans(cans)}.`)));
      const missed = missedChecks(session.events, data.policy, data.dispositions);
      if (missed.length) {
        const lines = missed.map((one) => make("li", {}, `${one.at.slice(0, 5)} ${words.missedText(one)}`));
        box.append(make("p", {}, "Checks missed:"), make("ul", {}, ...lines));
      }
    }
    return box;
  }

  root.tinwrightBenchLogPaper = { printed };
})(globalThis);
