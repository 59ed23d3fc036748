// @ts-check
// Looking up, comparing and leaving out, as the Python half does it.
// joined: seaming.js

(function (root) {
  "use strict";
  /** @type {TinwrightSeamingValues["isMissing"]} */
  const isMissing = (value) => value === null || value === undefined;
  /** @type {TinwrightSeamingValues["orNull"]} */
  const orNull = (value) => (isMissing(value) ? null : value);
  /** @type {TinwrightSeamingValues["get"]} */
  const get = (map, key, missing) => (map && Object.prototype.hasOwnProperty.call(map, key) ? map[key] : missing);
  /** @type {TinwrightSeamingValues["compareText"]} */
  const compareText = (one, other) => (one < other ? -1 : one > other ? 1 : 0);

  root.tinwrightSeamingValues = { compareText, get, isMissing, orNull };
})(globalThis);
