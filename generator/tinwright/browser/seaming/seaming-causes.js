// @ts-check
// Causes ranked by signs: the browser's half of tinwright/seaming/causes.py.
// needs: seaming-formulas.js seaming-values.js seaming-signs.js seaming-experience.js
// joined: seaming.js

(function (root) {
  "use strict";
  const { constants } = root.tinwrightSeamingFormulas;
  const { compareText, get } = root.tinwrightSeamingValues;
  const { isAgainst, isFault, listSigns, speaksFor, weigh, weighUnknown } = root.tinwrightSeamingSigns;
  const { addCases, isBehind } = root.tinwrightSeamingExperience;

  /**
   * Bayes' rule for signs independent of each other given the cause.
   * @param {number[]} priors @param {number[][]} likelihoods
   * @returns {number[]}
   */
  function findPosterior(priors, likelihoods) {
    const products = priors.map((prior, place) => {
      let product = prior;
      for (const likelihood of likelihoods[place]) product = product * likelihood;
      return product;
    });
    let total = 0;
    for (const product of products) total = total + product;
    return products.map((product) => product / total);
  }

  /** @type {TinwrightSeamingCauses["inOrder"]} */
  const inOrder = (causes) =>
    [...causes].sort(
      (one, other) =>
        constants.adjusters.indexOf(one.adjuster) - constants.adjusters.indexOf(other.adjuster) ||
        compareText(one.cause, other.cause),
    );

  /**
   * The counts without those of causes that a sign speaks against, unless they were confirmed behind that very sign.
   * @param {CauseProfile[]} causes @param {Sign[]} found @param {Experience|null} experience
   * @returns {Experience|null}
   */
  function standingOf(causes, found, experience) {
    if (!experience) return null;
    const out = causes
      .filter((cause) => found.some((sign) => isAgainst(cause, sign) && !isBehind(experience, cause.cause, sign)))
      .map((cause) => cause.cause);
    /** @param {Object<string, any>} row */
    const left = (row) => Object.fromEntries(Object.entries(row).filter(([cause]) => !out.includes(cause)));
    /** @param {Cases} rows */
    const leftOf = (rows) => Object.fromEntries(Object.entries(rows).map(([key, row]) => [key, left(row)]));
    return { own: leftOf(experience.own), others: leftOf(experience.others), behind: left(experience.behind) };
  }

  /**
   * The share of each cause, in the order given, and last that of a cause which is none of them.
   * @param {CauseProfile[]} causes @param {Sign[]} found @param {Experience|null} [experience]
   * @returns {number[]}
   */
  function findShares(causes, found, experience = null) {
    const standing = standingOf(causes, found, experience);
    const cases = standing ? standing.behind : {};
    const priors = causes.map((cause) =>
      get(cases, cause.cause, null) || found.some((sign) => speaksFor(cause, sign)) ? 1 : 0,
    );
    return sharesFrom([...priors, 1], causes, found, standing);
  }

  /** As if a sign spoke for every cause. @param {CauseProfile[]} causes @param {Sign[]} found @returns {number[]} */
  const guessShares = (causes, found) => sharesFrom(new Array(causes.length + 1).fill(1), causes, found, null);

  /**
   * @param {number[]} priors @param {CauseProfile[]} causes @param {Sign[]} found @param {Experience|null} experience
   * @returns {number[]}
   */
  function sharesFrom(priors, causes, found, experience) {
    const columns = found.map((sign) => columnOf(causes, sign, experience));
    const shares = findPosterior(
      priors,
      priors.map((_, place) => columns.map((column) => column[place])),
    );
    return shares.map((share) => Math.floor(share * constants.finest + 0.5) / constants.finest);
  }

  /**
   * The weights of a sign, with the cases confirmed behind it added.
   * @param {CauseProfile[]} causes @param {Sign} sign @param {Experience|null} experience
   * @returns {number[]}
   */
  function columnOf(causes, sign, experience) {
    let column = [...causes.map((cause) => weigh(cause, sign)), weighUnknown(sign)];
    if (!experience || !isFault(sign)) return column;
    const rows = [get(experience.others, sign.key, null), get(experience.own, sign.key, null)].filter(Boolean);
    if (rows.length) {
      column = findPosterior(
        column.map(() => 1),
        column.map((weight) => [weight]),
      );
    }
    for (const row of rows) column = addCases(column, [...causes.map((cause) => get(row, cause.cause, 0)), 0]);
    return column;
  }

  /**
   * Rank causes by the signs, and by what was confirmed before behind the defects told.
   * @param {CauseProfile[]} causes @param {Signs} signs @param {Experience|null} [experience]
   * @returns {Ranking}
   */
  function rank(causes, signs, experience = null) {
    const sorted = inOrder(causes);
    const found = listSigns(signs);
    const shares = findShares(sorted, found, experience);
    const unknown = shares[sorted.length];
    const top = Math.max(...shares);
    const standing = standingOf(sorted, found, experience);
    const placed = sorted
      .map((cause, place) => ({ cause, share: shares[place] }))
      .sort((one, other) => other.share - one.share);
    const ranked = placed.map(({ cause, share }) => ({
      cause: cause.cause,
      word: wordFor(share, top),
      share,
      reasons: found.map((sign) => ({ sign, stance: stanceOf(cause, sign, standing) })),
    }));
    const areTwo = ranked.length > 1 && ranked[1].word !== "unlikely";
    return {
      causes: ranked,
      unknownShare: unknown,
      explained: placed.length > 0 && placed[0].share > unknown,
      apart: areTwo ? findDistinctions(placed[0].cause, placed[1].cause, signs) : [],
    };
  }

  /** @param {number} share @param {number} top */
  function wordFor(share, top) {
    if (share * constants.likelyPart >= top - constants.closeShare) return "likely";
    return share * constants.possiblePart >= top - constants.closeShare ? "possible" : "unlikely";
  }

  /** @param {CauseProfile} cause @param {Sign} sign @param {Experience|null} experience */
  function stanceOf(cause, sign, experience) {
    const one = weigh(cause, sign);
    const other = weighUnknown(sign);
    if (one > other || (experience && isBehind(experience, cause.cause, sign))) return "supports";
    return one < other ? "contradicts" : "neutral";
  }

  /**
   * The signs not yet given that two causes differ in, the clearest first.
   * @param {CauseProfile} first @param {CauseProfile} second @param {Signs} signs
   * @returns {Distinction[]}
   */
  function findDistinctions(first, second, signs) {
    /** @type {{clarity: number, distinction: Distinction}[]} */
    const found = [];
    /** @param {string} kind @param {string} key @param {string[]} ones @param {string[]} others */
    const add = (kind, key, ones, others) => {
      const distinction = { kind, key, first: ones, second: others };
      found.push({ clarity: clarityOf(first, second, distinction), distinction });
    };
    for (const dimension of constants.dimensions) {
      if (get(signs.directions, dimension, null) !== null) continue;
      const one = get(first.effects, dimension, null);
      const other = get(second.effects, dimension, null);
      if (one !== other && one !== "disputed" && other !== "disputed") {
        add("direction", dimension, [one || "normal"], [other || "normal"]);
      }
    }
    const known = [...(signs.defects || []), ...(signs.absent || [])];
    const defects = new Set([...Object.keys(first.likelihoods || {}), ...Object.keys(second.likelihoods || {})]);
    for (const defect of [...defects].filter((id) => !known.includes(id)).sort(compareText)) {
      const one = get(first.likelihoods, defect, null);
      const other = get(second.likelihoods, defect, null);
      if (one !== other) add("defect", defect, [one || "not-seen"], [other || "not-seen"]);
    }
    /** @param {string} kind @param {string|null|undefined} answer @param {string[]} ones @param {string[]} others */
    const addPlace = (kind, answer, ones, others) => {
      if (!answer && ones.length && others.length && !ones.some((one) => others.includes(one))) {
        add(kind, "", ones, others);
      }
    };
    addPlace("extent", signs.extent, first.extents, second.extents);
    addPlace("repeats", signs.repeats, first.repeats, second.repeats);
    found.sort((one, other) => other.clarity - one.clarity);
    return found.map((each) => each.distinction);
  }

  /** @param {CauseProfile} first @param {CauseProfile} second @param {Distinction} distinction */
  function clarityOf(first, second, distinction) {
    const answers = distinction.kind === "defect" ? ["seen"] : [...distinction.first, ...distinction.second];
    let clarity = 1;
    for (const answer of answers) {
      const sign = { kind: distinction.kind, key: distinction.key, answer };
      const one = weigh(first, sign);
      const other = weigh(second, sign);
      clarity = Math.max(clarity, one / other, other / one);
    }
    return clarity;
  }

  root.tinwrightSeamingCauses = { findDistinctions, findPosterior, findShares, guessShares, inOrder, rank };
})(globalThis);
