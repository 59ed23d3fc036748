// @ts-check
// What is packed in a PDF file (ISO 32000-1, 7.4.4): the browser's twin of credentials/pdf_streams.py.
// needs: certificate-encoding.js certificate-pdf-syntax.js
// joined: certificate-check.js

(function (root) {
  "use strict";
  const { CannotCheck, Unreadable } = root.tinwrightCertificateEncoding;
  const { damaged } = root.tinwrightPdfSyntax;

  const tooLarge = () => new Unreadable("What is attached to this PDF is far too large for a certificate.");

  /** @param {any} value @returns {number[]} a list of whole numbers that are not negative */
  function wholeNumbers(value) {
    if (!Array.isArray(value) || !value.every(Number.isInteger)) throw damaged();
    return value;
  }

  /** @param {string} letters one for each byte */
  const bytesOf = (letters) => Uint8Array.from(letters, (letter) => letter.charCodeAt(0));

  /** @param {Uint8Array} bytes @returns {string} one letter for each byte; a decoder's "latin1" is another alphabet */
  function lettersOf(bytes) {
    const parts = [];
    for (let at = 0; at < bytes.length; at += 8192) parts.push(String.fromCharCode(...bytes.subarray(at, at + 8192)));
    return parts.join("");
  }

  /** The check number at the end of what zlib packed (RFC 1950, 8.2). @param {string} text @returns {number} */
  function adler32(text) {
    let [one, two] = [1, 0];
    for (let at = 0; at < text.length; at += 1) {
      one = (one + text.charCodeAt(at)) % 65521;
      two = (two + one) % 65521;
    }
    return two * 65536 + one;
  }

  /**
   * Unpacks what zlib packed, and no more than the limit.
   * @param {string} raw @param {number} limit @returns {Promise<string>}
   */
  async function inflated(raw, limit) {
    if (typeof DecompressionStream === "undefined") {
      throw new CannotCheck("This browser is too old to unpack this PDF. Choose the .json file of the certificate.");
    }
    const parts = [];
    let size = 0;
    try {
      const packed = new Blob([bytesOf(raw)]).stream().pipeThrough(new DecompressionStream("deflate"));
      const reader = packed.getReader();
      for (let step = await reader.read(); !step.done && size <= limit; step = await reader.read()) {
        size += step.value.length;
        parts.push(lettersOf(step.value));
      }
      if (size > limit) void reader.cancel().catch(() => undefined);
    } catch {
      throw size > limit ? tooLarge() : damaged();
    }
    if (size > limit) throw tooLarge();
    const found = parts.join("");
    // Some browsers pass over what follows the packed bytes.
    const check = bytesOf(raw.slice(-4)).reduce((sum, byte) => sum * 256 + byte, 0);
    if (check !== adler32(found)) throw damaged();
    return found;
  }

  /**
   * Undoes the prediction of a packed table: each row as it is, or as differences from the one above (PNG, Up).
   * @param {string} content @param {any} parameters @returns {string}
   */
  function unpredicted(content, parameters) {
    const given = Array.isArray(parameters) && parameters.length === 1 ? parameters[0] : parameters;
    if (given === null || given === undefined) return content;
    if (!(given instanceof Map)) throw damaged();
    const of = (/** @type {string} */ name) => (given.has(name) ? given.get(name) : 1);
    const [predictor, columns] = wholeNumbers([of("/Predictor"), of("/Columns")]);
    if (predictor === 1) return content;
    const row = columns + 1;
    const rows = content.length / row;
    if (predictor < 10 || columns < 1 || columns > 64 || !Number.isInteger(rows) || given.has("/Colors")) {
      throw damaged();
    }
    let above = new Array(columns).fill(0);
    const found = [];
    for (let at = 0; at < content.length; at += row) {
      const kind = content.charCodeAt(at);
      if (kind !== 0 && kind !== 2) throw damaged();
      const here = [...content.slice(at + 1, at + row)].map((letter) => letter.charCodeAt(0));
      const before = above;
      above = kind === 0 ? here : here.map((byte, place) => (byte + before[place]) % 256);
      found.push(String.fromCharCode(...above));
    }
    return found.join("");
  }

  root.tinwrightPdfStreams = { bytesOf, inflated, lettersOf, tooLarge, unpredicted, wholeNumbers };
})(globalThis);
