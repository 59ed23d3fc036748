// @ts-check
// What is said about an answer once it is scored: whether it is right, why, and where to read.
// needs: elements.js quiz-scoring.js
// joined: quiz-asking.js

(function (root) {
  "use strict";
  const { make } = root.tinwrightElements;
  const { compare, letterOf } = root.tinwrightScoring;

  /** @param {QuizAsked} asked */
  function wordOf(asked) {
    const [top, under] = asked.share || [0, 1];
    if (top === under) return "Right";
    if (top > 0) return `Partly right: ${top}/${under} of the point`;
    return asked.answer === null ? "Not answered" : "Wrong";
  }

  /**
   * Why, why what was chosen tempts, and where to read.
   * @param {QuizAsked} asked
   * @param {string} rule
   * @param {string} [heading]
   */
  function feedback(asked, rule, heading = "p") {
    const item = asked.item;
    const [top, under] = asked.share || [0, 1];
    const whys = temptations(asked);
    const kind = top === under ? "right" : top > 0 ? "partly" : "wrong";
    return make(
      "div",
      { class: `tw-quiz__feedback tw-quiz__feedback--${kind}`, tabindex: -1 },
      make(heading, { class: "tw-quiz__word" }, `${wordOf(asked)}.`),
      top === under ? null : make("p", {}, make("strong", {}, "The answer: "), solution(item)),
      make("p", {}, item.why),
      whys.length
        ? make(
            "ul",
            { class: "tw-list" },
            ...whys.map(([what, why]) => make("li", {}, what ? make("strong", {}, `${what} `) : null, why)),
          )
        : null,
      top === under || !["several-answers", "order", "match"].includes(item.asks)
        ? null
        : make("p", { class: "tw-quiet" }, item.critical ? "Safety question: only the whole answer counts." : rule),
      item.teaches.length
        ? make(
            "p",
            { class: "tw-quiz__read" },
            "Read: ",
            ...item.teaches.flatMap(({ title, page }, index) => [index ? ", " : "", make("a", { href: page }, title)]),
            ".",
          )
        : null,
    );
  }

  /** The right answer in words. @param {QuizItem} item @returns {Node|string} */
  function solution(item) {
    if (item.asks === "number") {
      const counts = item.low === item.high ? "" : ` (from ${item.low} to ${item.high} counts)`;
      return `${item.answer} ${item.unit}${counts}.`;
    }
    if (item.asks === "order") {
      return make("span", {}, make("ol", {}, ...item.key.map((place) => make("li", {}, item.choices[place].text))));
    }
    if (item.asks === "match") {
      return make(
        "span",
        {},
        make(
          "ul",
          {},
          ...item.lefts.map((left, index) => make("li", {}, `${left} → ${item.choices[item.key[index]].text}`)),
        ),
      );
    }
    if (item.asks === "point") return `${letterOf(item.key[0])}, ${item.choices[item.key[0]].text}.`;
    return item.key.map((place) => item.choices[place].text).join(" / ");
  }

  /** For what was answered wrong, why it tempts. @param {QuizAsked} asked @returns {[string, string][]} */
  function temptations(asked) {
    const { item, answer, share } = asked;
    if (share && share[0] === share[1]) return [];
    if (item.asks === "number") {
      return (item.wrongNumbers || [])
        .filter(([wrong]) => typeof answer === "string" && compare(wrong, answer) === 0)
        .map(([wrong, why]) => [`${wrong}:`, why]);
    }
    if (!Array.isArray(answer)) return [];
    if (item.asks === "order") return item.slips.map(([slip, why]) => [slip, why]);
    if (item.asks === "match") {
      return item.lefts.flatMap((left, index) => {
        const given = answer[index];
        if (given === item.key[index]) return [];
        /** @type {[string, string][]} */
        const found = [[`${left}:`, item.pairWhys[index] || ""]];
        if (given >= 0 && !item.key.includes(given)) {
          found.push([`${item.choices[given].text}:`, item.choices[given].why]);
        }
        return found;
      });
    }
    const missed = item.asks === "several-answers" ? item.key.filter((place) => !answer.includes(place)) : [];
    return [...answer.filter((/** @type {number} */ place) => !item.key.includes(place)), ...missed]
      .filter((place) => item.choices[place].why)
      .map((place) => [
        item.asks === "point"
          ? `${letterOf(place)}, ${item.choices[place].text}:`
          : `${item.choices[place].text}${/[.?!]$/.test(item.choices[place].text) ? "" : ":"}`,
        item.choices[place].why,
      ]);
  }

  root.tinwrightQuizFeedback = { feedback, wordOf };
})(globalThis);
