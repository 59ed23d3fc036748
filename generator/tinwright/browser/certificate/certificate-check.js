// @ts-check
// Is a certificate genuine? The browser's twin of credentials/verification.py: the same answers from the same files.
// needs: certificate-encoding.js certificate-pdf.js certificate-proof.js

/**
 * @typedef {{credential: any, signedOn: any, token: string|null}} Signed
 */

(function (root) {
  "use strict";
  const encoding = root.tinwrightCertificateEncoding;
  const { CannotCheck, Unreadable, canonical, decodeText, isObject, parseJson } = encoding;
  const { attachedTo } = root.tinwrightCertificatePdf;
  const { inUse, isDay, keyOf, proofHolds, readRevocations, readToken, signatureHolds, tokenHolds } =
    root.tinwrightCertificateProof;

  const CONTEXT = [
    "https://www.w3.org/ns/credentials/v2",
    "https://purl.imsglobal.org/spec/ob/v3p0/context-3.0.3.json",
  ];
  const DAY = /^(\d{4}-\d\d-\d\d)T\d\d:\d\d:\d\d([+-]\d\d:\d\d|Z)$/;
  const LARGEST = 5000000;
  const LARGEST_TEXT = 100000;

  /** @param {Uint8Array} bytes @returns {Promise<Signed>} */
  async function read(bytes) {
    if (bytes.length > LARGEST) throw new Unreadable("This file is far too large for a certificate.");
    const isPdf = bytes.length >= 4 && String.fromCharCode(...bytes.slice(0, 4)) === "%PDF";
    const content = isPdf ? await attachedTo(bytes) : bytes;
    if (content.length > LARGEST_TEXT) throw new Unreadable("This file is far too large for a certificate.");
    const text = decodeText(content);
    if (text.startsWith("{")) {
      const credential = parseJson(text);
      return { credential, signedOn: isObject(credential.proof) ? credential.proof.created : null, token: null };
    }
    if (!isPdf && /^[\w-]+\.[\w-]+\.[\w-]+$/.test(text)) {
      const { claims } = readToken(text);
      return { credential: claims, signedOn: claims.iat, token: text };
    }
    throw new Unreadable("This is no certificate: expected a file that ends in .pdf, .json or .jwt.");
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
        const day = (/** @type {any} */ text) => {
          const found = typeof text === "string" && DAY.exec(text);
          return found && isDay(found[1]) ? found[1] : undefined;
        };
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
          [subject.identifier, subject.achievement.resultDescription].every(Array.isArray) &&
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
      `${certificate.office} signed it, and had not taken it back when it last published its list, ` +
        `on ${sayDay(revocations.made.slice(0, 10))}.`,
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

  const { fromBase58, fromBase64url, fromMultibase } = encoding;
  root.tinwrightCertificate = {
    LARGEST,
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
