// @ts-check
// Below the log: handing it in, taking in the file of another phone, other days, paper.
// needs: bench-log-file.js bench-log-start.js bench-log-view.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const { make } = globals.tinwrightBench;
  const words = globals.tinwrightBenchLogWords;
  const files = globals.tinwrightBenchLogFile;
  const { key } = globals.tinwrightBenchLogView;
  const { today } = globals.tinwrightBenchLogStart;
  const MOST_LETTERS = 20_000_000;

  /**
   * @typedef {{log: any, kept: any, save: () => void, say: (text: string) => void, choose: (key: string) => void,
   *   begin: () => void, taken: () => void, print: () => void}} Days
   */

  /** @param {Days} days */
  function handIn({ log, kept, save, say }) {
    const day = kept.session.date;
    const said = make("p", {});
    const tell = () => {
      const unsaved = files.unsaved(log, day);
      said.textContent = unsaved
        ? `${words.many(unsaved, "line")} of ${day} ${unsaved === 1 ? "is" : "are"} on this phone only. Save the file and give it to your educator: a lost phone is a lost log.`
        : `All of ${day} is in a file. Give it to your educator.`;
    };
    const share = () =>
      files.share(log, day).then((/** @type {boolean} */ done) => {
        say(done ? "Shared." : "Not shared.");
        tell();
      });
    const box = make("div", {});
    tell();
    box.append(
      make("h2", {}, "Hand it in"),
      said,
      make(
        "div",
        { class: "tw-log__keys" },
        key({ label: "Copy as text", act: () => copy(box, files.textOf(log, day), say) }),
        files.canShare() ? key({ label: "Share the file", act: share }) : null,
        key({ label: "Save the file", act: save }, "first"),
      ),
    );
    return { box, tell };
  }

  /** @param {HTMLElement} place @param {string} text @param {(text: string) => void} say */
  function copy(place, text, say) {
    const box = /** @type {HTMLTextAreaElement} */ (
      place.querySelector("textarea") || make("textarea", { readonly: true, rows: 6, "aria-label": "The log as text" })
    );
    box.value = text;
    place.append(box);
    box.select();
    say(document.execCommand("copy") ? "Copied. Paste it into a message." : "Copy the marked text.");
  }

  /** @param {Days} days */
  function takeIn({ log, say, taken }) {
    const box = /** @type {HTMLInputElement} */ (
      make("input", { type: "file", id: "bl-file", accept: ".json,application/json" })
    );
    box.addEventListener("change", async () => {
      const [file] = box.files || [];
      if (!file) return;
      const told = file.size > MOST_LETTERS ? null : log.take(await file.text());
      box.value = ""; // so that the same file, grown meanwhile, may be chosen again
      if (!told) {
        say("This is no file of a bench log. Nothing was changed.");
        return;
      }
      taken();
      const refused = told.refused ? ` ${words.many(told.refused, "line")} could not be read.` : "";
      const disputed = told.disputed
        ? ` ${words.many(told.disputed, "line")} differ between the phones: the more cautious counts.`
        : "";
      say(
        `Taken in: ${words.many(told.added, "new line")} of ${words.many(told.sessions, "session")}.${refused}${disputed}`,
      );
    });
    return make(
      "details",
      {},
      make("summary", {}, "Take in the file of another phone"),
      make("label", { for: "bl-file" }, "File of a bench log"),
      box,
    );
  }

  /** @param {Days} days */
  function otherDays({ log, kept, choose, begin }) {
    const day = kept ? kept.session.date : "";
    const others = [...new Set(log.sessions.map((/** @type {any} */ each) => each.session.date))]
      .filter((date) => date !== day)
      .sort()
      .reverse();
    if (!others.length && (!kept || day === today())) return null;
    const keys = others.map((date) => {
      const first = log.sessions.find((/** @type {any} */ each) => each.session.date === date);
      return key({ label: `${date}, ${first.session.kitchen}`, act: () => choose(first.key) });
    });
    return make(
      "details",
      { open: day !== today() },
      make("summary", {}, "Other days on this phone"),
      ...keys,
      kept && day !== today() && !others.includes(today())
        ? key({ label: "Begin a session today", act: begin }, "first")
        : null,
    );
  }

  /**
   * What stands below the log, and what renews its count of lines.
   * @param {Days} days
   * @returns {{parts: HTMLElement[], tell: () => void}}
   */
  function daysSection(days) {
    const { kept, print } = days;
    const out = kept ? handIn(days) : null;
    const paper = kept
      ? make(
          "p",
          { class: "tw-bench__buttons" },
          make("button", { type: "button", class: "tw-button", onclick: print }, "Print the log of the day"),
        )
      : null;
    const parts = [out && out.box, takeIn(days), otherDays(days), paper].filter((each) => each !== null);
    return { parts: /** @type {HTMLElement[]} */ (parts), tell: out ? out.tell : () => undefined };
  }

  globals.tinwrightBenchLogDays = { daysSection };
})(globalThis);
