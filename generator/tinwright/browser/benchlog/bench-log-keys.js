// @ts-check
// A key of the bench log: large, for one thumb with a wet glove on it.
// needs: elements.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { make } = root.tinwrightElements;

  /**
   * @param {string} label
   * @param {() => void} act
   * @param {string} [look] such as `first`, or `reject first`
   * @param {string} [below] a second, smaller line
   */
  function key(label, act, look = "", below = "") {
    const looks = look.split(" ").map((each) => each && ` tw-log__key--${each}`);
    return make(
      "button",
      { type: "button", class: `tw-log__key${looks.join("")}`, onclick: act },
      make("span", {}, label),
      below ? make("small", {}, below) : null,
    );
  }

  root.tinwrightBenchLogKeys = { key };
})(globalThis);
