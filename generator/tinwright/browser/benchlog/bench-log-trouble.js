// @ts-check
// What the log says when this phone does not keep it, or cannot read it.
// needs: bench-log-keys.js bench-log-words.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { make, save: download } = root.tinwrightElements;
  const { key } = root.tinwrightBenchLogKeys;
  const words = root.tinwrightBenchLogWords;

  /** @param {KeptLog} log @param {{again: () => void, save: () => void}} acts */
  function notKeptCard({ notKept }, { again, save }) {
    if (!notKept) return null;
    const why =
      notKept === "full"
        ? "There is no room left for this site on this phone."
        : "This browser does not let the site keep anything (a private window, perhaps).";
    return make(
      "section",
      { class: "tw-log__stop" },
      make("h2", { class: "tw-log__word" }, "Not kept on this phone"),
      make("p", {}, `${why} What you write is gone when this page closes. Save the file now, or write on paper.`),
      make("div", { class: "tw-log__keys" }, key("Try again", again), key("Save the file", save, "first")),
    );
  }

  /** @param {KeptLog} log @param {KeptSession|null} kept the session that is open */
  function unreadCard(log, kept) {
    const unread = kept ? kept.unread : [];
    const lost = log.lost.map(({ text }) => text);
    if (!unread.length && !lost.length) return null;
    const what = unread.length ? words.many(unread.length, "line") : words.many(lost.length, "log");
    const save = () => download(`bench-log-unread-${log.device}.txt`, [...unread, ...lost].join("\n"), "text/plain");
    return make(
      "section",
      { class: "tw-log__unchecked" },
      make("h2", {}, "Something cannot be read"),
      make(
        "p",
        {},
        `${what} on this phone cannot be read, and may be missing from what you see. ` +
          "Nothing was erased: save it as a file and show it to your educator.",
      ),
      make("div", { class: "tw-log__keys" }, key("Save what cannot be read", save)),
    );
  }

  /** @param {KeptLog} log @param {KeptSession|null} kept @param {{again: () => void, save: () => void}} acts */
  function troubleCard(log, kept, acts) {
    const cards = [notKeptCard(log, acts), unreadCard(log, kept)].flatMap((card) => (card ? [card] : []));
    return cards.length ? make("div", {}, ...cards) : null;
  }

  root.tinwrightBenchLogTrouble = { troubleCard };
})(globalThis);
