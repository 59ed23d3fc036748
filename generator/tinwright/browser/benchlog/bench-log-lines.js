// @ts-check
// The lines of the log as they were written, the newest first.
// needs: bench-log-words.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { make } = root.tinwrightElements;
  const { outcomeOf } = root.tinwrightBenchLog;
  const { inOrder, runOfEvent } = root.tinwrightBenchLogWriting;
  const words = root.tinwrightBenchLogWords;
  const data = root.tinwrightBenchLogData;
  const FIRST_ROWS = 24;

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
        runOfEvent(event) === runOfEvent(before) &&
        !event.note &&
        !before.note;
      if (isNext) group.push(event);
      else groups.push([event]);
    }
    return groups;
  }

  /** @param {LogEvent} event @param {boolean} isDisputed @param {(event: LogEvent) => void} open */
  function row(event, isDisputed, open) {
    const outcome = event.struck ? "" : outcomeOf(event, data.dispositions);
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
   * What a row shows, for knowing whether it stands already.
   * @param {LogEvent[]} group
   * @param {Set<string>} disputed
   */
  const signOf = (group, disputed) =>
    [
      ...group.map(({ id, revision, struck }) =>
        [id, revision || 1, struck ? "struck" : "", disputed.has(id) ? "disputed" : ""].join(" "),
      ),
      runOfEvent(group[0]),
    ].join();

  /**
   * @param {LogEvent[]} group
   * @param {Set<string>} disputed
   * @param {(event: LogEvent) => void} open
   * @returns {HTMLElement}
   */
  function line(group, disputed, open) {
    const [first, last] = [group[0], group[group.length - 1]];
    if (group.length === 1) return make("li", {}, row(first, disputed.has(first.id), open));
    const range = /** @type {CanRange} */ ([words.rangeOf(first)[0][0], words.rangeOf(last)[0][1]]);
    const details = make(
      "details",
      {},
      make(
        "summary",
        {},
        make("span", { class: "tw-log__at" }, last.at.slice(0, 5)),
        make("span", {}, `${words.upper(words.cans([range]))} sealed · since ${first.at.slice(0, 5)}`),
      ),
    );
    details.addEventListener("toggle", () => {
      if (details.children.length === 1) {
        details.append(...[...group].reverse().map((event) => row(event, disputed.has(event.id), open)));
      }
    });
    return make("li", {}, details);
  }

  /** What stands in a list now: its lines by what they show. @type {WeakMap<Element, Map<string, HTMLElement>>} */
  const standing = new WeakMap();

  /**
   * Brings a list up to date; a line that shows the same stays, so that a tap does not build a whole day again.
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
    const groups = grouped(inOrder(session.events)).reverse();
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

  root.tinwrightBenchLogLines = { showEvents };
})(globalThis);
