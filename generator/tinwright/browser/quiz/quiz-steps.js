// @ts-check
// Steps to put in order: with the buttons, or by dragging.
// needs: elements.js
// joined: quiz-asking.js

(function (root) {
  "use strict";
  const { button, make } = root.tinwrightElements;

  /**
   * The steps of a procedure as a list that can be put in order, by buttons or by dragging.
   * @param {QuizAsked} asked
   * @param {boolean} locked
   * @param {(said: string) => void} tell
   * @param {() => void} changed
   */
  function steps(asked, locked, tell, changed) {
    const item = asked.item;
    const name = (/** @type {number} */ place) => item.choices[place].text;
    /** @type {number[]} */
    const now = Array.isArray(asked.answer) ? [...asked.answer] : [...asked.order];
    const list = make("ol", { class: "tw-quiz__steps" });
    const rows = new Map(
      now.map((place) => [place, make("li", { draggable: locked ? "false" : "true" }, make("span", {}, name(place)))]),
    );
    const show = () => now.forEach((place, index) => settle(list, rows.get(place), index, now.length));
    const move = (/** @type {number} */ place, /** @type {number} */ to) => {
      const from = now.indexOf(place);
      if (to < 0 || to >= now.length) {
        tell(`${name(place)} It is already ${to < 0 ? "first" : "last"}.`);
        return;
      }
      if (from === to) return;
      now.splice(from, 1);
      now.splice(to, 0, place);
      asked.answer = [...now];
      show();
      changed();
      tell(`${name(place)} Now number ${to + 1} of ${now.length}.`);
    };
    if (!locked) {
      for (const [place, row] of rows) {
        row.append(moveButtons(name(place), (by) => move(place, now.indexOf(place) + by)));
      }
      letDrag(rows, name, (dragged, onto) => move(dragged, now.indexOf(onto)));
    }
    show();
    return list;
  }

  /**
   * Puts a row at its place in the list, and says which of its buttons can do something there.
   * @param {HTMLElement} list
   * @param {HTMLElement|undefined} row
   * @param {number} index
   * @param {number} length
   */
  function settle(list, row, index, length) {
    if (!row) return;
    if (list.children[index] !== row) list.insertBefore(row, list.children[index] || null);
    const [up, down] = row.querySelectorAll("button");
    if (up) up.setAttribute("aria-disabled", String(index === 0));
    if (down) down.setAttribute("aria-disabled", String(index === length - 1));
  }

  /** @param {string} name of the step @param {(by: number) => void} move */
  function moveButtons(name, move) {
    const press = (/** @type {string} */ way, /** @type {number} */ by) => {
      const act = () => {
        move(by);
        key.focus();
      };
      const key = button(way, act, { "aria-label": `${way}: ${name}` });
      return key;
    };
    return make("span", { class: "tw-quiz__move" }, press("Move up", -1), press("Move down", 1));
  }

  /**
   * @param {Map<number, HTMLElement>} rows
   * @param {(place: number) => string} name
   * @param {(dragged: number, onto: number) => void} drop
   */
  function letDrag(rows, name, drop) {
    /** @type {number|null} */
    let dragged = null;
    for (const [place, row] of rows) {
      row.addEventListener("dragstart", (event) => {
        dragged = place;
        if (!event.dataTransfer) return;
        event.dataTransfer.effectAllowed = "move";
        event.dataTransfer.setData("text/plain", name(place));
      });
      row.addEventListener("dragover", (event) => {
        if (dragged !== null) event.preventDefault();
      });
      row.addEventListener("drop", (event) => {
        event.preventDefault();
        if (dragged !== null) drop(dragged, place);
        dragged = null;
      });
      row.addEventListener("dragend", () => {
        dragged = null;
      });
    }
  }

  root.tinwrightQuizSteps = { steps };
})(globalThis);
