// @ts-check
// Where a session begins: kitchen, sealer, can, lids, who supervises; and the days that are on this phone already.
// needs: bench-advice.js bench-log-words.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const { make, select } = globals.tinwrightBench;
  const data = globals.tinwrightBenchLogData;
  const words = globals.tinwrightBenchLogWords;

  function today() {
    const now = new Date();
    return [now.getFullYear(), now.getMonth() + 1, now.getDate()]
      .map((part) => String(part).padStart(2, "0"))
      .join("-");
  }

  function clock() {
    const now = new Date();
    return [now.getHours(), now.getMinutes(), now.getSeconds()].map((part) => String(part).padStart(2, "0")).join(":");
  }

  /** Cans that can be set up on a sealer; all when none can. @param {string} sealer @returns {[string, string][]} */
  function cansOn(sealer) {
    const sheets = Object.prototype.hasOwnProperty.call(data.setUps, sealer) ? data.setUps[sealer] : {};
    const fit = data.cans.filter((/** @type {any} */ can) => can.id in sheets);
    return (fit.length ? fit : data.cans).map((/** @type {any} */ can) => [can.id, can.title]);
  }

  /**
   * The form that begins a session, or corrects its head.
   * @param {{head: Object<string, string>, isNew: boolean, start: (head: Object<string, string>) => void, back: (() => void)|null}} task
   */
  function startForm({ head, isNew, start, back }) {
    /** @type {Object<string, string>} */
    const state = { date: today(), kitchen: data.kitchens[0].name, ...head };
    const form = make("form", {
      class: "tw-log__panel",
      novalidate: true,
      onsubmit: (/** @type {Event} */ event) => {
        event.preventDefault();
        go();
      },
    });
    const said = make("p", { class: "tw-log__missing", role: "alert" });
    const go = () => {
      if (!/^\d{4}-\d{2}-\d{2}$/.test(state.date)) said.textContent = "Write the date.";
      else if (!state.sealer) said.textContent = "Choose the sealer.";
      else start(Object.fromEntries(Object.entries(state).map(([entry, value]) => [entry, value.trim()])));
    };
    /** @param {string} label @param {string} entry @param {string} type @param {number} most */
    const field = (label, entry, type = "text", most = 60) => {
      const box = /** @type {HTMLInputElement} */ (
        make("input", {
          type,
          id: `bl-${entry}`,
          autocomplete: "off",
          maxlength: type === "text" ? most : null,
          value: state[entry] || "",
        })
      );
      box.addEventListener("input", () => {
        state[entry] = box.value;
      });
      return make("div", {}, make("label", { for: box.id }, label), box);
    };
    const build = () => {
      const kitchen = data.kitchens.find((/** @type {any} */ each) => each.name === state.kitchen) || data.kitchens[0];
      const sealers = kitchen.sealers.map((/** @type {string} */ id) => [id, words.sealerTitle(id)]);
      if (isNew && !kitchen.sealers.includes(state.sealer)) state.sealer = kitchen.sealers[0] || "";
      const cans = cansOn(state.sealer);
      if (isNew && !cans.some(([id]) => id === state.can)) state.can = cans.length ? cans[0][0] : "";
      const choose = (
        /** @type {string} */ label,
        /** @type {string} */ entry,
        /** @type {[string, string][]} */ choices,
      ) =>
        select(label, `bl-${entry}`, choices, state[entry] || "", (/** @type {string} */ value) => {
          state[entry] = value;
          if (entry !== "can") globals.tinwrightBench.rebuild(form, build, `bl-${entry}`);
        });
      const fixed = isNew
        ? [
            choose(
              "Kitchen",
              "kitchen",
              data.kitchens.map((/** @type {any} */ each) => [each.name, each.name]),
            ),
            choose("Sealer", "sealer", sealers),
            field("Date", "date", "date"),
          ]
        : [];
      form.replaceChildren(
        make("h2", { class: "tw-log__head", tabindex: "-1" }, isNew ? "Begin a session" : "Correct the session"),
        ...fixed,
        choose("Can", "can", cans),
        field("Lot of lids, as on the box", "lid_lot"),
        field("What is canned", "product"),
        field("Who supervises (initials or id, no name)", "supervisor", "text", 20),
        said,
        make(
          "div",
          { class: "tw-log__keys" },
          back
            ? make("button", { type: "button", class: "tw-log__key tw-log__key--quiet", onclick: back }, "Back")
            : null,
          make("button", { type: "submit", class: "tw-log__key tw-log__key--first" }, isNew ? "Begin" : "Save"),
        ),
      );
    };
    build();
    return form;
  }

  globals.tinwrightBenchLogStart = { cansOn, clock, startForm, today };
})(globalThis);
