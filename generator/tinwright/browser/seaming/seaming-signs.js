// @ts-check
// Signs of a fault and their weights: the browser's half of tinwright/seaming/signs.py.
// needs: seaming-formulas.js seaming-values.js
// joined: seaming.js

(function (root) {
  "use strict";
  const { constants } = root.tinwrightSeamingFormulas;
  const { compareText, get } = root.tinwrightSeamingValues;

  const KINDS = ["defect", "absent", "direction", "extent", "repeats", "last-change"];

  /** Signs in the one order in which they are reckoned, each once. @param {Sign[]} signs @returns {Sign[]} */
  function signsInOrder(signs) {
    /** @param {Sign} sign */
    const place = (sign) => (sign.kind === "direction" ? constants.dimensions.indexOf(sign.key) : 0);
    const once = new Map(signs.map((sign) => [`${sign.kind}/${sign.key}/${sign.answer}`, sign]));
    return [...once.values()].sort(
      (one, other) =>
        KINDS.indexOf(one.kind) - KINDS.indexOf(other.kind) ||
        place(one) - place(other) ||
        compareText(one.key, other.key),
    );
  }

  /** The signs one by one, in the order in which they are reckoned. @param {Signs} signs @returns {Sign[]} */
  function listSigns(signs) {
    /** @type {Sign[]} */
    const found = [];
    for (const key of signs.defects || []) found.push({ kind: "defect", key, answer: "seen" });
    for (const key of signs.absent || []) found.push({ kind: "absent", key, answer: "not-seen" });
    for (const key of constants.dimensions) {
      const answer = get(signs.directions, key, null);
      if (answer) found.push({ kind: "direction", key, answer });
    }
    if (signs.extent) found.push({ kind: "extent", key: "", answer: signs.extent });
    if (signs.repeats) found.push({ kind: "repeats", key: "", answer: signs.repeats });
    if (signs.lastChange && signs.lastChange !== "nothing") {
      found.push({ kind: "last-change", key: "", answer: signs.lastChange });
    }
    return signsInOrder(found);
  }

  /** Probability of a sign when this is the cause. @param {CauseProfile} cause @param {Sign} sign @returns {number} */
  function weigh(cause, sign) {
    if (sign.kind === "defect") return constants.defectSeen[get(cause.likelihoods, sign.key, "")];
    if (sign.kind === "absent") return constants.defectAbsent[get(cause.likelihoods, sign.key, "")];
    if (sign.kind === "direction") return weighDirection(cause, sign);
    if (sign.kind === "last-change") {
      return cause.after.includes(sign.answer) ? constants.changeListed : constants.changeOther;
    }
    const listed = sign.kind === "extent" ? cause.extents : cause.repeats;
    if (!listed.length) return constants.placeUnknown;
    return listed.includes(sign.answer) ? constants.placeListed : constants.placeOther;
  }

  /** @param {CauseProfile} cause @param {Sign} sign @returns {number} */
  function weighDirection(cause, sign) {
    const likelihoods = get(cause.effectLikelihoods, sign.key, {});
    const likelihood = get(likelihoods, sign.answer, null);
    if (likelihood) return constants.directionAlong[likelihood][0];
    const effect = get(cause.effects, sign.key, null);
    if (effect === null) return constants.directionUnclaimed[sign.answer];
    if (effect === "disputed") return constants.directionUnknown[sign.answer];
    if (effect === "varies") return constants.directionVaries[sign.answer];
    const [along, normally, against, varies] = constants.directionAlong[get(likelihoods, effect, "occasional")];
    if (sign.answer === effect) return along;
    return sign.answer === "normal" ? normally : sign.answer === "varies" ? varies : against;
  }

  /** @param {Sign} sign @returns {number} */
  function weighUnknown(sign) {
    if (sign.kind === "defect") return constants.unknownSeen;
    if (sign.kind === "absent") return constants.unknownAbsent;
    if (sign.kind === "direction") return constants.directionUnknown[sign.answer];
    return sign.kind === "last-change" ? constants.changeOther : constants.placeUnknown;
  }

  /** Is a sign the fault itself, a defect seen or a dimension not as it should be? @param {Sign} sign */
  const isFault = (sign) => sign.kind === "defect" || (sign.kind === "direction" && sign.answer !== "normal");

  /** Is a sign a reason to offer the cause at all? @param {CauseProfile} cause @param {Sign} sign */
  const speaksFor = (cause, sign) => isFault(sign) && weigh(cause, sign) > weighUnknown(sign);

  /** @param {CauseProfile} cause @param {Sign} sign */
  const isAgainst = (cause, sign) => weigh(cause, sign) < weighUnknown(sign);

  root.tinwrightSeamingSigns = { isAgainst, isFault, listSigns, signsInOrder, speaksFor, weigh, weighUnknown };
})(globalThis);
