// @ts-check
// Below the log: handing it in, importing the file of another phone, other days, paper.
// needs: bench-log-exchange.js bench-log-file.js bench-log-keys.js bench-log-words.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { button, make, today } = root.tinwrightElements;
  const { importFile } = root.tinwrightBenchLogExchange;
  const { key } = root.tinwrightBenchLogKeys;
  const files = root.tinwrightBenchLogFile;
  const words = root.tinwrightBenchLogWords;
  const MOST_LETTERS = 20_000_000;

  /** @param {KeptLog} log @param {string} day */
  function unsavedText(log, day) {
    const unsaved = files.unsaved(log, day);
    if (!unsaved) return `All of ${day} is in a file. Give it to your educator.`;
    const lines = `${words.many(unsaved, "line")} of ${day} ${unsaved === 1 ? "is" : "are"} on this phone only.`;
    return `${lines} Save the file and give it to your educator: a lost phone is a lost log.`;
  }

  /** @param {LogDays} days @param {string} day */
  function handIn({ log, save, say }, day) {
    const said = make("p", {});
    const tell = () => {
      said.textContent = unsavedText(log, day);
    };
    const share = () =>
      files.share(log, day).then((done) => {
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
        key("Copy as text", () => copy(box, files.textOf(log, day), say)),
        files.canShare() ? key("Share the file", share) : null,
        key("Save the file", save, "first"),
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

  /** @param {LogImported|null} came */
  function importedText(came) {
    if (!came) return "This is no file of a bench log. Nothing was changed.";
    const { added, disputed, refused, sessions } = came;
    const lost = refused ? ` ${words.many(refused, "line")} could not be read.` : "";
    const differ = disputed
      ? ` ${words.many(disputed, "line")} differ between the phones: the more cautious counts.`
      : "";
    return `Imported: ${words.many(added, "new line")} of ${words.many(sessions, "session")}.${lost}${differ}`;
  }

  /** @param {LogDays} days */
  function importing({ log, say, imported }) {
    const box = /** @type {HTMLInputElement} */ (
      make("input", { type: "file", id: "bl-file", accept: ".json,application/json" })
    );
    box.addEventListener("change", async () => {
      const [file] = box.files || [];
      if (!file) return;
      const came = file.size > MOST_LETTERS ? null : importFile(log, await file.text());
      box.value = ""; // so that the same file, grown since, may be chosen again
      if (came) imported();
      say(importedText(came));
    });
    return make(
      "details",
      {},
      make("summary", {}, "Import the file of another phone"),
      make("label", { for: "bl-file" }, "File of a bench log"),
      box,
    );
  }

  /** @param {LogDays} days */
  function otherDays({ log, kept, choose, begin }) {
    const day = kept ? kept.session.date : "";
    const others = new Map([...log.sessions].reverse().map((each) => [each.session.date, each]));
    others.delete(day);
    if (!others.size && (!kept || day === today())) return null;
    const dates = [...others.keys()].sort().reverse();
    const keys = dates.map((date) => {
      const first = /** @type {KeptSession} */ (others.get(date));
      return key(`${date}, ${first.session.kitchen}`, () => choose(first.key));
    });
    return make(
      "details",
      { open: day !== today() },
      make("summary", {}, "Other days on this phone"),
      ...keys,
      kept && day !== today() && !others.has(today()) ? key("Begin a session today", begin, "first") : null,
    );
  }

  /**
   * What stands below the log, and what renews its count of lines.
   * @param {LogDays} days
   */
  function daysSection(days) {
    const { kept, print } = days;
    const out = kept ? handIn(days, kept.session.date) : null;
    const paper = make("p", { class: "tw-bench__buttons" }, button("Print the log of the day", print));
    const parts = [out && out.box, importing(days), otherDays(days), kept && paper];
    return { parts: parts.flatMap((part) => (part ? [part] : [])), tell: out ? out.tell : () => undefined };
  }

  root.tinwrightBenchLogDays = { daysSection };
})(globalThis);
