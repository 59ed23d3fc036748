// @ts-check
// The card of what is due: the most urgent in large words.
// needs: bench-log-words.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { make } = root.tinwrightElements;
  const { cansAtTheEnd } = root.tinwrightBenchLogLate;
  const { isNow } = root.tinwrightBenchLogDue;
  const words = root.tinwrightBenchLogWords;

  /** @param {number|null} left @param {string} one */
  const leftOf = (left, one) => make("span", {}, make("b", {}, String(left)), left === 1 ? ` ${one}` : ` ${one}s`);

  /** How long until it is due, and why. @param {LogDue} due */
  function whenText(due) {
    if (isNow(due)) return make("p", {}, `Seal no can before that (${words.dueWhy(due)}).`);
    if (due.check !== "check") {
      return make("p", {}, `${words.upper(words.dueWhen(due))}: ${words.dueWhy(due)}.`);
    }
    const [cans, minutes] = [leftOf(due.cansLeft, "can"), leftOf(due.minutesLeft, "minute")];
    return make("p", { class: "tw-log__left" }, cans, " or ", minutes, " left");
  }

  const closedCard = () =>
    make(
      "section",
      { class: "tw-log__due" },
      make("h2", { class: "tw-log__word" }, "The day is closed"),
      make("p", {}, "Save the file below and hand it in."),
    );

  /** @param {LogDue[]} dues the most urgent first @param {LogBench} bench */
  function dueCard(dues, bench) {
    if (bench.closed) return closedCard();
    const [first, ...others] = dues;
    const isLate = first && isNow(first);
    const box = make("section", { class: `tw-log__due${isLate ? " tw-log__due--now" : ""}` });
    if (bench.pausedAt !== null) {
      box.append(make("p", { class: "tw-log__paused" }, "Paused: the minutes stand still."));
    }
    if (!first) return box;
    const said = isLate ? `Now: ${words.dueText(first)}` : words.dueText(first);
    box.append(make("h2", { class: "tw-log__word" }, said), whenText(first));
    if (others.length) {
      const items = others.map((due) => make("li", {}, `${words.dueText(due)}, ${words.dueWhen(due)}`));
      box.append(make("ul", { class: "tw-list" }, ...items));
    }
    const end = words.endText(cansAtTheEnd(bench));
    if (end) box.append(make("p", { class: "tw-quiet" }, end));
    return box;
  }

  root.tinwrightBenchLogDueCard = { dueCard };
})(globalThis);
