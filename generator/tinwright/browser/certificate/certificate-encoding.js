// @ts-check
// How what a certificate holds is written: JSON, base58, base64url. Its Python twin is in credentials/encoding.py.
// joined: certificate-check.js

(function (root) {
  "use strict";

  const BASE58 = "123456789ABCDEFGHJKLMNPQRSTUVWXYZabcdefghijkmnopqrstuvwxyz";
  const LONGEST_KEY = 200;
  const DEEPEST = 16;

  /** What is wrong with a file, in words for the reader. */
  class Unreadable extends Error {}

  /** Nothing can be told in this browser. */
  class CannotCheck extends Error {}

  const broken = () => new Unreadable("The file is damaged, or is no certificate.");

  /** @param {any} value */
  const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);

  /**
   * Writes JSON in its one canonical form (RFC 8785): members sorted by UTF-16 units, no space; texts and numbers are
   * written as JSON.stringify writes them, which is what the standard asks for.
   * @param {any} value @returns {string}
   */
  function canonical(value) {
    if (Array.isArray(value)) return `[${value.map(canonical).join(",")}]`;
    if (!isObject(value)) return JSON.stringify(value);
    return `{${Object.keys(value)
      .sort()
      .map((key) => `${JSON.stringify(key)}:${canonical(value[key])}`)
      .join(",")}}`;
  }

  /** @param {string} text @returns {Uint8Array|null} the bytes, or null when it is no base58 */
  function fromBase58(text) {
    let number = 0n;
    for (const letter of text) {
      const digit = BASE58.indexOf(letter);
      if (digit < 0) return null;
      number = number * 58n + BigInt(digit);
    }
    const bytes = [];
    for (; number > 0n; number >>= 8n) bytes.unshift(Number(number & 255n));
    const zeros = text.length - text.replace(/^1+/, "").length;
    return new Uint8Array([...new Array(zeros).fill(0), ...bytes]);
  }

  /** @param {any} text multibase, base58 @returns {Uint8Array|null} */
  const fromMultibase = (text) =>
    typeof text === "string" && text.startsWith("z") && text.length < LONGEST_KEY ? fromBase58(text.slice(1)) : null;

  /** Reads base64url without padding, written in the one way there is. @param {string} text @returns {Uint8Array} */
  function fromBase64url(text) {
    try {
      const binary = atob(text.replace(/-/g, "+").replace(/_/g, "/"));
      if (btoa(binary).replace(/\+/g, "-").replace(/\//g, "_").replace(/=+$/, "") === text) {
        return Uint8Array.from(binary, (letter) => letter.charCodeAt(0));
      }
    } catch {
      // Said below.
    }
    throw new Unreadable("The token is damaged.");
  }

  /**
   * Finds the end of a text in sound JSON.
   * @param {string} text @param {number} at place of its first quotation mark @returns {number} place after its last
   */
  function endOfText(text, at) {
    let end = at + 1;
    while (text[end] !== '"') end += text[end] === "\\" ? 2 : 1;
    return end + 1;
  }

  /**
   * Counts the members that are written in sound JSON, once through; refuses numbers that are not whole or not exact.
   * @param {string} text @returns {number}
   */
  function writtenMembers(text) {
    const next = /["\-0-9]/g;
    let members = 0;
    for (let found = next.exec(text); found; found = next.exec(text)) {
      const number = /[-+.0-9eE]*/y;
      number.lastIndex = found.index;
      if (found[0] === '"') {
        next.lastIndex = endOfText(text, found.index);
        const colon = /[ \t\r\n]*:/y;
        colon.lastIndex = next.lastIndex;
        if (colon.test(text)) members += 1;
      } else {
        const written = (number.exec(text) || [""])[0];
        if (!/^(?:0|-?[1-9][0-9]{0,14})$/.test(written)) throw broken();
        next.lastIndex = found.index + written.length;
      }
    }
    return members;
  }

  /**
   * Counts the members that are there, at every depth; refuses half letters and what lies too deep.
   * @param {any} value @param {number} depth @returns {number}
   */
  function membersOf(value, depth) {
    if (typeof value === "string") {
      // a letter of two halves is one here; a half that is left alone stands for no letter
      for (const letter of value) if (/^[\ud800-\udfff]$/.test(letter)) throw broken();
    }
    if (typeof value !== "object" || value === null) return 0;
    if (depth === 0) throw broken();
    const keys = Array.isArray(value) ? [] : Object.keys(value);
    for (const key of keys) membersOf(key, depth);
    return Object.values(value).reduce((sum, each) => sum + membersOf(each, depth - 1), keys.length);
  }

  /**
   * Reads JSON in which no member stands twice: of two, some readers show the first and some the last.
   * @param {string} text @returns {any}
   */
  function parseJson(text) {
    let found;
    try {
      found = JSON.parse(text);
    } catch {
      throw broken();
    }
    if (membersOf(found, DEEPEST) === writtenMembers(text)) return found;
    throw new Unreadable("Something stands twice in the file.");
  }

  /** @param {Uint8Array} bytes @returns {string} without blanks around it */
  function decodeText(bytes) {
    try {
      const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
      return text.replace(/^[ \t\r\n]+/, "").replace(/[ \t\r\n]+$/, "");
    } catch {
      throw new Unreadable("This is no certificate: expected a file that ends in .pdf, .json or .jwt.");
    }
  }

  root.tinwrightCertificateEncoding = {
    CannotCheck,
    Unreadable,
    canonical,
    decodeText,
    fromBase58,
    fromBase64url,
    fromMultibase,
    isObject,
    parseJson,
  };
})(globalThis);
