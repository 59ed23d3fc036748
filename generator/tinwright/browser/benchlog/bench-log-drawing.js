// @ts-check
// Draws the chart of individuals and the one of moving ranges of a dimension, from what bench-log-charts.js worked out.
// needs: bench-advice.js bench-log-charts.js bench-log-words.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const globals = /** @type {any} */ (root);
  const { make, say } = globals.tinwrightBench;
  const rules = globals.tinwrightBenchLog;
  const seaming = globals.tinwrightSeaming;
  const words = globals.tinwrightBenchLogWords;
  const [WIDTH, LEFT, RIGHT] = [360, 58, 10];
  const SIGNALS = /** @type {Object<string, string>} */ ({
    "beyond-limits": "outside the control limits",
    run: `${rules.RUN} in a row on one side of the center line`,
    "range-beyond-limit": "a jump from the can before",
  });

  /** @param {string} tag @param {Object<string, string|number>} attributes @param {...(Node|string)} children */
  function svg(tag, attributes, ...children) {
    const element = document.createElementNS("http://www.w3.org/2000/svg", tag);
    for (const [name, value] of Object.entries(attributes))
      {element.setAttribute(name, typeof value === "number" ? String(Math.round(value * 10) / 10) : value);}
    element.append(...children);
    return element;
  }

  /** @param {string} dimension @param {number} value */
  const short = (dimension, value) => seaming.valueText(dimension, value).replace(/ in$/, "").replace(/^0\./, ".");

  /**
   * One panel with its own scale.
   * @param {number} top @param {number} height @param {number[]} values what must fit in @param {number} count
   */
  function panel(top, height, values, count) {
    const low = Math.min(...values);
    const reach = Math.max(...values) - low || Math.abs(low) / 10 || 1;
    const step = (WIDTH - LEFT - RIGHT) / Math.max(1, count);
    return {
      x: (/** @type {number} */ place) => LEFT + step * (place + 0.5),
      edge: (/** @type {number} */ place) => LEFT + step * place,
      y: (/** @type {number} */ value) => top + 8 + (height - 16) * (1 - (value - low) / reach),
      top,
      height,
    };
  }

  /** @param {any} at @param {number} value @param {number} from @param {number} to @param {string} kind */
  const level = (at, value, from, to, kind) =>
    svg("line", { class: `tw-chart__${kind}`, x1: at.edge(from), x2: at.edge(to), y1: at.y(value), y2: at.y(value) });

  /** @param {any} at @param {string} dimension @param {number} value @param {string} [name] */
  const label = (at, dimension, value, name = "") =>
    svg(
      "text",
      { class: "tw-chart__label", x: LEFT - 4, y: at.y(value) + 4, "text-anchor": "end" },
      name + short(dimension, value),
    );

  /** @param {LogChart} chart @param {{low: number|null, high: number|null}} specification @returns {HTMLElement} */
  function drawChart(chart, specification) {
    const points = chart.stretches.flatMap((stretch) => stretch.points);
    const limits = chart.stretches.map((stretch) => stretch.limits).filter((each) => each !== null);
    const spec = [specification.low, specification.high].filter((value) => value !== null);
    const inside = [
      ...points.flatMap(({ low, high }) => [low, high]),
      ...spec,
      ...limits.flatMap((each) => (each ? [each.lower, each.upper] : [])),
    ];
    const at = panel(4, 168, /** @type {number[]} */ (inside), points.length);
    const ranges = points.map(({ movingRange }) => movingRange || 0);
    const below = panel(190, 70, [0, ...ranges, ...limits.map((each) => (each ? each.rangeUpper : 0))], points.length);
    const drawing = svg("svg", {
      class: "tw-chart",
      viewBox: `0 0 ${WIDTH} 284`,
      role: "img",
      "aria-label": describe(chart, points),
    });
    for (const value of spec)
      {drawing.append(level(at, Number(value), 0, points.length, "spec"), label(at, chart.dimension, Number(value)));}
    let place = 0;
    for (const { points: some, limits: each } of chart.stretches) {
      const end = place + some.length;
      if (each) {
        drawing.append(
          level(at, each.center, place, end, "center"),
          level(at, each.lower, place, end, "limit"),
          level(at, each.upper, place, end, "limit"),
          level(below, each.rangeCenter, place, end, "center"),
          level(below, each.rangeUpper, place, end, "limit"),
        );
      }
      drawing.append(
        svg("polyline", {
          class: "tw-chart__line",
          points: some.map(({ value }, n) => `${at.x(place + n)},${at.y(value)}`).join(" "),
        }),
      );
      drawing.append(
        svg("polyline", {
          class: "tw-chart__line",
          points: some
            .map(({ movingRange }, n) => (movingRange === null ? "" : `${below.x(place + n)},${below.y(movingRange)}`))
            .join(" ")
            .trim(),
        }),
      );
      place = end;
    }
    points.forEach(({ value, low, high, movingRange, signals }, n) => {
      if (low !== high)
        {drawing.append(
          svg("line", { class: "tw-chart__spread", x1: at.x(n), x2: at.x(n), y1: at.y(low), y2: at.y(high) }),
        );}
      if (signals.length)
        {drawing.append(svg("circle", { class: "tw-chart__signal", cx: at.x(n), cy: at.y(value), r: 8 }));}
      drawing.append(svg("circle", { class: "tw-chart__point", cx: at.x(n), cy: at.y(value), r: 3.5 }));
      if (movingRange !== null)
        {drawing.append(svg("circle", { class: "tw-chart__point", cx: below.x(n), cy: below.y(movingRange), r: 2.5 }));}
    });
    for (const mark of chart.marks)
      {drawing.append(
        svg("line", { class: "tw-chart__mark", x1: at.edge(mark.before), x2: at.edge(mark.before), y1: 4, y2: 260 }),
      );}
    if (!spec.length)
      {for (const value of [Math.min(...points.map(({ low }) => low)), Math.max(...points.map(({ high }) => high))])
        {drawing.append(label(at, chart.dimension, value));}}
    drawing.append(
      svg("text", { class: "tw-chart__label", x: LEFT, y: 186 }, "Change from the can before"),
      svg("text", { class: "tw-chart__label", x: LEFT, y: 278 }, `Cans measured: ${points.length}`),
    );
    return make("figure", { class: "tw-figure tw-figure--wide" }, drawing, caption(chart, points, spec.length > 0));
  }

  /** @param {LogChart} chart @param {LogPoint[]} points */
  function describe(chart, points) {
    const values = points.map(({ value }) => value);
    return `Chart of ${say(chart.dimension)}, ${words.many(points.length, "can")}, from ${seaming.spanText(chart.dimension, Math.min(...values), Math.max(...values))}; last ${seaming.valueText(chart.dimension, values[values.length - 1])}.`;
  }

  /** @param {LogChart} chart @param {LogPoint[]} points @param {boolean} judged */
  function caption(chart, points, judged) {
    const last = chart.stretches[chart.stretches.length - 1];
    const said = [
      `${words.upper(say(chart.dimension))}, can ${words.canTitle(chart.can)}, ${words.sealerTitle(chart.sealer).toLowerCase()}. Last: ${seaming.valueText(chart.dimension, points[points.length - 1].value)}.`,
    ];
    if (last.limits)
      {said.push(
        `Center ${seaming.valueText(chart.dimension, last.limits.center)}, control limits ${seaming.spanText(chart.dimension, last.limits.lower, last.limits.upper)} (dashed).`,
      );}
    else
      {said.push(
        `No control limits: they need ${rules.FEWEST_CANS} cans since the last change; there ${last.points.length === 1 ? "is" : "are"} ${last.points.length}.`,
      );}
    if (judged) said.push("Heavy lines: limits of the seam specification.");
    if (chart.marks.length) said.push("Upright lines: set-up, adjustment, jam, change of can size or lids.");
    const signals = points.flatMap((point) =>
      point.signals.map((signal) => `${point.event.at.slice(0, 5)} ${SIGNALS[signal] || signal}`),
    );
    const box = make("figcaption", {}, make("p", {}, said.join(" ")));
    if (signals.length)
      {box.append(
        make(
          "p",
          {},
          make("strong", {}, "Look at this: "),
          signals.slice(-5).join("; "),
          ". It says that the sealer changed, not that a can is bad.",
        ),
      );}
    return box;
  }

  globals.tinwrightBenchLogDrawing = { drawChart };
})(globalThis);
