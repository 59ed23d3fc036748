// @ts-check
// What a finished seam shows to eye and finger: the browser's half of tinwright/practice/showing.py.
// needs: practice-setting.js
// joined: practice.js

(function (root) {
  "use strict";
  const { angles, stepIn } = root.tinwrightPracticeSetting;
  /** Defect, what it comes from, from which size on in steps or percent, and where. @type {PracticeRule[]} */
  const rules = [
    ["no-second-operation", "second", 7.5, "any"],
    ["no-pressure-ridge", "second", 2.5, "any"],
    ["loose-seam", "second", 2.5, "any"],
    ["loose-seam", "slack", 2.5, "any"],
    ["cutover", "second", -4.5, "any"],
    ["sharp-seam", "second", -2.5, "any"],
    ["sharp-seam", "first", -3.5, "any"],
    ["droop", "first", 3.5, "any"],
    ["droop", "bump", 1.5, "any"],
    ["spinner", "press", -4.5, "all"],
    ["pucker", "wrinkle", 15, "any"],
    ["broken-chuck-mark", "broken", 7, "any"],
  ];

  /** @typedef {[string, PracticeSettingPart, number, string]} PracticeRule */

  /** @param {PracticeRule} rule @param {PracticeSetting} setting */
  function reaches([, part, size], setting) {
    const least = part === "wrinkle" || part === "broken" ? size : size * stepIn;
    return least > 0 ? setting[part] >= least : setting[part] <= least;
  }

  /** @param {string} defect @param {boolean[]} at @returns {PracticeShown} */
  function spanned(defect, at) {
    if (at.every(Boolean)) return { defect, at: 0, degrees: 360 };
    const begin = at.findIndex((isThere, angle) => isThere && !at[(angle + angles - 1) % angles]);
    let length = 0;
    while (at[(begin + length) % angles]) length += 1;
    return { defect, at: Math.floor((begin * 360) / angles), degrees: Math.floor((length * 360) / angles) };
  }

  /** @type {TinwrightPracticeShowing["findShown"]} */
  function findShown(settings) {
    /** @type {PracticeShown[]} */
    const found = [];
    for (const rule of rules) {
      const at = settings.map((setting) => reaches(rule, setting));
      const isThere = rule[3] === "all" ? at.every(Boolean) : at.some(Boolean);
      if (isThere && !found.some(({ defect }) => defect === rule[0])) found.push(spanned(rule[0], at));
    }
    return found;
  }

  root.tinwrightPracticeShowing = { findShown };
})(globalThis);
