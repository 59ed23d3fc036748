// @ts-check
// Signs, questions and counts in plain words; bench-saying.js puts them on the page.
// needs: seaming.js bench-records.js
// joined: bench-advice.js

(function (root) {
  "use strict";
  const { constants } = root.tinwrightSeaming;
  const { data, defects } = root.tinwrightBenchRecords;
  /** @type {Record<string, string>} */
  const SEEN = { "not-seen": "not known", common: "common", occasional: "seen now and then" };
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
      return outOf.length ? `measured: ${title}` : `seen: ${title}`;
    }
    if (kind === "absent") return `not seen: ${defects[key].title}`;
    if (kind === "last-change") return `changed last: ${data.changeWords[answer]}`;
    return say(answer);
  }

  /** @param {{kind: string, key: string}} ask */
  function sayQuestion({ kind, key }) {
    if (kind === "defect") return `Look for this: ${defects[key].title}. ${defects[key].summary} Is it there?`;
    if (kind === "direction") return `Measure the ${say(key)}.`;
    if (kind === "repeats") {
      return "Look at the last few cans: is it on every can, at the same place, here and there, or on one only?";
    }
    if (kind === "extent") return "Look how far round the can it goes.";
    return "What was changed last at this sealer?";
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
      const [one, other] = [first, second].map((words) => SEEN[words[0]] || "rare");
      return `look for this: ${defects[key].title}. It is ${one} with the first, ${other} with the second.`;
    }
    const word = (/** @type {string} */ id) => (kind === "direction" ? sayDirection(key, id) : say(id));
    const [one, other] = [first, second].map((words) => words.map(word).join(" or "));
    const what = kind === "direction" ? `the ${say(key)}` : "where it shows";
    return `${what}: ${one} with the first, ${other} with the second.`;
  }

  /** @param {string} value @param {string} direction */
  const sayNowhere = (value, direction) =>
    `${constants.labels[value]} ${sayDirection(value, direction)}: nobody has published what causes this or how ` +
    `to correct it. Turn nothing on the sealer for this alone. Ask ${data.office} and the can supplier.`;

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
    const here = `seen here ${times} of ${own.all + others.all} times`;
    return own.all && others.all ? `${here}, on this sealer ${own.times} of ${own.all}` : here;
  }

  root.tinwrightBenchWording = { say, sayAnswer, sayApart, sayDirection, sayNowhere, sayQuestion, saySign, sayTimes };
})(globalThis);
