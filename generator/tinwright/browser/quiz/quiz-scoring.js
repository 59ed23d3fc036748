// @ts-check
// Scores of answers, exact: the browser's half of tinwright/quizzes/scoring.py, with the same rules and the same texts.

(function (root) {
  "use strict";
  // No I and no O, which are read as 1 and 0 on a typed answer sheet.
  const LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ";
  const NUMBER = /^[+-]?(?:[0-9]{1,12}(?:\.[0-9]{0,12})?|\.[0-9]{1,12})$/;
  const FRACTION = /^(?:([0-9]{1,4})[ -]+)?([0-9]{1,4})\/(2|4|8|16|32|64)$/;
  // What Python calls space; JavaScript's own idea of it differs by a few signs.
  const SPACE = "\\t-\\r\\x1c-\\x20\\x85\\xa0\\u1680\\u2000-\\u200a\\u2028\\u2029\\u202f\\u205f\\u3000";
  const ENDS = new RegExp(`^[${SPACE}]+|[${SPACE}]+$`, "g");
  const BETWEEN = new RegExp(`[${SPACE},;]+`, "g");

  /** An answer that cannot be read or does not fit its question. */
  class AnswerError extends Error {}

  /** @param {number} place counted from 0 */
  const letterOf = (place) => LETTERS[place];

  /** @param {number} a @param {number} b @returns {number} */
  const divisor = (a, b) => (b ? divisor(b, a % b) : Math.abs(a));

  /** @param {number} numerator @param {number} denominator @returns {QuizShare} */
  function share(numerator, denominator) {
    const common = divisor(numerator, denominator) || 1;
    return [numerator / common, denominator / common];
  }

  /** Compares two numbers as written, exactly: below 0, 0, or above 0. @param {string} a @param {string} b */
  function compare(a, b) {
    const digits = Math.max(...[a, b].map((text) => (text.split(".")[1] || "").length));
    const [left, right] = [a, b].map((text) => {
      const [whole, rest = ""] = text.replace(/^[+-]/, "").split(".");
      const scaled = BigInt((whole || "0") + rest.padEnd(digits, "0"));
      return text.startsWith("-") ? -scaled : scaled;
    });
    return left < right ? -1 : left > right ? 1 : 0;
  }

  /** @param {QuizScored} question @param {number[]} answer */
  function check(question, answer) {
    const size = question.choices.length;
    const lowest = question.asks === "match" ? -1 : 0;
    if (!answer.every((place) => Number.isInteger(place) && place >= lowest && place < size)) {
      throw new AnswerError(`expected choices from A to ${letterOf(size - 1)}, got another`);
    }
    if (question.asks === "match" && answer.length !== question.lefts.length) {
      throw new AnswerError(`expected ${question.lefts.length} letters, got ${answer.length}`);
    }
    if ((question.asks === "one-answer" || question.asks === "point") && answer.length !== 1) {
      throw new AnswerError(`expected one letter, got ${answer.length}`);
    }
    if ((question.asks === "several-answers" || question.asks === "order") && new Set(answer).size !== answer.length) {
      throw new AnswerError("expected each letter once, got one twice");
    }
    if (question.asks === "order" && answer.length !== size) {
      throw new AnswerError(`expected each of ${size} letters once, got ${answer.length}`);
    }
  }

  /** @param {QuizScored} question @param {number[]|string} answer @returns {QuizShare} */
  function earned(question, answer) {
    if (question.asks === "number") {
      if (typeof answer !== "string" || !NUMBER.test(answer)) throw new AnswerError("expected a number");
      return compare(question.low || "0", answer) <= 0 && compare(answer, question.high || "0") <= 0 ? [1, 1] : [0, 1];
    }
    if (typeof answer === "string") throw new AnswerError("expected choices, got a number");
    check(question, answer);
    const key = question.key;
    if (question.asks === "several-answers") {
      const hits = answer.filter((place) => key.includes(place)).length;
      return share(Math.max(0, 2 * hits - answer.length), key.length);
    }
    if (question.asks === "order") {
      const next = new Map(key.slice(1).map((place, index) => [key[index], place]));
      return share(answer.slice(1).filter((place, index) => next.get(answer[index]) === place).length, key.length - 1);
    }
    if (question.asks === "match") {
      return share(answer.filter((place, index) => place === key[index]).length, key.length);
    }
    return answer[0] === key[0] ? [1, 1] : [0, 1];
  }

  /**
   * The share of a point that an answer earns, exact.
   * @param {QuizScored} question
   * @param {QuizAnswer} answer
   * @returns {QuizShare}
   */
  function score(question, answer) {
    if (answer === null) return [0, 1];
    const found = earned(question, answer);
    return question.critical && found[0] !== found[1] ? [0, 1] : found;
  }

  /**
   * Reads an answer as typed: letters with or without spaces and commas, `-` for a pair left out, or a number; a number
   * may be a fraction as a ruler has it, such as `1 3/16`.
   * @param {QuizScored} question @param {string} typed @returns {QuizAnswer}
   */
  function readAnswer(question, typed) {
    const text = typed.replace(ENDS, "");
    if (!text) return null;
    if (question.asks === "number") {
      const number = text.split("−").join("-");
      const part = FRACTION.exec(number);
      if (part) return String(Number(part[1] || 0) + Number(part[2]) / Number(part[3]));
      if (NUMBER.test(number)) return number;
      throw new AnswerError(`expected a number such as 0.046 or 1 3/16, got “${text.slice(0, 40)}”`);
    }
    const last = letterOf(question.choices.length - 1);
    const places = [];
    for (const letter of text.replace(BETWEEN, "").toUpperCase()) {
      const place =
        letter === "-" && question.asks === "match" ? -1 : LETTERS.slice(0, question.choices.length).indexOf(letter);
      if ((place < 0 && letter !== "-") || (letter === "-" && question.asks !== "match")) {
        throw new AnswerError(`expected letters from A to ${last}, got “${letter}”`);
      }
      places.push(place);
    }
    if (question.asks === "several-answers") places.sort((a, b) => a - b);
    check(question, places);
    return places;
  }

  /** Adds shares exactly. @param {QuizShare[]} shares @returns {[bigint, bigint]} */
  function sum(shares) {
    let top = BigInt(0);
    let under = BigInt(1);
    for (const [numerator, denominator] of shares) {
      top = top * BigInt(denominator) + BigInt(numerator) * under;
      under *= BigInt(denominator);
    }
    return [top, under];
  }

  /**
   * True when the shares earn at least so many percent of a point each.
   * @param {QuizShare[]} shares
   * @param {number} percent
   */
  function passes(shares, percent) {
    const [top, under] = sum(shares);
    return shares.length > 0 && top * BigInt(100) >= BigInt(percent) * under * BigInt(shares.length);
  }

  /**
   * Points as written for a reader, rounded down so that no score looks like a pass that is none.
   * @param {QuizShare[]} shares
   * @param {number} decimals
   * @param {bigint} [times]
   */
  function written(shares, decimals, times = BigInt(1)) {
    const [top, under] = sum(shares);
    const scale = BigInt(10) ** BigInt(decimals);
    const whole = String((top * times * scale) / under).padStart(decimals + 1, "0");
    const rest = decimals ? whole.slice(-decimals).replace(/0+$/, "") : "";
    return (decimals ? whole.slice(0, -decimals) : whole) + (rest ? `.${rest}` : "");
  }

  /** Percent of the points that can be had, rounded down. @param {QuizShare[]} shares */
  function percentOf(shares) {
    if (!shares.length) return 0;
    const [top, under] = sum(shares);
    return Number((top * BigInt(100)) / (under * BigInt(shares.length)));
  }

  root.tinwrightScoring = {
    AnswerError,
    compare,
    letterOf,
    passes,
    percentOf,
    readAnswer,
    score,
    points: (/** @type {QuizShare[]} */ shares) => written(shares, 2),
  };
})(globalThis);
