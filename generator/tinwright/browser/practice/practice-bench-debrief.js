// @ts-check
// What is said at the end of a round: unsafe acts first, what was wrong, the rubric, each step beside a careful one.
// needs: elements.js practice-bench-words.js practice.js
// joined: practice-bench.js

(function (root) {
  "use strict";
  const data = root.tinwrightPracticeData;
  const { make } = root.tinwrightElements;
  const { debrief, nextStep, rubric } = root.tinwrightPracticeBench;
  const { sayAction, sayOutcome } = root.tinwrightPracticeWords;

  /** @param {string} address @param {string} text */
  const link = (address, text) => make("a", { href: address }, text);

  /** @param {PracticeScenario} scenario @param {PracticeOutcome[]} log @param {number} step @returns {string} */
  function careful(scenario, log, step) {
    const next = nextStep(scenario, log.slice(0, step), data.profiles);
    if (next.verb === "hold") return "Hold the cans sealed so far";
    return sayAction(next);
  }

  /** Steps as they are told: cans held one after the other are one step. @param {PracticeOutcome[]} log */
  function told(log) {
    return log
      .map((outcome, at) => ({ outcome, at }))
      .filter(({ outcome, at }) => outcome.action.verb !== "hold" || !at || log[at - 1].action.verb !== "hold");
  }

  /** @param {PracticeRound} round @param {number} aroundMm */
  function steps(round, aroundMm) {
    const rows = told(round.log).map(({ outcome, at }) => {
      const { verb } = outcome.action;
      const mine = verb === "hold" ? "Hold cans" : sayAction(outcome.action);
      const theirs = careful(round.scenario, round.log, at);
      const same = theirs === mine || (verb === "hold" && theirs.startsWith("Hold"));
      const beside = ["declare-cause", "unplug", "plug-in"].includes(verb) ? "" : same ? "as you did" : theirs;
      return make(
        "li",
        {},
        make("strong", {}, mine),
        make("br"),
        sayOutcome(outcome, aroundMm),
        beside ? make("p", { class: "tw-quiet" }, `A careful technician: ${beside}.`) : null,
      );
    });
    return make("ol", { class: "tw-practice__steps" }, ...rows);
  }

  /** @param {PracticeDebrief} judged */
  function lines(judged) {
    const rows = judged.lines.map(({ line, isKept }) =>
      make(
        "tr",
        {},
        make("th", { scope: "row" }, rubric[line]),
        make("td", {}, isKept ? "kept" : "not kept"),
        make("td", {}, `${isKept ? data.weights[line] : 0} of ${data.weights[line]}`),
      ),
    );
    const head = make("tr", {}, ...["Rule", "", "Points"].map((text) => make("th", { scope: "col" }, text)));
    return make("table", { class: "tw-table" }, make("thead", {}, head), make("tbody", {}, ...rows));
  }

  /** @param {string} cause */
  function wasWrong(cause) {
    const known = data.causes[cause];
    if (!known) return make("li", {}, cause);
    return make("li", {}, link(known.page, known.title), `. ${known.say}`);
  }

  /** @type {TinwrightPracticeTold["tellRound"]} */
  function tellRound(round, aroundMm, hints) {
    const judged = debrief(round, data.weights);
    const isUnsafe = judged.lines.some(({ line, isKept }) => !isKept && ["safe", "no-food", "cans"].includes(line));
    const unsafe = judged.lines.filter(({ line, isKept }) => !isKept && ["safe", "no-food", "cans"].includes(line));
    const spent = `${round.cansSpent} cans, ${round.minutes} minutes.`;
    const verdict = make(
      "div",
      { class: `tw-verdict ${judged.hasPassed ? "" : "tw-verdict--reject"}` },
      make("p", { class: "tw-verdict__word" }, judged.hasPassed ? "Well done" : "Not yet"),
      isUnsafe ? make("p", {}, make("strong", {}, "Unsafe: "), unsafe.map(({ line }) => rubric[line]).join(" ")) : null,
      unsafe.some(({ line }) => line === "safe") ? make("p", {}, link(data.motorPage, "Read the caution")) : null,
      make("p", {}, `${Math.round(judged.points)} of 100 points. ${spent} ${hints} pages looked up.`),
    );
    return {
      judged,
      told: [
        verdict,
        make("h3", {}, "What was wrong"),
        make("ul", { class: "tw-list" }, ...judged.causes.map(wasWrong)),
        make("h3", {}, "How it is scored"),
        lines(judged),
        make("h3", {}, "Step by step"),
        steps(round, aroundMm),
      ],
    };
  }

  root.tinwrightPracticeTold = { tellRound };
})(globalThis);
