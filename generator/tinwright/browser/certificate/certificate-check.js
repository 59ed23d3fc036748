// @ts-check
// Is a certificate genuine? The browser's twin of credentials/verification.py: the same answers from the same files.

/**
 * @typedef {{credential: any, signedOn: any, token: string|null}} Signed
 */

(function (root) {
  "use strict";

  const CONTEXT = [
    "https://www.w3.org/ns/credentials/v2",
    "https://purl.imsglobal.org/spec/ob/v3p0/context-3.0.3.json",
  ];
  const PROOF = { type: "DataIntegrityProof", cryptosuite: "eddsa-jcs-2022", proofPurpose: "assertionMethod" };
  const PROOF_MEMBERS = [...Object.keys(PROOF), "created", "verificationMethod", "proofValue", "@context"].sort();
  const LARGEST = 5000000;
  const BASE58 = "123456789ABCDEFGHJKLMNPQRSTUVWXYZabcdefghijkmnopqrstuvwxyz";

  /** What is wrong with a file, in words for the reader. */
  class Unreadable extends Error {}

  /** Nothing can be told in this browser. */
  class CannotCheck extends Error {}

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
    typeof text === "string" && text.startsWith("z") && text.length < 200 ? fromBase58(text.slice(1)) : null;

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

  /** @param {string} text @returns {any} */
  function parseJson(text) {
    let found;
    try {
      found = JSON.parse(text);
      if (countMembers(found) === (text.match(/"(?:[^"\\]|\\.)*"(?=\s*:)/g) || []).length) return found;
    } catch {
      throw new Unreadable("The file is damaged, or is no certificate.");
    }
    throw new Unreadable("Something stands twice in the file.");
  }

  /** @param {any} value @returns {number} how many members it has, at every depth */
  function countMembers(value) {
    if (typeof value !== "object" || value === null) return 0;
    const inner = Object.values(value).reduce((sum, each) => sum + countMembers(each), 0);
    return inner + (Array.isArray(value) ? 0 : Object.keys(value).length);
  }

  /** @param {Uint8Array} bytes @returns {string} */
  function decodeText(bytes) {
    try {
      return new TextDecoder("utf-8", { fatal: true }).decode(bytes).trim();
    } catch {
      throw new Unreadable("This is no certificate: expected a file that ends in .pdf, .json or .jwt.");
    }
  }

  /**
   * Checks one Ed25519 signature (RFC 8032).
   * @param {Uint8Array|null} signature @param {Uint8Array} message @param {Uint8Array} rawKey 32 bytes
   * @returns {Promise<boolean>}
   */
  async function signatureHolds(signature, message, rawKey) {
    const subtle = root.crypto && root.crypto.subtle;
    if (!subtle) {
      throw new CannotCheck("This page was opened over plain http. Open it over https, or from a saved copy.");
    }
    let key;
    try {
      key = await subtle.importKey("raw", /** @type {BufferSource} */ (rawKey), "Ed25519", false, ["verify"]);
    } catch {
      throw new CannotCheck(
        "This browser is too old to check signatures (Ed25519). Use a newer one, or another device.",
      );
    }
    if (!signature || signature.length !== 64) return false;
    return subtle.verify(
      "Ed25519",
      key,
      /** @type {BufferSource} */ (signature),
      /** @type {BufferSource} */ (message),
    );
  }

  /** @param {CertificateKey} key @returns {Uint8Array} its 32 bytes */
  function rawKey(key) {
    const bytes = fromMultibase(key.publicKeyMultibase);
    if (!bytes || bytes.length !== 34 || bytes[0] !== 0xed || bytes[1] !== 0x01) {
      throw new CannotCheck("The office’s published keys cannot be read. Ask the office.");
    }
    return bytes.slice(2);
  }

  /** @param {CertificateKey} key */
  const keyId = (key) => `did:key:${key.publicKeyMultibase}`;
  /** @param {CertificateKey} key */
  const keyMethod = (key) => `${keyId(key)}#${key.publicKeyMultibase}`;

  /** @param {CertificateIssuer} issuer @param {any} did @returns {CertificateKey|undefined} */
  const keyOf = (issuer, did) => issuer.verificationMethod.find((key) => keyId(key) === did);

  /** @param {any[]} parts @returns {Promise<Uint8Array>} the digests of their canonical forms, one after the other */
  async function digests(parts) {
    const subtle = root.crypto && root.crypto.subtle;
    if (!subtle) {
      throw new CannotCheck("This page was opened over plain http. Open it over https, or from a saved copy.");
    }
    const found = await Promise.all(
      parts.map((part) => subtle.digest("SHA-256", new TextEncoder().encode(canonical(part)))),
    );
    return new Uint8Array(found.flatMap((digest) => [...new Uint8Array(digest)]));
  }

  /**
   * Tells whether a document is, to the letter, what this key signed (Data Integrity EdDSA Cryptosuites, 3.3).
   * @param {any} secured @param {CertificateKey} key @returns {Promise<boolean>}
   */
  async function proofHolds(secured, key) {
    const { proof, ...document } = secured;
    if (!isObject(proof) || Object.keys(proof).sort().join() !== PROOF_MEMBERS.join()) return false;
    const { proofValue, ...options } = proof;
    if (Object.entries(PROOF).some(([name, value]) => options[name] !== value)) return false;
    if (options.verificationMethod !== keyMethod(key)) return false;
    if (document["@context"] === undefined || canonical(options["@context"]) !== canonical(document["@context"])) {
      return false;
    }
    return signatureHolds(fromMultibase(proofValue), await digests([options, document]), rawKey(key));
  }

  /** Reads a token's header and claims. @param {string} token */
  function readToken(token) {
    const [header, claims] = token
      .split(".")
      .slice(0, 2)
      .map((part) => parseJson(decodeText(fromBase64url(part))));
    const ours =
      isObject(header) && isObject(claims) && ["EdDSA", "Ed25519"].includes(header.alg) && header.typ === "vc+jwt";
    if (!ours || "crit" in header) throw new Unreadable("This token is not a certificate of the kind issued here.");
    return { header, claims };
  }

  /** Tells whether a token is what this key signed (RFC 7515). @param {string} token @param {CertificateKey} key */
  async function tokenHolds(token, key) {
    const dot = token.lastIndexOf(".");
    let signature = null;
    try {
      signature = fromBase64url(token.slice(dot + 1));
    } catch {
      return false;
    }
    if (readToken(token).header.kid !== keyMethod(key)) return false;
    return signatureHolds(signature, new TextEncoder().encode(token.slice(0, dot)), rawKey(key));
  }

  /** @param {Uint8Array} bytes packed by zlib @returns {Promise<Uint8Array|null>} */
  async function unpack(bytes) {
    if (typeof DecompressionStream === "undefined") return null;
    try {
      const packed = new Blob([/** @type {BlobPart} */ (bytes)])
        .stream()
        .pipeThrough(new DecompressionStream("deflate"));
      const reader = packed.getReader();
      const parts = [];
      let size = 0;
      for (let step = await reader.read(); !step.done; step = await reader.read()) {
        parts.push(step.value);
        size += step.value.length;
        if (size > 200000) return null;
      }
      return new Uint8Array(await new Blob(parts).arrayBuffer());
    } catch {
      return null;
    }
  }

  /**
   * Finds the JSON file attached to a PDF (ISO 32000-1, 7.11.4), packed or not.
   * @param {Uint8Array} bytes @returns {Promise<string>}
   */
  async function attachedTo(bytes) {
    const text = new TextDecoder("latin1").decode(bytes); // one letter for each byte
    for (const match of text.matchAll(/(?<!end)stream\r?\n/g)) {
      const start = (match.index || 0) + match[0].length;
      const dictionary = text.slice(text.lastIndexOf(" obj", match.index), match.index);
      if (!dictionary.includes("/EmbeddedFile")) continue;
      const length = /\/Length\s+(\d+)(?!\s+\d+\s+R)/.exec(dictionary);
      const end = length ? start + Number(length[1]) : text.indexOf("endstream", start);
      const content = bytes.slice(start, end);
      const plain = /\/Filter/.test(dictionary) ? await unpack(content) : content;
      try {
        const found = plain ? decodeText(plain) : "";
        if (found.startsWith("{")) return found;
      } catch {
        // Some other file is attached, too.
      }
    }
    throw new Unreadable("No certificate is attached to this PDF. A scan or a print of one cannot be checked.");
  }

  /** @param {Uint8Array} bytes @returns {Promise<Signed>} */
  async function read(bytes) {
    if (bytes.length > LARGEST) throw new Unreadable("This file is far too large for a certificate.");
    const isPdf = bytes.length > 4 && String.fromCharCode(...bytes.slice(0, 4)) === "%PDF";
    const text = isPdf ? await attachedTo(bytes) : decodeText(bytes);
    if (text.startsWith("{")) {
      const credential = parseJson(text);
      return { credential, signedOn: isObject(credential.proof) ? credential.proof.created : null, token: null };
    }
    if (/^[\w-]+\.[\w-]+\.[\w-]+$/.test(text)) {
      const { claims } = readToken(text);
      return { credential: claims, signedOn: claims.iat, token: text };
    }
    throw new Unreadable("This is no certificate: expected a file that ends in .pdf, .json or .jwt.");
  }

  /**
   * Tells whether a key was in use at the time of a proof or a token.
   * @param {CertificateKey} key
   * @param {any} signedOn
   */
  function inUse(key, signedOn) {
    if (typeof signedOn === "number") {
      return Date.parse(key.from) <= signedOn * 1000 && (!key.until || signedOn * 1000 <= Date.parse(key.until));
    }
    return typeof signedOn === "string" && key.from <= signedOn && (!key.until || signedOn <= key.until);
  }

  /**
   * Reads the list of revoked certificates; null when the office did not sign it, so that it tells nothing.
   * @param {any} list @param {CertificateIssuer} issuer @returns {Promise<CertificateRevocations|null>}
   */
  async function readRevocations(list, issuer) {
    if (!isObject(list) || canonical(list.type) !== '["RevokedCertificates"]' || !Array.isArray(list.revoked)) {
      return null;
    }
    const key = keyOf(issuer, list.issuer);
    if (!key || key.revoked || !(await proofHolds(list, key)) || !inUse(key, list.proof.created)) return null;
    const revoked = new Map();
    for (const entry of list.revoked) {
      if (!isObject(entry) || typeof entry.id !== "string" || typeof entry.on !== "string") return null;
      revoked.set(entry.id, entry.on);
    }
    return { made: list.proof.created, revoked };
  }

  /**
   * Returns what a credential says, when it is one of the kind issued here.
   * @param {any} credential
   * @returns {CertificateShown}
   */
  function shownIn(credential) {
    const ours =
      canonical(credential["@context"]) === canonical(CONTEXT) &&
      Array.isArray(credential.type) &&
      credential.type.includes("OpenBadgeCredential");
    if (ours) {
      try {
        const subject = credential.credentialSubject;
        const day = (/** @type {string} */ text) =>
          (/^(\d{4}-\d\d-\d\d)T\d\d:\d\d:\d\d([+-]\d\d:\d\d|Z)$/.exec(text) || [])[1];
        const shown = subject.achievement.resultDescription.map((/** @type {any} */ each) => each.name);
        const found = {
          id: credential.id,
          name: subject.identifier[0].identityHash,
          shown,
          issuedOn: day(credential.validFrom),
          validUntil: day(credential.validUntil),
          office: credential.issuer.name,
          limits: credential.description,
        };
        if (
          subject.identifier.length === 1 &&
          [...Object.values({ ...found, shown: "" }), ...shown].every((each) => typeof each === "string")
        ) {
          return /** @type {CertificateShown} */ (found);
        }
      } catch {
        // Said below.
      }
    }
    throw new Unreadable("The office signed this, but it is not a certificate of the kind issued here.");
  }

  /** Writes a day as people read it. @param {string} day such as 2026-11-25 */
  function sayDay(day) {
    const [year, month, date] = day.split("-").map(Number);
    const months = "January February March April May June July August September October November December".split(" ");
    return `${months[month - 1]} ${date}, ${year}`;
  }

  /**
   * Judges a certificate whose signature holds by the list of revoked ones and by the calendar.
   * @param {CertificateShown} certificate @param {CertificateRevocations|null} revocations @param {string} today
   * @returns {[string, string]}
   */
  function standing(certificate, revocations, today) {
    const day = revocations ? revocations.revoked.get(certificate.id) : undefined;
    if (day) return ["revoked", `${certificate.office} took it back on ${sayDay(day)}. It does not count any more.`];
    if (today < certificate.issuedOn) return ["not-yet", `It is valid from ${sayDay(certificate.issuedOn)} on.`];
    if (today > certificate.validUntil) return ["expired", `It was valid until ${sayDay(certificate.validUntil)}.`];
    if (!revocations) {
      return [
        "revocation-not-checked",
        `${certificate.office} signed it, but whether it was taken back since cannot be told here. Ask the office.`,
      ];
    }
    return [
      "genuine",
      `${certificate.office} signed it, and had not taken it back when it last published its list, on ${sayDay(revocations.made.slice(0, 10))}.`,
    ];
  }

  /**
   * Judges a certificate: a JSON file, a token, or a PDF with the JSON attached.
   * @param {Uint8Array} bytes what is in the file
   * @param {{issuer: CertificateIssuer, revoked: any}} published the office as it publishes itself, and its list
   * @param {string} today the day where the reader is, such as 2026-11-25
   * @returns {Promise<CertificateVerdict>}
   */
  async function verify(bytes, published, today) {
    const issuer = published.issuer;
    try {
      const signed = await read(bytes);
      const named = signed.credential.issuer;
      const key = keyOf(issuer, isObject(named) ? named.id : null);
      if (!key) {
        return {
          outcome: "not-ours",
          reason: `It was not signed with any key that ${issuer.name} has published.`,
          certificate: null,
        };
      }
      const holds =
        signed.token === null ? await proofHolds(signed.credential, key) : await tokenHolds(signed.token, key);
      if (!holds) {
        return {
          outcome: "altered",
          reason: "It is not what was signed: something in it was changed, or it is damaged.",
          certificate: null,
        };
      }
      const certificate = shownIn(signed.credential);
      if (key.revoked || !inUse(key, signed.signedOn)) {
        return {
          outcome: "key-out-of-use",
          reason: `It was signed with a key that ${issuer.name} has given up. Ask for a new copy.`,
          certificate,
        };
      }
      const [outcome, reason] = standing(certificate, await readRevocations(published.revoked, issuer), today);
      return { outcome, reason, certificate };
    } catch (error) {
      if (error instanceof CannotCheck) return { outcome: "cannot-check", reason: error.message, certificate: null };
      if (error instanceof Unreadable) return { outcome: "unreadable", reason: error.message, certificate: null };
      if (error instanceof RangeError) {
        return { outcome: "unreadable", reason: "The file is damaged, or is no certificate.", certificate: null };
      }
      throw error;
    }
  }

  root.tinwrightCertificate = {
    canonical,
    fromBase58,
    fromMultibase,
    fromBase64url,
    signatureHolds,
    readRevocations,
    sayDay,
    verify,
  };
})(globalThis);
