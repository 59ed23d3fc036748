// @ts-check
// The head of a printed slip: what was told and measured, so that the verdict under it can be checked later.
// needs: bench-advice.js
// joined: bench-advice.js

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const { data, defects, make } = globals.tinwrightBench;
  const seaming = globals.tinwrightSeaming;
  const LINES = "Kitchen ______________ Can no. ______ Lot of cans __________ Lot of lids __________ Name ______________";

  /** @param {[string, string][]} facts those without a text are left out @param {Node|null} [table] @returns {HTMLElement} */
  function slip(facts, table = null) {
    const now = new Date();
    const day = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
    const list = make("dl", {});
    for (const [name, text] of [["Printed", day], ...facts]) if (text) list.append(make("div", {}, make("dt", {}, name), make("dd", {}, text)));
    return make("div", { class: "tw-slip" }, make("p", {}, LINES), list, table,
      make("p", {}, `${data.office}. This slip judges a seam, not the food: it gives no process time. When in doubt, discard or ask.`));
  }

  /** The head of a seam check's slip, with every reading as it was typed. @param {any} state @param {string[]} measured @param {any} spec @param {any} sealer */
  function seamSlip(state, measured, spec, sealer) {
    const heads = ["Point", ...measured.map((name) => seaming.constants.labels[name])];
    const rows = make("tbody", {});
    state.points.forEach((/** @type {any} */ point, /** @type {number} */ index) => {
      if (!measured.some((name) => point[name].trim())) return;
      rows.append(make("tr", {}, make("th", { scope: "row" }, String(index + 1)), ...measured.map((name) => make("td", {}, point[name]))));
    });
    const table = make("table", { class: "tw-table" },
      make("thead", {}, make("tr", {}, ...heads.map((head) => make("th", { scope: "col" }, head)))), rows);
    return slip([
      ["Seam specification", spec ? spec.title : "none"], ["Sealer", sealer ? sealer.title : ""],
      ["Method", state.method], ["Unit, when none is written", state.unit],
      ["End plate", state.endPlate || (spec ? seaming.lengthText(spec.endPlate, state.unit) : "")],
      ["Body plate", state.bodyPlate || (spec ? seaming.lengthText(spec.bodyPlate, state.unit) : "")],
      ["Tightness", state.tightness], ["Seen or felt", state.seen.map((/** @type {string} */ id) => defects[id].title).join(", ")],
    ], rows.children.length ? table : null);
  }

  globals.tinwrightSlip = { seamSlip, slip };
})(globalThis);
