// @ts-check
// <tw-bench-log>: the log of a sealing day, kept by thumb. Everything is on this device the moment it is tapped.
// needs: bench-log-desk.js bench-log-file.js bench-log-now.js bench-log-pad.js bench-log-paper.js bench-log-rest.js
// needs: bench-log-second-copy.js bench-log-trouble.js

(function (root) {
  "use strict";
  const { make, today } = root.tinwrightElements;
  const { isNow } = root.tinwrightBenchLogDue;
  const { nextCans } = root.tinwrightBenchLogBeginning;
  const { atOnce, correction, newForm, write } = root.tinwrightBenchLogDesk;
  const { printed } = root.tinwrightBenchLogPaper;
  const { put, recall, remember } = root.tinwrightBenchLogRemembered;
  const { StartForm } = root.tinwrightBenchLogStart;
  const { States } = root.tinwrightBenchLogStates;
  const { KEY, Log } = root.tinwrightBenchLogStore;
  const { troubleCard } = root.tinwrightBenchLogTrouble;
  const { fromSeamCheck } = root.tinwrightBenchLogTyped;
  const files = root.tinwrightBenchLogFile;
  const words = root.tinwrightBenchLogWords;
  const data = root.tinwrightBenchLogData;
  const OPEN = `${KEY}open`;
  const TICK = 5000;
  const LONGEST_WAIT = 1500;

  class TwBenchLog extends HTMLElement {
    constructor() {
      super();
      this.log = new Log(data.kinds, data.results, root.tinwrightBenchLogCopy);
      this.states = new States(this.log);
      /** Key of the session that is open. */
      this.open = "";
      /** When all that is kept on this phone is known. @type {Promise<any>} */
      this.ready = Promise.resolve();
      this.trouble = make("div", { class: "tw-log__trouble", role: "alert" });
      this.now = new root.tinwrightBenchLogNow.Now(this);
      this.pad = new root.tinwrightBenchLogPad.Pad(this);
      this.print = make("div");
      this.said = make("p", { class: "tw-log__said", role: "status" });
      this.rest = new root.tinwrightBenchLogRest.Rest(this, {
        save: () => this.save(),
        begin: () => {
          this.open = "";
          this.showKeys(true);
          this.show();
        },
        print: () => {
          this.showPrint();
          root.print();
        },
      });
    }

    async connectedCallback() {
      // Some thousandths of a second; then what was tapped outlasts a dead battery.
      this.log.tellOnTheWay = () => this.toggleAttribute("data-on-the-way", this.log.onTheWay > 0);
      const recovered = this.log.recover();
      const late = new Promise((resolve) => {
        setTimeout(resolve, LONGEST_WAIT);
      });
      this.ready = Promise.race([recovered, late]);
      // Cans are counted on from what is known. Where nothing is, the form to begin a session need not wait.
      if (this.log.sessions.length) await this.ready;
      this.begun();
      if (!(await recovered)) return;
      if (this.kept()) this.show();
      else this.goOn();
    }

    begun() {
      const { stop, due, count } = this.now;
      const parts = [this.trouble, stop, due, count, this.rest.element, this.pad.element, this.said, this.print];
      this.replaceChildren(...parts);
      this.goOn();
      root.setInterval(() => {
        if (!document.hidden) this.showNow();
      }, TICK);
      document.addEventListener("visibilitychange", () => this.showNow());
      root.addEventListener("storage", ({ key }) => {
        if (key && !key.startsWith(KEY)) return;
        this.log.read();
        this.show();
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
      const [last] = this.states.on(today()).slice(-1);
      this.open = recall(OPEN);
      if (!this.kept()) this.open = last ? last.key : "";
      this.showKeys();
      this.show();
      if (location.hash === "#measured-check" && this.kept()) this.ask("measured-check", fromSeamCheck());
    }

    /** The session that is open. */
    kept() {
      return this.log.sessions.find(({ key }) => key === this.open) || null;
    }

    /** The session that is open, where there must be one: nothing can be tapped without. */
    session() {
      return /** @type {KeptSession} */ (this.kept());
    }

    step() {
      return this.pad.step;
    }

    isPaused() {
      return this.states.of(this.session()).bench.pausedAt !== null;
    }

    // ---- writing ----

    /** @param {LogEntries} entries @returns {string} what is missing; empty when it is written */
    write(entries) {
      const { event, missing } = write(this.log, this.session(), entries);
      if (event) this.isDone(`Written: ${words.eventText(event)}.`, event);
      return missing;
    }

    /** @param {string} said @param {LogEvent} event the last one written */
    isDone(said, event) {
      this.pad.showLast(event);
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
      const now = kept && kept.session.events.find((each) => each.id === event.id);
      const revised = kept && now && this.log.revise(kept, { ...now, struck: !now.struck });
      if (!revised) return;
      this.isDone(`${revised.struck ? "Struck out" : "Brought back"}: ${words.eventText(revised)}.`, revised);
    }

    /** @param {number} number how many cans */
    seal(number) {
      this.write({ kind: "sealed", ...nextCans(this.session().session.events, number) });
    }

    // ---- asking ----

    /** Writes it, or puts a form in the place of the keys. @param {string} kind @param {LogTyped|null} [typed] */
    ask(kind, typed = null) {
      const kept = this.session();
      const entries = atOnce(kind, kept, this.isPaused());
      if (entries) {
        this.write(entries);
        this.showKeys();
      } else this.showForm(newForm(this, kept, kind, typed));
    }

    /** @param {LogEvent} event */
    correct(event) {
      this.showForm(correction(this, this.session(), event));
    }

    /**
     * The form that begins a session, or corrects the head of the one that is open.
     * @param {boolean} [isCorrected]
     * @param {boolean} [isMoved]
     */
    begin(isCorrected = false, isMoved = true) {
      const kept = this.kept();
      const [last] = this.states.on(today()).slice(-1);
      const known = isCorrected ? kept : last;
      const form = new StartForm({
        head: known ? headOf(known.session, isCorrected) : {},
        isNew: !isCorrected,
        back: kept ? () => this.showKeys(true) : null,
        start: async (head) => {
          await this.ready;
          const started = this.log.start(head);
          if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(() => undefined);
          this.choose(started.key);
        },
      });
      this.showForm(form, isMoved);
      this.rest.element.hidden = this.log.sessions.length === 0;
    }

    /** @param {string} key of the session to open */
    choose(key) {
      const isTab = this.pad.tabs.hasFocus();
      this.open = key;
      this.rest.isWhole = false;
      remember(OPEN, key);
      this.pad.showLast(null);
      this.showKeys(true);
      this.show();
      if (isTab) this.pad.tabs.focus();
      const { session } = this.session();
      this.say(`${words.sealerTitle(session.sealer)}, ${session.date}.`);
    }

    // ---- showing ----

    /** @param {LogForm} form @param {boolean} [isMoved] whether to go there */
    showForm(form, isMoved = true) {
      this.rest.element.hidden = true;
      this.pad.showForm(form, isMoved);
    }

    /** The keys, or the form to begin with. @param {boolean} [isBack] whether the keyboard was in a form */
    showKeys(isBack = false) {
      this.rest.element.hidden = false;
      if (!this.kept()) {
        this.begin(false, isBack);
        return;
      }
      this.pad.showKeys();
      if (isBack) {
        this.pad.focus();
        this.scrollIntoView({ block: "start" });
      }
      this.showNow();
    }

    /** What is due and held has this frame of the screen to itself; the rest has the next. */
    show() {
      const again = () => {
        this.log.keepAll();
        this.show();
      };
      put(this.trouble, troubleCard(this.log, this.kept(), { again, save: () => this.save() }));
      this.showNow();
      this.rest.showSoon();
    }

    /** What is due and held now: all that changes without a tap. */
    showNow() {
      const kept = this.kept();
      const news = this.now.news(kept ? kept.session.date : today());
      if (news) this.say(this.said.textContent ? `${this.said.textContent} ${news}` : news);
      this.now.show(kept);
      if (!kept) return;
      this.pad.tabs.show(kept);
      const { dues, held } = this.states.of(kept);
      this.pad.setLate(dues.some(isNow) || Boolean(held && held.failures.length));
    }

    showRest() {
      this.rest.show();
    }

    save() {
      const kept = this.kept();
      if (kept) this.say(`Saved as ${files.save(this.log, kept.session.date)}.`);
      this.rest.showFiles();
    }

    showPrint() {
      const kept = this.kept();
      this.print.replaceChildren(...(kept ? [printed(this.log, kept.session.date)] : []));
    }
  }

  /**
   * What is known of a session before its first line.
   * @param {LogSession} session
   * @param {boolean} withSealer
   * @returns {Partial<LogHead>}
   */
  function headOf(session, withSealer) {
    /** @type {Partial<LogSession>} */
    const head = { ...session, ...(withSealer ? {} : { sealer: "" }) };
    delete head.events;
    return head;
  }

  if (!customElements.get("tw-bench-log")) customElements.define("tw-bench-log", TwBenchLog);
})(globalThis);
