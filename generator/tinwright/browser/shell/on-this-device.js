// @ts-check
// <tw-on-this-device>: lists what the site keeps on this device, saves it as a file, and erases it.
// needs: elements.js kept-here.js

(function (root) {
  "use strict";
  const { button, make, save } = root.tinwrightElements;
  const kept = root.tinwrightKeptHere;

  /** What the page itself calls a key, in its list of what may be kept. @param {string} key */
  function nameOf(key) {
    for (const name of document.querySelectorAll("dt[data-key]")) {
      if (key.startsWith(name.getAttribute("data-key") || key)) return name.textContent || key;
    }
    return key;
  }

  /** What must be said before all is erased. @param {{key: string}[]} texts */
  const lostWith = (texts) =>
    texts.some(({ key }) => key.startsWith("tinwright.bench-log."))
      ? "The bench log is on this device: save its file on the page Bench log first, and hand it in. "
      : "";

  /** @param {number} letters */
  const sizeOf = (letters) =>
    letters < 1000 ? `${letters} letters` : `${Math.round(letters / 1000)} thousand letters`;

  /** @param {{key: string, value: string}} text */
  function row({ key, value }) {
    const shown = value.length > 4000 ? `${value.slice(0, 4000)} …` : value;
    return make(
      "li",
      {},
      make(
        "details",
        {},
        make("summary", {}, make("span", {}, make("strong", {}, nameOf(key)), ` (${sizeOf(value.length)})`)),
        make("p", { class: "tw-kept" }, `${key} = ${shown}`),
      ),
    );
  }

  class TwOnThisDevice extends HTMLElement {
    constructor() {
      super();
      this.said = make("p", { role: "status", class: "tw-quiet" });
      this.list = make("ul", { class: "tw-links" });
      this.asked = make("div", { class: "tw-ask", hidden: "" });
      this.buttons = make("div", { class: "tw-bench__buttons" });
      this.head = make("h2", { id: "kept", tabindex: "-1" }, "What is kept now");
    }

    connectedCallback() {
      this.replaceChildren(this.head, this.list, this.buttons, this.asked, this.said);
      this.show();
    }

    async show() {
      /** @type {{key: string, value: string}[]} */
      const texts = kept.texts();
      const rows = texts.map(row);
      const database = await kept.hasDatabase();
      if (database) rows.push(make("li", {}, make("strong", {}, nameOf("indexeddb:tinwright"))));
      const files = await kept.filesCopied();
      if (files) rows.push(make("li", {}, make("strong", {}, nameOf("cache:")), `: ${files} files`));
      this.list.replaceChildren(...(rows.length ? rows : [make("li", {}, "Nothing.")]));
      const buttons = [];
      if (database || texts.some(({ key }) => key !== kept.NO_COPY)) {
        buttons.push(
          button("Save what is mine as a file", () => this.save()),
          button("Erase what is mine", () =>
            this.ask(
              `${lostWith(texts)}Erase all you typed and answered on this device? It cannot be brought back.`,
              "Yes, erase it",
              () => this.eraseMine(),
            ),
          ),
        );
      }
      if (files) {
        buttons.push(
          button("Remove the copy of the site", () =>
            this.ask(
              "Remove the copy, and keep none from now on? Without a signal the site will not open.",
              "Yes, remove it",
              () => this.removeCopy(),
            ),
          ),
        );
      }
      if (!kept.mayCopy()) buttons.push(button("Keep a copy again", () => this.keepCopy()));
      this.buttons.replaceChildren(...buttons);
    }

    /** Asks once more. @param {string} question @param {string} yes @param {() => Promise<void>} act */
    ask(question, yes, act) {
      const close = () => {
        this.asked.hidden = true;
      };
      const asker = /** @type {HTMLElement} */ (document.activeElement);
      const no = button("No, keep it", () => {
        close();
        asker.focus();
        this.said.textContent = "Nothing was changed.";
      });
      this.said.textContent = "";
      this.asked.replaceChildren(
        make("p", {}, question),
        make(
          "div",
          { class: "tw-bench__buttons" },
          button(yes, () => {
            close();
            act();
          }),
          no,
        ),
      );
      this.asked.hidden = false;
      no.focus();
    }

    /** @param {string} words */
    async tell(words) {
      await this.show();
      if (document.activeElement === document.body) this.head.focus(); // the button that was pressed is gone
      this.said.textContent = words;
    }

    async save() {
      const content = {
        address: new URL(".", location.href).href,
        saved: new Date().toISOString(),
        kept: Object.fromEntries(
          kept.texts().map((/** @type {{key: string, value: string}} */ text) => [text.key, text.value]),
        ),
        records: await kept.databaseContent(),
      };
      save("on-this-device.json", `${JSON.stringify(content, null, 1)}\n`, "application/json");
      await this.tell("Saved as on-this-device.json.");
    }

    async eraseMine() {
      kept.eraseTexts();
      await this.tell(
        (await kept.eraseDatabase()) ? "Erased." : "Close the other pages of this site, then erase again.",
      );
    }

    async removeCopy() {
      kept.letCopy(false);
      await kept.eraseCopies();
      await this.tell("The copy is removed.");
    }

    async keepCopy() {
      kept.letCopy(true);
      await this.tell("The next page you open brings the copy back.");
    }
  }

  customElements.define("tw-on-this-device", TwOnThisDevice);
})(globalThis);
