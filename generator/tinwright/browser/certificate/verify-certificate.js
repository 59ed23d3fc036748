// @ts-check
// <tw-verify-certificate>: choose, drop or paste a certificate, and read in plain words whether it is genuine.
// needs: certificate-check.js elements.js

(function (root) {
  "use strict";
  const { make, today } = root.tinwrightElements;
  const { LARGEST, readRevocations, sayDay, verify } = root.tinwrightCertificate;
  const found = root.tinwrightCertificates;
  if (!found) return; // an office without a key has nothing to check by
  const published = found;

  /** How each outcome is said: its word, and how the box looks. @type {Object<string, [string, string]>} */
  const WORDS = {
    genuine: ["Genuine", "genuine"],
    "revocation-not-checked": ["Genuine, but maybe taken back", "measure-again"],
    expired: ["Genuine, but expired", "measure-again"],
    "not-yet": ["Genuine, but not valid yet", "measure-again"],
    revoked: ["Revoked", "reject"],
    "key-out-of-use": ["Not to be trusted any more", "reject"],
    altered: ["Altered", "reject"],
    "not-ours": ["Not ours", "reject"],
    unreadable: ["No certificate found", "reject"],
    "cannot-check": ["Cannot be checked here", "measure-again"],
  };
  const NUMBER = /^#([0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})$/;

  class TwVerifyCertificate extends HTMLElement {
    constructor() {
      super();
      this.told = make("div", { role: "status" });
      this.rest = make("div", {});
      this.came = make("div", {});
      this.box = /** @type {HTMLTextAreaElement} */ (
        make("textarea", { id: "vc-text", rows: "4", spellcheck: "false", autocomplete: "off" })
      );
      this.turn = 0;
    }

    connectedCallback() {
      const file = /** @type {HTMLInputElement} */ (
        make("input", { type: "file", id: "vc-file", accept: ".pdf,.json,.jwt,.txt" })
      );
      file.addEventListener("change", () => {
        if (file.files && file.files[0]) void this.open(file.files[0]);
      });
      const button = make("button", { type: "button", class: "tw-button" }, "Check this text");
      button.addEventListener("click", () => void this.check(new TextEncoder().encode(this.box.value), "the text"));
      const drop = make(
        "div",
        { class: "tw-choose" },
        make("label", { for: "vc-file" }, "The certificate’s file: .pdf, .json or .jwt"),
        file,
        make("p", { class: "tw-quiet" }, "Or drop the file anywhere in this box."),
        make(
          "details",
          {},
          make("summary", {}, "Or paste its text"),
          make("label", { for: "vc-text" }, "Text of the certificate"),
          this.box,
          button,
        ),
      );
      drop.addEventListener("dragover", (event) => {
        event.preventDefault();
        drop.classList.add("tw-choose--over");
      });
      drop.addEventListener("dragleave", () => drop.classList.remove("tw-choose--over"));
      drop.addEventListener("drop", (event) => {
        event.preventDefault();
        drop.classList.remove("tw-choose--over");
        const dropped = event.dataTransfer && event.dataTransfer.files[0];
        if (dropped) void this.open(dropped);
      });
      this.replaceChildren(this.came, drop, this.told, this.rest);
      root.addEventListener("hashchange", () => void this.sayNumber());
      void this.sayNumber();
    }

    /** The certificate's number that the code on paper brought along. @returns {string} */
    number() {
      return (NUMBER.exec(root.location.hash) || ["", ""])[1];
    }

    /** Says at once whether that number is on the list of revoked certificates. */
    async sayNumber() {
      const number = this.number();
      this.came.replaceChildren();
      if (!number) return;
      const list = await readRevocations(published.revoked, published.issuer).catch(() => null);
      const day = list ? list.revoked.get(`urn:uuid:${number}`) : undefined;
      const said = make("div", { class: `tw-verdict tw-verdict--${day ? "reject" : "measure-again"}` });
      said.append(make("p", {}, "You came by the code on certificate number ", make("code", {}, number), "."));
      if (day) said.append(make("p", {}, make("strong", {}, `It was revoked on ${sayDay(day)}.`)));
      else if (list) {
        said.append(
          make(
            "p",
            {},
            `It is not on the list of revoked certificates of ${sayDay(list.made.slice(0, 10))}. ` +
              "That alone does not make it genuine: anybody can print a code. Choose its file to check it.",
          ),
        );
      } else said.append(make("p", {}, "Choose its file to check it."));
      this.came.replaceChildren(said);
    }

    /** @param {File} file */
    async open(file) {
      // one byte too many is enough to refuse it, and a film need not be read for that
      await this.check(new Uint8Array(await file.slice(0, LARGEST + 1).arrayBuffer()), file.name);
    }

    /** @param {Uint8Array} bytes @param {string} name */
    async check(bytes, name) {
      const turn = ++this.turn;
      this.told.replaceChildren(make("p", {}, `Checking ${name} …`));
      this.rest.replaceChildren();
      const verdict = await verify(bytes, published, today());
      if (turn !== this.turn) return;
      this.told.replaceChildren(this.sayVerdict(verdict, name));
      if (verdict.certificate) this.rest.replaceChildren(...this.sayCertificate(verdict.certificate));
    }

    /**
     * The answer in a few words, which a screen reader speaks.
     * @param {CertificateVerdict} verdict
     * @param {string} name
     */
    sayVerdict(verdict, name) {
      const [word, look] = WORDS[verdict.outcome];
      const box = make(
        "div",
        { class: `tw-verdict tw-verdict--${look}` },
        make("p", { class: "tw-verdict__word" }, word),
      );
      const certificate = verdict.certificate;
      if (certificate) {
        box.append(make("p", {}, "Certificate of ", make("strong", {}, certificate.name), ". ", verdict.reason));
      } else {
        box.append(
          make("p", {}, verdict.reason),
          make("p", { class: "tw-quiet" }, `Looked at: ${name}. When in doubt, ask ${published.issuer.name}.`),
        );
      }
      if (certificate && this.number() && certificate.id !== `urn:uuid:${this.number()}`) {
        box.append(
          make(
            "p",
            {},
            make(
              "strong",
              {},
              "This is another certificate than the one whose code you followed. Compare the numbers.",
            ),
          ),
        );
      }
      return box;
    }

    /** @param {CertificateShown} certificate @returns {Node[]} */
    sayCertificate(certificate) {
      const rows = [
        ["Name", certificate.name],
        ["Shown", make("ul", {}, ...certificate.shown.map((each) => make("li", {}, each)))],
        ["Issued by", certificate.office],
        ["Issued", sayDay(certificate.issuedOn)],
        ["Valid until", sayDay(certificate.validUntil)],
        ["Number", make("code", {}, certificate.id.replace("urn:uuid:", ""))],
      ];
      const list = make(
        "dl",
        { class: "tw-certificate" },
        ...rows.flatMap(([title, value]) => [make("dt", {}, title), make("dd", {}, value)]),
      );
      const limits = make("p", { class: "tw-note" }, make("strong", {}, "What it is not. "), certificate.limits);
      return [make("h2", {}, "What the certificate says"), list, limits];
    }
  }

  if (!customElements.get("tw-verify-certificate")) customElements.define("tw-verify-certificate", TwVerifyCertificate);
})(globalThis);
