// @ts-check
// The alarm when a check fails: one short sentence, once; the title of the page until it is over; a buzz of the phone.
// needs: elements.js bench-log-due.js bench-log-stop.js bench-log-words.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { make } = root.tinwrightElements;
  const { isNow } = root.tinwrightBenchLogDue;
  const { alarmText } = root.tinwrightBenchLogStop;
  const words = root.tinwrightBenchLogWords;
  const BUZZ = [300, 150, 300];

  /** Where the phone has it, and only after a tap: before one a browser refuses, and complains. */
  function buzz() {
    const isTouched = navigator.userActivation && navigator.userActivation.hasBeenActive;
    if ("vibrate" in navigator && isTouched) navigator.vibrate(BUZZ);
  }

  class Alarm {
    constructor() {
      this.element = make("p", { class: "tw-log__alarm", role: "alert" });
      this.title = document.title;
      /** Failures that were announced already. @type {Set<string>} */
      this.announced = new Set();
    }

    /** @param {LogState|null} state of the session that is open */
    show(state) {
      const stop = state && state.held;
      const said = alarmText(stop);
      const due = state && state.dues.find(isNow);
      document.title = [said || (due ? `Now: ${words.dueText(due)}.` : ""), this.title].filter(Boolean).join(" ");
      if (!stop || !said) {
        this.element.textContent = "";
        return;
      }
      const failures = stop.failures.map(({ event }) => event.id);
      if (failures.every((id) => this.announced.has(id))) return;
      for (const id of failures) this.announced.add(id);
      this.element.textContent = said;
      buzz();
    }
  }

  root.tinwrightBenchLogAlarm = { Alarm };
})(globalThis);
