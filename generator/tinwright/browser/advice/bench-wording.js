// @ts-check
// Signs, questions and counts in plain words; bench-saying.js puts them on the page.
// needs: seaming.js bench-records.js
// joined: bench-advice.js

(function (root) {
  "use strict";
  const { constants, sentence } = root.tinwrightSeaming;
  const { data, defects } = root.tinwrightBenchRecords;
  /** @type {Record<string, string>} */
  const ANSWERS = { seen: "yes, it is there", "not-seen": "no" };

  /** @param {string} id */
  const say = (id) =>
    // Also of what another phone holds, such as `constructor`.
    Object.prototype.hasOwnProperty.call(data.words, id) ? data.words[id] : id.split("-").join(" ");

  /** @param {string} dimension @param {string} direction */
  function sayDirection(dimension, direction) {
    const [larger, smaller] = data.directions[dimension] || data.computedDirections[dimension];
    /** @type {Record<string, string>} */
    const words = { larger, smaller, normal: "as it should be", varies: "uneven" };
    return words[direction] || direction;
  }

  /** @param {Sign} sign */
  function saySign({ kind, key, answer }) {
    if (kind === "direction") return `${say(key)} ${sayDirection(key, answer)}`;
    if (kind === "defect") {
      const { outOf, title } = defects[key];
      return sentence(outOf.length ? "sign-measured" : "sign-seen", { title });
    }
    if (kind === "absent") return sentence("sign-not-seen", { title: defects[key].title });
    if (kind === "last-change") return sentence("sign-changed-last", { change: data.changeWords[answer] });
    return say(answer);
  }

  /** @param {{kind: string, key: string}} ask */
  function sayQuestion({ kind, key }) {
    if (kind === "defect") {
      const { title, summary } = defects[key];
      return sentence("ask-defect", { title, summary });
    }
    if (kind === "direction") return sentence("ask-direction", { dimension: say(key) });
    if (kind === "repeats") return sentence("ask-repeats");
    return sentence(kind === "extent" ? "ask-extent" : "ask-last-change");
  }

  /** @param {{kind: string, key: string}} ask @param {string} word */
  function sayAnswer(ask, word) {
    if (ask.kind === "direction") return sayDirection(ask.key, word);
    if (ask.kind === "last-change") return data.changeWords[word];
    return ANSWERS[word] || say(word);
  }

  /** @param {Distinction} apart */
  function sayApart({ kind, key, first, second }) {
    if (kind === "defect") {
      const [one, other] = [first, second].map(([word]) => sentence(/** @type {SentenceName} */ (`with-${word}`)));
      return sentence("apart-defect", { title: defects[key].title, first: one, second: other });
    }
    const word = (/** @type {string} */ id) => (kind === "direction" ? sayDirection(key, id) : say(id));
    const [one, other] = [first, second].map((words) => words.map(word).join(" or "));
    if (kind !== "direction") return sentence("apart-place", { first: one, second: other });
    return sentence("apart-direction", { dimension: say(key), first: one, second: other });
  }

  /** @param {string} value @param {string} direction */
  const sayNowhere = (value, direction) =>
    sentence("nowhere", {
      label: constants.labels[value],
      direction: sayDirection(value, direction),
      office: data.office,
    });

  /** @param {Cases} rows @param {string} cause how often it was confirmed, and how often any was */
  function counted(rows, cause) {
    const counts = Object.values(rows).flatMap((row) => Object.entries(row));
    const sum = (/** @type {[string, number][]} */ some) => some.reduce((total, [, times]) => total + times, 0);
    return { times: sum(counts.filter(([id]) => id === cause)), all: sum(counts) };
  }

  /**
   * How often a cause was confirmed in this programme, in counts; empty when it never was.
   * @param {Experience|null} experience
   * @param {string} cause
   */
  function sayTimes(experience, cause) {
    if (!experience) return "";
    const own = counted(experience.own, cause);
    const others = counted(experience.others, cause);
    const times = own.times + others.times;
    if (!times) return "";
    const here = sentence("times", { times, total: own.all + others.all });
    return own.all && others.all ? sentence("times-here", { here, times: own.times, total: own.all }) : here;
  }

  root.tinwrightBenchWording = { say, sayAnswer, sayApart, sayDirection, sayNowhere, sayQuestion, saySign, sayTimes };
})(globalThis);
