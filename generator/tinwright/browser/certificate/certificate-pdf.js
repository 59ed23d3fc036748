// @ts-check
// The certificate inside a PDF, followed from the end of the file: the browser's twin of credentials/pdf_attachment.py.
// needs: certificate-encoding.js certificate-pdf-syntax.js certificate-pdf-streams.js
// joined: certificate-check.js

/**
 * @typedef {{packed: boolean, at: number, turn: number}} PdfPlace in the file; or number of a pack, and turn in it
 * @typedef {{value: any, stream: number|null}} PdfObject
 * @typedef {{text: string, heads: [number, number][]}} PdfPack
 */

(function (root) {
  "use strict";
  const { Unreadable } = root.tinwrightCertificateEncoding;
  const { Letters, Ref, damaged, matched, readValue } = root.tinwrightPdfSyntax;
  const { bytesOf, inflated, lettersOf, tooLarge, unpredicted, wholeNumbers } = root.tinwrightPdfStreams;

  const ATTACHED_NAME = "certificate.json";
  const LARGEST_ATTACHED = 100000;
  const LARGEST_TABLE = 1000000;
  const MOST_ENTRIES = 50000;
  const MOST_SECTIONS = 16;
  const MOST_OBJECTS = 64;
  const MOST_PACKS = 8;
  const MOST_PACKED = 1000;
  const END = 2048;
  const RELATIONS = ["/Data", "/Source"];

  const START = /startxref[\0\t\n\f\r ]{1,32}([0-9]{1,10})/y;
  const TABLE = /[\0\t\n\f\r ]{0,32}xref[\0\t\n\f\r ]{1,32}/y;
  const SUBSECTION = /[\0\t\n\f\r ]{0,32}([0-9]{1,8}) ([0-9]{1,8}) ?[\r\n]{1,2}/y;
  const ENTRY = /([0-9]{10}) ([0-9]{5}) ([nf])[ \r\n]{1,2}/y;
  const TRAILER = /[\0\t\n\f\r ]{0,32}trailer/y;
  const HEAD = /[\0\t\n\f\r ]{0,32}([0-9]{1,10})[\0\t\n\f\r ]{1,32}([0-9]{1,5})[\0\t\n\f\r ]{1,32}obj/y;
  const AFTER = /[\0\t\n\f\r ]{0,32}(endobj|stream\r?\n)/y;
  const STREAM_END = /[\0\t\n\f\r ]{0,4}endstream/y;
  const PACKED_HEAD = /[\0\t\n\f\r ]{0,32}([0-9]{1,10})[\0\t\n\f\r ]{1,32}([0-9]{1,10})/y;

  /** @param {any} one @param {any} other */
  const sameRef = (one, other) =>
    one instanceof Ref && other instanceof Ref && one.number === other.number && one.generation === other.generation;

  /** @param {string} row @param {number[]} widths @returns {number[]} kind, place and turn (ISO 32000-1, 7.5.8.3) */
  function fields(row, widths) {
    const ends = [widths[0], widths[0] + widths[1], row.length];
    const parts = ends.map((end, place) => row.slice(place ? ends[place - 1] : 0, end));
    const [kind, one, two] = parts.map((part) => bytesOf(part).reduce((sum, byte) => sum * 256 + byte, 0));
    return [widths[0] ? kind : 1, one, two];
  }

  /** The objects of a file, found by its tables of places, the newest first. */
  class PdfDocument {
    /** @param {string} text */
    constructor(text) {
      this.text = text;
      /** @type {Map<number, PdfPlace|null>} */
      this.places = new Map();
      this.entries = MOST_ENTRIES;
      this.objects = MOST_OBJECTS;
      /** @type {Map<number, PdfPack>} */
      this.packs = new Map();
    }

    /** @param {any} value @returns {Promise<Map<string, any>>} */
    async dictionary(value) {
      const found = await this.resolved(value);
      if (found === null || found === undefined) return new Map();
      if (!(found instanceof Map)) throw damaged();
      return found;
    }

    /** @param {any} value */
    async resolved(value) {
      return value instanceof Ref ? (await this.object(value)).value : value;
    }

    /** @param {PdfRef} ref @returns {Promise<PdfObject>} */
    async object(ref) {
      this.objects -= 1;
      if (this.objects < 0) throw damaged();
      const place = this.places.get(ref.number);
      if (!place) return { value: null, stream: null };
      if (place.packed) return { value: await this.unpacked(ref.number, place), stream: null };
      const { number, generation, ...found } = this.objectAt(place.at);
      if (number !== ref.number || generation !== ref.generation || place.turn !== generation) throw damaged();
      return found;
    }

    /**
     * Returns the values of a tree of names (ISO 32000-1, 7.9.6).
     * @param {any} node @param {number} depth @returns {Promise<any[]>}
     */
    async leaves(node, depth) {
      const found = await this.dictionary(node);
      const kids = found.has("/Kids") ? await this.resolved(found.get("/Kids")) : null;
      const names = found.has("/Names") ? await this.resolved(found.get("/Names")) : null;
      if (depth > 4 || [kids, names].some((each) => each !== null && !Array.isArray(each))) throw damaged();
      const values = (names || []).filter((/** @type {any} */ _, /** @type {number} */ place) => place % 2);
      for (const kid of kids || []) values.push(...(await this.leaves(kid, depth + 1)));
      return values;
    }

    /**
     * Returns what is in a stream, unpacked.
     * @param {PdfObject} found @param {number} limit most bytes that it may have @returns {Promise<string>}
     */
    async content({ value, stream }, limit) {
      if (stream === null || !(value instanceof Map)) throw damaged();
      let length = value.get("/Length");
      if (length instanceof Ref) {
        const place = this.places.get(length.number);
        length = !place || place.packed ? null : (await this.object(length)).value;
      }
      if (!Number.isInteger(length) || !matched(STREAM_END, this.text, stream + length)) throw damaged();
      const raw = this.text.slice(stream, stream + length);
      const packed = value.get("/Filter");
      const filters = packed === undefined ? [] : Array.isArray(packed) ? packed : [packed];
      if (!filters.length) {
        if (raw.length > limit) throw tooLarge();
        return raw;
      }
      if (filters.length > 1 || filters[0] !== "/FlateDecode") throw damaged();
      return unpredicted(await inflated(raw, limit), value.get("/DecodeParms"));
    }

    /** Reads every table of places. @returns {Promise<Map<string, any>>} the newest trailer */
    async readPlaces() {
      const end = this.text.slice(-END);
      const found = matched(START, end, Math.max(end.lastIndexOf("startxref"), 0));
      const trailers = new Map();
      let at = found ? Number(found[1]) : undefined;
      while (at !== undefined) {
        if (!Number.isInteger(at) || trailers.has(at) || trailers.size === MOST_SECTIONS) throw damaged();
        const trailer = matched(TABLE, this.text, at) ? this.table(at) : await this.packedTable(at);
        trailers.set(at, trailer);
        if (trailer.has("/Encrypt")) {
          throw new Unreadable(
            "This PDF is locked with a password. Save it without one, or choose the .json file of the certificate.",
          );
        }
        at = trailer.get("/Prev");
      }
      if (!trailers.size) throw damaged();
      return trailers.values().next().value;
    }

    /** @param {number} from @returns {Map<string, any>} */
    table(from) {
      let at = from;
      const step = (/** @type {RegExp} */ sticky) => {
        const found = matched(sticky, this.text, at);
        if (found) at += found[0].length;
        return found;
      };
      step(TABLE);
      for (let found = step(SUBSECTION); found; found = step(SUBSECTION)) {
        for (let number = Number(found[1]); number < Number(found[1]) + Number(found[2]); number += 1) {
          const entry = step(ENTRY);
          if (!entry) throw damaged();
          this.note(number, entry[3] === "n" ? { packed: false, at: Number(entry[1]), turn: Number(entry[2]) } : null);
        }
      }
      const value = step(TRAILER) ? readValue(this.text, at).value : null;
      if (!(value instanceof Map)) throw damaged();
      return value;
    }

    /** @param {number} from @returns {Promise<Map<string, any>>} */
    async packedTable(from) {
      const found = this.objectAt(from);
      const value = found.value;
      if (!(value instanceof Map) || value.get("/Type") !== "/XRef") throw damaged();
      const widths = wholeNumbers(value.get("/W"));
      const index = wholeNumbers(value.has("/Index") ? value.get("/Index") : [0, value.get("/Size")]);
      const row = widths.reduce((sum, width) => sum + width, 0);
      if (widths.length !== 3 || Math.max(...widths) > 4 || row === 0 || index.length % 2) throw damaged();
      const content = await this.content(found, LARGEST_TABLE);
      let at = 0;
      for (let part = 0; part < index.length; part += 2) {
        for (let number = index[part]; number < index[part] + index[part + 1]; number += 1) {
          if (at + row > content.length) throw damaged();
          const [kind, one, two] = fields(content.slice(at, at + row), widths);
          at += row;
          this.note(number, kind === 1 || kind === 2 ? { packed: kind === 2, at: one, turn: two } : null);
        }
      }
      return value;
    }

    /** @param {number} number @param {PdfPlace|null} place */
    note(number, place) {
      this.entries -= 1;
      if (this.entries < 0) throw damaged();
      if (!this.places.has(number)) this.places.set(number, place);
    }

    /** @param {number} at */
    objectAt(at) {
      const head = matched(HEAD, this.text, at);
      if (!head) throw damaged();
      const { value, end } = readValue(this.text, at + head[0].length);
      const after = matched(AFTER, this.text, end);
      if (!after) throw damaged();
      const stream = after[1] === "endobj" ? null : end + after[0].length;
      return { value, stream, number: Number(head[1]), generation: Number(head[2]) };
    }

    /** @param {number} number @param {PdfPlace} place */
    async unpacked(number, place) {
      const pack = this.packs.get(place.at) || (await this.pack(place.at));
      this.packs.set(place.at, pack);
      if (place.turn >= pack.heads.length || pack.heads[place.turn][0] !== number) throw damaged();
      return readValue(pack.text, pack.heads[place.turn][1]).value;
    }

    /** @param {number} number @returns {Promise<PdfPack>} */
    async pack(number) {
      const place = this.places.get(number);
      if (!place || place.packed || this.packs.size === MOST_PACKS) throw damaged();
      const found = await this.object(new Ref(number, place.turn));
      if (!(found.value instanceof Map) || found.value.get("/Type") !== "/ObjStm") throw damaged();
      const [count, first] = wholeNumbers([found.value.get("/N"), found.value.get("/First")]);
      if (count > MOST_PACKED) throw damaged();
      const text = await this.content(found, LARGEST_TABLE);
      /** @type {[number, number][]} */
      const heads = [];
      let at = 0;
      while (heads.length < count) {
        const head = matched(PACKED_HEAD, text, at);
        if (!head) throw damaged();
        at += head[0].length;
        heads.push([Number(head[1]), first + Number(head[2])]);
      }
      return { text, heads };
    }
  }

  /** @param {any} name @returns {boolean} */
  function isOurName(name) {
    if (!(name instanceof Letters)) return false;
    const wide = name.letters.startsWith("\xfe\xff");
    return (wide ? new TextDecoder("utf-16be").decode(bytesOf(name.letters)) : name.letters) === ATTACHED_NAME;
  }

  /**
   * Returns the file attached to a certificate's PDF.
   * @param {Uint8Array} bytes @returns {Promise<Uint8Array>}
   */
  async function attachedTo(bytes) {
    const pdf = new PdfDocument(lettersOf(bytes));
    const catalog = await pdf.dictionary((await pdf.readPlaces()).get("/Root"));
    const found = await pdf.leaves((await pdf.dictionary(catalog.get("/Names"))).get("/EmbeddedFiles"), 0);
    if (!found.length) {
      throw new Unreadable("No certificate is attached to this PDF. A scan or a print of one cannot be checked.");
    }
    if (found.length > 1) throw new Unreadable("Several files are attached to this PDF, and a certificate has one.");
    const spec = await pdf.dictionary(found[0]);
    const belonging = await pdf.resolved(catalog.get("/AF"));
    const names = ["/F", "/UF"].filter((key) => spec.has(key)).map((key) => spec.get(key));
    const files = await pdf.dictionary(spec.get("/EF"));
    const file = files.get("/F");
    const belongs = Array.isArray(belonging) && belonging.length === 1 && sameRef(belonging[0], found[0]);
    const isOurs = belongs && names.length && names.every(isOurName) && RELATIONS.includes(spec.get("/AFRelationship"));
    if (!isOurs || !(file instanceof Ref) || (files.has("/UF") && !sameRef(files.get("/UF"), file))) {
      throw new Unreadable("What is attached to this PDF is not a certificate of the kind issued here.");
    }
    return bytesOf(await pdf.content(await pdf.object(file), LARGEST_ATTACHED));
  }

  root.tinwrightCertificatePdf = { attachedTo };
})(globalThis);
