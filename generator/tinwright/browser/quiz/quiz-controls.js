// @ts-check
// What is pressed, chosen or typed to answer a question, for each kind of question.
// needs: elements.js quiz-scoring.js quiz-steps.js
// joined: quiz-asking.js

(function (root) {
  "use strict";
  const { make } = root.tinwrightElements;
  const { steps } = root.tinwrightQuizSteps;
  const { letterOf } = root.tinwrightScoring;
  /** @type {Record<string, string>} */
  const UNITS = { in: "inches", mm: "millimeters" };
  /** As it is read aloud: "Answer in inches". @param {string} [unit] */
  const unitInWords = (unit = "") => UNITS[unit] || unit;

  /**
   * @param {QuizAsked} asked
   * @param {number} place
   * @param {string} type
   * @param {boolean} locked
   * @param {(Node|string)[]} label
   * @param {() => void} changed
   */
  function tick(asked, place, type, locked, label, changed) {
    const item = asked.item;
    const chosen = Array.isArray(asked.answer) && asked.answer.includes(place);
    const input = /** @type {HTMLInputElement} */ (
      make("input", { type, name: `a-${item.id}`, id: `a-${item.id}-${place}`, checked: chosen, disabled: locked })
    );
    input.addEventListener("change", () => {
      const others =
        type === "radio" || !Array.isArray(asked.answer)
          ? []
          : asked.answer.filter((/** @type {number} */ other) => other !== place);
      const now = input.checked ? [...others, place].sort((a, b) => a - b) : others;
      asked.answer = now.length ? now : null;
      changed();
    });
    const mark = locked && item.asks !== "point" ? verdictOf(item.key.includes(place), chosen) : null;
    return make(
      "label",
      { class: `tw-quiz__choice${mark ? ` tw-quiz__choice--${mark[0]}` : ""}`, for: input.id },
      input,
      make("span", {}, ...label),
      mark ? make("span", { class: "tw-quiz__mark" }, mark[1]) : null,
    );
  }

  /** @param {boolean} right @param {boolean} chosen @returns {[string, string]|null} */
  function verdictOf(right, chosen) {
    if (right) return ["right", chosen ? "right, chosen" : "right, not chosen"];
    return chosen ? ["wrong", "wrong, chosen"] : null;
  }

  /**
   * @param {QuizAsked} asked
   * @param {boolean} locked
   * @param {(said: string) => void} _tell
   * @param {() => void} changed
   */
  function choices(asked, locked, _tell, changed) {
    const type = asked.item.asks === "one-answer" ? "radio" : "checkbox";
    return make(
      "div",
      { class: "tw-quiz__choices" },
      ...asked.order.map((place) => tick(asked, place, type, locked, [asked.item.choices[place].text], changed)),
    );
  }

  /**
   * The letters of the drawing as a list.
   * @param {QuizAsked} asked
   * @param {boolean} locked
   * @param {(said: string) => void} _tell
   * @param {() => void} changed
   */
  function places(asked, locked, _tell, changed) {
    const item = asked.item;
    const list = make("div", { class: "tw-quiz__choices" });
    (item.places || []).forEach(([lies], place) => {
      const right = locked && item.key[0] === place;
      const name = locked ? ` (${item.choices[place].text})` : "";
      const label = tick(
        asked,
        place,
        "radio",
        locked,
        [make("strong", {}, letterOf(place)), ` ${lies}${name}`],
        changed,
      );
      const chosen = Array.isArray(asked.answer) && asked.answer[0] === place;
      const mark = locked ? verdictOf(right, chosen) : null;
      if (mark) {
        label.classList.add(`tw-quiz__choice--${mark[0]}`);
        label.append(make("span", { class: "tw-quiz__mark" }, mark[1]));
      }
      list.append(label);
    });
    return list;
  }

  /**
   * @param {QuizAsked} asked
   * @param {boolean} locked
   * @param {(said: string) => void} _tell
   * @param {() => void} changed
   */
  function pairs(asked, locked, _tell, changed) {
    const item = asked.item;
    const now = Array.isArray(asked.answer) ? [...asked.answer] : item.lefts.map(() => -1);
    const list = make("div", { class: "tw-quiz__pairs" });
    item.lefts.forEach((left, index) => {
      const id = `a-${item.id}-${index}`;
      const select = /** @type {HTMLSelectElement} */ (
        make(
          "select",
          { id, disabled: locked },
          make("option", { value: "-1" }, "choose …"),
          ...asked.order.map((place) =>
            make("option", { value: place, selected: now[index] === place }, item.choices[place].text),
          ),
        )
      );
      // a closed list cuts a long answer off on a phone
      const whole = make("span", { class: "tw-quiz__whole", "aria-hidden": "true" });
      const showWhole = () => {
        whole.textContent = now[index] < 0 ? "" : item.choices[now[index]].text;
      };
      showWhole();
      select.addEventListener("change", () => {
        now[index] = Number(select.value);
        showWhole();
        asked.answer = now.every((place) => place < 0) ? null : [...now];
        changed();
      });
      const right = now[index] === item.key[index];
      list.append(
        make(
          "div",
          { class: locked ? `tw-quiz__choice--${right ? "right" : "wrong"}` : "" },
          make("label", { for: id }, left),
          select,
          whole,
          locked
            ? make(
                "span",
                { class: "tw-quiz__mark" },
                right ? "right" : `wrong: it is “${item.choices[item.key[index]].text}”`,
              )
            : null,
        ),
      );
    });
    return list;
  }

  /**
   * @param {QuizAsked} asked
   * @param {boolean} locked
   * @param {(said: string) => void} _tell
   * @param {() => void} changed
   */
  function number(asked, locked, _tell, changed) {
    const id = `a-${asked.item.id}`;
    const wrong = make("p", { id: `${id}-error`, class: "tw-quiz__error" });
    const input = /** @type {HTMLInputElement} */ (
      make("input", {
        type: "text",
        id,
        inputmode: "decimal",
        autocomplete: "off",
        maxlength: 40,
        value: asked.typed,
        readonly: locked,
        "aria-describedby": wrong.id,
      })
    );
    input.addEventListener("input", () => {
      asked.typed = input.value;
      input.removeAttribute("aria-invalid");
      wrong.textContent = "";
      changed();
    });
    return make(
      "div",
      { class: "tw-quiz__typed" },
      make("label", { for: id }, `Answer in ${unitInWords(asked.item.unit)}`),
      input,
      wrong,
    );
  }

  /** How each kind of question is answered. */
  root.tinwrightQuizUnits = { unitInWords };
  root.tinwrightQuizControls = {
    "one-answer": choices,
    "several-answers": choices,
    point: places,
    order: steps,
    match: pairs,
    number,
  };
})(globalThis);
