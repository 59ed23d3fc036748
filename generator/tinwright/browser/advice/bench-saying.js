// @ts-check
// Advice on the page, block by block: the browser's half of tinwright/advice/spoken.py.
// needs: seaming.js elements.js bench-records.js bench-wording.js bench-form.js
// joined: bench-advice.js

(function (root) {
  "use strict";
  const { make } = root.tinwrightElements;
  const { sentence } = root.tinwrightSeaming;
  const { causes, data, defects } = root.tinwrightBenchRecords;
  const { button, buttons } = root.tinwrightBenchForm;
  const { sayAnswer, sayApart, sayQuestion, saySign, sayTimes } = root.tinwrightBenchWording;
  /** No more causes are named than a person looks into. */
  const MOST_NAMED = 6;

  const toFails = () => (data.fails ? make("a", { href: data.fails }, "What to do when a check fails") : null);

  /** @param {string} text */
  const strong = (text) => make("strong", {}, text);

  /** What to do with the can, defect by defect in the order of the records. @param {string[]} seen @returns {Node[]} */
  const sayCan = (seen) =>
    Object.values(defects)
      .filter(({ id }) => seen.includes(id))
      .map(({ can, page, title }) => {
        const steps = can.map((step) => make("li", {}, step));
        const head = make("a", { href: `${page}#can` }, sentence("what-to-do-with-the-can", { title }));
        return make("div", {}, make("p", {}, head), make("ul", { class: "tw-list" }, ...steps));
      });

  /** The safe ending. @param {boolean} [told] was anything said of the fault itself? */
  function none(told = true) {
    return make(
      "div",
      { class: "tw-verdict tw-verdict--reject" },
      make("p", { class: "tw-verdict__word" }, told ? "None of these" : sentence("not-told")),
      told ? null : make("p", {}, sentence("tell")),
      make("p", {}, `${sentence("stop")} `, toFails(), ". ", sentence("ask-the-office", { office: data.office })),
    );
  }

  /** @type {TinwrightBenchSaying["sayAdvice"]} */
  function sayAdvice(advice, sealer, answer = null) {
    const asked = advice.question ? [sayAsk(advice.question, answer)] : [];
    if (advice.first === null) return [none(advice.told), ...asked];
    const list = make("ol", { class: "tw-causes" });
    for (const ranked of advice.shown.slice(0, MOST_NAMED)) list.append(sayCause(ranked, advice.experience));
    const out = [...asked, make("h3", {}, sentence("causes")), list];
    if (advice.experience && data.seenHere && data.seenHere.invented) {
      out.push(make("p", { class: "tw-evidence" }, sentence("counts-invented")));
    }
    const [apart] = advice.ranking.apart;
    if (apart) out.push(make("p", {}, strong(`${sentence("apart")}: `), sayApart(apart)));
    out.push(...sayChecks(advice.order, advice.first));
    if (advice.correction) out.push(...sayCorrection(causes[advice.first], advice.correction, sealer));
    return out;
  }

  /** The question whose answer would help, with its answers. @param {Ask} ask @param {BenchAnswer|null} answer */
  function sayAsk(ask, answer) {
    const box = make("div", { class: "tw-ask" }, make("p", {}, strong(`${sentence("help")}: `), sayQuestion(ask)));
    if (answer) {
      box.append(buttons(...ask.answers.map((word) => button(sayAnswer(ask, word), () => answer(ask, word)))));
    } else if (data.finder) {
      box.append(make("p", {}, make("a", { href: data.finder }, "Tell more signs in Find the cause")));
    }
    return box;
  }

  /** A cause with what speaks for and against it. @param {Ranked} ranked @param {Experience|null} experience */
  function sayCause(ranked, experience) {
    const { page, title } = causes[ranked.cause];
    const word = `tw-likelihood tw-likelihood--${ranked.word === "likely" ? "common" : "rare"}`;
    const name = make("a", { class: "tw-causes__name", href: page }, title);
    const item = make("li", {}, make("p", {}, name, " ", make("span", { class: word }, ranked.word)));
    for (const [stance, head] of [
      ["supports", "For: "],
      ["contradicts", "Against: "],
    ]) {
      const reasons = ranked.reasons.filter((reason) => reason.stance === stance);
      if (reasons.length) {
        item.append(make("p", {}, strong(head), reasons.map((reason) => saySign(reason.sign)).join("; ")));
      }
    }
    const times = sayTimes(experience, ranked.cause);
    if (times) item.append(make("p", { class: "tw-times" }, times));
    return item;
  }

  /**
   * The check to begin with and, where that is another one, the check of the likeliest cause.
   * @param {string[]} order
   * @param {string} likeliest
   */
  function sayChecks(order, likeliest) {
    const check = causes[order[0]];
    const first = causes[likeliest];
    if (check === first) return sayCheck("check-first", check);
    const why = check.minutes <= first.minutes ? "quick-first" : "set-first";
    const after = order.slice(1, order.indexOf(likeliest) + 1).map((id) => causes[id].title);
    const [head, act, yes, no] = sayCheck("check-first", check);
    yes.append(` ${check.say}`);
    const then = after.length > 1 ? "then-check-in-order" : "then-check";
    no.append(` ${sentence(then, { titles: after.join("; ") })}`);
    const reason = make("p", {}, sentence(why, { title: first.title }));
    return [head, reason, act, yes, no, ...sayCheck("check-then", first)];
  }

  /** @param {SentenceName} heading @param {CauseData} cause */
  const sayCheck = (heading, cause) => [
    make("h3", {}, sentence(heading), make("a", { href: cause.page }, cause.title)),
    make("p", {}, cause.check.do),
    make("p", {}, strong("Yes: "), cause.check.if_so),
    make("p", {}, strong("No: "), cause.check.if_not),
  ];

  /**
   * In the order of the command and the report: stopped and unplugged before anything is checked or turned.
   * @param {CauseData} cause
   * @param {CorrectionAdvice} said
   * @param {SealerData|null} sealer
   */
  function sayCorrection(cause, said, sealer) {
    const lock = sentence("lock");
    const list = make("ol", { class: "tw-list" });
    const step = (/** @type {(Node|string)[]} */ ...parts) => list.append(make("li", {}, ...parts));
    step(strong(cause.say));
    if (said.notes.includes(lock)) step(lock);
    if (said.how) {
      step(sentence("on-the-sealer", { sealer: sealer ? sealer.title.toLowerCase() : "sealer", how: said.how }));
    }
    // Without the words of a sealer's own record, the steps that hold for all of them.
    else for (const each of cause.correction) step(each);
    if (said.amount) step(strong(said.amount));
    for (const note of said.notes) if (note !== lock) step(note);
    step(said.retest, " ", make("a", { href: cause.retest.page }, cause.retest.title));
    const invented = sentence("figures-invented");
    return [
      make("h3", {}, sentence("correction", { title: cause.title })),
      list,
      sealer && sealer.invented && said.how ? make("p", { class: "tw-evidence" }, invented) : make("span"),
      make("p", { class: "tw-go" }, make("a", { href: cause.procedure.page }, `${cause.procedure.title}: the steps`)),
    ];
  }

  root.tinwrightBenchSaying = { none, sayAdvice, sayCan, toFails };
})(globalThis);
