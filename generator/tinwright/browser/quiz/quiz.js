// @ts-check
// <tw-quiz data-topic="…">: a practice quiz of one topic, or of all without a topic. Nothing leaves the device.

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const { passes, percentOf, points, score } = globals.tinwrightScoring;
  const practice = globals.tinwrightPractice;
  const store = globals.tinwrightQuizStore;
  const { button, feedback, fieldset, make, problemOf, save, showProblem, wordOf } = globals.tinwrightAsking;
  const SIZES = [5, 10, 20];
  const WORTHLESS = "Scored by the learner alone. It proves nothing: nobody watched, and the answers stand on the same site. It is no certificate.";

  /** @typedef {{item: any, order: number[], answer: any, typed: string, share: [number, number]|null}} Asked */

  class TwQuiz extends HTMLElement {
    constructor() {
      super();
      /** @type {any[]} */
      this.topics = [];
      /** @type {any[]} questions in full, or by id alone until they are fetched */
      this.items = [];
      this.look();
      /** @type {Asked[]} */
      this.round = [];
      this.at = 0;
      this.settings = { size: "10", single: true, each: true };
      this.said = make("p", { class: "tw-quiz__said", role: "status" });
      this.body = make("div", { class: "tw-quiz__body" });
      this.asking = false;
      this.kept = true;
    }

    connectedCallback() {
      if (!this.items.length || this.contains(this.body)) return;
      this.replaceChildren(this.said, this.body);
      this.setUp();
      addEventListener("hashchange", () => { if (!this.asking) this.setUp(); });
    }

    /** Looks which questions are here. */
    look() {
      this.topics = store.topics(this.dataset.topic || "");
      this.items = this.topics.flatMap((topic) => topic.items);
    }

    /**
     * Goes on when some questions are here in full: at once when they are.
     * @param {any[]} items @param {() => void} go @param {() => void} [failed]
     */
    whenHere(items, go, failed = () => {}) {
      if (!store.missing(items).length) return go();
      store.have(items).then(() => { this.look(); go(); }, failed);
    }

    /** @param {string} text */
    tell(text) {
      this.said.textContent = text;
    }

    /** Shows other contents, and leads the keyboard to their heading. @param {HTMLElement} heading @param {...(Node|null)} rest */
    show(heading, ...rest) {
      heading.tabIndex = -1;
      this.body.replaceChildren(heading, ...rest.filter((each) => each !== null));
      heading.focus();
    }

    /** The question a link asks for. @returns {any} */
    wanted() {
      let id = "";
      try {
        id = decodeURIComponent(location.hash).replace(/^#q-/, "");
      } catch {
        // A link that is no text asks for nothing.
      }
      return this.items.find((item) => item.id === id) || null;
    }

    setUp() {
      this.asking = false;
      const seen = practice.read().items;
      const missed = this.items.filter((item) => seen.has(item.id) && seen.get(item.id).last !== "right").length;
      const fresh = this.items.filter((item) => !seen.has(item.id)).length;
      const first = this.wanted();
      if (first && store.missing([first]).length) this.whenHere([first], () => { if (!this.asking) this.setUp(); });
      const total = this.items.length;
      const sizes = [...SIZES.filter((size) => size < total).map(String), String(total)];
      if (!sizes.includes(this.settings.size)) this.settings.size = sizes.length > 1 ? sizes[Math.min(1, sizes.length - 2)] : sizes[0];
      const settings = this.settings;
      /** @param {string} legend @param {[string, string][]} ways @param {string} now @param {(value: string) => void} set */
      const ways = (legend, ways, now, set) => {
        const name = `s-${legend.toLowerCase().replace(/\W+/g, "-")}`;
        return make("fieldset", {}, make("legend", {}, legend), ...ways.map(([value, text]) => {
          const input = make("input", { type: "radio", name, id: `${name}-${value}`, value, checked: value === now });
          input.addEventListener("change", () => set(value));
          return make("label", { class: "tw-quiz__choice", for: input.id }, input, make("span", {}, text));
        }));
      };
      const note = [`${total} questions.`, missed ? `${missed} missed last time: they come first.` : "", fresh && fresh < total ? `${fresh} not tried yet.` : ""].filter(Boolean).join(" ");
      this.body.replaceChildren(make("form", { class: "tw-quiz__setup", onsubmit: (/** @type {Event} */ event) => { event.preventDefault(); this.start(); } },
        make("p", { class: "tw-quiz__count" }, note),
        first && first.text ? make("p", { class: "tw-note" }, make("strong", {}, "It starts with: "), first.text) : null,
        ways("How many questions?", sizes.map((size) => [size, size === String(total) ? `all ${total}` : size]), settings.size, (value) => { settings.size = value; }),
        ways("How are they shown?", [["one", "one at a time"], ["page", "all on one page"]], settings.single ? "one" : "page", (value) => { settings.single = value === "one"; }),
        ways("When do you see the answer?", [["each", "after each question"], ["end", "at the end"]], settings.each ? "each" : "end", (value) => { settings.each = value === "each"; }),
        make("p", {}, make("button", { type: "submit", class: "tw-button tw-button--first" }, "Start")),
        make("p", { class: "tw-quiet" }, "No time limit. Your answers and your score stay on this device.")));
    }

    start() {
      const seed = Number(this.dataset.seed) || crypto.getRandomValues(new Uint32Array(1))[0];
      const chance = practice.chances(seed);
      const first = this.wanted();
      const chosen = practice.choose(this.items, Number(this.settings.size), first ? first.id : "", chance);
      this.asking = true;
      this.tell(store.missing(chosen).length ? "Fetching the questions …" : "");
      this.whenHere(chosen, () => {
        const whole = new Map(this.items.map((item) => [item.id, item]));
        this.round = chosen.map((/** @type {any} */ { id }) => {
          const item = whole.get(id);
          return { item, order: this.mixed(item, chance), answer: null, typed: "", share: null };
        });
        this.at = 0;
        this.tell("");
        this.ask();
      }, () => {
        this.asking = false;
        this.tell("The questions could not be fetched: there is no signal. Try again later, or start from the quiz of one topic.");
      });
    }

    /** The order in which choices are shown; steps never stand right from the start, letters of a drawing stay. @param {any} item @param {() => number} chance */
    mixed(item, chance) {
      const places = item.choices.map((/** @type {any} */ _, /** @type {number} */ place) => place);
      if (item.asks === "point") return places;
      let order = practice.shuffled(places, chance);
      while (item.asks === "order" && String(order) === String(item.key)) order = practice.shuffled(places, chance);
      return order;
    }

    ask() {
      if (this.settings.single) this.askOne();
      else this.askAll();
    }

    /** @param {number} at */
    place(at) {
      const host = make("div", { class: "tw-quiz__place" });
      this.fill(host, at);
      return host;
    }

    /** @param {HTMLElement} host @param {number} at */
    fill(host, at) {
      const asked = this.round[at];
      const name = `Question ${at + 1} of ${this.round.length}`;
      const parts = [fieldset(asked, name, (/** @type {string} */ text) => this.tell(text), () => {})];
      if (asked.share) parts.push(feedback(asked, this.rule(asked.item)));
      else if (this.settings.each) {
        parts.push(make("div", { class: "tw-quiz__buttons" }, button("Check the answer", () => this.check(host, at), { class: "tw-button tw-button--first" })));
      }
      host.replaceChildren(...parts);
    }

    /** @param {any} item */
    rule(item) {
      return this.topics[0].rules[item.asks];
    }

    /** @param {HTMLElement} host @param {number} at */
    check(host, at) {
      const asked = this.round[at];
      const problem = problemOf(asked);
      if (problem) {
        showProblem(host, asked, problem);
        this.tell(problem);
        return;
      }
      if (asked.answer === null) {
        this.tell("Not answered yet. Give an answer first, or go on without.");
        const row = host.querySelector(".tw-quiz__buttons");
        if (row && !row.querySelector(".tw-quiz__error")) row.append(make("p", { class: "tw-quiz__error" }, asked.item.asks === "order" ? "Not answered yet: move a step first. This order is not the right one." : "Not answered yet."));
        return;
      }
      this.settle(asked);
      if (this.settings.single) this.askOne();
      else this.fill(host, at);
      this.tell(`${wordOf(asked)}. ${points(this.shares())} of ${this.round.filter((each) => each.share).length} points so far.`);
      const told = /** @type {HTMLElement|null} */ (this.body.querySelector(`#${CSS.escape(`q-${asked.item.id}`)} + .tw-quiz__feedback`));
      if (told) told.focus();
    }

    /** Scores an answer and notes it. @param {Asked} asked */
    settle(asked) {
      const share = score(asked.item, asked.answer);
      asked.share = share;
      this.kept = practice.note(asked.item.id, share);
    }

    /** @returns {[number, number][]} */
    shares() {
      return this.round.flatMap((asked) => (asked.share ? [asked.share] : []));
    }

    askOne() {
      const [at, last] = [this.at, this.round.length - 1];
      const go = (/** @type {number} */ to) => () => {
        if (problemOf(this.round[at]) && to > at) {
          showProblem(this.body, this.round[at], problemOf(this.round[at]));
          this.tell(problemOf(this.round[at]));
          return;
        }
        this.at = to;
        this.tell("");
        if (to > last) this.review();
        else this.ask();
      };
      const row = make("div", { class: "tw-quiz__buttons" },
        at > 0 ? button("Back", go(at - 1)) : null,
        button(at < last ? "Next question" : "Review your answers", go(at + 1)),
        at < last ? button("Review and finish", () => { this.tell(""); this.review(); }) : null);
      this.show(make("h2", { class: "tw-quiz__head" }, `Question ${at + 1} of ${last + 1}`), this.place(at), row);
    }

    askAll() {
      this.show(make("h2", { class: "tw-quiz__head" }, `${this.round.length} questions`), ...this.round.map((_, at) => this.place(at)),
        make("div", { class: "tw-quiz__buttons" }, button("Review your answers", () => { this.tell(""); this.review(); }, { class: "tw-button tw-button--first" })));
    }

    /** Before anything is scored: what is not answered, with a way back to each. */
    review() {
      const open = this.round.map((asked, at) => ({ asked, at, problem: asked.share ? "" : problemOf(asked) })).filter(({ asked }) => !asked.share && asked.answer === null);
      const back = (/** @type {number} */ at) => (/** @type {Event} */ event) => { event.preventDefault(); this.goTo(at); };
      const text = open.length ? `${open.length} of ${this.round.length} not answered. Each counts nothing.` : `All ${this.round.length} answered.`;
      this.show(make("h2", { class: "tw-quiz__head" }, "Review before you finish"),
        make("p", {}, text),
        open.length ? make("ul", { class: "tw-links tw-quiz__open" }, ...open.map(({ asked, at, problem }) =>
          make("li", {}, make("a", { href: `#q-${asked.item.id}`, onclick: back(at) }, `Question ${at + 1}`), `: ${asked.item.text}`, problem ? make("span", { class: "tw-quiz__error" }, ` ${problem}`) : null))) : null,
        make("div", { class: "tw-quiz__buttons" },
          button("Back to the questions", () => this.goTo(open.length ? open[0].at : 0)),
          button(open.length ? `Finish with ${open.length} not answered` : "Finish and see the result", () => this.finish(), { class: "tw-button tw-button--first" })));
      this.tell(text);
    }

    /** @param {number} at */
    goTo(at) {
      this.at = at;
      this.ask();
      const place = this.body.querySelector(`#${CSS.escape(`q-${this.round[at].item.id}`)}`);
      const field = place && /** @type {HTMLElement|null} */ (place.querySelector("input:not([disabled]), select:not([disabled]), button"));
      if (field) field.focus();
    }

    finish() {
      for (const asked of this.round) if (!asked.share) this.settle(asked);
      this.asking = false;
      const percentNeeded = this.topics[0].passPercent;
      const shares = this.shares();
      const [passed, percent] = [passes(shares, percentNeeded), percentOf(shares)];
      const topic = this.dataset.topic || "mixed";
      this.kept = practice.noteRound(topic, this.round.length, percent, passed) && this.kept;
      const missed = this.round.filter((asked) => asked.share && asked.share[0] !== asked.share[1]);
      const danger = missed.filter((asked) => asked.item.critical);
      const verdict = `${points(shares)} of ${this.round.length} points, ${percent} percent: ${passed ? "passed" : "not passed yet"}. ${percentNeeded} percent passes.`;
      const reading = new Map([...danger, ...missed].flatMap((asked) => asked.item.teaches.slice(0, 1)).map((/** @type {any} */ page) => [page.page, page]));
      this.show(make("h2", { class: "tw-quiz__head" }, "Result"),
        make("div", { class: `tw-quiz__result tw-quiz__result--${passed ? "passed" : "open"}` },
          make("p", { class: "tw-quiz__score" }, verdict),
          make("p", {}, WORTHLESS)),
        this.slip(verdict),
        make("div", { class: "tw-quiz__buttons" },
          button("Another round", () => { this.tell(""); this.setUp(); this.focusSetUp(); }, { class: "tw-button tw-button--first" }),
          button("Print this slip", () => window.print()),
          button("Save this slip", () => save(`practice-${topic}-${practice.today()}.txt`, this.slipText(verdict), "text/plain"))),
        danger.length ? make("p", { class: "tw-quiz__danger" }, make("strong", {}, `${danger.length} safety question${danger.length > 1 ? "s" : ""} missed. `), "Read about these first: in such a case somebody can get hurt.") : null,
        this.topics.length > 1 ? this.byTopic() : null,
        reading.size ? make("div", { class: "tw-quiz__next" }, make("h3", {}, "Read next"), make("ul", { class: "tw-links" }, ...[...reading.values()].map((page) => make("li", {}, make("a", { href: page.page }, page.title))))) : null,
        missed.length ? make("p", {}, "What you missed comes first next time.") : null,
        this.kept ? null : make("p", { class: "tw-note" }, "This device does not keep your progress: its storage is full or switched off."),
        make("h3", {}, "Question by question"),
        ...this.round.map((asked, at) => make("div", { class: "tw-quiz__place" }, fieldset(asked, `Question ${at + 1} of ${this.round.length}`, () => {}, () => {}), feedback(asked, this.rule(asked.item)))));
      this.tell(verdict);
    }

    focusSetUp() {
      const field = /** @type {HTMLElement|null} */ (this.body.querySelector("input:checked"));
      if (field) field.focus();
    }

    byTopic() {
      const rows = this.topics.map((topic) => ({ topic, shares: this.round.filter((asked) => asked.item.topic === topic.topic).map((asked) => asked.share || [0, 1]) })).filter(({ shares }) => shares.length);
      return make("table", { class: "tw-table" }, make("caption", {}, "By topic"),
        make("thead", {}, make("tr", {}, ...["Topic", "Points", "Percent"].map((head) => make("th", { scope: "col" }, head)))),
        make("tbody", {}, ...rows.map(({ topic, shares }) => make("tr", {}, make("th", { scope: "row" }, make("a", { href: topic.page }, topic.title)),
          make("td", { "data-head": "Points" }, `${points(shares)} of ${shares.length}`), make("td", { "data-head": "Percent" }, String(percentOf(shares)))))));
    }

    name() {
      return this.dataset.topic ? this.topics[0].title : "Mixed quiz";
    }

    /** @param {string} verdict */
    slip(verdict) {
      return make("div", { class: "tw-quiz__slip" }, make("p", {}, "Name ______________________________"),
        make("p", {}, `Practice quiz: ${this.name()}. ${this.topics[0].office}. ${practice.today()}.`), make("p", {}, verdict), make("p", {}, WORTHLESS),
        make("ol", {}, ...this.round.map((asked) => make("li", {}, `${asked.item.text} `, make("strong", {}, `${wordOf(asked)}.`)))));
    }

    /** @param {string} verdict */
    slipText(verdict) {
      const lines = this.round.map((asked, at) => `${at + 1}. ${asked.item.text}\n   ${wordOf(asked)}.`);
      return [`Practice quiz: ${this.name()}`, this.topics[0].office, practice.today(), "", verdict, WORTHLESS, "", ...lines, ""].join("\n");
    }
  }

  if (!customElements.get("tw-quiz")) customElements.define("tw-quiz", TwQuiz);
})(globalThis);
