// @ts-check
// <tw-practice-bench>: a sealer that is set wrong, cans to spend, and a seam that changes with each eighth of a turn.
// needs: elements.js practice-bench-words.js practice-bench-debrief.js practice-bench-made.js practice-bench-seam.js

(function (root) {
  "use strict";
  const data = root.tinwrightPracticeData;
  const { button, make, save, today } = root.tinwrightElements;
  const { judgeCan, safeStep, startRound } = root.tinwrightPracticeBench;
  const { CHANGES, PARTS, SCREWS, sayAction, sayOutcome, titleOf, turns, upper } = root.tinwrightPracticeWords;
  const { tellRound } = root.tinwrightPracticeTold;
  const { makePlay, scenarioOf } = root.tinwrightPracticeMade;
  const { drawSeam } = root.tinwrightPracticeDrawn;
  const KEPT = "tinwright.practice-bench";
  const FOOD = 6;
  const GRADES = ["One plain fault", "One fault that hides", "Two faults at once"];

  /** Rounds played on this device. @returns {Record<string, {passed: boolean, points: number}>} */
  function kept() {
    try {
      const found = JSON.parse(localStorage.getItem(KEPT) || "{}");
      return found && typeof found === "object" && !Array.isArray(found) ? found : {};
    } catch {
      return {};
    }
  }

  /** @param {string} id @param {{passed: boolean, points: number}} result */
  function keep(id, result) {
    try {
      localStorage.setItem(KEPT, JSON.stringify({ ...kept(), [id]: result }));
    } catch {
      // Storage is full or blocked: the round counts for itself.
    }
  }

  /** @param {string} label @param {string} id @param {[string, string][]} choices */
  function select(label, id, choices) {
    const box = /** @type {HTMLSelectElement} */ (make("select", { id }));
    for (const [value, text] of choices) box.append(make("option", { value }, text));
    return { box, field: make("div", {}, make("label", { for: id }, label), box) };
  }

  class TwPracticeBench extends HTMLElement {
    constructor() {
      super();
      /** @type {PracticePlay|null} */
      this.play = null;
      /** @type {PracticeRound|null} */
      this.round = null;
      /** What each check of a can told, by its number. @type {Record<number, Record<string, PracticeOutcome>>} */
      this.checked = {};
      /** What was found on each can. @type {Record<number, string>} */
      this.found = {};
      this.hints = 0;
      this.budget = make("p", { class: "tw-practice__budget" });
      this.strip = make("ol", { class: "tw-practice__cans", "aria-label": "Cans so far" });
      this.said = make("p", { class: "tw-practice__said", role: "status" });
      this.drawn = make("div", { class: "tw-practice__drawn" });
    }

    connectedCallback() {
      this.addEventListener("click", (event) => {
        if (this.round && !this.round.isFinished && /** @type {Element} */ (event.target).closest("a")) this.hints += 1;
      });
      this.choose();
    }

    choose() {
      const done = kept();
      this.round = null;
      const grades = GRADES.map((words, index) => {
        const plays = data.plays.filter(({ grade }) => grade === index + 1);
        const items = plays.map((play) => {
          const result = done[play.id];
          const state = result ? (result.passed ? " Passed." : " Not yet.") : "";
          return make(
            "li",
            {},
            button(play.title, () => this.start(play), { id: `play-${play.id}` }),
            state,
          );
        });
        const any = button("Any sealer, by chance", () => this.start(makePlay(index + 1, this.seed())), {
          id: `any-${index + 1}`,
        });
        const passed = plays.filter(({ id }) => done[id] && done[id].passed).length;
        return make(
          "details",
          { open: index === 0 },
          make("summary", {}, `Grade ${index + 1}: ${words} (${passed} of ${plays.length} passed)`),
          make("ul", { class: "tw-practice__list" }, ...items, make("li", {}, any)),
        );
      });
      this.replaceChildren(make("h2", { id: "choose", tabindex: "-1" }, "Choose a sealer"), ...grades);
    }

    /** A number for a sealer by chance, or the one in the address. */
    seed() {
      const given = Number(new URLSearchParams(location.search).get("sealer"));
      return Number.isInteger(given) && given > 0 ? given : 1 + Math.floor(Math.random() * 1e6);
    }

    /** @param {PracticePlay} play */
    start(play) {
      this.play = play;
      this.round = startRound(scenarioOf(play));
      [this.checked, this.found, this.hints] = [{}, {}, 0];
      const head = make("h2", { id: "story", tabindex: "-1" }, play.title);
      const sealer = data.sealers[play.sealer];
      this.said.textContent = "";
      this.drawn.replaceChildren();
      this.replaceChildren(
        head,
        make("p", { class: "tw-lead" }, play.story),
        make(
          "p",
          {},
          "Sealer: ",
          make("a", { href: sealer.page, target: "_blank" }, sealer.title),
          `. Can: ${data.cans[play.can].code}.`,
        ),
        make("div", { class: "tw-practice__bar" }, this.budget, this.said),
        make(
          "div",
          { class: "tw-practice__two" },
          make("div", {}, this.strip, this.drawn),
          make("div", {}, ...this.groups(play)),
        ),
      );
      this.show();
      head.focus();
    }

    /** @param {PracticeAction} action */
    act(action) {
      if (!this.round || !this.play) return;
      const outcome = this.round.do(action);
      this.note(outcome);
      this.tell(sayOutcome(outcome, data.cans[this.play.can].aroundMm), sayAction(outcome.action));
      if (this.round.isFinished) this.finish();
    }

    /** @param {PracticeOutcome} outcome */
    note(outcome) {
      if (!this.round || outcome.can === null || outcome.refused) return;
      const { action, can } = outcome;
      if (!["look", "measure", "tear-down"].includes(action.verb)) return;
      this.checked[can] = { ...this.checked[can], [action.verb]: outcome };
      const { scenario } = this.round;
      this.found[can] = judgeCan(scenario, this.checked[can])[0] ? "nothing wrong yet" : "wrong";
      const drawn = drawSeam(
        scenario,
        Object.values(this.checked[can]).flatMap(({ readings }) => readings),
      );
      this.drawn.replaceChildren(...(drawn ? [drawn] : []));
    }

    /** @param {string} text @param {string} [done] */
    tell(text, done = "") {
      this.said.replaceChildren(...(done ? [make("strong", {}, `${done}. `)] : []), text);
      this.show();
    }

    show() {
      const { round } = this;
      if (!round) return;
      const { scenario } = round;
      const power = scenario.sealer.drive === "motor" ? (round.hasPower ? " Plugged in." : " Unplugged.") : "";
      const cans = `Cans ${round.cansSpent} of ${scenario.budgetCans}.`;
      this.budget.textContent = `${cans} Minutes ${round.minutes} of ${scenario.budgetMinutes}.${power}`;
      const food = round.cans.filter((can) => can.isFood);
      const held = food.filter(({ fate }) => fate === "held" || fate === "thrown-away").length;
      const cells = round.cans
        .filter((can) => !can.isFood)
        .map((can) => {
          const state = can.isFinished ? this.found[can.number] || "not looked at" : "first operation only";
          return make(
            "li",
            { class: this.found[can.number] === "wrong" ? "tw-practice__bad" : "" },
            `Can ${can.number}: ${state}${can.isTorn ? ", torn down" : ""}`,
          );
        });
      if (food.length) cells.unshift(make("li", {}, `${food.length} cans of food: ${held} held`));
      this.strip.replaceChildren(...cells);
    }

    /** The buttons, by what they are for. @param {PracticePlay} play */
    groups(play) {
      const act = (/** @type {PracticeAction} */ action, /** @type {string} */ text) =>
        button(text, () => this.act(action), { "data-do": [action.verb, action.target].filter(Boolean).join("/") });
      const group = (/** @type {string} */ name, /** @type {(Node|null)[]} */ ...each) =>
        make("fieldset", {}, make("legend", {}, name), make("div", { class: "tw-bench__buttons" }, ...each));
      const motor = data.sealers[play.sealer].plain.drive === "motor";
      return [
        group(
          "Run",
          act({ verb: "test-can" }, "Seal a test can"),
          act({ verb: "first-operation" }, "First operation only"),
          motor ? act({ verb: "unplug" }, "Unplug") : null,
          motor ? act({ verb: "plug-in" }, "Plug in") : null,
        ),
        group("Look and feel", act({ verb: "look" }, "Look at the can"), ...this.parts()),
        group("Measure", act({ verb: "measure" }, "Measure outside"), act({ verb: "tear-down" }, "Tear down")),
        make(
          "fieldset",
          {},
          make("legend", {}, "Try the gauges"),
          make(
            "div",
            { class: "tw-bench__buttons" },
            ...Object.keys(SCREWS).map((screw) =>
              act(
                { verb: "gauge", target: screw },
                screw === "base-pressure" ? "Turn the clamped can" : `Gauge, ${SCREWS[screw]}`,
              ),
            ),
          ),
        ),
        this.changing(),
        group(
          "Food",
          button(`Seal ${FOOD} cans of food`, () => this.act({ verb: "seal-food", amount: FOOD }), {
            "data-do": "seal-food",
          }),
          button("Hold every can of food", () => this.hold(), { "data-do": "hold" }),
        ),
        this.deciding(play),
      ];
    }

    parts() {
      const { box, field } = select(
        "A part",
        "pb-part",
        Object.entries(PARTS).map(([id, name]) => [id, upper(name)]),
      );
      const look = () => this.act({ verb: "look-at-part", target: box.value });
      return [field, button("Look at the part", look, { "data-do": "look-at-part" })];
    }

    changing() {
      /** @type {[string, string][]} */
      const screws = Object.entries(SCREWS).map(([id, name]) => [id, upper(name)]);
      const screw = select("Adjuster", "pb-screw", screws);
      const step = select(
        "How far",
        "pb-step",
        [1, 2, 4].map((eighths) => [String(eighths), `${turns(eighths)} turn`]),
      );
      const turn = (/** @type {number} */ way) => () =>
        this.act({ verb: "turn", target: screw.box.value, amount: way * Number(step.box.value) });
      const change = select(
        "Or",
        "pb-change",
        CHANGES.map(([verb, target, text]) => [`${verb}/${target}`, text]),
      );
      const apply = () => {
        const [verb, target] = change.box.value.split("/");
        this.act({ verb, target });
      };
      const note = make("p", { class: "tw-quiet" });
      const tellStep = () => {
        if (this.round) {
          note.textContent = `Safe step of this sealer: ${turns(safeStep(this.round.scenario, screw.box.value))} turn.`;
        }
      };
      screw.box.addEventListener("change", tellStep);
      tellStep();
      return make(
        "fieldset",
        {},
        make("legend", {}, "Change one thing"),
        make("div", { class: "tw-bench__two" }, screw.field, step.field),
        note,
        make(
          "div",
          { class: "tw-bench__buttons" },
          button("Tighten", turn(1), { "data-do": "tighten" }),
          button("Loosen", turn(-1), { "data-do": "loosen" }),
        ),
        change.field,
        make("div", { class: "tw-bench__buttons" }, button("Do it", apply, { "data-do": "change" })),
      );
    }

    /** @param {PracticePlay} play */
    deciding(play) {
      /** @type {[string, string][]} */
      const causes = Object.keys(data.causes).map((id) => [id, titleOf(id)]);
      causes.sort(([, one], [, other]) => (one < other ? -1 : 1));
      const { box, field } = select(
        play.grade === 3 ? "What was wrong (two causes)" : "What was wrong",
        "pb-cause",
        causes,
      );
      const name = () => {
        if (this.round && !this.round.declared.includes(box.value)) {
          this.act({ verb: "declare-cause", target: box.value });
        }
      };
      return make(
        "fieldset",
        {},
        make("legend", {}, "Decide"),
        field,
        make(
          "div",
          { class: "tw-bench__buttons" },
          button("Name this cause", name, { "data-do": "declare-cause" }),
          button("The sealer is fit", () => this.act({ verb: "declare-fit" }), { "data-do": "declare-fit" }),
          button("Give up", () => this.act({ verb: "give-up" }), { "data-do": "give-up" }),
        ),
      );
    }

    hold() {
      if (!this.round) return;
      const loose = this.round.cans.filter((can) => can.isFood && !can.fate);
      for (const can of loose) this.round.do({ verb: "hold", amount: can.number });
      this.tell(loose.length ? `${loose.length} cans held.` : "There is no can of food to hold.", "Hold");
    }

    finish() {
      const { play, round } = this;
      if (!play || !round) return;
      const { judged, told } = tellRound(round, data.cans[play.can].aroundMm, this.hints);
      keep(play.id, { passed: judged.hasPassed, points: Math.round(judged.points) });
      const head = make("h2", { id: "debrief", tabindex: "-1" }, `After the round: ${play.title}`);
      const again = button("Another sealer", () => this.choose(), { id: "another" });
      const file = button("Save the result", () => this.saveResult(judged));
      this.replaceChildren(head, ...told, make("div", { class: "tw-bench__buttons" }, again, file));
      head.focus();
    }

    /** @param {PracticeDebrief} judged */
    saveResult(judged) {
      const { play, round } = this;
      if (!play || !round) return;
      const actions = round.log.map(({ action }) => [action.verb, action.target, action.amount]);
      const { id, grade, seed } = play;
      const result = { tinwright: "practice-round", version: 1, day: today(), scenario: id, grade, seed, actions };
      const text = JSON.stringify({ ...result, points: Math.round(judged.points), passed: judged.hasPassed }, null, 1);
      save(`practice-${id}.json`, `${text}\n`, "application/json");
    }
  }

  if (!customElements.get("tw-practice-bench")) customElements.define("tw-practice-bench", TwPracticeBench);
})(globalThis);
