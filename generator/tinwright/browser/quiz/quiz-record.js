// @ts-check
// <tw-quiz-record>: what was practiced on this device, to save, to take in from another device, and to erase.
// needs: quiz-asking.js quiz-progress.js quiz-store.js

(function (root) {
  "use strict";
  const practice = root.tinwrightPractice;
  const { button, make, save, today } = root.tinwrightElements;
  const topics = root.tinwrightQuizStore.topics("");

  /** How each topic went, as last answered. @param {Map<string, QuizSeen>} items */
  function sayTopics(items) {
    const rows = topics
      .map((topic) => {
        const seen = topic.items.flatMap((item) => items.get(item.id) || []);
        return { topic, tried: seen.length, right: seen.filter((each) => each.last === "right").length };
      })
      .filter(({ tried }) => tried > 0);
    if (!rows.length) return make("p", {}, "Nothing practiced on this device yet.");
    const heads = ["Topic", "Tried", "Right", "To do again"].map((head) => make("th", { scope: "col" }, head));
    const lines = rows.map(({ topic, tried, right }) =>
      make(
        "tr",
        {},
        make("th", { scope: "row" }, topic.title),
        make("td", { "data-head": "Tried" }, `${tried} of ${topic.items.length}`),
        make("td", { "data-head": "Right" }, String(right)),
        make("td", { "data-head": "To do again" }, String(tried - right)),
      ),
    );
    return make(
      "table",
      { class: "tw-table" },
      make("caption", {}, "Questions, as last answered"),
      make("thead", {}, make("tr", {}, ...heads)),
      make("tbody", {}, ...lines),
    );
  }

  /** The last rounds of topics that are still there. @param {QuizRound[]} rounds */
  function sayRounds(rounds) {
    const names = new Map([
      ["mixed", "Mixed quiz"],
      ...topics.map((topic) => /** @type {[string, string]} */ ([topic.topic, topic.title])),
    ]);
    const recent = rounds
      .filter((round) => names.has(round.topic))
      .slice(-5)
      .reverse();
    if (!recent.length) return [];
    const lines = recent.map(({ day, topic, questions, percent, passed }) => {
      const said = passed ? "passed" : "not passed";
      return `${day ? `${day}, ` : ""}${names.get(topic)}: ${questions} questions, ${percent} percent, ${said}.`;
    });
    return [
      make("p", { class: "tw-quiz__recent" }, "Last rounds, newest first:"),
      make("ul", { class: "tw-list" }, ...lines.map((line) => make("li", {}, line))),
    ];
  }

  class TwQuizRecord extends HTMLElement {
    constructor() {
      super();
      this.said = make("p", { role: "status" });
      this.body = make("div", {});
    }

    connectedCallback() {
      this.replaceChildren(this.body, this.said);
      this.build();
      addEventListener("storage", () => this.build());
    }

    build() {
      const { items, rounds } = practice.read();
      const some = items.size > 0 || rounds.length > 0;
      const saveFile = () => save(`practice-progress-${today()}.json`, practice.exported(), "application/json");
      this.body.replaceChildren(
        sayTopics(items),
        ...sayRounds(rounds),
        make(
          "div",
          { class: "tw-quiz__buttons" },
          some ? button("Save my progress", saveFile) : null,
          some ? button("Erase my progress", () => this.askErase()) : null,
        ),
        this.taking(),
        make("p", { class: "tw-quiet" }, "It is kept on this device only. The office does not see it."),
      );
    }

    /** The field that takes a file saved on another device. */
    taking() {
      const file = /** @type {HTMLInputElement} */ (
        make("input", { type: "file", id: "quiz-take", accept: ".json,application/json" })
      );
      file.addEventListener("change", () => this.take(file));
      return make(
        "details",
        {},
        make("summary", {}, "Import progress saved on another device"),
        make("p", {}, make("label", { for: "quiz-take" }, "File of saved progress"), file),
      );
    }

    askErase() {
      const row = this.body.querySelector(".tw-quiz__buttons");
      if (!row) return;
      const keep = button("Keep it", () => {
        this.build();
        this.tell("Nothing was erased.");
      });
      row.replaceChildren(
        make("p", {}, "Erase all practice progress on this device? It cannot be brought back."),
        keep,
        button("Erase it", () => {
          practice.erase();
          this.build();
          this.tell("Your progress on this device is erased.");
        }),
      );
      keep.focus();
    }

    /** Says what was done, and leads the keyboard there: the button that was pressed is gone. @param {string} text */
    tell(text) {
      this.said.textContent = text;
      this.said.tabIndex = -1;
      this.said.focus();
    }

    /** @param {HTMLInputElement} file */
    async take(file) {
      const chosen = file.files && file.files[0];
      if (!chosen) return;
      const found = chosen.size > 2000000 ? -1 : practice.take(await chosen.text());
      if (found >= 0) this.build();
      this.tell(
        found < 0
          ? `“${chosen.name}” holds no practice progress: expected a file from “Save my progress”. Nothing was changed.`
          : `Imported: ${found} questions.`,
      );
    }
  }

  if (!customElements.get("tw-quiz-record")) customElements.define("tw-quiz-record", TwQuizRecord);
})(globalThis);
