// @ts-check
// Whether this browser keeps what is written for good: it is asked to, and its answer is shown. One kind of browser
// erases what a page keeps after seven days without use, unless the page stands on the home screen.
// needs: elements.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { make } = root.tinwrightElements;
  const KEPT = "This browser has promised to keep what you write until you erase it.";
  const NOT_KEPT =
    "This browser has not promised to keep what you write. Save the file today, before you put the phone away.";
  const ERASED = "This browser may erase what you write when the page is not used for 7 days. Save the file today.";
  const APART = "What is written here does not go along: save its file first and import it there.";

  /** Whether it is the kind of browser that erases after seven days, and how its page gets to where it stays. */
  function homeScreen() {
    const isApart = matchMedia("(display-mode: standalone)").matches;
    if (navigator.vendor !== "Apple Computer, Inc." || isApart) return "";
    return "standalone" in navigator
      ? "To keep it longer, tap Share, then Add to Home Screen, and write there."
      : "To keep it longer, choose File, then Add to Dock, and write there.";
  }

  class Lasting {
    constructor() {
      this.element = make("p", { class: "tw-log__lasting tw-quiet" });
      this.show(false);
    }

    /** @param {boolean} isKept what the browser answered */
    show(isKept) {
      const way = homeScreen();
      const said = isKept ? KEPT : NOT_KEPT;
      this.element.textContent = way ? `${ERASED} ${way} ${APART}` : said;
    }

    /** Asks what was promised before. */
    async look() {
      try {
        this.show(await navigator.storage.persisted());
      } catch {
        this.show(false); // a browser that cannot be asked has promised nothing
      }
    }

    /** Asks for a promise; a browser may ask its user. */
    async ask() {
      try {
        this.show(await navigator.storage.persist());
      } catch {
        this.show(false);
      }
    }
  }

  root.tinwrightBenchLogLasting = { Lasting };
})(globalThis);
