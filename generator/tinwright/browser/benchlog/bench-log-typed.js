// @ts-check
// What the boxes of a measured check hold: as it was typed into Check a seam, or as an event has it.
// joined: bench-log.js

(function (root) {
  "use strict";
  const SEAM_CHECK = "tinwright.seam-check";
  const MEASURED = ["seam-thickness", "seam-width", "countersink", "body-hook", "cover-hook"];
  const MOST_POINTS = 12;

  /** @param {any} value */
  const text = (value) => (typeof value === "string" ? value.slice(0, 40) : "");

  /** Keeps of a stored state only what these boxes could hold. @param {any} kept @returns {LogTyped} */
  function soundTyped(kept) {
    const given = kept && typeof kept === "object" ? kept : {};
    const points = (Array.isArray(given.points) ? given.points.slice(0, MOST_POINTS) : []).map(
      (/** @type {any} */ point) => Object.fromEntries(MEASURED.map((name) => [name, text(point && point[name])])),
    );
    while (points.length < 3) points.push(Object.fromEntries(MEASURED.map((name) => [name, ""])));
    return {
      specification: text(given.specification),
      method: given.method === "optical" ? "optical" : "micrometer",
      unit: given.unit === "mm" ? "mm" : "in",
      tightness: text(given.tightness),
      endPlate: text(given.endPlate),
      bodyPlate: text(given.bodyPlate),
      points,
    };
  }

  /** What was typed last into Check a seam; null when nothing was. @returns {LogTyped|null} */
  function fromSeamCheck() {
    try {
      const typed = soundTyped(JSON.parse(localStorage.getItem(SEAM_CHECK) || "null"));
      return typed.tightness || typed.points.some((point) => Object.values(point).some(Boolean)) ? typed : null;
    } catch {
      return null;
    }
  }

  /** The boxes of an event already written. @param {LogEvent} event @returns {LogTyped} */
  function fromEvent(event) {
    const readings = event.readings || [];
    const outside = readings.filter(({ dimension }) => MEASURED.includes(dimension));
    const tight = readings.find(({ dimension }) => dimension === "tightness");
    const points = [...new Set(outside.map(({ point }) => point))].map((point) =>
      Object.fromEntries(
        outside.filter((reading) => reading.point === point).map(({ dimension, value }) => [dimension, String(value)]),
      ),
    );
    return soundTyped({ ...event, points, tightness: tight ? String(tight.value) : "" });
  }

  root.tinwrightBenchLogTyped = { MEASURED, fromEvent, fromSeamCheck, soundTyped };
})(globalThis);
