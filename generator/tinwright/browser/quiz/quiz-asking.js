// @ts-check
// How each kind of question is put on the page, answered, and explained.

/**
 * @typedef {{id: string, topic: string, asks: string, critical: boolean, text: string,
 *   choices: {text: string, why: string}[], key: number[], lefts: string[], pairWhys: string[], slips: [string, string][],
 *   why: string, teaches: {title: string, page: string}[], answer?: string, low?: string, high?: string, unit?: string,
 *   wrongNumbers?: [string, string][], places?: [string, number, number][],
 *   figure?: {address: string, said: string, box: [number, number, number, number]}}} Item
 * @typedef {{item: Item, order: number[], answer: any, typed: string, share: [number, number]|null}} Asked
 */

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const { AnswerError, compare, letterOf, readAnswer } = globals.tinwrightScoring;

  /**
   * Makes an element. Text is only ever set as text, so nothing in it can become markup.
   * @param {string} tag @param {Object<string, any>} [attributes] `on*` are listeners @param {...(Node|string|null|undefined)} children
   * @returns {HTMLElement}
   */
  function make(tag, attributes = {}, ...children) {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) {
      if (value === null || value === undefined || value === false) continue;
      if (typeof value === "function") element.addEventListener(name.slice(2), value);
      else element.setAttribute(name, value === true ? "" : String(value));
    }
    for (const child of children) if (child !== null && child !== undefined) element.append(child);
    return element;
  }

  /** @param {string} text @param {() => void} act @param {Object<string, any>} [more] */
  const button = (text, act, more = {}) => make("button", { type: "button", class: "tw-button", onclick: act, ...more }, text);

  /** Hands a text over as a file. @param {string} name @param {string} text @param {string} type */
  function save(name, text, type) {
    const address = URL.createObjectURL(new Blob([text], { type }));
    const link = make("a", { href: address, download: name });
    link.click();
    setTimeout(() => URL.revokeObjectURL(address), 1000);
  }

  /**
   * A question with what it takes to answer it, in a fieldset.
   * @param {Asked} asked @param {string} name of the question, such as `Question 3` @param {(said: string) => void} tell
   * @param {() => void} changed
   */
  function fieldset(asked, name, tell, changed) {
    const item = asked.item;
    const locked = asked.share !== null;
    const box = make("fieldset", { class: `tw-quiz__question tw-quiz__question--${item.asks}`, id: `q-${item.id}` },
      make("legend", {}, make("span", { class: "tw-quiz__number" }, name), item.critical ? make("span", { class: "tw-quiz__critical" }, "Safety question") : null,
        make("span", { class: "tw-quiz__asked" }, item.text)),
      make("p", { class: "tw-quiet tw-quiz__how" }, HOW[item.asks]));
    const drawing = item.figure ? make("div", { class: "tw-quiz__figure" }, picture(item.figure)) : null;
    if (drawing) box.append(drawing);
    const build = { "one-answer": choices, "several-answers": choices, point: places, order: steps, match: pairs, number }[item.asks];
    if (build) box.append(build(asked, locked, tell, changed));
    if (drawing && item.asks === "point") spots(asked, drawing, box);
    return box;
  }

  /** @param {{address: string, said: string, box: number[]}} figure */
  const picture = ({ address, said, box: [, , width, height] }) => make("img", { src: address, alt: said, width: Math.round(width), height: Math.round(height) });

  /** Makes each letter in the drawing a second label of the same button. @param {Asked} asked @param {HTMLElement} drawing @param {HTMLElement} box */
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

  /** @param {Asked} asked @param {number} place @param {string} type @param {boolean} locked @param {(Node|string)[]} label @param {() => void} changed */
  function tick(asked, place, type, locked, label, changed) {
    const item = asked.item;
    const chosen = Array.isArray(asked.answer) && asked.answer.includes(place);
    const input = /** @type {HTMLInputElement} */ (make("input", { type, name: `a-${item.id}`, id: `a-${item.id}-${place}`, checked: chosen, disabled: locked }));
    input.addEventListener("change", () => {
      const others = type === "radio" || !Array.isArray(asked.answer) ? [] : asked.answer.filter((/** @type {number} */ other) => other !== place);
      const now = input.checked ? [...others, place].sort((a, b) => a - b) : others;
      asked.answer = now.length ? now : null;
      changed();
    });
    const mark = locked && item.asks !== "point" ? verdictOf(item.key.includes(place), chosen) : null;
    return make("label", { class: `tw-quiz__choice${mark ? ` tw-quiz__choice--${mark[0]}` : ""}`, for: input.id }, input, make("span", {}, ...label), mark ? make("span", { class: "tw-quiz__mark" }, mark[1]) : null);
  }

  /** @param {boolean} right @param {boolean} chosen @returns {[string, string]|null} */
  function verdictOf(right, chosen) {
    if (right) return ["right", chosen ? "right, chosen" : "right, not chosen"];
    return chosen ? ["wrong", "wrong, chosen"] : null;
  }

  /** @param {Asked} asked @param {boolean} locked @param {(said: string) => void} _tell @param {() => void} changed */
  function choices(asked, locked, _tell, changed) {
    const type = asked.item.asks === "one-answer" ? "radio" : "checkbox";
    return make("div", { class: "tw-quiz__choices" }, ...asked.order.map((place) => tick(asked, place, type, locked, [asked.item.choices[place].text], changed)));
  }

  /** The letters of the drawing as a list. @param {Asked} asked @param {boolean} locked @param {(said: string) => void} _tell @param {() => void} changed */
  function places(asked, locked, _tell, changed) {
    const item = asked.item;
    const list = make("div", { class: "tw-quiz__choices" });
    (item.places || []).forEach(([lies], place) => {
      const right = locked && item.key[0] === place;
      const name = locked ? ` (${item.choices[place].text})` : "";
      const label = tick(asked, place, "radio", locked, [make("strong", {}, letterOf(place)), ` ${lies}${name}`], changed);
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

  /** @param {Asked} asked @param {boolean} locked @param {(said: string) => void} tell @param {() => void} changed */
  function steps(asked, locked, tell, changed) {
    const item = asked.item;
    /** @type {number[]} */
    const now = Array.isArray(asked.answer) ? [...asked.answer] : [...asked.order];
    const list = make("ol", { class: "tw-quiz__steps" });
    /** @type {Map<number, HTMLElement>} */
    const rows = new Map();
    /** @type {number|null} */
    let dragged = null;
    const name = (/** @type {number} */ place) => item.choices[place].text;

    const show = () => {
      now.forEach((place, index) => {
        const row = /** @type {HTMLElement} */ (rows.get(place));
        if (list.children[index] !== row) list.insertBefore(row, list.children[index] || null);
        const [up, down] = row.querySelectorAll("button");
        if (up) up.setAttribute("aria-disabled", String(index === 0));
        if (down) down.setAttribute("aria-disabled", String(index === now.length - 1));
      });
    };
    const move = (/** @type {number} */ place, /** @type {number} */ to) => {
      const from = now.indexOf(place);
      if (to < 0 || to >= now.length) {
        tell(`${name(place)} It stands ${to < 0 ? "first" : "last"} already.`);
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

    for (const place of now) {
      const row = make("li", { draggable: locked ? false : "true" }, make("span", {}, name(place)));
      if (!locked) {
        const press = (/** @type {string} */ way, /** @type {number} */ by) => {
          const key = button(way, () => { move(place, now.indexOf(place) + by); key.focus(); }, { "aria-label": `${way}: ${name(place)}` });
          return key;
        };
        row.append(make("span", { class: "tw-quiz__move" }, press("Move up", -1), press("Move down", 1)));
        row.addEventListener("dragstart", (event) => { dragged = place; if (event.dataTransfer) { event.dataTransfer.effectAllowed = "move"; event.dataTransfer.setData("text/plain", name(place)); } });
        row.addEventListener("dragover", (event) => { if (dragged !== null) event.preventDefault(); });
        row.addEventListener("drop", (event) => { event.preventDefault(); if (dragged !== null) move(dragged, now.indexOf(place)); dragged = null; });
        row.addEventListener("dragend", () => { dragged = null; });
      }
      rows.set(place, row);
      list.append(row);
    }
    show();
    return list;
  }

  /** @param {Asked} asked @param {boolean} locked @param {(said: string) => void} _tell @param {() => void} changed */
  function pairs(asked, locked, _tell, changed) {
    const item = asked.item;
    const now = Array.isArray(asked.answer) ? [...asked.answer] : item.lefts.map(() => -1);
    const list = make("div", { class: "tw-quiz__pairs" });
    item.lefts.forEach((left, index) => {
      const id = `a-${item.id}-${index}`;
      const select = /** @type {HTMLSelectElement} */ (make("select", { id, disabled: locked }, make("option", { value: "-1" }, "choose …"),
        ...asked.order.map((place) => make("option", { value: place, selected: now[index] === place }, item.choices[place].text))));
      select.addEventListener("change", () => {
        now[index] = Number(select.value);
        asked.answer = now.every((place) => place < 0) ? null : [...now];
        changed();
      });
      const right = now[index] === item.key[index];
      list.append(make("div", { class: locked ? `tw-quiz__choice--${right ? "right" : "wrong"}` : "" }, make("label", { for: id }, left), select,
        locked ? make("span", { class: "tw-quiz__mark" }, right ? "right" : `wrong: it is “${item.choices[item.key[index]].text}”`) : null));
    });
    return list;
  }

  /** @param {Asked} asked @param {boolean} locked @param {(said: string) => void} _tell @param {() => void} changed */
  function number(asked, locked, _tell, changed) {
    const id = `a-${asked.item.id}`;
    const wrong = make("p", { id: `${id}-error`, class: "tw-quiz__error" });
    const input = /** @type {HTMLInputElement} */ (make("input", { type: "text", id, inputmode: "decimal", autocomplete: "off", maxlength: 40, value: asked.typed, readonly: locked, "aria-describedby": wrong.id }));
    input.addEventListener("input", () => {
      asked.typed = input.value;
      input.removeAttribute("aria-invalid");
      wrong.textContent = "";
      changed();
    });
    return make("div", { class: "tw-quiz__typed" }, make("label", { for: id }, `Answer in ${asked.item.unit}`), input, wrong);
  }

  /** Reads a typed number into the answer; says what is wrong with it, empty when nothing is. @param {Asked} asked */
  function problemOf(asked) {
    if (asked.item.asks !== "number") return "";
    try {
      asked.answer = readAnswer(asked.item, asked.typed);
      return "";
    } catch (error) {
      if (!(error instanceof AnswerError)) throw error;
      asked.answer = null;
      return `Answer in ${asked.item.unit}: ${/** @type {Error} */ (error).message}. Digits and one point only, without the unit.`;
    }
  }

  /** Shows what is wrong with a typed number beside it, and goes there. @param {ParentNode} host @param {Asked} asked @param {string} problem */
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

  /** @param {Asked} asked */
  function wordOf(asked) {
    const [top, under] = asked.share || [0, 1];
    if (top === under) return "Right";
    if (top > 0) return `Partly right: ${top}/${under} of the point`;
    return asked.answer === null ? "Not answered" : "Wrong";
  }

  /** Why, why what was chosen tempts, and where to read. @param {Asked} asked @param {string} rule @param {string} [heading] */
  function feedback(asked, rule, heading = "p") {
    const item = asked.item;
    const [top, under] = asked.share || [0, 1];
    const whys = temptations(asked);
    const kind = top === under ? "right" : top > 0 ? "partly" : "wrong";
    return make("div", { class: `tw-quiz__feedback tw-quiz__feedback--${kind}`, tabindex: -1 },
      make(heading, { class: "tw-quiz__word" }, `${wordOf(asked)}.`),
      top === under ? null : make("p", {}, make("strong", {}, "The answer: "), solution(item)),
      make("p", {}, item.why),
      whys.length ? make("ul", { class: "tw-list" }, ...whys.map(([what, why]) => make("li", {}, what ? make("strong", {}, `${what} `) : null, why))) : null,
      top === under || !["several-answers", "order", "match"].includes(item.asks) ? null
        : make("p", { class: "tw-quiet" }, item.critical ? "Safety question: only the whole answer counts." : rule),
      item.teaches.length ? make("p", { class: "tw-quiz__read" }, "Read: ", ...item.teaches.flatMap(({ title, page }, index) => [index ? ", " : "", make("a", { href: page }, title)]), ".") : null);
  }

  /** The right answer in words. @param {Item} item @returns {Node|string} */
  function solution(item) {
    if (item.asks === "number") return `${item.answer} ${item.unit}${item.low === item.high ? "" : ` (from ${item.low} to ${item.high} counts)`}.`;
    if (item.asks === "order") return make("span", {}, make("ol", {}, ...item.key.map((place) => make("li", {}, item.choices[place].text))));
    if (item.asks === "match") return make("span", {}, make("ul", {}, ...item.lefts.map((left, index) => make("li", {}, `${left} → ${item.choices[item.key[index]].text}`))));
    if (item.asks === "point") return `${letterOf(item.key[0])}, ${item.choices[item.key[0]].text}.`;
    return item.key.map((place) => item.choices[place].text).join(" / ");
  }

  /** For what was answered wrong, why it tempts. @param {Asked} asked @returns {[string, string][]} */
  function temptations(asked) {
    const { item, answer, share } = asked;
    if (share && share[0] === share[1]) return [];
    if (item.asks === "number") return (item.wrongNumbers || []).filter(([wrong]) => typeof answer === "string" && compare(wrong, answer) === 0).map(([wrong, why]) => [`${wrong}:`, why]);
    if (!Array.isArray(answer)) return [];
    if (item.asks === "order") return item.slips.map(([slip, why]) => [slip, why]);
    if (item.asks === "match") return item.lefts.flatMap((left, index) => {
      const given = answer[index];
      if (given === item.key[index]) return [];
      /** @type {[string, string][]} */
      const found = [[`${left}:`, item.pairWhys[index] || ""]];
      if (given >= 0 && !item.key.includes(given)) found.push([`${item.choices[given].text}:`, item.choices[given].why]);
      return found;
    });
    const missed = item.asks === "several-answers" ? item.key.filter((place) => !answer.includes(place)) : [];
    return [...answer.filter((/** @type {number} */ place) => !item.key.includes(place)), ...missed]
      .filter((place) => item.choices[place].why)
      .map((place) => [item.asks === "point" ? `${letterOf(place)}, ${item.choices[place].text}:` : `${item.choices[place].text}${/[.?!]$/.test(item.choices[place].text) ? "" : ":"}`, item.choices[place].why]);
  }

  globals.tinwrightAsking = { button, feedback, fieldset, make, problemOf, save, showProblem, wordOf };
})(globalThis);
