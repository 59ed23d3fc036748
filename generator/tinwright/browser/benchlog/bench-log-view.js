// @ts-check
// What the bench log shows of a session: STOP and the cans to hold, what is due, what was written, what was missed.
// needs: bench-log-words.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const { make } = globals.tinwrightBench;
  const data = globals.tinwrightBenchLogData;
  const rules = globals.tinwrightBenchLog;
  const words = globals.tinwrightBenchLogWords;
  const FIRST_ROWS = 24;

  /** @typedef {{label: string, act: () => void}} Act */

  /** @param {Act} task @param {string} [look] */
  const key = ({ label, act }, look = "") =>
    make("button", { type: "button", class: `tw-log__key${look && ` tw-log__key--${look}`}`, onclick: act }, label);

  /**
   * The cans still held; null when none are and the sealer is not known to be bad.
   * @param {LogSession} session @param {LogSession|null} before the session of this sealer before it
   */
  function heldOf(session, before) {
    const found = rules.walk(session.events, data.dispositions, data.reaches);
    const held = found.stillHeld();
    const failures = found.open();
    const earlier = before
      ? rules.heldFromDayBefore(before.events, session.events, data.dispositions, data.reaches)
      : null;
    const isHeld = held.notHeated.length + held.heated.length > 0;
    const bad = rules.without(found.bad, found.discarded);
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

  /** STOP, in large words. @param {any} found as `heldOf` gives it @param {Act[]} acts @returns {HTMLElement} */
  function stopCard(found, acts) {
    const { held, failures, earlier, before, holds, bad } = found;
    const ranges = rules.joined(held.notHeated, held.heated);
    const isStopped = failures.length > 0;
    const box = make(
      "section",
      { class: `tw-log__stop${isStopped ? "" : " tw-log__stop--held"}` },
      make("h2", { class: "tw-log__word" }, isStopped ? "STOP. Seal no more." : "Cans held"),
    );
    if (ranges.length) {
      box.append(
        make("p", { class: "tw-log__cans" }, isStopped ? "Hold " : "", make("strong", {}, words.cans(ranges))),
        make("p", {}, `${words.many(rules.count(ranges), "can")} in all.`),
      );
    } else if (isStopped)
      {box.append(
        make(
          "p",
          {},
          holds.some((/** @type {LogHold} */ hold) => hold.cans.length)
            ? "No can is held any more. Mend the sealer before you seal."
            : "No can was sealed since the last good check. Set the bad can apart.",
        ),
      );}
    if (isStopped) {
      const last = failures[failures.length - 1];
      const { since } = last;
      box.append(
        make(
          "p",
          {},
          since
            ? `Last good check that could have found it: ${since.at.slice(0, 5)}, ${words.eventText(since)}.`
            : "No check before it today could have found it and was good.",
          ` ${words.faultText(last)}`,
        ),
      );
    }
    if (bad.length) box.append(make("p", {}, `Found bad, never released: ${words.cans(bad)}.`));
    for (const part of [
      heldPart("Not heated yet", held.notHeated, data.hold.notHeated),
      heldPart("In the canner or heated", held.heated, data.hold.heated),
    ])
      {if (part) box.append(part);}
    if (earlier && before)
      {box.append(
        make(
          "p",
          {},
          make("strong", {}, `Hold from ${before.date} as well: ${words.cans(earlier.cans)}. `),
          "No check of this sealer since then could have found it and was good.",
          earlier.since ? "" : " That day has none either: go back further.",
        ),
      );}
    if (data.fails)
      {box.append(make("p", { class: "tw-go" }, make("a", { href: data.fails }, "What to do when a check fails")));}
    if (ranges.length) box.append(make("div", { class: "tw-log__keys" }, ...acts.map((act) => key(act))));
    return box;
  }

  /** What is due, the most urgent in large words. @param {LogDue[]} dues @param {any} bench as `readBench` gives it */
  function dueCard(dues, bench) {
    if (bench.closed)
      {return make(
        "section",
        { class: "tw-log__due" },
        make("h2", { class: "tw-log__word" }, "The day is closed"),
        make("p", {}, "Save the file below and hand it in."),
      );}
    const [first, ...others] = dues;
    const box = make("section", { class: `tw-log__due${first && rules.isNow(first) ? " tw-log__due--now" : ""}` });
    if (bench.pausedAt !== null) box.append(make("p", { class: "tw-log__paused" }, "Paused: the minutes stand still."));
    if (!first) return box;
    box.append(
      make("h2", { class: "tw-log__word" }, rules.isNow(first) ? `Now: ${words.dueText(first)}` : words.dueText(first)),
    );
    if (!rules.isNow(first) && first.check === "check") {
      box.append(
        make(
          "p",
          { class: "tw-log__left" },
          make("span", {}, make("b", {}, String(first.cansLeft)), first.cansLeft === 1 ? " can" : " cans"),
          " or ",
          make("span", {}, make("b", {}, String(first.minutesLeft)), first.minutesLeft === 1 ? " minute" : " minutes"),
          " left",
        ),
      );
    } else
      {box.append(
        make(
          "p",
          {},
          rules.isNow(first)
            ? `Seal no can before that (${words.dueWhy(first)}).`
            : `${words.upper(words.dueWhen(first))}: ${words.dueWhy(first)}.`,
        ),
      );}
    if (others.length)
      {box.append(
        make(
          "ul",
          { class: "tw-list" },
          ...others.map((due) => make("li", {}, `${words.dueText(due)}, ${words.dueWhen(due)}`)),
        ),
      );}
    const end = words.endText(bench.cansAtTheEnd());
    if (end) box.append(make("p", { class: "tw-quiet" }, end));
    return box;
  }

  /**
   * Neighbors of which each seals the next cans, as one row.
   * @param {LogEvent[]} events in order
   * @returns {LogEvent[][]}
   */
  function grouped(events) {
    /** @type {LogEvent[][]} */
    const groups = [];
    for (const event of events) {
      const group = groups[groups.length - 1];
      const before = group && group[group.length - 1];
      const isNext =
        before &&
        before.kind === "sealed" &&
        event.kind === "sealed" &&
        !before.struck &&
        !event.struck &&
        event.first === (before.last || 0) + 1 &&
        rules.runOfEvent(event) === rules.runOfEvent(before) &&
        !event.note &&
        !before.note;
      if (isNext) group.push(event);
      else groups.push([event]);
    }
    return groups;
  }

  /** @param {LogEvent} event @param {boolean} isDisputed @param {(event: LogEvent) => void} open */
  function row(event, isDisputed, open) {
    const outcome = event.struck ? "" : rules.outcomeOf(event, data.dispositions);
    const said = event.struck ? make("s", {}, words.eventText(event)) : make("span", {}, words.eventText(event));
    const marks = [
      event.struck ? "struck out" : (event.revision || 1) > 1 ? "corrected" : "",
      isDisputed ? "two phones differ: the more cautious counts" : "",
    ]
      .filter(Boolean)
      .join(", ");
    return make(
      "button",
      {
        type: "button",
        class: `tw-log__event${outcome && ` tw-log__event--${outcome}`}`,
        "data-id": event.id,
        onclick: () => open(event),
      },
      make("span", { class: "tw-log__at" }, event.at.slice(0, 5)),
      said,
      marks ? make("small", {}, marks) : null,
    );
  }

  /**
   * What a row shows, for telling whether it stands already.
   * @param {LogEvent[]} group
   * @param {Set<string>} disputed
   */
  const signOf = (group, disputed) =>
    group
      .map(({ id, revision, struck }) =>
        [id, revision || 1, struck ? "struck" : "", disputed.has(id) ? "disputed" : ""].join(" "),
      )
      .concat(String(rules.runOfEvent(group[0])))
      .join();

  /**
   * @param {LogEvent[]} group
   * @param {Set<string>} disputed
   * @param {(event: LogEvent) => void} open
   * @returns {HTMLElement}
   */
  function line(group, disputed, open) {
    const [first, last] = [group[0], group[group.length - 1]];
    if (group.length === 1) return make("li", {}, row(first, disputed.has(first.id), open));
    const details = make(
      "details",
      {},
      make(
        "summary",
        {},
        make("span", { class: "tw-log__at" }, last.at.slice(0, 5)),
        make(
          "span",
          {},
          `${words.upper(words.cans([[words.rangeOf(first)[0][0], words.rangeOf(last)[0][1]]]))} sealed · since ${first.at.slice(0, 5)}`,
        ),
      ),
    );
    details.addEventListener("toggle", () => {
      if (details.children.length === 1)
        {details.append(...[...group].reverse().map((event) => row(event, disputed.has(event.id), open)));}
    });
    return make("li", {}, details);
  }

  /** What stands in a list now: its lines by what they show. @type {WeakMap<Element, Map<string, HTMLElement>>} */
  const standing = new WeakMap();

  /**
   * Brings a list up to date; a line that shows the same stays, so that a tap does not build a whole day anew.
   * @param {HTMLElement} list @param {[string, () => HTMLElement][]} lines each with what it shows, and how to make it
   */
  function renew(list, lines) {
    const before = standing.get(list) || new Map();
    const now = new Map(lines.map(([sign, build]) => [sign, before.get(sign) || build()]));
    for (const [sign, element] of before) if (!now.has(sign)) element.remove();
    let place = list.firstElementChild;
    for (const element of now.values()) {
      if (place && element === place) place = place.nextElementSibling;
      else list.insertBefore(element, place);
    }
    standing.set(list, now);
  }

  /**
   * Shows what was written, the newest first.
   * @param {HTMLElement} box where @param {LogSession} session @param {Set<string>} disputed @param {boolean} isWhole
   * @param {(event: LogEvent) => void} open @param {() => void} showAll
   */
  function showEvents(box, session, disputed, isWhole, open, showAll) {
    const groups = grouped(rules.inOrder(session.events)).reverse();
    const shown = isWhole ? groups : groups.slice(0, FIRST_ROWS);
    const old = box.firstElementChild;
    const list = /** @type {HTMLElement} */ (old && standing.has(old) ? old : make("ul", { class: "tw-log__events" }));
    renew(
      list,
      shown.map((group) => [signOf(group, disputed), () => line(group, disputed, open)]),
    );
    const more =
      groups.length > shown.length
        ? make("button", { type: "button", class: "tw-button", onclick: showAll }, `Show all ${groups.length} lines`)
        : null;
    if (!shown.length) box.replaceChildren(make("p", { class: "tw-quiet" }, "Nothing yet."));
    else if (list !== old) box.replaceChildren(list);
    while (shown.length && list.nextSibling) list.nextSibling.remove();
    if (more) box.append(more);
  }

  /** Cans sealed before a change that nobody looked at. @param {LogSession} session @returns {HTMLElement|null} */
  function uncheckedCard(session) {
    /** @type {LogUnchecked[]} */
    const found = rules.uncheckedBeforeChange(session.events, data.dispositions, data.reaches);
    if (!found.length) return null;
    return make(
      "section",
      { class: "tw-log__unchecked" },
      make("h2", {}, "Nobody looked at these"),
      make(
        "p",
        {},
        "They were sealed before the sealer was changed or the day was closed, and after the last good check. The check after the change says nothing about them. Look at them, or hold them.",
      ),
      make(
        "ul",
        { class: "tw-list" },
        ...found.map(({ change, cans }) =>
          make(
            "li",
            {},
            make("strong", {}, words.upper(words.cans(cans))),
            ` · before ${change.at.slice(0, 5)} ${words.eventText(change)}`,
          ),
        ),
      ),
    );
  }

  /**
   * Where the counter or the clock goes back, and what is made of it.
   * @param {LogSession} session
   * @returns {HTMLElement|null}
   */
  function wentBackCard(session) {
    /** @type {LogLine[]} */
    const runs = rules.counterWentBack(session.events);
    /** @type {[LogEvent, LogEvent][]} */
    const clocks = rules.clockWentBack(session.events);
    if (!runs.length && !clocks.length) return null;
    return make(
      "section",
      { class: "tw-log__unchecked" },
      make("h2", {}, runs.length ? "Was the counter set back?" : "The clock went back"),
      make(
        "ul",
        { class: "tw-list" },
        ...runs.map(({ event, before, cans }) =>
          make(
            "li",
            {},
            make("strong", {}, event.at.slice(0, 5)),
            ` The counter goes back, after can ${rules.canName(before)}. Until you say otherwise this is a new run: ${words.cans(cans ? [cans] : [])}. Write that on the cans. If it is a slip, tap its line and correct it.`,
          ),
        ),
        ...clocks.map(([above, event]) =>
          make(
            "li",
            {},
            make("strong", {}, event.at.slice(0, 5)),
            ` The clock goes back from ${above.at.slice(0, 5)}. The order of the lines counts, not the time.`,
          ),
        ),
      ),
    );
  }

  /** Checks that were due and not made in time. @param {LogMissed[]} missed @returns {HTMLElement|null} */
  function missedCard(missed) {
    if (!missed.length) return null;
    return make(
      "section",
      { class: "tw-log__unchecked" },
      make("h2", {}, "Checks missed"),
      make(
        "p",
        {},
        "They were due by the program’s own rules, and were not made in time. The office’s report lists them, too.",
      ),
      make(
        "ul",
        { class: "tw-list" },
        ...missed.map((one) => make("li", {}, make("strong", {}, one.at.slice(0, 5)), ` ${words.missedText(one)}`)),
      ),
    );
  }

  globals.tinwrightBenchLogView = {
    dueCard,
    heldOf,
    key,
    missedCard,
    showEvents,
    stopCard,
    uncheckedCard,
    wentBackCard,
  };
})(globalThis);
