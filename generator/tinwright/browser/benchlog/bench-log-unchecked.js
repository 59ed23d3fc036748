// @ts-check
// What the log of a day leaves open: cans nobody looked at, checks missed, a counter or a clock that went back.
// needs: bench-log-holding.js bench-log-words.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { make } = root.tinwrightElements;
  const { canName } = root.tinwrightBenchLog;
  const { clockWentBack, counterWentBack } = root.tinwrightBenchLogWriting;
  const { uncheckedBeforeChange } = root.tinwrightBenchLogHolding;
  const words = root.tinwrightBenchLogWords;
  const data = root.tinwrightBenchLogData;

  /** @typedef {[string, string]} OpenLine what is bold, and the rest */

  /** @param {string} head @param {string} said empty when the lines say it all @param {OpenLine[]} lines */
  const card = (head, said, lines) =>
    make(
      "section",
      { class: "tw-log__unchecked" },
      make("h2", {}, head),
      said ? make("p", {}, said) : null,
      make("ul", { class: "tw-list" }, ...lines.map(([bold, rest]) => make("li", {}, make("strong", {}, bold), rest))),
    );

  /** Cans sealed before a change that nobody looked at. @param {LogSession} session @returns {HTMLElement|null} */
  function uncheckedCard(session) {
    const found = uncheckedBeforeChange(session.events, data.dispositions, data.reaches);
    if (!found.length) return null;
    return card(
      "Nobody looked at these",
      "They were sealed before the sealer was changed or the day was closed, and after the last good check. " +
        "The check after the change says nothing about them. Look at them, or hold them.",
      found.map(({ change, cans }) => [
        words.upper(words.cans(cans)),
        ` · before ${change.at.slice(0, 5)} ${words.eventText(change)}`,
      ]),
    );
  }

  /** @param {LogLine} line at which the counter goes back @returns {OpenLine} */
  const newRun = ({ event, before, cans }) => [
    event.at.slice(0, 5),
    ` The counter goes back, after can ${canName(before)}. Until you say otherwise this is a new run: ` +
      `${words.cans(cans ? [cans] : [])}. Write that on the cans. If it is a slip, tap its line and correct it.`,
  ];

  /** @param {[LogEvent, LogEvent]} both at which the clock goes back @returns {OpenLine} */
  const earlier = ([above, event]) => [
    event.at.slice(0, 5),
    ` The clock goes back from ${above.at.slice(0, 5)}. The order of the lines counts, not the time.`,
  ];

  /**
   * Where the counter or the clock goes back, and what is made of it.
   * @param {LogSession} session
   * @returns {HTMLElement|null}
   */
  function wentBackCard(session) {
    const runs = counterWentBack(session.events).map(newRun);
    const clocks = clockWentBack(session.events).map(earlier);
    if (!runs.length && !clocks.length) return null;
    return card(runs.length ? "Was the counter set back?" : "The clock went back", "", [...runs, ...clocks]);
  }

  /** Checks that were due and not made in time. @param {LogMissed[]} missed @returns {HTMLElement|null} */
  function missedCard(missed) {
    if (!missed.length) return null;
    return card(
      "Checks missed",
      "They were due by the program’s own rules, and were not made in time. The office’s report lists them, too.",
      missed.map((one) => [one.at.slice(0, 5), ` ${words.missedText(one)}`]),
    );
  }

  root.tinwrightBenchLogUnchecked = { missedCard, uncheckedCard, wentBackCard };
})(globalThis);
