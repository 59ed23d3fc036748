// @ts-check
// What changes without a tap: STOP, what is due, how many cans are sealed; and what is said of it aloud.
// needs: bench-log-due-card.js bench-log-remembered.js bench-log-states.js bench-log-stop.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { make, today } = root.tinwrightElements;
  const { canName, runLetter, runOf } = root.tinwrightBenchLog;
  const { counterOf } = root.tinwrightBenchLogWriting;
  const { dueCard } = root.tinwrightBenchLogDueCard;
  const { put } = root.tinwrightBenchLogRemembered;
  const { isToday } = root.tinwrightBenchLogStates;
  const { stopCard } = root.tinwrightBenchLogStop;
  const words = root.tinwrightBenchLogWords;

  /** @param {LogSession} session @param {LogState} state */
  function countText({ events }, { bench, missed }) {
    const { checked, checkedAt } = bench.look;
    const can = counterOf(events);
    const times = missed.reduce((sum, each) => sum + each.times, 0);
    const parts = [
      bench.counter ? `${words.many(bench.counter, "can")} sealed` : "No can sealed yet",
      runOf(can) ? `run ${runLetter(runOf(can))}, the next can is ${canName(can + 1)}` : "",
      checkedAt === null ? "" : `last look at ${checked ? `can ${canName(bench.can(checked))}` : "a test can"}`,
      times ? `${words.many(times, "check")} missed` : "",
    ];
    return parts.filter(Boolean).join(" · ");
  }

  class Now {
    /** @param {LogDesk} desk */
    constructor(desk) {
      this.desk = desk;
      this.stop = make("div", { role: "alert" });
      this.due = make("div");
      this.count = make("p", { class: "tw-log__count" });
      /** What was said last of each session. @type {Map<string, string>} */
      this.aloud = new Map();
    }

    /** @param {KeptSession|null} kept */
    show(kept) {
      if (!kept) {
        for (const part of [this.stop, this.due]) put(part, null);
        this.count.textContent = "";
        return;
      }
      const { session } = kept;
      const state = this.desk.states.of(kept);
      put(this.stop, state.held ? stopCard(state.held, (kind) => this.desk.ask(kind)) : null);
      put(this.due, isToday(kept) || state.bench.closed ? dueCard(state.dues, state.bench) : this.pastNote(session));
      const said = countText(session, state);
      if (this.count.textContent !== said) this.count.textContent = said;
    }

    /** @param {LogSession} session */
    pastNote({ date }) {
      return make("p", { class: "tw-note" }, `This is the log of ${date}. Write times with what you add.`);
    }

    /** What has to be said of the sealers of a day since it was asked last. @param {string} date @returns {string} */
    news(date) {
      const many = this.desk.states.on(today()).length > 1;
      const said = this.desk.states.on(date).map((kept) => {
        const aloud = words.dueAloud(this.desk.states.of(kept).dues);
        const before = this.aloud.get(kept.key);
        this.aloud.set(kept.key, aloud);
        if (before === undefined || before === aloud || !aloud) return "";
        return many ? `${words.sealerTitle(kept.session.sealer)}: ${aloud}` : aloud;
      });
      return said.filter(Boolean).join(" ");
    }
  }

  root.tinwrightBenchLogNow = { Now };
})(globalThis);
