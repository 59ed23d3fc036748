// @ts-check
// The head of a printed slip: what was told and measured, so that the verdict under it can be checked later.
// needs: bench-advice.js
// joined: bench-advice.js

(function (root) {
  "use strict";
  const { data, defects, make } = root.tinwrightBench;
  const { constants, lengthText } = root.tinwrightSeaming;
  const LINES =
    "Kitchen ______________ Can no. ______ Lot of cans __________ Lot of lids __________ Name ______________";
  const ABOUT = "This slip judges a seam, not the food: it gives no process time. When in doubt, discard or ask.";

  /** @type {TinwrightSlip["slip"]} */
  function slip(facts, table = null) {
    const list = make("dl", {});
    /** @type {[string, string][]} */
    const lines = [["Printed", root.tinwrightElements.today()], ...facts];
    for (const [name, text] of lines) {
      if (text) list.append(make("div", {}, make("dt", {}, name), make("dd", {}, text)));
    }
    const about = make("p", {}, `${data.office}. ${ABOUT}`);
    return make("div", { class: "tw-slip" }, make("p", {}, LINES), list, table, about);
  }

  /** Every reading as it was typed; null when there is none. @param {SeamState} state @param {string[]} measured */
  function readingsTable(state, measured) {
    const rows = make("tbody", {});
    state.points.forEach((point, index) => {
      if (!measured.some((name) => point[name].trim())) return;
      const cells = measured.map((name) => make("td", {}, point[name]));
      rows.append(make("tr", {}, make("th", { scope: "row" }, String(index + 1)), ...cells));
    });
    if (!rows.children.length) return null;
    const heads = ["Point", ...measured.map((name) => constants.labels[name])];
    const head = make("tr", {}, ...heads.map((text) => make("th", { scope: "col" }, text)));
    return make("table", { class: "tw-table" }, make("thead", {}, head), rows);
  }

  /** @type {TinwrightSlip["seamSlip"]} */
  function seamSlip(state, measured, spec, sealer) {
    /** @type {[string, string][]} */
    const facts = [
      ["Seam specification", spec ? spec.title : "none"],
      ["Sealer", sealer ? sealer.title : ""],
      ["Method", state.method],
      ["Unit, when none is written", state.unit],
      ["End plate", state.endPlate || (spec ? lengthText(spec.endPlate, state.unit) : "")],
      ["Body plate", state.bodyPlate || (spec ? lengthText(spec.bodyPlate, state.unit) : "")],
      ["Tightness", state.tightness],
      ["Seen or felt", state.seen.map((id) => defects[id].title).join(", ")],
    ];
    return slip(facts, readingsTable(state, measured));
  }

  root.tinwrightSlip = { seamSlip, slip };
})(globalThis);
