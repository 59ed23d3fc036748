// @ts-check
// The form before a round of practice: how many questions, how they are shown, and when the answer is seen.
// needs: elements.js quiz-progress.js
// joined: quiz.js

(function (root) {
  "use strict";
  const { make } = root.tinwrightElements;
  const practice = root.tinwrightPractice;
  const SIZES = [5, 10, 20];

  /**
   * Ways to choose between, one chosen.
   * @param {string} legend
   * @param {[string, string][]} ways
   * @param {string} now
   * @param {(value: string) => void} set
   */
  function choice(legend, ways, now, set) {
    const name = `s-${legend.toLowerCase().replace(/\W+/g, "-")}`;
    const labels = ways.map(([value, text]) => {
      const input = make("input", { type: "radio", name, id: `${name}-${value}`, value, checked: value === now });
      input.addEventListener("change", () => set(value));
      return make("label", { class: "tw-quiz__choice", for: input.id }, input, make("span", {}, text));
    });
    return make("fieldset", {}, make("legend", {}, legend), ...labels);
  }

  /** How many questions there are, and how many of them come first. @param {QuizKnown[]} items */
  function count(items) {
    const seen = practice.read().items;
    const missed = items.filter((item) => (seen.get(item.id) || { last: "right" }).last !== "right").length;
    const fresh = items.filter((item) => !seen.has(item.id)).length;
    const said = [`${items.length} questions.`];
    if (missed) said.push(`${missed} missed last time: they come first.`);
    if (fresh && fresh < items.length) said.push(`${fresh} not tried yet.`);
    return said.join(" ");
  }

  /**
   * Sizes of a round that so many questions allow; the settings get one of them.
   * @param {number} total
   * @param {QuizSettings} settings
   */
  function sizesFor(total, settings) {
    const sizes = [...SIZES.filter((size) => size < total).map(String), String(total)];
    if (!sizes.includes(settings.size)) settings.size = sizes[Math.max(0, Math.min(1, sizes.length - 2))];
    return sizes;
  }

  /**
   * The form; what is chosen goes into the settings at once.
   * @param {QuizKnown[]} items the questions there are
   * @param {QuizKnown|null} first the one that a link asks for
   * @param {QuizSettings} settings
   * @param {() => void} start
   */
  function setUpForm(items, first, settings, start) {
    const sizes = sizesFor(items.length, settings);
    const submit = (/** @type {Event} */ event) => {
      event.preventDefault();
      start();
    };
    /** @type {[string, string][]} */
    const numbers = sizes.map((size) => [size, size === String(items.length) ? `all ${size}` : size]);
    return make(
      "form",
      { class: "tw-quiz__setup", onsubmit: submit },
      make("p", { class: "tw-quiz__count" }, count(items)),
      first && "text" in first
        ? make("p", { class: "tw-note" }, make("strong", {}, "It starts with: "), first.text)
        : null,
      choice("How many questions?", numbers, settings.size, (value) => Object.assign(settings, { size: value })),
      choice(
        "How are they shown?",
        [
          ["one", "one at a time"],
          ["page", "all on one page"],
        ],
        settings.single ? "one" : "page",
        (value) => Object.assign(settings, { single: value === "one" }),
      ),
      choice(
        "When do you see the answer?",
        [
          ["each", "after each question"],
          ["end", "at the end"],
        ],
        settings.each ? "each" : "end",
        (value) => Object.assign(settings, { each: value === "each" }),
      ),
      make("p", {}, make("button", { type: "submit", class: "tw-button tw-button--first" }, "Start")),
      make("p", { class: "tw-quiet" }, "No time limit. Your answers and your score stay on this device."),
    );
  }

  root.tinwrightQuizSetUp = { setUpForm };
})(globalThis);
