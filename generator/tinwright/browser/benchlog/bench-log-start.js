// @ts-check
// Where a session begins: kitchen, sealer, can, lids, who supervises; and the form that corrects what was said of it.
// needs: bench-advice.js bench-log-keys.js bench-log-words.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { rebuild, select } = /** @type {LogAdvice} */ (/** @type {any} */ (root).tinwrightBench);
  const { make, today } = root.tinwrightElements;
  const { key } = root.tinwrightBenchLogKeys;
  const data = root.tinwrightBenchLogData;
  const words = root.tinwrightBenchLogWords;

  /** The time of day, such as 09:05:00. */
  function clock() {
    const now = new Date();
    return [now.getHours(), now.getMinutes(), now.getSeconds()].map((part) => String(part).padStart(2, "0")).join(":");
  }

  /** Cans that can be set up on a sealer; all when none can. @param {string} sealer @returns {[string, string][]} */
  function cansOn(sealer) {
    const sheets = Object.prototype.hasOwnProperty.call(data.setUps, sealer) ? data.setUps[sealer] : {};
    const fit = data.cans.filter(({ id }) => id in sheets);
    return (fit.length ? fit : data.cans).map(({ id, title }) => [id, title]);
  }

  class StartForm {
    /** @param {StartTask} task */
    constructor(task) {
      this.task = task;
      /** @type {Record<string, string>} */
      this.state = { date: today(), kitchen: data.kitchens[0].name, ...task.head };
      this.said = make("p", { class: "tw-log__missing", role: "alert" });
      this.head = make("h2", { class: "tw-log__head", tabindex: "-1" }, this.title());
      this.element = make("form", {
        class: "tw-log__panel",
        novalidate: true,
        onsubmit: (/** @type {Event} */ event) => {
          event.preventDefault();
          this.go();
        },
      });
      this.build();
    }

    title() {
      return this.task.isNew ? "Begin a session" : "Correct the session";
    }

    go() {
      const { date, kitchen, sealer, ...rest } = this.state;
      if (!/^\d{4}-\d{2}-\d{2}$/.test(date)) this.said.textContent = "Write the date.";
      else if (!sealer) this.said.textContent = "Choose the sealer.";
      else {
        const trimmed = Object.fromEntries(Object.entries(rest).map(([entry, value]) => [entry, value.trim()]));
        this.task.start({ date, kitchen, sealer, ...trimmed });
      }
    }

    /** @param {string} label @param {string} entry @param {string} [type] @param {number} [most] letters */
    field(label, entry, type = "text", most = 60) {
      const maxlength = type === "text" ? most : null;
      const value = this.state[entry] || "";
      const box = /** @type {HTMLInputElement} */ (
        make("input", { type, id: `bl-${entry}`, autocomplete: "off", maxlength, value })
      );
      box.addEventListener("input", () => {
        this.state[entry] = box.value;
      });
      return make("div", {}, make("label", { for: box.id }, label), box);
    }

    /** @param {string} label @param {string} entry @param {[string, string][]} choices */
    choice(label, entry, choices) {
      return select(label, `bl-${entry}`, choices, this.state[entry] || "", (value) => {
        this.state[entry] = value;
        if (entry !== "can") rebuild(this.element, () => this.build(), `bl-${entry}`);
      });
    }

    /** What only a new session is asked for. @param {LogKitchen} kitchen */
    fixed(kitchen) {
      if (!this.task.isNew) return [];
      const sealers = kitchen.sealers.map((id) => /** @type {[string, string]} */ ([id, words.sealerTitle(id)]));
      return [
        this.choice(
          "Kitchen",
          "kitchen",
          data.kitchens.map(({ name }) => [name, name]),
        ),
        this.choice("Sealer", "sealer", sealers),
        this.field("Date", "date", "date"),
      ];
    }

    build() {
      const { task, state } = this;
      const kitchen = data.kitchens.find(({ name }) => name === state.kitchen) || data.kitchens[0];
      if (task.isNew && !kitchen.sealers.includes(state.sealer)) state.sealer = kitchen.sealers[0] || "";
      const cans = cansOn(state.sealer);
      if (task.isNew && !cans.some(([id]) => id === state.can)) state.can = cans.length ? cans[0][0] : "";
      this.element.replaceChildren(
        this.head,
        ...this.fixed(kitchen),
        this.choice("Can", "can", cans),
        this.field("Lot of lids, as on the box", "lid_lot"),
        this.field("What is canned", "product"),
        this.field("Who supervises (initials or id, no name)", "supervisor", "text", 20),
        this.said,
        make(
          "div",
          { class: "tw-log__keys" },
          task.back ? key("Back", task.back, "quiet") : null,
          make("button", { type: "submit", class: "tw-log__key tw-log__key--first" }, task.isNew ? "Begin" : "Save"),
        ),
      );
    }
  }

  root.tinwrightBenchLogStart = { StartForm, cansOn, clock };
})(globalThis);
