// @ts-check
// <tw-find-cause>: likely causes from any mix of signs, the next question worth asking, and the correction.
// needs: bench-slip.js

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const { adviseOnSigns, data, keeper, knownDefects, make, none, rebuild, say, sayAdvice, sayCan, sayDirection, saySign, select, signsFrom } = globals.tinwrightBench;
  const { slip } = globals.tinwrightSlip;
  const seaming = globals.tinwrightSeaming;
  const DIMENSIONS = Object.keys(data.directions);

  class TwFindCause extends HTMLElement {
    constructor() {
      super();
      this.keeper = keeper("tinwright.find-cause");
      /** @type {Object<string, any>} */
      this.state = {};
      /** @type {HTMLElement} */
      this.result = make("div", { class: "tw-bench__result", tabindex: "-1" });
      /** @type {HTMLElement} */
      this.said = make("p", { class: "tw-quiet", role: "status" });
    }

    connectedCallback() {
      this.state = this.sound(this.keeper.read());
      this.build();
    }

    /** Keeps of a stored state only what this page could have written. @param {Object<string, any>} kept */
    sound(kept) {
      const among = (/** @type {any} */ value, /** @type {string[]} */ allowed) => (allowed.includes(value) ? value : "");
      const directions = kept.directions && typeof kept.directions === "object" ? kept.directions : {};
      return {
        seen: knownDefects(kept.seen),
        absent: knownDefects(kept.absent).filter((/** @type {string} */ id) => !knownDefects(kept.seen).includes(id)),
        directions: Object.fromEntries(DIMENSIONS.map((name) => [name, among(directions[name], ["larger", "smaller", "normal", "varies"])])),
        extent: among(kept.extent, data.extents),
        repeats: among(kept.repeats, data.repeats),
        lastChange: among(kept.lastChange, data.changes),
        sealer: typeof kept.sealer === "string" ? kept.sealer : "",
        none: kept.none === true,
      };
    }

    change() {
      this.keeper.write(this.state);
      this.advise();
    }

    build() {
      const state = this.state;
      const form = make("form", { class: "tw-bench__form", onsubmit: (/** @type {Event} */ event) => event.preventDefault() });
      const ticks = make("details", { open: true }, make("summary", { id: "fc-open" }, "What do you see or feel?"));
      for (const defect of data.defects) {
        if (defect.outOf.length) continue;
        const box = /** @type {HTMLInputElement} */ (make("input", { type: "checkbox", id: `fc-seen-${defect.id}`, value: defect.id, checked: state.seen.includes(defect.id) }));
        box.addEventListener("change", () => {
          state.seen = state.seen.filter((/** @type {string} */ id) => id !== defect.id);
          state.absent = state.absent.filter((/** @type {string} */ id) => id !== defect.id);
          if (box.checked) state.seen.push(defect.id);
          state.none = false;
          this.change();
        });
        ticks.append(make("label", { class: "tw-tick" }, box, make("span", {}, make("strong", {}, defect.title), ` ${defect.summary}`)));
      }
      const grid = make("div", { class: "tw-bench__two" });
      for (const name of DIMENSIONS) {
        const choices = [["", "not measured"], ...["larger", "smaller", "normal", "varies"].map((word) => [word, sayDirection(name, word)])];
        grid.append(select(say(name).charAt(0).toUpperCase() + say(name).slice(1), `fc-${name}`, choices, state.directions[name], (/** @type {string} */ value) => {
          state.directions[name] = value;
          this.change();
        }));
      }
      const choices = (/** @type {string[]} */ ids) => [["", "not known"], ...ids.map((id) => [id, say(id)])];
      const changes = [["", "not known"], ...data.changes.map((/** @type {string} */ id) => [id, data.changeWords[id]])];
      const set = (/** @type {string} */ name) => (/** @type {string} */ value) => { state[name] = value; this.change(); };
      form.append(
        make("fieldset", {}, make("legend", {}, "Seen or felt"), ticks),
        make("fieldset", {}, make("legend", {}, "Measured"), make("details", { open: Object.values(state.directions).some(Boolean) }, make("summary", {}, "If you measured: how does it compare with the supplier’s sheet?"), grid)),
        make("fieldset", {}, make("legend", {}, "Where, how often, what changed"), make("div", { class: "tw-bench__two" },
          select("How far round the can", "fc-extent", choices(data.extents), state.extent, set("extent")),
          select("From can to can", "fc-repeats", choices(data.repeats), state.repeats, set("repeats")),
          select("What was changed last", "fc-change", changes, state.lastChange, set("lastChange")),
          select("Sealer", "fc-sealer", [["", "not named"], ...data.sealers.map((/** @type {any} */ sealer) => [sealer.id, sealer.title])], state.sealer, set("sealer")))));
      this.replaceChildren(form, make("div", { class: "tw-bench__buttons" },
        make("button", { type: "button", class: "tw-button", onclick: () => { this.state.none = true; this.change(); } }, "None of these"),
        make("button", { type: "button", class: "tw-button", onclick: () => window.print() }, "Print"),
        make("button", { type: "button", class: "tw-button", onclick: () => { this.keeper.clear(); this.state = this.sound({}); rebuild(this, () => this.build(), "fc-open"); } }, "Clear and start again")),
      make("p", { class: "tw-quiet" }, "What you tick stays on this device."), this.said, this.result);
      this.advise();
    }

    /** Takes an answer to the question asked. @param {any} ask @param {string} answer */
    answer(ask, answer) {
      const state = this.state;
      if (ask.kind === "defect") (answer === "seen" ? state.seen : state.absent).push(ask.key);
      else if (ask.kind === "direction") state.directions[ask.key] = answer;
      else state[ask.kind === "last-change" ? "lastChange" : ask.kind] = answer;
      this.build();
      this.change();
      this.result.focus({ preventScroll: true });
      this.result.scrollIntoView({ block: "nearest" });
    }

    advise() {
      const state = this.state;
      const directions = Object.fromEntries(Object.entries(state.directions).filter(([, direction]) => direction));
      const told = state.seen.length || state.absent.length || Object.keys(directions).length || state.extent || state.repeats || state.lastChange;
      if (state.none || !told) {
        this.said.textContent = state.none ? "None of these: stop, hold, ask." : "";
        this.result.replaceChildren(state.none ? none() : make("p", {}, "The likely causes come up here."));
        return;
      }
      const sealer = data.sealers.find((/** @type {any} */ each) => each.id === state.sealer) || null;
      const signs = { ...signsFrom(state.seen, directions), absent: state.absent, extent: state.extent || null, repeats: state.repeats || null, lastChange: state.lastChange || null };
      const advice = adviseOnSigns(signs, sealer);
      this.said.textContent = advice.first ? `Likeliest: ${advice.shown.length} causes to look at.` : "Nothing known explains this.";
      const can = make("div", { class: "tw-verdict tw-verdict--reject" }, make("p", {}, make("strong", {}, "The cans first: "),
        "stop, and hold every can sealed since the last good check. Do not taste. ",
        data.fails ? make("a", { href: data.fails }, "What to do when a check fails") : null));
      can.append(...sayCan(state.seen));
      const head = slip([["Sealer", sealer ? sealer.title : ""], ["Signs", seaming.listSigns(signs).map(saySign).join("; ")]]);
      this.result.replaceChildren(make("h2", {}, "What it looks like"), head, can, ...sayAdvice(advice, sealer, (/** @type {any} */ ask, /** @type {string} */ word) => this.answer(ask, word)));
    }
  }

  if (!customElements.get("tw-find-cause")) customElements.define("tw-find-cause", TwFindCause);
})(globalThis);
