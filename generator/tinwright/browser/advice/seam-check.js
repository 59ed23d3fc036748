// @ts-check
// <tw-seam-check>: readings in; verdict, drawing, causes and correction out. Nothing leaves the device.
// needs: bench-slip.js seam-picture.js seam-entry.js seam-result.js

(function (root) {
  "use strict";
  const bench = root.tinwrightBench;
  const { button, buttons, data, defects, make } = bench;
  const { seamSlip } = root.tinwrightSlip;
  const { MEASURED, formOf, readSeam, sound } = root.tinwrightSeamEntry;
  const { names, parts, sayAction, sayOutcome, verdictBox } = root.tinwrightSeamResult;
  const { beside } = root.tinwrightPicture;
  const seaming = root.tinwrightSeaming;
  const UNREAD = "A box could not be read. Put that right before you accept this can.";
  const MM_PER_IN = 25.4;

  class TwSeamCheck extends HTMLElement {
    constructor() {
      super();
      this.keeper = bench.keeper("tinwright.seam-check");
      this.state = sound({});
      this.judged = make("div", { class: "tw-bench__judged" });
      this.advice = make("div", { class: "tw-bench__advice" });
      this.result = make("div", { class: "tw-bench__result" }, this.judged, this.advice);
      this.frame = 0;
      this.said = make("p", { class: "tw-quiet", role: "status" });
      /** Is there a box that cannot be read? */
      this.unread = false;
      /** What is to be said of the verdict once a reading is finished. */
      this.toSay = "";
      this.addEventListener("change", ({ target }) => this.speak(target));
    }

    connectedCallback() {
      this.state = sound(this.keeper.read());
      this.build();
    }

    change() {
      this.keeper.write(this.state);
      this.judge();
    }

    /** Shows a changed state. @param {string} [goTo] id of the field to go to */
    renew(goTo) {
      this.keeper.write(this.state);
      bench.rebuild(this, () => this.build(), goTo);
      this.speak(goTo ? this.querySelector(`#${CSS.escape(goTo)}`) : null);
    }

    /**
     * Says what is new to those who listen: not at every key, but when a box is finished.
     * @param {EventTarget|null} box the box, which may have a question beside it
     */
    speak(box) {
      const place = box instanceof Element ? this.querySelector(`#${CSS.escape(box.id)}-ask .tw-ask span`) : null;
      const words = [place ? place.textContent : "", this.toSay].filter(Boolean).join(" ");
      if (this.said.textContent !== words) this.said.textContent = words;
    }

    build() {
      const clear = () => {
        this.keeper.clear();
        this.state = sound({});
        bench.rebuild(this, () => this.build(), "sc-spec");
      };
      const log = { class: "tw-button", href: `${data.benchLog}#measured-check` };
      this.replaceChildren(
        formOf(this.state, this),
        buttons(
          button("Print this slip", () => window.print()),
          button("Clear and start again", clear),
          data.benchLog ? make("a", log, "Write it in the bench log") : null,
        ),
        make("p", { class: "tw-quiet" }, "What you type stays on this device."),
        this.said,
        this.result,
      );
      this.judge();
    }

    judge() {
      const { state } = this;
      const spec = data.specifications.find((each) => each.id === state.specification) || null;
      const sealer = data.sealers.find((each) => each.id === state.sealer) || null;
      const seam = readSeam(state, this, spec);
      cancelAnimationFrame(this.frame);
      if (!seam.readings.length && !state.seen.length) {
        this.toSay = "";
        this.advice.replaceChildren();
        this.judged.replaceChildren(make("p", {}, "The verdict and the drawing come up here as you type."));
        return;
      }
      const verdict = this.verdictOn(seam, spec);
      this.toSay = `Verdict: ${sayOutcome(verdict.outcome)}. ${sayAction(verdict.outcome)}`;
      const limits = spec ? spec.limits : { overlapVariant: data.variant };
      const asked = seaming.findQuestions(seam, limits, data.uncertainties);
      const out = Object.entries(seaming.findDirections(verdict)).filter(([, direction]) => direction !== "normal");
      this.judged.replaceChildren(
        make("h2", {}, "Verdict"),
        seamSlip(state, MEASURED, spec, sealer),
        verdictBox(verdict, spec, state.seen),
        ...asked.map((question) => this.question(question, seam.unit || "in")),
        ...names(verdict, out),
        beside(seam, verdict),
        parts(verdict),
      );
      if (state.seen.length || out.length) this.advise(verdict, sealer, asked.length > 0);
      else this.advice.replaceChildren();
    }

    /** @param {SeamReadings} seam @param {SpecificationData|null} spec @returns {SeamVerdict} */
    verdictOn(seam, spec) {
      const seen = this.state.seen.map((id) => {
        const { title, disposition } = defects[id];
        return { defect: id, title, disposition };
      });
      let verdict = seaming.judge(seam, spec ? spec.limits : null, data.uncertainties, seen, data.variant);
      verdict = seaming.holdUnconfirmed(verdict, spec ? spec.unconfirmed : "");
      // What cannot be read may be the very reading that is out.
      return seaming.holdUnconfirmed(verdict, this.unread ? UNREAD : "");
    }

    /**
     * The verdict has this frame of the screen to itself; the causes have the next.
     * @param {SeamVerdict} verdict
     * @param {SealerData|null} sealer
     * @param {boolean} asked whether a question is open
     */
    advise(verdict, sealer, asked) {
      const signs = bench.signsFrom(this.state.seen, seaming.findDirections(verdict));
      const outBy = seaming.findAmounts(verdict);
      const first = seaming.sentence("questions-first");
      this.frame = requestAnimationFrame(() =>
        this.advice.replaceChildren(
          ...(asked ? [make("p", {}, make("strong", {}, first))] : []),
          ...bench.sayAdvice(bench.adviseOnSigns(signs, sealer, outBy), sealer),
        ),
      );
    }

    /** A question about a reading; one tap puts a likely slip right. @param {Question} question @param {string} unit */
    question({ kind, dimension, point, text }, unit) {
      const { state } = this;
      const ask = make("div", { class: "tw-ask" }, make("span", {}, text));
      if (kind === "unit" && unit === state.unit) {
        const [other, words] = unit === "mm" ? ["in", "inches"] : ["mm", "millimeters"];
        const take = () => {
          state.unit = other;
          this.renew("sc-unit");
        };
        ask.append(" ", button(`Yes: ${words}`, take));
      }
      const row = point ? state.points[Number(point) - 1] : null;
      const meant = row ? this.meant(kind, row[dimension]) : "";
      if (row && meant) {
        const take = () => {
          row[dimension] = meant;
          this.renew(`sc-${Number(point) - 1}-${dimension}`);
        };
        ask.append(" ", button(`Yes: ${meant}`, take));
      }
      return ask;
    }

    /**
     * What was probably meant by a slip; empty when it cannot be guessed.
     * @param {string} kind
     * @param {string} typed
     */
    meant(kind, typed) {
      if (kind !== "millimeters" && kind !== "decimal-point") return "";
      const { unit, value } = seaming.parseReading(typed, this.state.unit);
      if (value === null) return "";
      if (kind === "millimeters") return seaming.lengthText(value / MM_PER_IN, "in");
      return seaming.lengthText(value < seaming.constants.leastIn ? value * 10 : value / 10, unit);
    }
  }

  if (!customElements.get("tw-seam-check")) customElements.define("tw-seam-check", TwSeamCheck);
})(globalThis);
