// @ts-check
// How each kind of question is put on the page, answered, and explained.
// needs: elements.js quiz-controls.js quiz-feedback.js quiz-scoring.js

(function (root) {
  "use strict";
  const { make } = root.tinwrightElements;
  const { feedback, wordOf } = root.tinwrightQuizFeedback;
  const controls = root.tinwrightQuizControls;
  const { unitInWords } = root.tinwrightQuizUnits;
  const { AnswerError, readAnswer } = root.tinwrightScoring;

  /**
   * A question with what it takes to answer it, in a fieldset.
   * @param {QuizAsked} asked
   * @param {string} name of the question, such as `Question 3`
   * @param {(said: string) => void} tell
   * @param {() => void} changed
   */
  function fieldset(asked, name, tell, changed) {
    const item = asked.item;
    const locked = asked.share !== null;
    const box = make(
      "fieldset",
      { class: `tw-quiz__question tw-quiz__question--${item.asks}`, id: `q-${item.id}` },
      make(
        "legend",
        {},
        make("span", { class: "tw-quiz__number" }, name),
        item.critical ? make("span", { class: "tw-quiz__critical" }, "Safety question") : null,
        make("span", { class: "tw-quiz__asked" }, item.text),
      ),
      make("p", { class: "tw-quiet tw-quiz__how" }, HOW[item.asks]),
    );
    if (item.table && item.table.length) box.append(readings(item.table));
    const drawing = item.figure ? make("div", { class: "tw-quiz__figure" }, picture(item.figure)) : null;
    if (drawing) box.append(drawing);
    const build = controls[item.asks];
    if (build) box.append(build(asked, locked, tell, changed));
    if (drawing && item.asks === "point") spots(asked, drawing, box);
    return box;
  }

  /** Readings as a table, headings first; a row of one cell goes all the way across. @param {string[][]} rows */
  function readings([heads, ...rows]) {
    const cells = (/** @type {string[]} */ [name, ...more]) =>
      more.length
        ? make("tr", {}, make("th", { scope: "row" }, name), ...more.map((text) => make("td", {}, text)))
        : make("tr", {}, make("td", { colspan: heads.length }, name));
    return make(
      "table",
      { class: "tw-quiz__readings" },
      make("thead", {}, make("tr", {}, ...heads.map((text) => make("th", { scope: "col" }, text)))),
      make("tbody", {}, ...rows.map(cells)),
    );
  }

  /** @param {{address: string, said: string, box: number[]}} figure */
  const picture = ({ address, said, box: [, , width, height] }) =>
    make("img", { src: address, alt: said, width: Math.round(width), height: Math.round(height) });

  /**
   * Makes each letter in the drawing a second label of the same button.
   * @param {QuizAsked} asked
   * @param {HTMLElement} drawing
   * @param {HTMLElement} box
   */
  function spots(asked, drawing, box) {
    const { id, places: all = [], figure } = asked.item;
    const [left, top, width, height] = figure ? figure.box : [0, 0, 1, 1];
    all.forEach(([, x, y], place) => {
      const name = `a-${id}-${place}`;
      const spot = make("label", { class: "tw-quiz__spot", for: name });
      spot.style.left = `${((x - left) / width) * 100}%`;
      spot.style.top = `${((y - top) / height) * 100}%`;
      const show = () => {
        const input = /** @type {HTMLInputElement|null} */ (box.querySelector(`#${CSS.escape(name)}`));
        spot.classList.toggle("tw-quiz__spot--chosen", Boolean(input && input.checked));
      };
      box.addEventListener("change", show);
      show();
      drawing.append(spot);
    });
  }

  const HOW = /** @type {Object<string, string>} */ ({
    "one-answer": "Choose one.",
    "several-answers": "Choose every right one.",
    point: "Tap the letter in the drawing, or choose it in the list.",
    order: "Put the steps in order, first step on top: with the buttons, or by dragging.",
    match: "Choose what belongs to each.",
    number: "Type a number.",
  });

  /**
   * Reads a typed number into the answer; says what is wrong with it, empty when nothing is.
   * @param {QuizAsked} asked
   */
  function problemOf(asked) {
    if (asked.item.asks !== "number") return "";
    try {
      asked.answer = readAnswer(asked.item, asked.typed);
      return "";
    } catch (error) {
      if (!(error instanceof AnswerError)) throw error;
      asked.answer = null;
      const { message } = /** @type {Error} */ (error);
      return `Answer in ${unitInWords(asked.item.unit)}: ${message}. Digits and one point only, without the unit.`;
    }
  }

  /**
   * Shows what is wrong with a typed number beside it, and goes there.
   * @param {ParentNode} host
   * @param {QuizAsked} asked
   * @param {string} problem
   */
  function showProblem(host, asked, problem) {
    const id = CSS.escape(`a-${asked.item.id}`);
    const [input, wrong] = [host.querySelector(`#${id}`), host.querySelector(`#${id}-error`)];
    if (!input || !wrong) return;
    wrong.textContent = problem;
    if (problem) {
      input.setAttribute("aria-invalid", "true");
      /** @type {HTMLElement} */ (input).focus();
    }
  }

  root.tinwrightAsking = { feedback, fieldset, problemOf, showProblem, wordOf };
})(globalThis);
