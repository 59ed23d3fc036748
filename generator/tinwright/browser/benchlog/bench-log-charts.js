// @ts-check
// The browser's half of tinwright.benchlog.charts: individuals and moving ranges of a sealer.
// needs: bench-log-writing.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { compareText } = root.tinwrightBenchLog;
  const { counted } = root.tinwrightBenchLogWriting;
  const D2 = 2 / Math.sqrt(Math.PI);
  const D3 = Math.sqrt(2 - D2 ** 2);
  const FEWEST_CANS = 10;
  const RUN = 8;
  const CLOSE = 1e-9;
  const BEGIN_A_STRETCH = ["set-up", "adjustment", "can-change"];
  const MARKED = [...BEGIN_A_STRETCH, "jam", "lid-lot"];

  /** @param {number[]} values */
  const mean = (values) => values.reduce((sum, value) => sum + value, 0) / values.length;

  /**
   * Limits of an individuals and moving-range chart (NIST/SEMATECH e-Handbook 6.3.2.2).
   * @param {number[]} values at least two
   * @returns {ChartLimits}
   */
  function limitsOf(values) {
    if (values.length < 2) throw new RangeError(`expected at least two values, got ${values.length}`);
    const meanRange = mean(values.slice(1).map((value, place) => Math.abs(value - values[place])));
    const center = mean(values);
    const reach = (3 * meanRange) / D2;
    return {
      center,
      lower: center - reach,
      upper: center + reach,
      rangeCenter: meanRange,
      rangeUpper: meanRange * (1 + (3 * D3) / D2),
    };
  }

  /**
   * How many in a row up to each value lie on its side; one on the center line ends a run.
   * @param {number[]} values
   * @param {number} center
   */
  function runs(values, center) {
    let side = 0;
    let length = 0;
    return values.map((value) => {
      const here = Math.abs(value - center) <= CLOSE ? 0 : value > center ? 1 : -1;
      length = here === side ? length + 1 : 1;
      side = here;
      return here ? length : 0;
    });
  }

  /** @param {LogPoint[]} points @returns {LogStretch} */
  function stretch(points) {
    const values = points.map((point) => point.value);
    const limits = values.length >= FEWEST_CANS ? limitsOf(values) : null;
    const lengths = limits ? runs(values, limits.center) : [];
    const judged = points.map((point, place) => {
      const movingRange = place ? Math.abs(values[place] - values[place - 1]) : null;
      const signals = [];
      if (limits) {
        if (point.value < limits.lower - CLOSE || point.value > limits.upper + CLOSE) signals.push("beyond-limits");
        if (lengths[place] >= RUN) signals.push("run");
        if (movingRange !== null && movingRange > limits.rangeUpper + CLOSE) signals.push("range-beyond-limit");
      }
      return { ...point, movingRange, signals };
    });
    return { points: judged, limits };
  }

  /** What was measured of one can on one sealer, and what happened in between. */
  class CanOnSealer {
    /** @param {string} sealer @param {string} can */
    constructor(sealer, can) {
      this.sealer = sealer;
      this.can = can;
      /** @type {Map<string, {place: number, point: LogPoint}[]>} */
      this.measured = new Map();
      /** @type {{place: number, session: LogSession, event: LogEvent}[]} */
      this.happened = [];
      /** @type {number[]} */
      this.begun = [];
      this.place = 0;
    }

    beginAStretch() {
      this.place += 1;
      this.begun.push(this.place);
    }

    /** @param {LogSession} session @param {LogEvent} event */
    read(session, event) {
      this.place += 1;
      if (BEGIN_A_STRETCH.includes(event.kind)) this.begun.push(this.place);
      if (MARKED.includes(event.kind)) this.happened.push({ place: this.place, session, event });
      const readings = event.readings || [];
      for (const dimension of new Set(readings.map((reading) => reading.dimension))) {
        const values = readings
          .filter((reading) => reading.dimension === dimension)
          .map((reading) => reading.value)
          .sort((one, other) => one - other);
        const middle = values[Math.floor((values.length - 1) / 2)];
        const point = {
          session,
          event,
          value: middle,
          low: values[0],
          high: values[values.length - 1],
          movingRange: null,
          signals: [],
        };
        this.measured.set(dimension, [...(this.measured.get(dimension) || []), { place: this.place, point }]);
      }
    }

    /** @param {string} dimension @returns {LogChart} */
    chart(dimension) {
      const kept = this.measured.get(dimension) || [];
      const points = kept.map(({ point }) => point);
      /** How many points come before a place. @param {number} place */
      const before = (place) => kept.filter((each) => each.place < place).length;
      const begun = [...new Set([0, points.length, ...this.begun.map(before)])].sort((one, other) => one - other);
      const last = kept[kept.length - 1].place;
      const marks = this.happened
        .filter(({ place }) => place < last)
        .map(({ place, session, event }) => ({ before: before(place), session, event }));
      const stretches = begun.slice(1).map((end, place) => stretch(points.slice(begun[place], end)));
      return { sealer: this.sealer, can: this.can, dimension, stretches, marks };
    }
  }

  /**
   * A chart for each sealer, can and dimension that was measured.
   * @param {LogSession[]} sessions in any order
   * @returns {LogChart[]}
   */
  function chartsOf(sessions) {
    /** @type {Map<string, CanOnSealer>} */
    const found = new Map();
    /** @type {Map<string, string>} */
    const lastCan = new Map();
    /** @param {string} sealer @param {string} can @returns {CanOnSealer} */
    const on = (sealer, can) => {
      const key = JSON.stringify([sealer, can]);
      const known = found.get(key) || new CanOnSealer(sealer, can);
      found.set(key, known);
      return known;
    };
    const sorted = [...sessions].sort(
      (one, other) =>
        compareText(one.date, other.date) ||
        compareText(one.kitchen, other.kitchen) ||
        compareText(one.sealer, other.sealer),
    );
    for (const session of sorted) {
      let can = session.can || "";
      if (lastCan.has(session.sealer) && lastCan.get(session.sealer) !== can) on(session.sealer, can).beginAStretch();
      for (const event of counted(session.events)) {
        if (event.kind === "set-up" || event.kind === "can-change") can = event.can || "";
        on(session.sealer, can).read(session, event);
      }
      lastCan.set(session.sealer, can);
    }
    const cans = [...found.values()].sort(
      (one, other) => compareText(one.sealer, other.sealer) || compareText(one.can, other.can),
    );
    return cans.flatMap((each) =>
      [...each.measured.keys()].sort(compareText).map((dimension) => each.chart(dimension)),
    );
  }

  root.tinwrightBenchLogCharts = { FEWEST_CANS, RUN, chartsOf, limitsOf };
})(globalThis);
