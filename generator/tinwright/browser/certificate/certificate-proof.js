// @ts-check
// Does a signature hold, and was its key in use? The browser's twin of credentials/proof.py, and what reads the list of
// revoked certificates as revocation.py does.
// needs: certificate-encoding.js
// joined: certificate-check.js

(function (root) {
  "use strict";
  const { CannotCheck, Unreadable, canonical, decodeText, fromBase64url, fromMultibase, isObject, parseJson } =
    root.tinwrightCertificateEncoding;

  const PROOF = { type: "DataIntegrityProof", cryptosuite: "eddsa-jcs-2022", proofPurpose: "assertionMethod" };
  const PROOF_MEMBERS = [...Object.keys(PROOF), "created", "verificationMethod", "proofValue", "@context"].sort();
  /** In seconds since 1970: what is later has no four digits. */
  const YEAR_10000 = 253402300800;
  const URN = /^urn:uuid:[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

  /**
   * Checks one Ed25519 signature (RFC 8032).
   * @param {Uint8Array|null} signature @param {Uint8Array} message @param {Uint8Array} raw 32 bytes
   * @returns {Promise<boolean>}
   */
  async function signatureHolds(signature, message, raw) {
    const subtle = root.crypto && root.crypto.subtle;
    if (!subtle) {
      throw new CannotCheck("This page was opened over plain http. Open it over https, or from a saved copy.");
    }
    let key;
    try {
      key = await subtle.importKey("raw", /** @type {BufferSource} */ (raw), "Ed25519", false, ["verify"]);
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
    let signature;
    try {
      signature = fromBase64url(token.slice(dot + 1));
    } catch {
      return false;
    }
    if (readToken(token).header.kid !== keyMethod(key)) return false;
    return signatureHolds(signature, new TextEncoder().encode(token.slice(0, dot)), rawKey(key));
  }

  /** Tells whether a text names a day of the calendar. @param {any} text */
  function isDay(text) {
    if (typeof text !== "string" || !/^[0-9]{4}-[0-9]{2}-[0-9]{2}$/.test(text) || text < "0001") return false;
    const at = new Date(`${text}T00:00:00Z`);
    return !Number.isNaN(at.getTime()) && at.toISOString().startsWith(text);
  }

  /** Tells whether a text is a time stamp of whole seconds in UTC. @param {any} text */
  const isInstant = (text) =>
    typeof text === "string" &&
    /^[-0-9]{10}T(?:[01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9]Z$/.test(text) &&
    isDay(text.slice(0, 10));

  /**
   * Tells whether a key was in use at the time of a proof or a token.
   * @param {CertificateKey} key
   * @param {any} signedOn
   */
  function inUse(key, signedOn) {
    const isNumber = typeof signedOn === "number" && signedOn >= 0 && signedOn < YEAR_10000;
    const on = isNumber ? `${new Date(signedOn * 1000).toISOString().slice(0, 19)}Z` : signedOn;
    return isInstant(on) && key.from <= on && (!key.until || on <= key.until);
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
      if (!isObject(entry) || typeof entry.id !== "string" || !URN.test(entry.id) || !isDay(entry.on)) return null;
      revoked.set(entry.id, entry.on);
    }
    return { made: list.proof.created, revoked };
  }

  root.tinwrightCertificateProof = {
    inUse,
    isDay,
    keyOf,
    proofHolds,
    readRevocations,
    readToken,
    signatureHolds,
    tokenHolds,
  };
})(globalThis);
