// @ts-check
// A form of an examination: keeps the answers on the device, lists what is missing, and saves them as a file.
// It knows no right answer. Nothing is sent anywhere.

/**
 * @typedef {{answer: string, amiss: string}} Given what goes into the file, and what is wrong with what was entered
 */

(function () {
  "use strict";
  const NUMBER = /^[+-]?(?:\d{1,12}(?:\.\d{0,12})?|\.\d{1,12})$|^(?:\d{1,4}[ -]+)?\d{1,4}\/(?:2|4|8|16|32|64)$/;

  /** @param {string} id @returns {HTMLElement} */
  function at(id) {
    const found = document.getElementById(id);
    if (!found) throw new Error(`no element ${id}`);
    return found;
  }

  /** @type {{exam: string, form: string, code: string, digest: string}} */
  const form = JSON.parse(at("form").textContent || "");
  const kept = `tinwright-exam-${form.digest}`;
  const person = /** @type {HTMLInputElement} */ (at("person"));
  const takenOn = /** @type {HTMLInputElement} */ (at("taken-on"));
  const questions = /** @type {HTMLFieldSetElement[]} */ ([...document.querySelectorAll("fieldset[data-asks]")]);

  /** The fields of a question. @param {Element} question */
  const fields = (question) =>
    /** @type {(HTMLInputElement|HTMLSelectElement)[]} */ ([...question.querySelectorAll("input, select")]);

  /** @param {Element} question */
  const numberOf = (question) => question.getAttribute("data-number") || "";

  /** @param {HTMLInputElement|HTMLSelectElement} field */
  const isTick = (field) => field instanceof HTMLInputElement && (field.type === "radio" || field.type === "checkbox");

  /** @param {Element} question @returns {Given} */
  function given(question) {
    const asks = question.getAttribute("data-asks");
    const all = fields(question);
    if (asks === "number") {
      const answer = all[0].value.trim();
      const amiss =
        answer === "" || NUMBER.test(answer.replace("\u2212", "-"))
          ? ""
          : "expected a number such as 0.046 or 1 3/16, with digits, a point or a slash only";
      return { answer: amiss ? "" : answer, amiss };
    }
    if (asks === "order") {
      const chosen = all.map((field) => field.value).filter(Boolean);
      if (chosen.length === 0) return { answer: "", amiss: "" };
      if (new Set(chosen).size < chosen.length) return { answer: "", amiss: "one step is chosen twice" };
      return chosen.length < all.length
        ? { answer: "", amiss: "a step is still to be chosen" }
        : { answer: chosen.join(" "), amiss: "" };
    }
    if (asks === "match") {
      const chosen = all.map((field) => field.value || "-");
      const none = chosen.filter((letter) => letter === "-").length;
      if (none === all.length) return { answer: "", amiss: "" };
      return { answer: chosen.join(" "), amiss: none ? "a letter is still to be chosen" : "" };
    }
    const ticked = all.filter((field) => /** @type {HTMLInputElement} */ (field).checked);
    return { answer: ticked.map((field) => field.value).join(" "), amiss: "" };
  }

  /** What is entered, field by field. */
  const entered = () =>
    questions.map((question) =>
      fields(question).map((field) => (isTick(field) ? /** @type {HTMLInputElement} */ (field).checked : field.value)),
    );

  function keep() {
    try {
      localStorage.setItem(kept, JSON.stringify({ person: person.value, takenOn: takenOn.value, entered: entered() }));
    } catch {
      at("not-kept").hidden = false;
    }
  }

  /** @returns {{person: string, takenOn: string, entered: any[][]}|null} */
  function recalled() {
    try {
      const found = JSON.parse(localStorage.getItem(kept) || "null");
      return found &&
        typeof found.person === "string" &&
        typeof found.takenOn === "string" &&
        Array.isArray(found.entered)
        ? found
        : null;
    } catch {
      return null;
    }
  }

  function erase() {
    try {
      localStorage.removeItem(kept);
    } catch {
      // Nothing was kept.
    }
    /** @type {HTMLFormElement} */ (at("questions")).reset();
    person.value = "";
    takenOn.value = today();
    for (const id of ["kept", "review", "saved"]) at(id).hidden = true;
    for (const question of questions) say(question);
    progress();
    scrollTo(0, 0);
    person.focus();
  }

  /** @param {{person: string, takenOn: string, entered: any[][]}} found */
  function fill(found) {
    person.value = found.person;
    takenOn.value = /^\d{4}-\d\d-\d\d$/.test(found.takenOn) ? found.takenOn : today();
    questions.forEach((question, place) => {
      const values = Array.isArray(found.entered[place]) ? found.entered[place] : [];
      fields(question).forEach((field, index) => {
        if (isTick(field)) /** @type {HTMLInputElement} */ (field).checked = values[index] === true;
        else field.value = typeof values[index] === "string" ? values[index] : "";
      });
      say(question);
    });
  }

  /** The day where the device stands. */
  function today() {
    const now = new Date();
    const two = (/** @type {number} */ value) => String(value).padStart(2, "0");
    return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  }

  function progress() {
    const done = questions.filter((question) => given(question).answer).length;
    at("progress").textContent = `${done} of ${questions.length} answered`;
  }

  /** Says beside a question what is wrong with its answer. @param {Element} question */
  function say(question) {
    const place = document.getElementById(`a${numberOf(question)}-say`);
    if (!place) return;
    const { amiss } = given(question);
    const text = amiss && amiss.charAt(0).toUpperCase() + amiss.slice(1);
    if (place.textContent !== text) place.textContent = text;
  }

  /** @param {HTMLElement} section */
  function show(section) {
    section.hidden = false;
    section.focus();
    section.scrollIntoView();
  }

  /** @param {string} id @param {string} text a link to a field or a question */
  function link(id, text) {
    const made = document.createElement("a");
    made.href = `#${id}`;
    made.textContent = text;
    made.addEventListener("click", (event) => {
      event.preventDefault();
      at(id).scrollIntoView();
      at(id).focus();
    });
    return made;
  }

  /** @param {string} text @param {[string, string][]} links */
  function listed(text, links) {
    const box = document.createElement("div");
    const said = document.createElement("p");
    said.textContent = text;
    const list = document.createElement("ul");
    for (const [id, label] of links) {
      const line = document.createElement("li");
      line.append(link(id, label));
      list.append(line);
    }
    box.append(said, list);
    return box;
  }

  function lookOver() {
    const said = at("review-said");
    const missing = /** @type {[string, string][]} */ ([]);
    if (!person.value.trim()) missing.push(["person", "Your number in the register"]);
    if (!/^\d{4}-\d\d-\d\d$/.test(takenOn.value)) missing.push(["taken-on", "The date of the examination"]);
    const open = /** @type {[string, string][]} */ ([]);
    for (const question of questions) {
      const { answer, amiss } = given(question);
      if (amiss) open.push([question.id, `Question ${numberOf(question)}: ${amiss}`]);
      else if (!answer) open.push([question.id, `Question ${numberOf(question)}: not answered`]);
    }
    said.replaceChildren();
    if (missing.length) said.append(listed("These must be filled in before you can save:", missing));
    if (open.length) {
      said.append(
        listed(
          `${open.length} of ${questions.length} questions are open. You can still answer them; ` +
            "saved as it is, what is missing counts as nothing.",
          open,
        ),
      );
    } else {
      said.append(
        Object.assign(document.createElement("p"), { textContent: `All ${questions.length} questions are answered.` }),
      );
    }
    const saving = /** @type {HTMLButtonElement} */ (at("save"));
    saving.hidden = missing.length > 0;
    saving.textContent = open.length ? "Save it as it is" : "Save my answers";
    at("saved").hidden = true;
    show(at("review"));
  }

  /**
   * Writes JSON in its one canonical form (RFC 8785); here there are only objects and texts.
   * @param {any} value @returns {string}
   */
  function canonical(value) {
    if (typeof value !== "object") return JSON.stringify(value);
    return `{${Object.keys(value)
      .sort()
      .map((key) => `${JSON.stringify(key)}:${canonical(value[key])}`)
      .join(",")}}`;
  }

  /**
   * SHA-256 (FIPS 180-4). Written out, since browsers keep theirs from pages that some devices open from a stick.
   * @param {string} text @returns {string} hexadecimal digits
   */
  function sha256(text) {
    const primes = /** @type {number[]} */ ([]);
    for (let n = 2; primes.length < 64; n++) if (primes.every((p) => n % p)) primes.push(n);
    const part = (/** @type {number} */ value) => Math.floor((value - Math.floor(value)) * 2 ** 32) | 0;
    const k = primes.map((p) => part(Math.cbrt(p)));
    const h = primes.slice(0, 8).map((p) => part(Math.sqrt(p)));
    const bytes = [...new TextEncoder().encode(text)];
    const bits = bytes.length * 8;
    bytes.push(0x80);
    while (bytes.length % 64 !== 56) bytes.push(0);
    for (let shift = 56; shift >= 0; shift -= 8) bytes.push(Math.floor(bits / 2 ** shift) % 256);
    const right = (/** @type {number} */ x, /** @type {number} */ n) => (x >>> n) | (x << (32 - n));
    for (let start = 0; start < bytes.length; start += 64) {
      const w = /** @type {number[]} */ ([]);
      for (let i = 0; i < 16; i++) {
        const j = start + 4 * i;
        w.push((bytes[j] << 24) | (bytes[j + 1] << 16) | (bytes[j + 2] << 8) | bytes[j + 3]);
      }
      for (let i = 16; i < 64; i++) {
        const s0 = right(w[i - 15], 7) ^ right(w[i - 15], 18) ^ (w[i - 15] >>> 3);
        const s1 = right(w[i - 2], 17) ^ right(w[i - 2], 19) ^ (w[i - 2] >>> 10);
        w.push((w[i - 16] + s0 + w[i - 7] + s1) | 0);
      }
      let [a, b, c, d, e, f, g, last] = h;
      for (let i = 0; i < 64; i++) {
        const t1 = (last + (right(e, 6) ^ right(e, 11) ^ right(e, 25)) + ((e & f) ^ (~e & g)) + k[i] + w[i]) | 0;
        const t2 = ((right(a, 2) ^ right(a, 13) ^ right(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
        [last, g, f, e, d, c, b, a] = [g, f, e, (d + t1) | 0, c, b, a, (t1 + t2) | 0];
      }
      [a, b, c, d, e, f, g, last].forEach((value, i) => {
        h[i] = (h[i] + value) | 0;
      });
    }
    return h.map((value) => (value >>> 0).toString(16).padStart(8, "0")).join("");
  }

  function save() {
    const answers = /** @type {Object<string, string>} */ ({});
    for (const question of questions) {
      const { answer } = given(question);
      if (answer) answers[numberOf(question)] = answer;
    }
    const content = {
      tinwright: "responses",
      exam: form.exam,
      form: form.form,
      form_digest: form.digest,
      person: person.value.trim(),
      taken_on: takenOn.value,
      answers,
    };
    const text = `${JSON.stringify({ ...content, digest: sha256(canonical(content)) }, null, 1)}\n`;
    const name = `${form.exam}-${form.code}-${content.person.replace(/[^A-Za-z0-9-]+/g, "-")}.responses.json`;
    const address = URL.createObjectURL(new Blob([text], { type: "application/json" }));
    const out = document.createElement("a");
    out.href = address;
    out.download = name;
    document.body.append(out);
    out.click();
    out.remove();
    setTimeout(() => URL.revokeObjectURL(address), 60000);
    at("saved-said").textContent =
      `Your answers are saved as ${name}, where this browser puts its downloads. Give this file to the examiner.`;
    /** @type {HTMLTextAreaElement} */ (at("saved-text")).value = text;
    at("review").hidden = true;
    show(at("saved"));
  }

  /** @param {Event} event */
  function changed(event) {
    const question = event.target instanceof Element ? event.target.closest("fieldset[data-asks]") : null;
    // A number is judged when it is whole, not at each digit.
    if (question && (event.type === "change" || question.getAttribute("data-asks") !== "number")) say(question);
    at("review").hidden = true;
    at("saved").hidden = true;
    keep();
    progress();
  }

  for (const type of ["input", "change"]) document.querySelector("main")?.addEventListener(type, changed);
  at("questions").addEventListener("submit", (event) => event.preventDefault());
  for (const button of document.querySelectorAll("button[data-clear]")) {
    button.addEventListener("click", () => {
      const question = at(`q${button.getAttribute("data-clear")}`);
      for (const field of fields(question)) /** @type {HTMLInputElement} */ (field).checked = false;
      keep();
      progress();
    });
  }
  at("finish").addEventListener("click", lookOver);
  at("save").addEventListener("click", save);
  at("back").addEventListener("click", () => {
    at("review").hidden = true;
    (document.querySelector("fieldset") || document.body).scrollIntoView();
    questions[0].focus();
  });
  at("go-on").addEventListener("click", () => {
    at("kept").hidden = true;
    person.focus();
  });
  for (const id of ["start-anew", "erase"]) at(id).addEventListener("click", erase);

  takenOn.value = today();
  const found = recalled();
  if (found) {
    fill(found);
    at("kept-whose").textContent = found.person.trim()
      ? `They were entered by ${found.person.trim()}.`
      : "Nobody wrote a number with them.";
    at("kept").hidden = false;
  }
  progress();
})();
