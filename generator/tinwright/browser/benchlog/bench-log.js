// @ts-check
// <tw-bench-log>: the log of a sealing day, kept by thumb. Everything is on this device the moment it is tapped.
// needs: bench-log-days.js bench-log-drawing.js bench-log-due.js bench-log-holding.js bench-log-panel.js
// needs: bench-log-second-copy.js bench-log-store.js

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const { make } = globals.tinwrightBench;
  const data = globals.tinwrightBenchLogData;
  const rules = globals.tinwrightBenchLog;
  const words = globals.tinwrightBenchLogWords;
  const files = globals.tinwrightBenchLogFile;
  const view = globals.tinwrightBenchLogView;
  const { Panel } = globals.tinwrightBenchLogPanel;
  const { clock, startForm, today } = globals.tinwrightBenchLogStart;
  const { fromSeamCheck } = globals.tinwrightBenchLogMeasured;
  const { KEY, Log } = globals.tinwrightBenchLogStore;
  const [OPEN, STEP] = [`${KEY}open`, `${KEY}step`];
  const TICK = 5000;
  const AT_ONCE = ["jam", "new-run", "pause", "resume"];
  const DECISIONS = ["hold", "release", "discard"];
  const MORE = [
    "sealed",
    "jam",
    "new-run",
    "pause",
    "set-up",
    "defect",
    "cause",
    "can-change",
    "lid-lot",
    "hold",
    "release",
    "discard",
    "close",
  ];

  /** @param {string} key @returns {string} */
  function recall(key) {
    try {
      return localStorage.getItem(key) || "";
    } catch {
      return "";
    }
  }

  /** @param {string} key @param {string} value */
  function remember(key, value) {
    try {
      localStorage.setItem(key, value);
    } catch {
      // It is asked again next time.
    }
  }

  class TwBenchLog extends HTMLElement {
    constructor() {
      super();
      this.log = new Log(data.kinds, data.results, globals.tinwrightBenchLogCopy);
      this.open = "";
      /** @type {HTMLElement|null} */
      this.one = null;
      this.isWhole = false;
      /** The session that the list shows. @type {any} */
      this.listed = null;
      this.step = 6;
      this.frame = 0;
      /** When all that is kept on this phone is known. @type {Promise<any>} */
      this.ready = Promise.resolve();
      this.tellUnsaved = () => undefined;
      /**
       * What follows from a session, worked out once.
       * @type {WeakMap<LogEvent[], {bench: any, held: any, missed: LogMissed[]}>}
       */
      this.known = new WeakMap();
      this.stepKey = view.key({ label: "+6", act: () => this.seal(this.step) });
      this.trouble = make("div", { class: "tw-log__trouble", role: "alert" });
      this.stop = make("div", { role: "alert" });
      this.due = make("div");
      this.count = make("p", { class: "tw-log__count" });
      this.list = make("div");
      this.unchecked = make("div");
      this.charts = make("details", { class: "tw-log__charts" }, make("summary", {}, "Charts"), make("div"));
      this.files = make("section", { class: "tw-log__files" });
      this.undone = make("div", { class: "tw-log__last" });
      this.tabs = make("div", { class: "tw-log__tabs", role: "group", "aria-label": "Sealer" });
      this.pad = make("div", { class: "tw-log__pad" });
      this.print = make("div");
      this.said = make("p", { class: "tw-log__said", role: "status" });
      this.rest = make(
        "div",
        { class: "tw-log__rest" },
        make("h2", {}, "Written today"),
        this.list,
        this.unchecked,
        this.charts,
        this.files,
      );
      /** What stands in each part now, so that nothing is built, or said, twice. @type {Map<HTMLElement, string>} */
      this.stands = new Map();
      /** @type {Map<string, string>} */
      this.aloud = new Map();
    }

    async connectedCallback() {
      // Some thousandths of a second; then what was tapped outlasts a dead battery.
      this.log.tellOnTheWay = () => this.toggleAttribute("data-on-the-way", this.log.onTheWay > 0);
      const recovered = this.log.recover();
      this.ready = Promise.race([
        recovered,
        new Promise((resolve) => {
          setTimeout(resolve, 1500);
        }),
      ]);
      // Cans are counted on from what is known. Where nothing is, the form to begin a session need not wait.
      if (this.log.sessions.length) await this.ready;
      this.begun();
      if (!(await recovered)) return;
      if (this.kept()) this.show();
      else this.goOn();
    }

    begun() {
      this.step = Math.min(99, Math.max(2, Number(recall(STEP)) || 6));
      this.charts.addEventListener("toggle", () => this.showCharts());
      this.replaceChildren(this.trouble, this.stop, this.due, this.count, this.rest, this.pad, this.said, this.print);
      this.goOn();
      root.setInterval(() => {
        if (!document.hidden) this.showNow();
      }, TICK);
      document.addEventListener("visibilitychange", () => this.showNow());
      root.addEventListener("storage", (event) => {
        if (!event.key || event.key.startsWith(KEY)) {
          this.log.read();
          this.show();
        }
      });
      root.addEventListener("beforeunload", (event) => {
        if (this.log.notKept) event.preventDefault();
      });
      root.addEventListener("beforeprint", () => this.showPrint());
      matchMedia("print").addEventListener("change", ({ matches }) => {
        if (matches) this.showPrint();
      });
    }

    /** Opens what was open last, or the last session of today. */
    goOn() {
      const known = this.log.sessions.some((/** @type {any} */ kept) => kept.key === recall(OPEN));
      const last = [...this.log.sessions].reverse().find(({ session }) => session.date === today());
      this.open = known ? recall(OPEN) : last ? last.key : "";
      this.showPad();
      this.show();
      if (location.hash === "#measured-check" && this.kept()) this.ask("measured-check", fromSeamCheck());
    }

    /** The session that is open. */
    kept() {
      return this.log.sessions.find((/** @type {any} */ kept) => kept.key === this.open) || null;
    }

    /** @param {any} kept */
    isToday(kept) {
      return kept.session.date === today();
    }

    // ---- writing ----

    /** @param {Object<string, any>} entries @returns {string} what is missing; empty when it is written */
    write(entries) {
      const kept = this.kept();
      const { sealer: _, ...own } = entries;
      const refused = this.refused(kept.session, own);
      if (refused) return refused;
      const on = DECISIONS.includes(entries.kind) && !this.isToday(kept) ? { on: today() } : {};
      const event = this.log.write(kept, { ...own, ...on, at: entries.at || clock() });
      if (!event) return this.missing(entries);
      this.isDone(`Written: ${words.eventText(event)}.`, event);
      return "";
    }

    /**
     * What is asked about before it is written, in words; empty when nothing is.
     * @param {LogSession} session
     * @param {Object<string, any>} entries
     * @returns {string}
     */
    refused({ events }, entries) {
      const counter = rules.counterOf(events);
      if (entries.kind === "sealed" && (!entries.run || rules.runNamed(entries.run) === rules.runOf(counter))) {
        const { run: _, ...plain } = entries;
        const after = rules.lastWritten(events, "");
        const lines = rules.readLines([...events, { ...plain, id: "now-1", at: "00:00", after }]);
        if (lines.some((/** @type {LogLine} */ { event, beginsRun }) => event.id === "now-1" && beginsRun)) {
          const next = rules.canName((rules.runOf(counter) + 1) * rules.ONE_RUN + (entries.first || 1));
          return `The count stands at ${rules.canName(counter)}. Was the counter set back? Then choose the new run: the cans are ${next} and so on. If not, correct the numbers.`;
        }
      }
      if (entries.kind !== "release") return "";
      const base = (entries.run ? rules.runNamed(entries.run) : rules.runOf(counter)) * rules.ONE_RUN;
      const bad = rules.shared(rules.walk(events, data.dispositions, data.reaches).bad, [
        [base + (entries.first || 0), base + (entries.last || 0)],
      ]);
      return bad.length ? `Found bad, never released: ${words.cans(bad)}. Release the others, and discard it.` : "";
    }

    /** @param {Object<string, any>} entries */
    missing(entries) {
      const kind = data.kinds[entries.kind];
      const labels = globals.tinwrightBenchLogPanel.LABELS;
      const missing = globals.tinwrightBenchLogStore
        .problemsOf(entries, kind, data.results)
        .map((/** @type {string} */ entry) => labels[entry].toLowerCase());
      return missing.length
        ? `Still needed, or not possible: ${missing.join(", ")}.`
        : "This cannot be written: look at the numbers again.";
    }

    /** @param {string} said @param {LogEvent|null} event the last one written */
    isDone(said, event) {
      const isThere = this.undone.contains(document.activeElement);
      this.undone.replaceChildren(
        ...(event
          ? [
              make(
                "span",
                {},
                `${event.at.slice(0, 5)} ${words.eventText(event)}${event.struck ? " · struck out" : ""}`,
              ),
              make(
                "button",
                { type: "button", class: "tw-button", onclick: () => this.strike(event) },
                event.struck ? "Bring it back" : "Undo",
              ),
            ]
          : []),
      );
      if (isThere && this.undone.lastChild instanceof HTMLElement) this.undone.lastChild.focus();
      this.say(said);
      this.show();
    }

    /** Says something aloud, once. @param {string} text */
    say(text) {
      this.said.textContent = this.said.textContent === text ? `${text}\u00a0` : text;
    }

    /** @param {LogEvent} event */
    strike(event) {
      const kept = this.kept();
      const now = kept && kept.session.events.find((/** @type {LogEvent} */ each) => each.id === event.id);
      if (!now) return;
      const revised = this.log.revise(kept, { ...now, struck: !now.struck });
      if (revised)
        {this.isDone(`${revised.struck ? "Struck out" : "Brought back"}: ${words.eventText(revised)}.`, revised);}
    }

    /** @param {number} number */
    seal(number) {
      const counter = rules.counterOf(this.kept().session.events);
      const first = (counter % rules.ONE_RUN) + 1;
      this.write({ kind: "sealed", first, last: first + number - 1, ...this.inRun(counter) });
    }

    /** Names the run of a can, from the second run on. @param {number} can @returns {{run?: string}} */
    inRun(can) {
      return rules.runOf(can) ? { run: rules.runLetter(rules.runOf(can)) } : {};
    }

    /**
     * The runs that a form may choose from; one that cans may begin is among them.
     * @param {string} kind
     * @returns {[string, string][]}
     */
    runs(kind) {
      const last = rules.runOf(rules.counterOf(this.kept().session.events));
      const runs = Array.from(
        { length: last + 1 },
        (_, run) =>
          /** @type {[string, string]} */ ([
            rules.runLetter(run),
            run ? `Cans ${rules.runLetter(run)}1 and on` : "First run: cans without a letter",
          ]),
      );
      const next = rules.runLetter(last + 1);
      return kind === "sealed" ? [...runs, [next, `The counter was set back: cans ${next}1 and on`]] : runs;
    }

    pauseOrGoOn() {
      const bench = rules.readBench(this.kept().session.events, data.policy, data.dispositions);
      this.write({ kind: bench.pausedAt === null ? "pause" : "resume" });
      this.showPad();
    }

    // ---- asking ----

    /** What a form begins with. @param {string} kind */
    begin(kind) {
      const { session } = this.kept();
      const count = rules.counterOf(session.events);
      const [counter, base] = [count % rules.ONE_RUN, rules.runOf(count) * rules.ONE_RUN];
      const last = rules
        .counted(session.events)
        .filter((/** @type {LogEvent} */ event) => event.can)
        .pop();
      const can = last ? last.can : session.can || "";
      const dues = rules.whatIsDue(session.events, data.policy, clock(), data.dispositions);
      const isTesting = dues.some((/** @type {LogDue} */ due) => due.check === "test-cans");
      const walk = rules.walk(session.events, data.dispositions, data.reaches);
      const held = walk.stillHeld();
      const heated = Math.max(base, ...walk.heated.map((/** @type {CanRange} */ [, end]) => end)) - base;
      /** The first of some cans as entries of a form. @param {CanRange[]} ranges */
      const firstOf = ([range]) =>
        range ? { first: range[0] % rules.ONE_RUN, last: range[1] % rules.ONE_RUN, ...this.inRun(range[0]) } : {};
      const allHeld = rules.joined(held.notHeated, held.heated);
      const mayGo = rules.without(allHeld, walk.bad);
      const defect = [...rules.counted(session.events)].reverse().find((event) => event.defect);
      const by = [...rules.inOrder(session.events)].reverse().find((event) => event.by);
      /** @type {Object<string, Object<string, any>>} */
      const own = {
        "visual-check": { can_number: counter || 1 },
        "measured-check": counter && !isTesting ? { can_number: counter } : {},
        "set-up": { can },
        sealed: { first: counter + 1, last: counter + this.step },
        heated: heated < counter ? { first: heated + 1, last: counter } : {},
        "can-change": { can },
        cause: defect ? { defect: defect.defect } : {},
        release: firstOf(mayGo),
        discard: firstOf(allHeld),
      };
      return {
        entries: {
          kind,
          sealer: session.sealer,
          ...this.inRun(count),
          ...(by && kind !== "release" ? { by: by.by } : {}),
          ...own[kind],
        },
        can,
      };
    }

    /**
     * Puts a form in the place of the buttons.
     * @param {string} kind
     * @param {any} [typed] readings from Check a seam
     * @param {Object<string, any>} [more]
     */
    ask(kind, typed = null, more = {}) {
      if (AT_ONCE.includes(kind)) {
        if (kind === "jam") this.write({ kind });
        else if (kind === "new-run")
          {this.write({ kind, run: rules.runLetter(rules.runOf(rules.counterOf(this.kept().session.events)) + 1) });}
        else this.pauseOrGoOn();
        this.showPad();
        return;
      }
      const { entries, can } = this.begin(kind);
      const kept = this.kept();
      const isTimed = !this.isToday(kept) && !DECISIONS.includes(kind);
      const at = isTimed ? { at: (rules.inOrder(kept.session.events).pop() || { at: "12:00" }).at.slice(0, 5) } : {};
      this.showPanel(
        new Panel({
          kind,
          event: null,
          entries: { ...entries, ...at, ...more },
          can,
          isTimed,
          typed,
          runs: this.runs(kind),
          note: kind === "close" ? this.end(kept) : "",
          strike: () => undefined,
          close: () => this.showPad(true),
          write: (/** @type {Object<string, any>} */ written) => {
            const missing = this.write(written);
            if (!missing) this.showPad(true);
            return missing;
          },
        }),
      );
    }

    /** @param {LogEvent} event */
    correct(event) {
      const kept = this.kept();
      const { can } = this.begin(event.kind);
      this.showPanel(
        new Panel({
          kind: event.kind,
          event,
          entries: {
            sealer: kept.session.sealer,
            ...(rules.runOf(rules.counterOf(kept.session.events))
              ? { run: rules.runLetter(rules.runOfEvent(event)) }
              : {}),
          },
          can,
          isTimed: false,
          typed: null,
          runs: this.runs(event.kind),
          note: "",
          close: () => this.showPad(true),
          strike: () => {
            this.strike(event);
            this.showPad(true);
          },
          write: (/** @type {Object<string, any>} */ { sealer: _, ...entries }) => {
            const revised = this.log.revise(kept, entries);
            if (!revised) return this.missing(entries);
            this.isDone(`Corrected: ${words.eventText(revised)}.`, revised);
            this.showPad(true);
            return "";
          },
        }),
      );
    }

    /** What is still to be done before the day is closed. @param {any} kept */
    end(kept) {
      return words.endText(rules.cansBeforeEndCheck(kept.session.events, data.policy, data.dispositions));
    }

    // ---- showing ----

    /** @param {{element: HTMLElement, head: HTMLElement}} panel @param {boolean} [isMoved] whether to go there */
    showPanel({ element, head }, isMoved = true) {
      this.rest.hidden = true;
      this.pad.className = "tw-log__pad tw-log__pad--asking";
      this.pad.replaceChildren(element);
      if (!isMoved) return;
      head.focus({ preventScroll: true });
      element.scrollIntoView({ block: "start" });
    }

    /** The buttons. @param {boolean} [isBack] whether the keyboard was in a form */
    showPad(isBack = false) {
      const kept = this.kept();
      this.rest.hidden = false;
      if (!kept) return this.showStart(isBack);
      this.pad.className = "tw-log__pad";
      this.stepKey.textContent = `+${this.step}`;
      const key = (/** @type {string} */ label, /** @type {string} */ kind) =>
        view.key({ label, act: () => this.ask(kind) });
      const one = view.key({ label: "+1 can sealed", act: () => this.seal(1) }, "first");
      this.stands.delete(this.tabs);
      this.pad.replaceChildren(
        this.undone,
        this.tabs,
        make(
          "div",
          { class: "tw-log__grid" },
          one,
          this.stepKey,
          key("Test can", "test-can"),
          key("Look", "visual-check"),
          key("Measure", "measured-check"),
          key("In canner", "heated"),
          key("Adjusted", "adjustment"),
          view.key({ label: "More", act: () => this.showMore() }),
        ),
      );
      this.one = one;
      if (isBack) {
        one.focus({ preventScroll: true });
        this.scrollIntoView({ block: "start" });
      }
      this.showNow();
      return undefined;
    }

    showMore() {
      const bench = rules.readBench(this.kept().session.events, data.policy, data.dispositions);
      const labels = /** @type {Object<string, string>} */ ({
        sealed: "Type the cans",
        pause: bench.pausedAt === null ? "Pause" : "Go on",
      });
      const box = /** @type {HTMLInputElement} */ (
        make("input", { type: "text", id: "bl-step", inputmode: "numeric", value: this.step, maxlength: 2 })
      );
      box.addEventListener("input", () => {
        if (!/^\d{1,2}$/.test(box.value) || Number(box.value) < 2) return;
        this.step = Number(box.value);
        remember(STEP, box.value);
      });
      const head = make("h2", { class: "tw-log__head", tabindex: "-1" }, "More");
      const element = make(
        "div",
        { class: "tw-log__panel" },
        head,
        make(
          "div",
          { class: "tw-log__grid tw-log__grid--two" },
          ...MORE.map((kind) => view.key({ label: labels[kind] || data.kinds[kind].label, act: () => this.ask(kind) })),
          view.key({ label: "Correct the session", act: () => this.showStart(true, true) }),
          view.key({ label: "Back", act: () => this.showPad(true) }, "quiet"),
        ),
        make("div", {}, make("label", { for: "bl-step" }, "The second + button adds this many cans"), box),
      );
      this.showPanel({ element, head });
    }

    /** @param {boolean} isMoved whether to go there @param {boolean} [isCorrected] */
    showStart(isMoved, isCorrected = false) {
      const kept = this.kept();
      const last = this.log.sessions[this.log.sessions.length - 1];
      const { events: _, ...head } = isCorrected
        ? kept.session
        : last && last.session.date === today()
          ? last.session
          : { events: null };
      const form = startForm({
        head: isCorrected ? head : { ...head, sealer: "" },
        isNew: !isCorrected,
        back: this.log.sessions.length && kept ? () => this.showPad(true) : null,
        start: async (/** @type {any} */ given) => {
          await this.ready;
          const started = this.log.start(given);
          if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(() => undefined);
          this.choose(started.key);
        },
      });
      this.showPanel({ element: form, head: /** @type {HTMLElement} */ (form.querySelector("h2")) }, isMoved);
      this.rest.hidden = this.log.sessions.length === 0;
    }

    /** @param {string} key */
    choose(key) {
      this.open = key;
      this.isWhole = false;
      remember(OPEN, key);
      const isTab = this.tabs.contains(document.activeElement);
      this.undone.replaceChildren();
      this.showPad(true);
      this.show();
      if (isTab)
        /** @type {HTMLElement} */ {(this.tabs.querySelector("[aria-pressed=true]")).focus({ preventScroll: true });}
      const kept = this.kept();
      if (kept) this.say(`${words.sealerTitle(kept.session.sealer)}, ${kept.session.date}.`);
    }

    /**
     * What is due and held has this frame of the screen to itself; the lines have the next, and what is below them the one after.
     */
    show() {
      this.showTrouble();
      this.showNow();
      cancelAnimationFrame(this.frame);
      this.frame = requestAnimationFrame(() => this.showRest());
    }

    showRest() {
      this.showFiles();
      const kept = this.kept();
      if (kept !== this.listed) this.list.replaceChildren();
      this.listed = kept;
      if (kept)
        {view.showEvents(
          this.list,
          kept.session,
          kept.disputed,
          this.isWhole,
          (/** @type {LogEvent} */ event) => this.correct(event),
          () => {
            this.isWhole = true;
            this.show();
          },
        );}
      this.frame = requestAnimationFrame(() => this.showUnchecked());
      this.charts.hidden = !kept;
      /** @type {HTMLElement} */ (this.rest.firstChild).hidden = !kept;
      /** @type {HTMLElement} */ (this.rest.firstChild).textContent =
        kept && !this.isToday(kept) ? `Written on ${kept.session.date}` : "Written today";
      this.showCharts();
    }

    showUnchecked() {
      const kept = this.kept();
      const unchecked = kept ? view.uncheckedCard(kept.session) : null;
      const missed = kept ? view.missedCard(this.state(kept).missed) : null;
      const wentBack = kept ? view.wentBackCard(kept.session) : null;
      const cards = /** @type {HTMLElement[]} */ ([wentBack, missed, unchecked].filter(Boolean));
      const stand = this.unchecked.children;
      if (cards.length !== stand.length || cards.some((card, index) => !card.isEqualNode(stand[index])))
        {this.unchecked.replaceChildren(...cards);}
    }

    /**
     * Puts something into a part unless just that stands there.
     * @param {HTMLElement} part
     * @param {HTMLElement|null} content
     */
    put(part, content) {
      const html = content ? content.outerHTML : "";
      if (this.stands.get(part) === html) return;
      this.stands.set(part, html);
      part.replaceChildren(...(content ? [content] : []));
    }

    /** What is due and held now: all that changes without a tap. */
    showNow() {
      const kept = this.kept();
      const day = kept ? kept.session.date : today();
      const tabs = this.log.sessions
        .filter((/** @type {any} */ each) => each.session.date === day)
        .map((/** @type {any} */ each) => this.showTab(each));
      if (kept) this.putTabs(tabs);
      if (!kept) {
        for (const part of [this.stop, this.due]) this.put(part, null);
        this.count.textContent = "";
        return;
      }
      const { session } = kept;
      const { bench, held, missed, dues } = this.state(kept);
      const acts = ["release", "discard"].map((kind) => ({
        label: kind === "release" ? "Release cans" : "Discard cans",
        act: () => this.ask(kind),
      }));
      this.put(this.stop, held ? view.stopCard(held, acts) : null);
      this.put(
        this.due,
        this.isToday(kept) || bench.closed
          ? view.dueCard(dues, bench)
          : make("p", { class: "tw-note" }, `This is the log of ${session.date}. Write times with what you add.`),
      );
      // Cans sealed in spite of it are still written down: the log tells what happened.
      const isLate = dues.some(rules.isNow) || Boolean(held && held.failures.length);
      if (this.one) this.one.classList.toggle("tw-log__key--later", isLate);
      const count = bench.counter ? `${words.many(bench.counter, "can")} sealed` : "No can sealed yet";
      const checked =
        bench.look.checkedAt === null
          ? ""
          : ` · last look at ${bench.look.checked ? `can ${rules.canName(bench.can(bench.look.checked))}` : "a test can"}`;
      const number = missed.reduce((sum, { times }) => sum + times, 0);
      const can = rules.counterOf(session.events);
      const run = rules.runOf(can)
        ? ` · run ${rules.runLetter(rules.runOf(can))}, the next can is ${rules.canName(can + 1)}`
        : "";
      const said = `${count}${run}${checked}${number ? ` · ${words.many(number, "check")} missed` : ""}`;
      if (this.count.textContent !== said) this.count.textContent = said;
    }

    /**
     * What is due, held and missed in a session now.
     * @param {any} kept
     * @returns {{bench: any, held: any, missed: LogMissed[], dues: LogDue[]}}
     */
    state(kept) {
      const { session } = kept;
      let found = this.known.get(session.events);
      if (!found) {
        const bench = rules.readBench(session.events, data.policy, data.dispositions);
        found = { bench, held: view.heldOf(session, this.earlier(session)), missed: bench.missedSoFar() };
        this.known.set(session.events, found);
      }
      const isDue = this.isToday(kept) && !found.bench.closed;
      return { ...found, dues: isDue ? found.bench.due(clock()) : [] };
    }

    /** @param {any} kept @returns {{key: string, title: string, below: string, isOpen: boolean}} */
    showTab(kept) {
      const { session, key } = kept;
      const { bench, held, dues } = this.state(kept);
      const aloud = words.dueAloud(dues);
      const many = this.log.sessions.filter((/** @type {any} */ each) => this.isToday(each)).length > 1;
      const before = this.aloud.get(key);
      this.aloud.set(key, aloud);
      if (before !== undefined && before !== aloud && aloud)
        {this.say(
          `${this.said.textContent && key === this.open ? `${this.said.textContent} ` : ""}${many ? `${words.sealerTitle(session.sealer)}: ` : ""}${aloud}`,
        );}
      const state = held ? "HOLD" : dues.some(rules.isNow) ? "DUE" : bench.closed ? "closed" : "";
      return {
        key,
        title: words.sealerTitle(session.sealer),
        below: [`${bench.counter}`, state].filter(Boolean).join(" · "),
        isOpen: key === this.open,
      };
    }

    /** @param {{key: string, title: string, below: string, isOpen: boolean}[]} tabs */
    putTabs(tabs) {
      const said = JSON.stringify(tabs);
      if (this.stands.get(this.tabs) === said) return;
      this.stands.set(this.tabs, said);
      const place = this.tabs.contains(document.activeElement)
        ? [...this.tabs.children].indexOf(/** @type {Element} */ (document.activeElement))
        : -1;
      this.tabs.replaceChildren(
        ...tabs.map(({ key, title, below, isOpen }) =>
          make(
            "button",
            { type: "button", class: "tw-log__tab", "aria-pressed": String(isOpen), onclick: () => this.choose(key) },
            make("span", {}, title),
            make("small", {}, below),
          ),
        ),
        make(
          "button",
          {
            type: "button",
            class: "tw-log__tab tw-log__tab--new",
            "aria-label": "Another sealer",
            onclick: () => this.showStart(true),
          },
          "+",
        ),
      );
      const moved = this.tabs.children[place];
      if (moved instanceof HTMLElement) moved.focus();
    }

    /** The session of the same sealer before this one. @param {LogSession} session @returns {LogSession|null} */
    earlier(session) {
      const earlier = this.log.sessions
        .map((/** @type {any} */ kept) => kept.session)
        .filter(
          (/** @type {LogSession} */ each) =>
            each.sealer === session.sealer && each.kitchen === session.kitchen && each.date < session.date,
        );
      return (
        earlier
          .sort((/** @type {LogSession} */ one, /** @type {LogSession} */ other) =>
            rules.compareText(one.date, other.date),
          )
          .pop() || null
      );
    }

    showTrouble() {
      const parts = [];
      const kept = this.kept();
      if (this.log.notKept) {
        parts.push(
          make(
            "section",
            { class: "tw-log__stop" },
            make("h2", { class: "tw-log__word" }, "Not kept on this phone"),
            make(
              "p",
              {},
              this.log.notKept === "full"
                ? "There is no room left for this site on this phone. "
                : "This browser does not let the site keep anything (a private window, perhaps). ",
              "What you write is gone when this page closes. Save the file now, or write on paper.",
            ),
            make(
              "div",
              { class: "tw-log__keys" },
              view.key({
                label: "Try again",
                act: () => {
                  this.log.keepAll();
                  this.show();
                },
              }),
              view.key({ label: "Save the file", act: () => this.save() }, "first"),
            ),
          ),
        );
      }
      const unread = kept ? kept.unread : [];
      const lost = this.log.lost.map((/** @type {{key: string, text: string}} */ each) => each.text);
      if (unread.length || lost.length) {
        parts.push(
          make(
            "section",
            { class: "tw-log__unchecked" },
            make("h2", {}, "Something cannot be read"),
            make(
              "p",
              {},
              `${unread.length ? words.many(unread.length, "line") : words.many(lost.length, "log")} on this phone cannot be read, and may be missing from what you see. Nothing was erased: save it as a file and show it to your educator.`,
            ),
            make(
              "div",
              { class: "tw-log__keys" },
              view.key({
                label: "Save what cannot be read",
                act: () =>
                  files.download(
                    `bench-log-unread-${this.log.device}.txt`,
                    [...unread, ...lost].join("\n"),
                    "text/plain",
                  ),
              }),
            ),
          ),
        );
      }
      this.put(this.trouble, parts.length ? make("div", {}, ...parts) : null);
    }

    save() {
      const kept = this.kept();
      if (kept) this.say(`Saved as ${files.save(this.log, kept.session.date)}.`);
      this.showFiles();
    }

    showFiles() {
      const stands = JSON.stringify([this.open, today(), this.log.sessions.length]);
      if (this.stands.get(this.files) === stands) {
        this.tellUnsaved();
        return;
      }
      this.stands.set(this.files, stands);
      const { parts, tell } = globals.tinwrightBenchLogDays.daysSection({
        log: this.log,
        kept: this.kept(),
        save: () => this.save(),
        say: (/** @type {string} */ text) => this.say(text),
        choose: (/** @type {string} */ key) => this.choose(key),
        begin: () => {
          this.open = "";
          this.showPad(true);
          this.show();
        },
        taken: () => {
          const [last] = this.log.sessions.slice(-1);
          if (!this.kept() && last) this.choose(last.key);
          this.show();
        },
        print: () => {
          this.showPrint();
          root.print();
        },
      });
      this.files.replaceChildren(...parts);
      this.tellUnsaved = tell;
    }

    showCharts() {
      const kept = this.kept();
      if (!this.charts.hasAttribute("open") || !kept) return;
      const { sealer } = kept.session;
      /** @type {LogChart[]} */
      const charts = rules
        .chartsOf(this.log.sessions.map((/** @type {any} */ each) => each.session))
        .filter((/** @type {LogChart} */ chart) => chart.sealer === sealer);
      const first = charts.filter(({ dimension }) => dimension === "seam-thickness");
      const sorted = [...first, ...charts.filter((chart) => !first.includes(chart))];
      const figures = sorted.map((chart) => globals.tinwrightBenchLogDrawing.drawChart(chart, this.limits(chart)));
      /** @type {HTMLElement} */ (this.charts.lastChild).replaceChildren(
        ...(figures.length ? figures : [make("p", { class: "tw-quiet" }, "Nothing was measured on this sealer yet.")]),
      );
    }

    /** The limits of the specification that the last can was judged by. @param {LogChart} chart */
    limits(chart) {
      const points = chart.stretches.flatMap((stretch) => stretch.points);
      const spec = globals.tinwrightData.specifications.find(
        (/** @type {any} */ each) => each.id === points[points.length - 1].event.specification,
      );
      const limit = spec
        ? spec.limits.limits.find((/** @type {any} */ each) => each.dimension === chart.dimension)
        : null;
      return limit ? { low: limit.low, high: limit.high } : { low: null, high: null };
    }

    showPrint() {
      const kept = this.kept();
      this.print.replaceChildren(...(kept ? [files.printed(this.log, kept.session.date)] : []));
    }
  }

  if (!customElements.get("tw-bench-log")) customElements.define("tw-bench-log", TwBenchLog);
})(globalThis);
