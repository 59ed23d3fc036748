// @ts-check
// Values in the text of a PDF file (ISO 32000-1, 7.2 and 7.3): the browser's twin of credentials/pdf_syntax.py.
// needs: certificate-encoding.js
// joined: certificate-check.js

(function (root) {
  "use strict";
  const { Unreadable } = root.tinwrightCertificateEncoding;

  const LONGEST_VALUE = 16384;
  const DEEPEST = 16;
  const SPACE = /(?:[\0\t\n\f\r ]|%[^\r\n]*)*/y;
  const NAME = /\/[^\0\t\n\f\r ()<>[\]{}/%]*/y;
  const WORD = /[^\0\t\n\f\r ()<>[\]{}/%]+/y;
  const NUMBER = /^[+-]?(?:[0-9]{1,15}(?:\.[0-9]*)?|\.[0-9]+)$/;
  const INTEGER = /^[0-9]{1,10}$/;
  const REST_OF_REF = /[\0\t\n\f\r ]+([0-9]{1,5})[\0\t\n\f\r ]+R(?![^\0\t\n\f\r ()<>[\]{}/%])/y;
  const PLAIN_LETTERS = /[^()\\]*(?:\\[\s\S][^()\\]*)*/y;
  const HEX = /<([0-9A-Fa-f\0\t\n\f\r ]*)>/y;
  const ESCAPE = /\\([0-7]{1,3}|\r\n|[\s\S])/g;
  const ESCAPED = new Map(
    Object.entries({ n: "\n", r: "\r", t: "\t", b: "\b", f: "\f", "\r": "", "\n": "", "\r\n": "" }),
  );
  const WORDS = new Map(Object.entries({ true: true, false: false, null: null }));

  /** Where another object of the file is named. */
  class Ref {
    /** @param {number} number @param {number} generation */
    constructor(number, generation) {
      this.number = number;
      this.generation = generation;
    }
  }

  /** A string, one letter for each of its bytes. */
  class Letters {
    /** @param {string} letters */
    constructor(letters) {
      this.letters = letters;
    }
  }

  const damaged = () => new Unreadable("This PDF is damaged, or written in a way that is not read here.");

  /** Matches at one place only. @param {RegExp} sticky @param {string} text @param {number} at */
  function matched(sticky, text, at) {
    sticky.lastIndex = at;
    return sticky.exec(text);
  }

  /** @param {string} letters of an escape */
  function unescaped(letters) {
    if (/^[0-7]/.test(letters)) return String.fromCharCode(parseInt(letters, 8) % 256);
    const meant = ESCAPED.get(letters);
    return meant === undefined ? letters : meant;
  }

  /** @param {string} digits of a string, two for each byte */
  function fromHex(digits) {
    const pairs = `${digits}${digits.length % 2 ? "0" : ""}`.match(/../g) || [];
    return new Letters(pairs.map((pair) => String.fromCharCode(parseInt(pair, 16))).join(""));
  }

  class Reader {
    /** @param {string} text */
    constructor(text) {
      this.text = text;
      this.at = 0;
    }

    /** @param {number} depth @returns {any} */
    value(depth) {
      if (depth > DEEPEST) throw damaged();
      this.match(SPACE);
      if (this.take("<<")) return this.dictionary(depth);
      if (this.take("[")) return this.list(depth);
      if (this.take("(")) return this.literal();
      const hex = this.match(HEX);
      if (hex) return fromHex(hex[1].replace(/[\0\t\n\f\r ]/g, ""));
      const name = this.match(NAME);
      return name ? name[0] : this.word();
    }

    /** Moves past what matches here. @param {RegExp} sticky */
    match(sticky) {
      const found = matched(sticky, this.text, this.at);
      if (found) this.at += found[0].length;
      return found;
    }

    /** @param {string} mark */
    take(mark) {
      if (!this.text.startsWith(mark, this.at)) return false;
      this.at += mark.length;
      return true;
    }

    /** @param {number} depth */
    dictionary(depth) {
      const found = new Map();
      for (this.match(SPACE); !this.take(">>"); this.match(SPACE)) {
        const key = this.match(NAME);
        if (!key || found.has(key[0])) throw damaged();
        const value = this.value(depth + 1);
        if (value !== null) found.set(key[0], value);
      }
      return found;
    }

    /** @param {number} depth */
    list(depth) {
      const found = [];
      for (this.match(SPACE); !this.take("]"); this.match(SPACE)) found.push(this.value(depth + 1));
      return found;
    }

    literal() {
      const start = this.at;
      let open = 1;
      while (open) {
        this.match(PLAIN_LETTERS);
        if (this.take("(")) open += 1;
        else if (this.take(")")) open -= 1;
        else throw damaged();
      }
      return new Letters(this.text.slice(start, this.at - 1).replace(ESCAPE, (_, letters) => unescaped(letters)));
    }

    word() {
      const found = this.match(WORD);
      if (!found) throw damaged();
      const word = found[0];
      const said = WORDS.get(word);
      if (said !== undefined) return said;
      if (!NUMBER.test(word)) throw damaged();
      if (!INTEGER.test(word)) return NaN;
      const rest = this.match(REST_OF_REF);
      return rest ? new Ref(Number(word), Number(rest[1])) : Number(word);
    }
  }

  /**
   * Reads one value of a file's text: a name as a text with a slash, a dictionary as a Map without what is null.
   * @param {string} text one letter for each byte @param {number} at
   * @returns {{value: any, end: number}}
   */
  function readValue(text, at) {
    const reader = new Reader(text.slice(at, at + LONGEST_VALUE));
    const value = reader.value(0);
    return { value, end: at + reader.at };
  }

  root.tinwrightPdfSyntax = { Letters, Ref, damaged, matched, readValue };
})(globalThis);
