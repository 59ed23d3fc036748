// @ts-check
// What both bench pages share: making elements, keeping state on the device, and saying what a seam technician would.
// needs: seaming.js elements.js

/**
 * @typedef {{cause: string, adjuster: string, minutes: number, likelihoods: Object<string, string>,
 *   effects: Object<string, string>, effectLikelihoods: Object<string, Object<string, string>>, extents: string[],
 *   repeats: string[], after: string[], title: string, page: string, say: string, direction: string,
 *   correction: string[],
 *   procedure: {title: string, page: string}, retest: {title: string, page: string},
 *   check: {do: string, if_so: string, if_not: string}}} CauseData
 * @typedef {{id: string, title: string, summary: string, page: string, measured: Object<string, string>, outOf: [string, string][],
 *   disposition: string, place: string, can: string[]}} DefectData
 * @typedef {{id: string, title: string, page: string, invented: boolean, screws: Object<string, any>}} SealerData
 */

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const data = globals.tinwrightData;
  const seaming = globals.tinwrightSeaming;
  const { make } = globals.tinwrightElements;
  // Without a prototype, so that a stored id such as "constructor" is not taken for a record.
  /** @type {Object<string, CauseData>} */
  const causes = Object.create(null);
  for (const cause of data.causes) causes[cause.cause] = cause;
  /** @type {Object<string, DefectData>} */
  const defects = Object.create(null);
  for (const defect of data.defects) defects[defect.id] = defect;

  /** State kept on this device; works without when storage is blocked. @param {string} key */
  function keeper(key) {
    return {
      /** @returns {Object<string, any>} */
      read() {
        try {
          const found = JSON.parse(localStorage.getItem(key) || "{}");
          return found && typeof found === "object" && !Array.isArray(found) ? found : {};
        } catch {
          return {};
        }
      },
      /** @param {Object<string, any>} state */
      write(state) {
        try {
          localStorage.setItem(key, JSON.stringify(state));
        } catch {
          // Storage is full or blocked: the page works, but forgets.
        }
      },
      clear() {
        try {
          localStorage.removeItem(key);
        } catch {
          // As above.
        }
      },
    };
  }

  /** Of a stored list, the defects that exist, each once. @param {any} value @returns {string[]} */
  const knownDefects = (value) =>
    Array.isArray(value) ? [...new Set(value)].filter((id) => typeof id === "string" && id in defects) : [];

  /**
   * Builds anew what is inside an element, and leaves the keyboard where it was.
   * @param {HTMLElement} host @param {() => void} build @param {string} [goTo] id of the field to go to instead
   */
  function rebuild(host, build, goTo = "") {
    const at = host.contains(document.activeElement) ? goTo || /** @type {Element} */ (document.activeElement).id : "";
    build();
    const field = at ? host.querySelector(`#${CSS.escape(at)}`) : null;
    if (field) /** @type {HTMLElement} */ (field).focus();
  }

  /** @param {string} label @param {string} id @param {[string, string][]} choices @param {string} value @param {(value: string) => void} change */
  function select(label, id, choices, value, change) {
    const box = /** @type {HTMLSelectElement} */ (make("select", { id }));
    for (const [key, text] of choices) box.append(make("option", { value: key, selected: key === value }, text));
    box.addEventListener("change", () => change(box.value));
    return make("div", {}, make("label", { for: id }, label), box);
  }

  /** @param {string} id */
  const say = (id) => data.words[id] || id.split("-").join(" ");

  /** @param {string} dimension @param {string} direction */
  function sayDirection(dimension, direction) {
    const [larger, smaller] = data.directions[dimension] || data.computedDirections[dimension];
    return { larger, smaller, normal: "as it should be", varies: "uneven" }[direction] || direction;
  }

  /** @param {{kind: string, key: string, answer: string}} sign */
  function saySign(sign) {
    if (sign.kind === "direction") return `${say(sign.key)} ${sayDirection(sign.key, sign.answer)}`;
    if (sign.kind === "defect") {
      const { outOf, title } = defects[sign.key];
      return outOf.length ? `measured: ${title}` : `seen: ${title}`;
    }
    if (sign.kind === "absent") return `not seen: ${defects[sign.key].title}`;
    if (sign.kind === "last-change") return `changed last: ${data.changeWords[sign.answer]}`;
    return say(sign.answer);
  }

  /** @param {{kind: string, key: string}} ask */
  function sayQuestion(ask) {
    if (ask.kind === "defect") return `Look for this: ${defects[ask.key].title}. ${defects[ask.key].summary} Is it there?`;
    if (ask.kind === "direction") return `Measure the ${say(ask.key)}.`;
    if (ask.kind === "repeats") return "Look at the last few cans: is it on every can, at the same place, here and there, or on one only?";
    if (ask.kind === "extent") return "Look how far round the can it goes.";
    return "What was changed last at this sealer?";
  }

  /**
   * The defect that a dimension or computed value out of its limits is; null when no record is about it.
   * @param {string} value @param {string} direction @returns {string|null}
   */
  function defectOf(value, direction) {
    for (const name of [value, seaming.constants.toldAs[value] || value]) {
      const fitting = data.defects.filter((/** @type {DefectData} */ defect) =>
        defect.outOf.some(([one, way]) => one === name && way === direction));
      fitting.sort((/** @type {DefectData} */ one, /** @type {DefectData} */ other) => one.outOf.length - other.outOf.length);
      if (fitting.length) return fitting[0].id;
    }
    return null;
  }

  /** Whether any record says what to do about a value that is out. @param {string} value @param {string} direction */
  const leadsSomewhere = (value, direction) => defectOf(value, direction) !== null
    || data.causes.some((/** @type {CauseData} */ cause) => cause.effects[value] === direction);

  /** @param {string} value @param {string} direction */
  const sayNowhere = (value, direction) =>
    `${seaming.constants.labels[value]} ${sayDirection(value, direction)}: nobody has published what causes this or how `
    + `to correct it. Turn nothing on the sealer for this alone. Ask ${data.office} and the can supplier.`;

  /**
   * What is measured or ruled out by a defect counts once, as the dimension; a value worked out from several readings
   * counts as the defect that it is. What defects tell both ways is uneven.
   * @param {string[]} seen @param {Object<string, string>} directions
   */
  function signsFrom(seen, directions) {
    /** @type {Object<string, string>} */
    const measured = {};
    for (const [name, way] of seen.flatMap((id) => (defects[id] ? Object.entries(defects[id].measured) : []))) {
      measured[name] = (measured[name] || way) === way ? way : "varies";
    }
    const told = { ...measured, ...directions };
    /** @type {Object<string, string>} */
    const read = {};
    const visible = seen.filter((id) => defects[id] && !Object.keys(defects[id].measured).length);
    for (const [name, way] of Object.entries(told)) {
      if (seaming.constants.dimensions.includes(name)) {
        read[name] = way;
        continue;
      }
      const id = defectOf(name, way);
      if (id !== null && !Object.keys(defects[id].measured).length) visible.push(id);
    }
    return { defects: [...new Set(visible)], directions: read };
  }

  const measured = Object.fromEntries(data.defects.map((/** @type {DefectData} */ defect) => [defect.id, defect.measured]));

  /**
   * Causes, the first check and the correction.
   * @param {any} signs
   * @param {SealerData|null} sealer
   * @param {Object<string, number>} outBy how far each dimension is out, in inches
   */
  function adviseOnSigns(signs, sealer, outBy = {}) {
    const experience = seaming.findExperience(data.seenHere ? data.seenHere.confirmed : [], measured, signs, sealer && sealer.id);
    const ranking = seaming.rank(data.causes, signs, experience);
    // What is worked out from readings is no question to somebody who looks.
    const asks = seaming.listQuestions(data.causes, signs)
      .filter((/** @type {any} */ ask) => ask.kind !== "defect" || !defects[ask.key].outOf.length);
    const question = seaming.findNext(data.causes, signs, asks, experience);
    const told = seaming.listSigns(signs).some(seaming.isFault);
    if (!ranking.explained) {
      return { ranking, told, shown: [], order: [], question, correction: null, first: null, experience };
    }
    const shown = ranking.causes.filter((/** @type {any} */ ranked) => ranked.word !== "unlikely");
    const order = seaming.orderChecks(shown.map((/** @type {any} */ ranked) => ({
      cause: ranked.cause, adjuster: causes[ranked.cause].adjuster, minutes: causes[ranked.cause].minutes, share: ranked.share,
    }))).map((/** @type {any} */ check) => check.cause);
    const first = causes[ranking.causes[0].cause];
    // A rating in percent is no travel of a roller.
    const amount = Math.max(0, ...Object.keys(first.effects).filter((dimension) => !seaming.isPercent(dimension)).map((dimension) => outBy[dimension] || 0));
    const screw = (sealer && sealer.screws[first.adjuster]) || null;
    const correction = seaming.correct(first.adjuster, first.direction, screw, amount || null);
    return { ranking, told, shown, order, question, correction, first: first.cause, experience };
  }

  /**
   * How often a cause was confirmed in this programme, in counts; empty when it never was.
   * @param {{own: Cases, others: Cases}|null} experience @param {string} cause
   */
  function sayTimes(experience, cause) {
    if (!experience) return "";
    const [own, others] = [experience.own, experience.others].map((rows) => {
      const counts = Object.values(rows).flatMap((row) => Object.entries(row));
      const sum = (/** @type {[string, number][]} */ some) => some.reduce((total, [, times]) => total + times, 0);
      return { times: sum(counts.filter(([id]) => id === cause)), all: sum(counts) };
    });
    const times = own.times + others.times;
    if (!times) return "";
    const here = `seen here ${times} of ${own.all + others.all} times`;
    return own.all && others.all ? `${here}, on this sealer ${own.times} of ${own.all}` : here;
  }

  /** @param {any} ranked @param {string} stance @returns {string[]} */
  function reasons(ranked, stance) {
    return ranked.reasons
      .filter((/** @type {any} */ reason) => reason.stance === stance)
      .map((/** @type {any} */ reason) => saySign(reason.sign));
  }

  /** What to do with the can, defect by defect in the order of the records. @param {string[]} seen @returns {Node[]} */
  const sayCan = (seen) => Object.keys(defects).filter((id) => seen.includes(id)).map((id) => make("div", {},
    make("p", {}, make("a", { href: `${defects[id].page}#can` }, `${defects[id].title}: what to do with the can`)),
    make("ul", { class: "tw-list" }, ...defects[id].can.map((step) => make("li", {}, step)))));

  /** The safe ending. @param {boolean} [told] was anything said of the fault itself? */
  function none(told = true) {
    return make("div", { class: "tw-verdict tw-verdict--reject" },
      make("p", { class: "tw-verdict__word" }, told ? "None of these" : "The fault itself is not told yet"),
      told ? null : make("p", {}, "Say what you see, feel or measure. ",
        "Where, how often and what was changed name no cause by themselves."),
      make("p", {}, "Stop. Seal no more. Hold every can sealed since the last good check. ",
        data.fails ? make("a", { href: data.fails }, "What to do when a check fails") : null, ". ",
        `Ask ${data.office}. When nobody can tell, throw the cans away.`));
  }

  /**
   * Says causes, check, question and correction.
   * @param {any} advice
   * @param {SealerData|null} sealer
   * @param {((ask: any, answer: string) => void)|null} answer called when a question is answered by a tap
   * @returns {Node[]}
   */
  function sayAdvice(advice, sealer, answer = null) {
    /** @type {Node[]} */
    const out = [];
    if (!advice.first) out.push(none(advice.told));
    if (advice.question) {
      const box = make("div", { class: "tw-ask" }, make("p", {}, make("strong", {}, "What would help: "), sayQuestion(advice.question)));
      if (answer) {
        box.append(make("div", { class: "tw-bench__buttons" }, ...advice.question.answers.map((/** @type {string} */ word) =>
          make("button", { type: "button", class: "tw-button", onclick: () => answer(advice.question, word) }, sayAnswer(advice.question, word)))));
      } else if (data.finder) {
        box.append(make("p", {}, make("a", { href: data.finder }, "Tell more signs in Find the cause")));
      }
      out.push(box);
    }
    if (!advice.first) return out;
    const list = make("ol", { class: "tw-causes" });
    for (const ranked of advice.shown.slice(0, 6)) {
      const cause = causes[ranked.cause];
      const item = make("li", {}, make("p", {},
        make("a", { class: "tw-causes__name", href: cause.page }, cause.title), " ",
        make("span", { class: `tw-likelihood tw-likelihood--${ranked.word === "likely" ? "common" : "rare"}` }, ranked.word)));
      for (const [stance, word] of [["supports", "For"], ["contradicts", "Against"]]) {
        const said = reasons(ranked, stance);
        if (said.length) item.append(make("p", {}, make("strong", {}, `${word}: `), said.join("; ")));
      }
      const times = sayTimes(advice.experience, ranked.cause);
      if (times) item.append(make("p", { class: "tw-times" }, times));
      list.append(item);
    }
    out.push(make("h3", {}, "Likely causes"), list);
    if (advice.experience && data.seenHere.invented) out.push(make("p", { class: "tw-evidence" }, "the counts are invented as an example"));
    const apart = advice.ranking.apart[0];
    if (apart) out.push(make("p", {}, make("strong", {}, "What tells the first two apart: "), sayApart(apart)));
    out.push(...sayChecks(advice.order, advice.first), ...sayCorrection(advice, sealer));
    return out;
  }

  /**
   * The check to begin with and, where that is another one, the check of the likeliest cause.
   * @param {string[]} order @param {string} likeliest
   * @returns {Node[]}
   */
  function sayChecks(order, likeliest) {
    const check = causes[order[0]];
    const first = causes[likeliest];
    if (check === first) return sayCheck("Check first: ", check);
    const why = check.minutes <= first.minutes ? data.quickFirst : data.setFirst;
    const after = order.slice(1, order.indexOf(likeliest) + 1).map((id) => causes[id].title);
    const [head, do_, yes, no] = sayCheck("Check first: ", check);
    yes.append(` ${check.say}`);
    no.append(` Then check${after.length > 1 ? ", in this order" : ""}: ${after.join("; ")}.`);
    const reason = make("p", {}, `${why} the likeliest cause: ${first.title}.`);
    return [head, reason, do_, yes, no, ...sayCheck("Then, for the likeliest cause: ", first)];
  }

  /** @param {string} heading @param {CauseData} cause @returns {HTMLElement[]} */
  const sayCheck = (heading, cause) => [
    make("h3", {}, heading, make("a", { href: cause.page }, cause.title)),
    make("p", {}, cause.check.do),
    make("p", {}, make("strong", {}, "Yes: "), cause.check.if_so),
    make("p", {}, make("strong", {}, "No: "), cause.check.if_not),
  ];

  /** @param {{kind: string, key: string}} ask @param {string} word */
  function sayAnswer(ask, word) {
    if (ask.kind === "direction") return sayDirection(ask.key, word);
    if (ask.kind === "last-change") return data.changeWords[word];
    return { seen: "yes, it is there", "not-seen": "no" }[word] || say(word);
  }

  const SEEN = /** @type {Object<string, string>} */ ({ "not-seen": "not known", common: "common", occasional: "seen now and then" });

  /** @param {{kind: string, key: string, first: string[], second: string[]}} apart */
  function sayApart(apart) {
    if (apart.kind === "defect") {
      const seen = (/** @type {string[]} */ words) => SEEN[words[0]] || "rare";
      return `look for this: ${defects[apart.key].title}. It is ${seen(apart.first)} with the first, ${seen(apart.second)} with the second.`;
    }
    const word = (/** @type {string} */ id) => (apart.kind === "direction" ? sayDirection(apart.key, id) : say(id));
    const [first, second] = [apart.first, apart.second].map((words) => words.map(word).join(" or "));
    return `${apart.kind === "direction" ? `the ${say(apart.key)}` : "where it shows"}: ${first} with the first, ${second} with the second.`;
  }

  /** @param {any} advice @param {SealerData|null} sealer @returns {Node[]} */
  function sayCorrection(advice, sealer) {
    const cause = causes[advice.first];
    const said = advice.correction;
    const lock = seaming.constants.lock;
    // In the order of the command and the report: nothing is checked or turned before the sealer is stopped and unplugged.
    const list = make("ol", { class: "tw-list" }, make("li", {}, make("strong", {}, cause.say)));
    if (said.notes.includes(lock)) list.append(make("li", {}, lock));
    if (said.how) list.append(make("li", {}, `On the ${sealer ? sealer.title.toLowerCase() : "sealer"}: ${said.how}`));
    // Without the words of a sealer's own record, the steps that hold for all of them.
    else list.append(...cause.correction.map((step) => make("li", {}, step)));
    if (said.amount) list.append(make("li", {}, make("strong", {}, said.amount)));
    for (const note of said.notes) if (note !== lock) list.append(make("li", {}, note));
    list.append(make("li", {}, said.retest, " ", make("a", { href: cause.retest.page }, cause.retest.title)));
    return [
      make("h3", {}, `Correction, if it is: ${cause.title}`),
      list,
      sealer && sealer.invented && said.how ? make("p", { class: "tw-evidence" }, "the sealer's figures are invented as an example") : make("span"),
      make("p", { class: "tw-go" }, make("a", { href: cause.procedure.page }, `${cause.procedure.title}: the steps`)),
    ];
  }

  globals.tinwrightBench = {
    adviseOnSigns, data, defectOf, defects, keeper, knownDefects, leadsSomewhere, make, none, rebuild, say, sayAdvice, sayCan, sayDirection,
    sayNowhere, saySign, select, signsFrom,
  };
})(globalThis);
