// @ts-check
// <tw-quiz-record>: what was practiced on this device, to save, to take in from another device, and to erase.

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const practice = globals.tinwrightPractice;
  const { button, make, save } = globals.tinwrightAsking;
  /** @type {any[]} */
  const topics = globals.tinwrightQuizStore.topics("");

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
      const rows = topics.map((topic) => {
        const seen = topic.items.map((/** @type {any} */ item) => items.get(item.id)).filter(Boolean);
        const right = seen.filter((/** @type {any} */ each) => each.last === "right").length;
        return [topic, seen.length, right, seen.length - right];
      }).filter(([, tried]) => tried > 0);
      /** @type {Map<string, string>} */
      const names = new Map([["mixed", "Mixed quiz"]]);
      for (const topic of topics) names.set(topic.topic, topic.title);
      const recent = rounds.filter((/** @type {any} */ round) => names.has(round.topic)).slice(-5).reverse();
      const file = /** @type {HTMLInputElement} */ (make("input", { type: "file", id: "quiz-take", accept: ".json,application/json" }));
      file.addEventListener("change", () => this.take(file));
      const some = items.size > 0 || rounds.length > 0;
      this.body.replaceChildren(
        rows.length ? make("table", { class: "tw-table" }, make("caption", {}, "Questions, as last answered"),
          make("thead", {}, make("tr", {}, ...["Topic", "Tried", "Right", "To do again"].map((head) => make("th", { scope: "col" }, head)))),
          make("tbody", {}, ...rows.map(([topic, tried, right, again]) => make("tr", {}, make("th", { scope: "row" }, topic.title),
            make("td", { "data-head": "Tried" }, `${tried} of ${topic.items.length}`), make("td", { "data-head": "Right" }, String(right)), make("td", { "data-head": "To do again" }, String(again))))))
          : make("p", {}, "Nothing practiced on this device yet."),
        ...(recent.length ? [make("p", { class: "tw-quiz__recent" }, "Last rounds, newest first:"), make("ul", { class: "tw-list" }, ...recent.map((/** @type {any} */ round) =>
          make("li", {}, `${round.day ? `${round.day}, ` : ""}${names.get(round.topic)}: ${round.questions} questions, ${round.percent} percent, ${round.passed ? "passed" : "not passed"}.`)))] : []),
        make("div", { class: "tw-quiz__buttons" },
          some ? button("Save my progress", () => save(`practice-progress-${practice.today()}.json`, practice.exported(), "application/json")) : null,
          some ? button("Erase my progress", () => this.askErase()) : null),
        make("details", {}, make("summary", {}, "Take in progress saved on another device"), make("p", {}, make("label", { for: "quiz-take" }, "File of saved progress"), file)),
        make("p", { class: "tw-quiet" }, "It is kept on this device only. The office does not see it."));
    }

    askErase() {
      const row = this.body.querySelector(".tw-quiz__buttons");
      if (!row) return;
      const keep = button("Keep it", () => { this.build(); this.tell("Nothing was erased."); });
      row.replaceChildren(make("p", {}, "Erase all practice progress on this device? It cannot be brought back."), keep,
        button("Erase it", () => { practice.erase(); this.build(); this.tell("Your progress on this device is erased."); }));
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
      this.tell(found < 0 ? `“${chosen.name}” holds no practice progress: expected a file saved here by “Save my progress”. Nothing was changed.` : `Taken in: ${found} questions.`);
    }
  }

  if (!customElements.get("tw-quiz-record")) customElements.define("tw-quiz-record", TwQuizRecord);
})(globalThis);
