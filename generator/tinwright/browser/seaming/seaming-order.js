// @ts-check
// The order in which to check causes: the browser's half of tinwright/seaming/order.py.
// needs: seaming-formulas.js seaming-values.js
// joined: seaming.js

(function (root) {
  "use strict";
  const { constants } = root.tinwrightSeamingFormulas;
  const { compareText, get } = root.tinwrightSeamingValues;

  /** Expected minutes to the fault. @param {Check[]} order @returns {number} */
  function expectedMinutes(order) {
    let total = 0;
    let elapsed = 0;
    for (const check of order) {
      elapsed = elapsed + check.minutes;
      total = total + check.share * elapsed;
    }
    return total;
  }

  /** @typedef {{checks: Check[], share: number, minutes: number}} Block */

  /** @param {Block} one @param {Block} other @param {boolean} orLevel */
  function isAhead(one, other, orLevel) {
    const left = one.share * other.minutes;
    const right = other.share * one.minutes;
    return orLevel ? left >= right : left > right;
  }

  /** @param {Block[]} blocks @returns {Block[]} */
  function byQuotient(blocks) {
    /** @type {Block[]} */
    const placed = [];
    for (const block of blocks) {
      let place = placed.length;
      while (place && isAhead(block, placed[place - 1], false)) place -= 1;
      placed.splice(place, 0, block);
    }
    return placed;
  }

  /** @param {Block[]} chain @returns {Block[]} */
  function bestPrefixes(chain) {
    /** @type {Block[]} */
    const blocks = [];
    for (const block of chain) {
      let last = block;
      while (blocks.length && isAhead(last, blocks[blocks.length - 1], true)) {
        const before = /** @type {Block} */ (blocks.pop());
        last = {
          checks: [...before.checks, ...last.checks],
          share: before.share + last.share,
          minutes: before.minutes + last.minutes,
        };
      }
      blocks.push(last);
    }
    return blocks;
  }

  /**
   * Checks in the order of least expected minutes: set-up before first roller before second roller.
   * @param {Check[]} checks
   * @returns {Check[]}
   */
  function orderChecks(checks) {
    const { adjusters, stages } = constants;
    for (const check of checks) {
      if (!(check.minutes > 0) || !(check.share >= 0) || !adjusters.includes(check.adjuster)) {
        throw new RangeError(
          "expected a check with minutes above zero, a share of zero or more and a known adjuster, " +
            `got ${JSON.stringify(check)}`,
        );
      }
    }
    const sorted = [...checks].sort(
      (one, other) =>
        adjusters.indexOf(one.adjuster) - adjusters.indexOf(other.adjuster) || compareText(one.cause, other.cause),
    );
    /** @param {Check} check @returns {Block} */
    const single = (check) => ({ checks: [check], share: check.share, minutes: check.minutes });
    /** @type {Block[]} */
    const chain = [];
    for (const stage of [0, 1, 2]) {
      const inside = sorted.filter((check) => get(stages, check.adjuster, null) === stage);
      chain.push(...byQuotient(inside.map(single)));
    }
    const free = sorted.filter((check) => get(stages, check.adjuster, null) === null).map(single);
    return byQuotient([...bestPrefixes(chain), ...free]).flatMap((block) => block.checks);
  }

  root.tinwrightSeamingOrder = { expectedMinutes, orderChecks };
})(globalThis);
