// @ts-check
// <tw-find-cause>: likely causes from any mix of signs, the next question worth asking, and the correction.
// needs: bench-slip.js

(function (root) {
  "use strict";
  const bench = root.tinwrightBench;
  const { button, buttons, data, knownDefects, make, say, sayDirection, select } = bench;
  const { slip } = root.tinwrightSlip;
  const { listSigns, sentence } = root.tinwrightSeaming;
  const DIMENSIONS = Object.keys(data.directions);
  const WAYS = ["larger", "smaller", "normal", "varies"];

  /** @param {string} text */
  const upper = (text) => text.charAt(0).toUpperCase() + text.slice(1);

  /** Keeps of a stored state only what this page could have written. @param {any} kept @returns {FindState} */
  function sound(kept) {
    const among = (/** @type {any} */ value, /** @type {string[]} */ allowed) => (allowed.includes(value) ? value : "");
    const directions = kept.directions && typeof kept.directions === "object" ? kept.directions : {};
    const seen = knownDefects(kept.seen);
    return {
      seen,
      absent: knownDefects(kept.absent).filter((id) => !seen.includes(id)),
      directions: Object.fromEntries(DIMENSIONS.map((name) => [name, among(directions[name], WAYS)])),
      extent: among(kept.extent, data.extents),
      repeats: among(kept.repeats, data.repeats),
      lastChange: among(kept.lastChange, data.changes),
      sealer: typeof kept.sealer === "string" ? kept.sealer : "",
      none: kept.none === true,
    };
  }

  /** The measured directions that were told. @param {FindState} state */
  const toldDirections = (state) =>
    Object.fromEntries(Object.entries(state.directions).filter(([, direction]) => direction));

  /** @param {FindState} state */
  const isTold = (state) =>
    Boolean(
      state.seen.length ||
      state.absent.length ||
      Object.keys(toldDirections(state)).length ||
      state.extent ||
      state.repeats ||
      state.lastChange,
    );

  class TwFindCause extends HTMLElement {
    constructor() {
      super();
      this.keeper = bench.keeper("tinwright.find-cause");
      this.state = sound({});
      this.result = make("div", { class: "tw-bench__result", tabindex: "-1" });
      this.said = make("p", { class: "tw-quiet", role: "status" });
    }

    connectedCallback() {
      this.state = sound(this.keeper.read());
      this.build();
    }

    change() {
      this.keeper.write(this.state);
      this.advise();
    }

    build() {
      const stop = (/** @type {Event} */ event) => event.preventDefault();
      const form = make(
        "form",
        { class: "tw-bench__form", onsubmit: stop },
        this.seen(),
        this.measured(),
        this.where(),
      );
      const noneOfThese = () => {
        this.state.none = true;
        this.change();
      };
      const clear = () => {
        this.keeper.clear();
        this.state = sound({});
        bench.rebuild(this, () => this.build(), "fc-open");
      };
      this.replaceChildren(
        form,
        buttons(
          button("None of these", noneOfThese),
          button("Print", () => window.print()),
          button("Clear and start again", clear),
        ),
        make("p", { class: "tw-quiet" }, "What you tick stays on this device."),
        this.said,
        this.result,
      );
      this.advise();
    }

    seen() {
      const { state } = this;
      const ticks = make("details", { open: true }, make("summary", { id: "fc-open" }, "What do you see or feel?"));
      for (const defect of data.defects.filter(({ outOf }) => !outOf.length)) {
        const { id } = defect;
        const change = (/** @type {boolean} */ checked) => {
          state.seen = state.seen.filter((each) => each !== id);
          state.absent = state.absent.filter((each) => each !== id);
          if (checked) state.seen.push(id);
          state.none = false;
          this.change();
        };
        ticks.append(bench.tick(defect, state.seen.includes(id), change, { id: `fc-seen-${id}`, value: id }));
      }
      return make("fieldset", {}, make("legend", {}, "Seen or felt"), ticks);
    }

    measured() {
      const { directions } = this.state;
      const grid = make("div", { class: "tw-bench__two" });
      for (const name of DIMENSIONS) {
        /** @type {[string, string][]} */
        const choices = [["", "not measured"]];
        for (const way of WAYS) choices.push([way, sayDirection(name, way)]);
        const change = (/** @type {string} */ value) => {
          directions[name] = value;
          this.change();
        };
        grid.append(select(upper(say(name)), `fc-${name}`, choices, directions[name], change));
      }
      const head = make("summary", {}, "If you measured: how does it compare with the supplier’s sheet?");
      const details = make("details", { open: Object.values(directions).some(Boolean) }, head, grid);
      return make("fieldset", {}, make("legend", {}, "Measured"), details);
    }

    where() {
      const { state } = this;
      /** @returns {[string, string][]} */
      const choices = (/** @type {string[]} */ ids, /** @type {(id: string) => string} */ word) => [
        ["", "not known"],
        ...ids.map((id) => /** @type {[string, string]} */ ([id, word(id)])),
      ];
      /** @type {[string, string][]} */
      const sealers = [["", "not named"]];
      for (const sealer of data.sealers) sealers.push([sealer.id, sealer.title]);
      const set = (/** @type {"extent"|"repeats"|"lastChange"|"sealer"} */ name) => (/** @type {string} */ value) => {
        state[name] = value;
        this.change();
      };
      const changes = choices(data.changes, (id) => data.changeWords[id]);
      const lists = make(
        "div",
        { class: "tw-bench__two" },
        select("How far around the can", "fc-extent", choices(data.extents, say), state.extent, set("extent")),
        select("From can to can", "fc-repeats", choices(data.repeats, say), state.repeats, set("repeats")),
        select("What was changed last", "fc-change", changes, state.lastChange, set("lastChange")),
        select("Sealer", "fc-sealer", sealers, state.sealer, set("sealer")),
      );
      return make("fieldset", {}, make("legend", {}, "Where, how often, what changed"), lists);
    }

    /** Takes an answer to the question asked. @param {Ask} ask @param {string} answer */
    answer(ask, answer) {
      const { state } = this;
      if (ask.kind === "defect") (answer === "seen" ? state.seen : state.absent).push(ask.key);
      else if (ask.kind === "direction") state.directions[ask.key] = answer;
      else if (ask.kind === "last-change") state.lastChange = answer;
      else if (ask.kind === "extent") state.extent = answer;
      else state.repeats = answer;
      this.build();
      this.change();
      this.result.focus({ preventScroll: true });
      this.result.scrollIntoView({ block: "nearest" });
    }

    advise() {
      const { state } = this;
      if (state.none || !isTold(state)) {
        this.said.textContent = state.none ? "None of these: stop, hold, ask." : "";
        this.result.replaceChildren(state.none ? bench.none() : make("p", {}, "The likely causes come up here."));
        return;
      }
      const sealer = data.sealers.find((each) => each.id === state.sealer) || null;
      const signs = {
        ...bench.signsFrom(state.seen, toldDirections(state)),
        absent: state.absent,
        extent: state.extent || null,
        repeats: state.repeats || null,
        lastChange: state.lastChange || null,
      };
      const advice = bench.adviseOnSigns(signs, sealer);
      this.said.textContent = advice.first
        ? `Likeliest: ${advice.shown.length} causes to look at.`
        : "Nothing known explains this.";
      this.result.replaceChildren(
        make("h2", {}, "What it looks like"),
        slip([
          ["Sealer", sealer ? sealer.title : ""],
          ["Signs", listSigns(signs).map(bench.saySign).join("; ")],
        ]),
        this.cansFirst(),
        ...bench.sayAdvice(advice, sealer, (ask, word) => this.answer(ask, word)),
      );
    }

    cansFirst() {
      const first = make("p", {}, make("strong", {}, sentence("cans-first")), " ", bench.toFails());
      return make("div", { class: "tw-verdict tw-verdict--reject" }, first, ...bench.sayCan(this.state.seen));
    }
  }

  if (!customElements.get("tw-find-cause")) customElements.define("tw-find-cause", TwFindCause);
})(globalThis);
