// @ts-check
// STOP and the cans to hold: which they are in a session, and how it is said.
// needs: bench-log-holding.js bench-log-keys.js bench-log-words.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { make } = root.tinwrightElements;
  const { count, joined, without } = root.tinwrightBenchLog;
  const { heldFromDayBefore, walk } = root.tinwrightBenchLogHolding;
  const { key } = root.tinwrightBenchLogKeys;
  const words = root.tinwrightBenchLogWords;
  const data = root.tinwrightBenchLogData;

  /**
   * The cans still held; null when none are and the sealer is not known to be bad.
   * @param {LogSession} session @param {LogSession|null} before the session of this sealer before it
   * @returns {LogStop|null}
   */
  function heldOf(session, before) {
    const found = walk(session.events, data.dispositions, data.reaches);
    const held = found.stillHeld();
    const failures = found.open();
    const earlier = before ? heldFromDayBefore(before.events, session.events, data.dispositions, data.reaches) : null;
    const isHeld = held.notHeated.length + held.heated.length > 0;
    const bad = without(found.bad, found.discarded);
    return isHeld || failures.length || earlier ? { held, failures, earlier, before, bad, holds: found.holds() } : null;
  }

  /** @param {string} title @param {CanRange[]} ranges @param {string[]} steps */
  function heldPart(title, ranges, steps) {
    if (!ranges.length) return null;
    return make(
      "div",
      { class: "tw-log__part" },
      make("p", {}, make("strong", {}, `${title}: ${words.cans(ranges)}`)),
      make("ul", { class: "tw-list" }, ...steps.map((step) => make("li", {}, step))),
    );
  }

  /**
   * The cans to hold, in large words; where there are none, why not.
   * @param {LogStop} stop
   * @param {CanRange[]} ranges
   */
  function heldText({ failures, holds }, ranges) {
    const isStopped = failures.length > 0;
    if (ranges.length) {
      return [
        make("p", { class: "tw-log__cans" }, isStopped ? "Hold " : "", make("strong", {}, words.cans(ranges))),
        make("p", {}, `${words.many(count(ranges), "can")} in all.`),
      ];
    }
    if (!isStopped) return [];
    const said = holds.some((hold) => hold.cans.length)
      ? "No can is held any more. Fix the sealer before you seal."
      : "No can was sealed since the last good check that could have found this. Set the bad can apart.";
    return [make("p", {}, said)];
  }

  /** How far back the cans are held, and why no further. @param {LogHold|undefined} failure the last one */
  function sinceText(failure) {
    if (!failure) return null;
    const { since } = failure;
    const said = since
      ? `Last good check that could have found it: ${since.at.slice(0, 5)}, ${words.eventText(since)}.`
      : "No check before it today could have found it and was good.";
    return make("p", {}, `${said} ${words.faultText(failure)}`);
  }

  /** What the day before has to do with it. @param {LogStop} stop */
  function earlierText({ earlier, before }) {
    if (!earlier || !before) return null;
    return make(
      "p",
      {},
      make("strong", {}, `Hold from ${before.date} as well: ${words.cans(earlier.cans)}. `),
      "No check of this sealer since then could have found it and was good.",
      earlier.since ? "" : " That day has none either: go back further.",
    );
  }

  /** @param {(kind: string) => void} ask */
  const decisions = (ask) =>
    make(
      "div",
      { class: "tw-log__keys" },
      key("Release cans", () => ask("release")),
      key("Discard cans", () => ask("discard")),
    );

  /** The alarm as one short sentence; empty when nothing is stopped. @param {LogStop|null} stop */
  function alarmText(stop) {
    if (!stop || !stop.failures.length) return "";
    const ranges = joined(stop.held.notHeated, stop.held.heated);
    return ranges.length ? `STOP. Hold ${words.cans(ranges)}.` : "STOP. Seal no more.";
  }

  /** STOP, in large words. @param {LogStop} stop @param {(kind: string) => void} ask @returns {HTMLElement} */
  function stopCard(stop, ask) {
    const { held, failures, bad } = stop;
    const ranges = joined(held.notHeated, held.heated);
    const isStopped = failures.length > 0;
    const further = data.fails ? make("a", { href: data.fails }, "What to do when a check fails") : null;
    return make(
      "section",
      { class: `tw-log__stop${isStopped ? "" : " tw-log__stop--held"}` },
      make("h2", { class: "tw-log__word", tabindex: "-1" }, isStopped ? "STOP. Seal no more." : "Cans held"),
      ...heldText(stop, ranges),
      sinceText(failures[failures.length - 1]),
      bad.length ? make("p", {}, `Found bad, never released: ${words.cans(bad)}.`) : null,
      heldPart("Not heated yet", held.notHeated, data.hold.notHeated),
      heldPart("In the canner or heated", held.heated, data.hold.heated),
      earlierText(stop),
      further && make("p", { class: "tw-go" }, further),
      ranges.length ? decisions(ask) : null,
    );
  }

  root.tinwrightBenchLogStop = { alarmText, heldOf, stopCard };
})(globalThis);
