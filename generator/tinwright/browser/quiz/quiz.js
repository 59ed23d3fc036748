// @ts-check
// <tw-quiz data-topic="…">: a practice quiz of one topic, or of all without a topic. Nothing leaves the device.
// needs: elements.js quiz-asking.js quiz-progress.js quiz-result.js quiz-scoring.js quiz-set-up.js quiz-store.js

(function (root) {
  "use strict";
  const { passes, percentOf, points, score } = root.tinwrightScoring;
  const practice = root.tinwrightPractice;
  const store = root.tinwrightQuizStore;
  const { button, make } = root.tinwrightElements;
  const { feedback, fieldset, problemOf, showProblem, wordOf } = root.tinwrightAsking;
  const { setUpForm } = root.tinwrightQuizSetUp;
  const { sayResult, verdictOf } = root.tinwrightQuizResult;

  class TwQuiz extends HTMLElement {
    constructor() {
      super();
      /** @type {QuizTopic<QuizKnown>[]} */
      this.topics = [];
      /** @type {QuizKnown[]} questions in full, or by id alone until they are fetched */
      this.items = [];
      this.look();
      /** @type {QuizAsked[]} */
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
      addEventListener("hashchange", () => {
        if (!this.asking) this.setUp();
      });
    }

    /** Looks which questions are here. */
    look() {
      this.topics = store.topics(this.dataset.topic || "");
      this.items = this.topics.flatMap((topic) => topic.items);
    }

    /**
     * Goes on when some questions are here in full: at once when they are.
     * @param {QuizKnown[]} items @param {() => void} go @param {() => void} [failed]
     */
    whenHere(items, go, failed = () => {}) {
      if (!store.missing(items).length) {
        go();
        return;
      }
      store.have(items).then(() => {
        this.look();
        go();
      }, failed);
    }

    /** @param {string} text */
    tell(text) {
      this.said.textContent = text;
    }

    /**
     * Shows other contents, and leads the keyboard to their heading.
     * @param {HTMLElement} heading
     * @param {...(Node|null)} rest
     */
    show(heading, ...rest) {
      heading.tabIndex = -1;
      this.body.replaceChildren(heading, ...rest.filter((each) => each !== null));
      heading.focus();
    }

    /** The question a link asks for. @returns {QuizKnown|null} */
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
      const first = this.wanted();
      if (first && store.missing([first]).length) {
        this.whenHere([first], () => {
          if (!this.asking) this.setUp();
        });
      }
      this.body.replaceChildren(setUpForm(this.items, first, this.settings, () => this.start()));
    }

    start() {
      const seed = Number(this.dataset.seed) || crypto.getRandomValues(new Uint32Array(1))[0];
      const chance = practice.chances(seed);
      const first = this.wanted();
      const chosen = practice.choose(this.items, Number(this.settings.size), first ? first.id : "", chance);
      this.asking = true;
      this.tell(store.missing(chosen).length ? "Fetching the questions …" : "");
      this.whenHere(
        chosen,
        () => {
          const whole = new Map(this.items.map((item) => [item.id, item]));
          this.round = chosen.map(({ id }) => {
            const item = /** @type {QuizItem} */ (whole.get(id));
            return { item, order: this.mixed(item, chance), answer: null, typed: "", share: null };
          });
          this.at = 0;
          this.tell("");
          this.ask();
        },
        () => {
          this.asking = false;
          this.tell("There is no signal to fetch the questions. Try again later, or start from the quiz of one topic.");
        },
      );
    }

    /**
     * The order in which choices are shown; steps never stand right from the start, letters of a drawing stay.
     * @param {QuizItem} item
     * @param {() => number} chance
     */
    mixed(item, chance) {
      const places = item.choices.map((_, place) => place);
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
      const parts = [
        fieldset(
          asked,
          name,
          (/** @type {string} */ text) => this.tell(text),
          () => {},
        ),
      ];
      if (asked.share) parts.push(feedback(asked, this.rule(asked.item)));
      else if (this.settings.each) {
        parts.push(
          make(
            "div",
            { class: "tw-quiz__buttons" },
            button("Check the answer", () => this.check(host, at), { class: "tw-button tw-button--first" }),
          ),
        );
      }
      host.replaceChildren(...parts);
    }

    /** @param {QuizItem} item */
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
        if (row && !row.querySelector(".tw-quiz__error")) {
          row.append(
            make(
              "p",
              { class: "tw-quiz__error" },
              asked.item.asks === "order"
                ? "Not answered yet: move a step first. This order is not the right one."
                : "Not answered yet.",
            ),
          );
        }
        return;
      }
      this.settle(asked);
      if (this.settings.single) this.askOne();
      else this.fill(host, at);
      const shares = this.shares();
      this.tell(`${wordOf(asked)}. ${points(shares)} of ${shares.length} points so far.`);
      const told = /** @type {HTMLElement|null} */ (
        this.body.querySelector(`#${CSS.escape(`q-${asked.item.id}`)} + .tw-quiz__feedback`)
      );
      if (told) told.focus();
    }

    /** Scores an answer and notes it. @param {QuizAsked} asked */
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
      const row = make(
        "div",
        { class: "tw-quiz__buttons" },
        at > 0 ? button("Back", go(at - 1)) : null,
        button(at < last ? "Next question" : "Review your answers", go(at + 1)),
        at < last
          ? button("Review and finish", () => {
              this.tell("");
              this.review();
            })
          : null,
      );
      this.show(make("h2", { class: "tw-quiz__head" }, `Question ${at + 1} of ${last + 1}`), this.place(at), row);
    }

    askAll() {
      this.show(
        make("h2", { class: "tw-quiz__head" }, `${this.round.length} questions`),
        ...this.round.map((_, at) => this.place(at)),
        make(
          "div",
          { class: "tw-quiz__buttons" },
          button(
            "Review your answers",
            () => {
              this.tell("");
              this.review();
            },
            { class: "tw-button tw-button--first" },
          ),
        ),
      );
    }

    /** Before anything is scored: what is not answered, with a way back to each. */
    review() {
      const open = this.round
        .map((asked, at) => ({ asked, at, problem: asked.share ? "" : problemOf(asked) }))
        .filter(({ asked }) => !asked.share && asked.answer === null);
      const back = (/** @type {number} */ at) => (/** @type {Event} */ event) => {
        event.preventDefault();
        this.goTo(at);
      };
      const text = open.length
        ? `${open.length} of ${this.round.length} not answered. Each counts nothing.`
        : `All ${this.round.length} answered.`;
      this.show(
        make("h2", { class: "tw-quiz__head" }, "Review before you finish"),
        make("p", {}, text),
        open.length
          ? make(
              "ul",
              { class: "tw-links tw-quiz__open" },
              ...open.map(({ asked, at, problem }) =>
                make(
                  "li",
                  {},
                  make("a", { href: `#q-${asked.item.id}`, onclick: back(at) }, `Question ${at + 1}`),
                  `: ${asked.item.text}`,
                  problem ? make("span", { class: "tw-quiz__error" }, ` ${problem}`) : null,
                ),
              ),
            )
          : null,
        make(
          "div",
          { class: "tw-quiz__buttons" },
          button("Back to the questions", () => this.goTo(open.length ? open[0].at : 0)),
          button(
            open.length ? `Finish with ${open.length} not answered` : "Finish and see the result",
            () => this.finish(),
            { class: "tw-button tw-button--first" },
          ),
        ),
      );
      this.tell(text);
    }

    /** @param {number} at */
    goTo(at) {
      this.at = at;
      this.ask();
      const place = this.body.querySelector(`#${CSS.escape(`q-${this.round[at].item.id}`)}`);
      const field =
        place &&
        /** @type {HTMLElement|null} */ (place.querySelector("input:not([disabled]), select:not([disabled]), button"));
      if (field) field.focus();
    }

    finish() {
      for (const asked of this.round) if (!asked.share) this.settle(asked);
      this.asking = false;
      const shares = this.shares();
      const percentNeeded = this.topics[0].passPercent;
      const [passed, percent] = [passes(shares, percentNeeded), percentOf(shares)];
      const topic = this.dataset.topic || "mixed";
      this.kept = practice.noteRound(topic, this.round.length, percent, passed) && this.kept;
      const result = { round: this.round, topics: this.topics, topic, passed, percent, percentNeeded, kept: this.kept };
      const again = () => {
        this.tell("");
        this.setUp();
        this.focusSetUp();
      };
      this.show(make("h2", { class: "tw-quiz__head" }, "Result"), ...sayResult(result, again));
      this.tell(verdictOf(result));
    }

    focusSetUp() {
      const field = /** @type {HTMLElement|null} */ (this.body.querySelector("input:checked"));
      if (field) field.focus();
    }
  }

  if (!customElements.get("tw-quiz")) customElements.define("tw-quiz", TwQuiz);
})(globalThis);
