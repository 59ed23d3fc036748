// @ts-check
// The result of a round of practice: score, what to read next, and a slip to print or save.
// needs: elements.js quiz-asking.js quiz-scoring.js
// joined: quiz.js

(function (root) {
  "use strict";
  const { button, make, save, today } = root.tinwrightElements;
  const { feedback, fieldset, wordOf } = root.tinwrightAsking;
  const { percentOf, points } = root.tinwrightScoring;
  const WORTHLESS =
    "Scored by the learner alone. It proves nothing: nobody watched, and the answers are on the same site. " +
    "It is no certificate.";
  /** @type {QuizShare} */
  const NOTHING = [0, 1];

  /** @param {QuizResult} result */
  function verdictOf({ round, passed, percent, percentNeeded }) {
    const earned = points(round.map((asked) => asked.share || NOTHING));
    const said = passed ? "passed" : "not passed yet";
    return `${earned} of ${round.length} points, ${percent} percent: ${said}. ${percentNeeded} percent passes.`;
  }

  /** @param {QuizResult} result */
  const nameOf = ({ topic, topics }) => (topic === "mixed" ? "Mixed quiz" : topics[0].title);

  /**
   * Everything under the heading of the result.
   * @param {QuizResult} result
   * @param {() => void} again begins another round
   * @returns {(Node|null)[]}
   */
  function sayResult(result, again) {
    const { round, topics, topic, passed, kept } = result;
    const missed = round.filter((asked) => asked.share && asked.share[0] !== asked.share[1]);
    const danger = missed.filter((asked) => asked.item.critical);
    const saveSlip = () => save(`practice-${topic}-${today()}.txt`, slipText(result), "text/plain");
    return [
      make(
        "div",
        { class: `tw-quiz__result tw-quiz__result--${passed ? "passed" : "open"}` },
        make("p", { class: "tw-quiz__score" }, verdictOf(result)),
        make("p", {}, WORTHLESS),
      ),
      slip(result),
      make(
        "div",
        { class: "tw-quiz__buttons" },
        button("Another round", again, { class: "tw-button tw-button--first" }),
        button("Print this slip", () => root.print()),
        button("Save this slip", saveSlip),
      ),
      danger.length ? sayDanger(danger.length) : null,
      topics.length > 1 ? byTopic(result) : null,
      sayReading([...danger, ...missed]),
      missed.length ? make("p", {}, "What you missed comes first next time.") : null,
      kept
        ? null
        : make("p", { class: "tw-note" }, "This device cannot keep your progress: its storage is full or off."),
      make("h3", {}, "Question by question"),
      ...round.map((asked, at) => sayAsked(result, asked, at)),
    ];
  }

  /** @param {number} number */
  const sayDanger = (number) =>
    make(
      "p",
      { class: "tw-quiz__danger" },
      make("strong", {}, `${number} safety question${number > 1 ? "s" : ""} missed. `),
      "Read about these first: in such a case somebody can get hurt.",
    );

  /** The pages that teach what was missed, each once. @param {QuizAsked[]} missed */
  function sayReading(missed) {
    const pages = missed.flatMap((asked) => asked.item.teaches.slice(0, 1));
    const reading = new Map(pages.map((page) => [page.page, page]));
    if (!reading.size) return null;
    const links = [...reading.values()].map((page) => make("li", {}, make("a", { href: page.page }, page.title)));
    return make(
      "div",
      { class: "tw-quiz__next" },
      make("h3", {}, "Read next"),
      make("ul", { class: "tw-links" }, ...links),
    );
  }

  /** @param {QuizResult} result @param {QuizAsked} asked @param {number} at */
  function sayAsked(result, asked, at) {
    const nothing = () => {};
    const question = fieldset(asked, `Question ${at + 1} of ${result.round.length}`, nothing, nothing);
    const rule = result.topics[0].rules[asked.item.asks];
    return make("div", { class: "tw-quiz__place" }, question, feedback(asked, rule));
  }

  /** @param {QuizResult} result */
  function byTopic({ round, topics }) {
    const rows = topics
      .map((topic) => ({ topic, asked: round.filter((asked) => asked.item.topic === topic.topic) }))
      .map(({ topic, asked }) => ({ topic, shares: asked.map((each) => each.share || NOTHING) }))
      .filter(({ shares }) => shares.length);
    const heads = ["Topic", "Points", "Percent"].map((head) => make("th", { scope: "col" }, head));
    const lines = rows.map(({ topic, shares }) =>
      make(
        "tr",
        {},
        make("th", { scope: "row" }, make("a", { href: topic.page }, topic.title)),
        make("td", { "data-head": "Points" }, `${points(shares)} of ${shares.length}`),
        make("td", { "data-head": "Percent" }, String(percentOf(shares))),
      ),
    );
    return make(
      "table",
      { class: "tw-table" },
      make("caption", {}, "By topic"),
      make("thead", {}, make("tr", {}, ...heads)),
      make("tbody", {}, ...lines),
    );
  }

  /** What is printed of the result. @param {QuizResult} result */
  function slip(result) {
    const lines = result.round.map((asked) =>
      make("li", {}, `${asked.item.text} `, make("strong", {}, `${wordOf(asked)}.`)),
    );
    return make(
      "div",
      { class: "tw-quiz__slip" },
      make("p", {}, "Name ______________________________"),
      make("p", {}, `Practice quiz: ${nameOf(result)}. ${result.topics[0].office}. ${today()}.`),
      make("p", {}, verdictOf(result)),
      make("p", {}, WORTHLESS),
      make("ol", {}, ...lines),
    );
  }

  /** @param {QuizResult} result */
  function slipText(result) {
    const lines = result.round.map((asked, at) => `${at + 1}. ${asked.item.text}\n   ${wordOf(asked)}.`);
    const head = [`Practice quiz: ${nameOf(result)}`, result.topics[0].office, today()];
    return [...head, "", verdictOf(result), WORTHLESS, "", ...lines, ""].join("\n");
  }

  root.tinwrightQuizResult = { sayResult, verdictOf };
})(globalThis);
