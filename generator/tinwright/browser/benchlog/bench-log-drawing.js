// @ts-check
// Draws the chart of individuals and the one of moving ranges of a dimension, from what bench-log-charts.js worked out.
// needs: bench-advice.js bench-log-charts.js bench-log-words.js
// joined: bench-log.js

/** @typedef {Record<"x"|"edge"|"y", (value: number) => number>} ChartPanel */
/** @typedef {{above: ChartPanel, below: ChartPanel}} ChartPanels */

(function (root) {
  "use strict";
  const { say } = /** @type {LogAdvice} */ (/** @type {any} */ (root).tinwrightBench);
  const seaming = /** @type {LogSeaming} */ (/** @type {any} */ (root).tinwrightSeaming);
  const { make } = root.tinwrightElements;
  const { FEWEST_CANS, RUN } = root.tinwrightBenchLogCharts;
  const words = root.tinwrightBenchLogWords;
  const [WIDTH, LEFT, RIGHT] = [360, 58, 10];
  const SIGNALS = /** @type {Object<string, string>} */ ({
    "beyond-limits": "outside the control limits",
    run: `${RUN} in a row on one side of the center line`,
    "range-beyond-limit": "a jump from the can before",
  });

  /** @param {string} tag @param {Object<string, string|number>} attributes @param {...(Node|string)} children */
  function svg(tag, attributes, ...children) {
    const element = document.createElementNS("http://www.w3.org/2000/svg", tag);
    for (const [name, value] of Object.entries(attributes)) {
      element.setAttribute(name, typeof value === "number" ? String(Math.round(value * 10) / 10) : value);
    }
    element.append(...children);
    return element;
  }

  /** @param {string} dimension @param {number} value */
  const short = (dimension, value) => seaming.valueText(dimension, value).replace(/ in$/, "").replace(/^0\./, ".");

  /**
   * One panel with its own scale.
   * @param {number} top @param {number} height @param {number[]} values what must fit in @param {number} count
   * @returns {ChartPanel}
   */
  function panel(top, height, values, count) {
    const low = Math.min(...values);
    const reach = Math.max(...values) - low || Math.abs(low) / 10 || 1;
    const step = (WIDTH - LEFT - RIGHT) / Math.max(1, count);
    return {
      x: (/** @type {number} */ place) => LEFT + step * (place + 0.5),
      edge: (/** @type {number} */ place) => LEFT + step * place,
      y: (/** @type {number} */ value) => top + 8 + (height - 16) * (1 - (value - low) / reach),
    };
  }

  /** @param {ChartPanel} at @param {number} value @param {number} from @param {number} to @param {string} kind */
  const level = (at, value, from, to, kind) =>
    svg("line", { class: `tw-chart__${kind}`, x1: at.edge(from), x2: at.edge(to), y1: at.y(value), y2: at.y(value) });

  /** @param {ChartPanel} at @param {string} dimension @param {number} value @param {string} [name] */
  const label = (at, dimension, value, name = "") =>
    svg(
      "text",
      { class: "tw-chart__label", x: LEFT - 4, y: at.y(value) + 4, "text-anchor": "end" },
      name + short(dimension, value),
    );

  /**
   * The lines of a stretch: its limits, where it has any, and its points joined.
   * @param {ChartPanels} panels
   * @param {LogStretch} stretch
   * @param {number} place how many points come before it
   */
  function stretchLines({ above, below }, { points, limits }, place) {
    const end = place + points.length;
    const lines = limits
      ? [
          level(above, limits.center, place, end, "center"),
          level(above, limits.lower, place, end, "limit"),
          level(above, limits.upper, place, end, "limit"),
          level(below, limits.rangeCenter, place, end, "center"),
          level(below, limits.rangeUpper, place, end, "limit"),
        ]
      : [];
    const values = points.map(({ value }, n) => `${above.x(place + n)},${above.y(value)}`);
    const ranges = points.flatMap(({ movingRange }, n) =>
      movingRange === null ? [] : [`${below.x(place + n)},${below.y(movingRange)}`],
    );
    const joined = [values, ranges].map((each) => svg("polyline", { class: "tw-chart__line", points: each.join(" ") }));
    return [...lines, ...joined];
  }

  /**
   * One can: its middle reading, how far its readings spread, and whether it is out of the ordinary.
   * @param {ChartPanels} panels
   * @param {LogPoint} point
   * @param {number} place
   */
  function pointMarks({ above, below }, { value, low, high, movingRange, signals }, place) {
    const [x, y] = [above.x(place), above.y(value)];
    const spread = { class: "tw-chart__spread", x1: x, x2: x, y1: above.y(low), y2: above.y(high) };
    return [
      ...(low === high ? [] : [svg("line", spread)]),
      ...(signals.length ? [svg("circle", { class: "tw-chart__signal", cx: x, cy: y, r: 8 })] : []),
      svg("circle", { class: "tw-chart__point", cx: x, cy: y, r: 3.5 }),
      ...(movingRange === null
        ? []
        : [svg("circle", { class: "tw-chart__point", cx: below.x(place), cy: below.y(movingRange), r: 2.5 })]),
    ];
  }

  /**
   * Both panels, each on a scale that has room for all it must show.
   * @param {LogChart} chart
   * @param {LogPoint[]} points
   * @param {number[]} spec
   * @returns {ChartPanels}
   */
  function panelsOf(chart, points, spec) {
    const limits = chart.stretches.flatMap((stretch) => (stretch.limits ? [stretch.limits] : []));
    const values = [...points.flatMap(({ low, high }) => [low, high]), ...spec];
    const ranges = points.map(({ movingRange }) => movingRange || 0);
    return {
      above: panel(4, 168, [...values, ...limits.flatMap(({ lower, upper }) => [lower, upper])], points.length),
      below: panel(190, 70, [0, ...ranges, ...limits.map(({ rangeUpper }) => rangeUpper)], points.length),
    };
  }

  /** @param {LogChart} chart @param {{low: number|null, high: number|null}} specification @returns {HTMLElement} */
  function drawChart(chart, specification) {
    const points = chart.stretches.flatMap((stretch) => stretch.points);
    const spec = [specification.low, specification.high].flatMap((value) => (value === null ? [] : [value]));
    const panels = panelsOf(chart, points, spec);
    const { above } = panels;
    const drawing = svg("svg", {
      class: "tw-chart",
      viewBox: `0 0 ${WIDTH} 284`,
      role: "img",
      "aria-label": describe(chart, points),
    });
    for (const value of spec) drawing.append(level(above, value, 0, points.length, "spec"));
    let place = 0;
    for (const stretch of chart.stretches) {
      drawing.append(...stretchLines(panels, stretch, place));
      place += stretch.points.length;
    }
    drawing.append(...points.flatMap((point, n) => pointMarks(panels, point, n)));
    for (const { before } of chart.marks) {
      const x = above.edge(before);
      drawing.append(svg("line", { class: "tw-chart__mark", x1: x, x2: x, y1: 4, y2: 260 }));
    }
    const ends = [Math.min(...points.map(({ low }) => low)), Math.max(...points.map(({ high }) => high))];
    for (const value of spec.length ? spec : ends) drawing.append(label(above, chart.dimension, value));
    drawing.append(
      svg("text", { class: "tw-chart__label", x: LEFT, y: 186 }, "Change from the can before"),
      svg("text", { class: "tw-chart__label", x: LEFT, y: 278 }, `Cans measured: ${points.length}`),
    );
    return make("figure", { class: "tw-figure tw-figure--wide" }, drawing, caption(chart, points, spec.length > 0));
  }

  /** @param {LogChart} chart @param {LogPoint[]} points */
  function describe({ dimension }, points) {
    const values = points.map(({ value }) => value);
    const span = seaming.spanText(dimension, Math.min(...values), Math.max(...values));
    const last = seaming.valueText(dimension, values[values.length - 1]);
    return `Chart of ${say(dimension)}, ${words.many(points.length, "can")}, from ${span}; last ${last}.`;
  }

  /**
   * Center and control limits of the last stretch, or why there are none.
   * @param {string} dimension
   * @param {LogStretch} stretch
   */
  function limitsText(dimension, { limits, points }) {
    if (!limits) {
      const there = points.length === 1 ? "there is" : "there are";
      return `No control limits: they need ${FEWEST_CANS} cans since the last change; ${there} ${points.length}.`;
    }
    const center = seaming.valueText(dimension, limits.center);
    return `Center ${center}, control limits ${seaming.spanText(dimension, limits.lower, limits.upper)} (dashed).`;
  }

  /** @param {LogPoint[]} points */
  function signalsText(points) {
    const signals = points.flatMap(({ event, signals: own }) =>
      own.map((signal) => `${event.at.slice(0, 5)} ${SIGNALS[signal] || signal}`),
    );
    if (!signals.length) return null;
    const meant = ". It says that the sealer changed, not that a can is bad.";
    return make("p", {}, make("strong", {}, "Look at this: "), signals.slice(-5).join("; "), meant);
  }

  /** @param {LogChart} chart @param {LogPoint[]} points @param {boolean} isJudged */
  function caption({ can, dimension, marks, sealer, stretches }, points, isJudged) {
    const on = `can ${words.canTitle(can)}, ${words.sealerTitle(sealer).toLowerCase()}`;
    const last = seaming.valueText(dimension, points[points.length - 1].value);
    const said = [
      `${words.upper(say(dimension))}, ${on}. Last: ${last}.`,
      limitsText(dimension, stretches[stretches.length - 1]),
      isJudged ? "Heavy lines: limits of the seam specification." : "",
      marks.length ? "Upright lines: set-up, adjustment, jam, change of can size or lids." : "",
    ];
    return make("figcaption", {}, make("p", {}, said.filter(Boolean).join(" ")), signalsText(points));
  }

  root.tinwrightBenchLogDrawing = { drawChart };
})(globalThis);
