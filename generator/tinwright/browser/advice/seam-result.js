// @ts-check
// The verdict on the page: its word, what is out and how it is called, and every value with its formula.
// needs: bench-advice.js
// joined: seam-check.js

(function (root) {
  "use strict";
  const { defectOf, defects, leadsSomewhere, make, sayCan, sayNowhere, toFails } = root.tinwrightBench;
  const { constants, formulaPlain, formulas, lengthText, sentence, spanText, valueText } = root.tinwrightSeaming;
  const INVENTED = "The specification is invented as an example. Do not judge a real can by it.";

  /** @param {string} text */
  const upper = (text) => text.charAt(0).toUpperCase() + text.slice(1);

  /** @param {string} outcome */
  const sayOutcome = (outcome) => sentence(/** @type {SentenceName} */ (`outcome-${outcome}`));

  /** @param {string} outcome */
  const sayAction = (outcome) => sentence(/** @type {SentenceName} */ (`action-${outcome}`));

  /**
   * The verdict, what to do with the can, and what was judged by.
   * @param {SeamVerdict} verdict
   * @param {SpecificationData|null} spec
   * @param {string[]} seen
   */
  function verdictBox(verdict, spec, seen) {
    const { outcome, reasons } = verdict;
    const box = make(
      "div",
      { class: `tw-verdict tw-verdict--${outcome}` },
      make("p", { class: "tw-verdict__word" }, upper(sayOutcome(outcome))),
      make("p", {}, make("strong", {}, sayAction(outcome)), " ", outcome === "accept" ? null : toFails()),
      make("ul", { class: "tw-list" }, ...reasons.map((reason) => make("li", {}, reason))),
    );
    if (spec) box.append(make("p", {}, "Judged by: ", make("a", { href: spec.page }, spec.title), "."));
    if (spec && spec.invented) box.append(make("p", { class: "tw-note" }, INVENTED));
    box.append(...sayCan(seen));
    return box;
  }

  /**
   * What the values out of their limits are called, and which of them nobody can say anything about.
   * @param {SeamVerdict} verdict
   * @param {[string, string][]} out
   */
  function names(verdict, out) {
    const ids = verdict.parts.filter((part) => part.way).map((part) => defectOf(part.dimension, part.way));
    const named = make("p", {}, "What is out is called: ");
    const links = [...new Set(ids)].flatMap((id) => (id === null ? [] : [defects[id]]));
    links.forEach(({ page, title }, place) => named.append(place ? ", " : "", make("a", { href: page }, title)));
    named.append(".");
    const nowhere = out.filter(([value, way]) => !leadsSomewhere(value, way));
    return [
      ...(links.length ? [named] : []),
      ...nowhere.map(([value, way]) => make("p", {}, make("strong", {}, sayNowhere(value, way)))),
    ];
  }

  /** @param {DimensionVerdict} part */
  function limits({ low, high, dimension, unit }) {
    if (low !== null && high !== null) return `limits ${spanText(dimension, low, high, unit)}`;
    if (low !== null) return `at least ${valueText(dimension, low, unit)}`;
    return high !== null ? `at most ${valueText(dimension, high, unit)}` : "";
  }

  /** @param {DimensionVerdict} part */
  const value = ({ dimension, least, greatest, unit }) =>
    least === null || greatest === null ? "–" : spanText(dimension, least, greatest, unit);

  /** Every value with its limits and its verdict. @param {SeamVerdict} verdict */
  function parts(verdict) {
    const list = make("ul", { class: "tw-parts" });
    for (const part of verdict.parts) {
      const outcome = `tw-parts__outcome tw-parts__outcome--${part.outcome}`;
      const head = make(
        "div",
        { class: "tw-parts__head" },
        make("span", { class: "tw-parts__name" }, constants.labels[part.dimension]),
        make("span", {}, value(part)),
        make("span", { class: "tw-quiet" }, limits(part)),
        make("span", { class: outcome }, sayOutcome(part.outcome)),
      );
      const item = make("li", {}, head);
      if (part.reason) item.append(make("p", {}, part.reason));
      if (part.formula) item.append(workedOut(part));
      list.append(item);
    }
    return list;
  }

  /** How a value was worked out; read when somebody opens it. @param {DimensionVerdict} part */
  function workedOut(part) {
    const formula = formulas[part.formula];
    const numbers = Object.fromEntries(
      part.inputs.map(([symbol, each]) => [symbol, lengthText(each, part.unit).replace(` ${part.unit}`, "")]),
    );
    const details = make("details", {}, make("summary", {}, "How this was worked out"));
    details.addEventListener("toggle", () => {
      if (details.children.length > 1) return;
      const parsed = new DOMParser().parseFromString(formula.mathml, "application/xml").documentElement;
      const variant = formula.variant ? ` (variant ${formula.variant})` : "";
      details.append(
        document.importNode(parsed, true),
        make("p", {}, `${formula.symbol} = ${formulaPlain(part.formula, numbers)}${variant}`),
        make("p", { class: "tw-evidence" }, formula.gradeText),
      );
      if (part.uncertainty) {
        const error = valueText(part.dimension, part.uncertainty, part.unit);
        details.append(make("p", {}, `Standard uncertainty of this value: ${error}.`));
      }
    });
    return details;
  }

  root.tinwrightSeamResult = { names, parts, sayAction, sayOutcome, verdictBox };
})(globalThis);
