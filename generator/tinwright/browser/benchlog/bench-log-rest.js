// @ts-check
// Below what is due: what was written, what it leaves open, the charts, and how the log leaves the phone.
// needs: bench-log-charts.js bench-log-days.js bench-log-drawing.js bench-log-lines.js bench-log-remembered.js
// needs: bench-log-states.js bench-log-unchecked.js
// joined: bench-log.js

(function (root) {
  "use strict";
  const { data: records } = /** @type {LogAdvice} */ (/** @type {any} */ (root).tinwrightBench);
  const { make, today } = root.tinwrightElements;
  const { chartsOf } = root.tinwrightBenchLogCharts;
  const { daysSection } = root.tinwrightBenchLogDays;
  const { drawChart } = root.tinwrightBenchLogDrawing;
  const { showEvents } = root.tinwrightBenchLogLines;
  const { isStale } = root.tinwrightBenchLogRemembered;
  const { isToday } = root.tinwrightBenchLogStates;
  const { missedCard, uncheckedCard, wentBackCard } = root.tinwrightBenchLogUnchecked;

  /** The limits of the specification that the last can was judged by. @param {LogChart} chart */
  function limitsOf({ dimension, stretches }) {
    const points = stretches.flatMap((stretch) => stretch.points);
    const id = points[points.length - 1].event.specification;
    const spec = records.specifications.find((each) => each.id === id);
    const limit = spec && spec.limits ? spec.limits.limits.find((each) => each.dimension === dimension) : null;
    return limit ? { low: limit.low, high: limit.high } : { low: null, high: null };
  }

  class Rest {
    /** @param {LogDesk} desk @param {Pick<LogDays, "begin"|"print"|"save">} acts */
    constructor(desk, acts) {
      this.desk = desk;
      this.acts = acts;
      this.isWhole = false;
      /** The session that the list shows. @type {KeptSession|null} */
      this.listed = null;
      this.frame = 0;
      this.tellUnsaved = () => {};
      this.head = make("h2", {}, "Written today");
      this.list = make("div");
      this.unchecked = make("div");
      this.figures = make("div");
      this.charts = make("details", { class: "tw-log__charts" }, make("summary", {}, "Charts"), this.figures);
      this.files = make("section", { class: "tw-log__files" });
      const parts = [this.head, this.list, this.unchecked, this.charts, this.files];
      this.element = make("div", { class: "tw-log__rest" }, ...parts);
      this.charts.addEventListener("toggle", () => this.showCharts(this.desk.kept()));
    }

    /** Shows it in the next frames of the screen: the lines have one, and what is below them the one after. */
    showSoon() {
      cancelAnimationFrame(this.frame);
      this.frame = requestAnimationFrame(() => this.show());
    }

    show() {
      const kept = this.desk.kept();
      this.showFiles();
      if (kept !== this.listed) this.list.replaceChildren();
      this.listed = kept;
      if (kept) this.showLines(kept);
      this.frame = requestAnimationFrame(() => this.showUnchecked());
      this.charts.hidden = !kept;
      this.head.hidden = !kept;
      this.head.textContent = kept && !isToday(kept) ? `Written on ${kept.session.date}` : "Written today";
      this.showCharts(kept);
    }

    /** @param {KeptSession} kept */
    showLines({ session, disputed }) {
      const showAll = () => {
        this.isWhole = true;
        this.desk.show();
      };
      showEvents(this.list, session, disputed, this.isWhole, (event) => this.desk.correct(event), showAll);
    }

    showUnchecked() {
      const kept = this.desk.kept();
      const found = kept
        ? [wentBackCard(kept.session), missedCard(this.desk.states.of(kept).missed), uncheckedCard(kept.session)]
        : [];
      const cards = found.flatMap((card) => (card ? [card] : []));
      const stand = this.unchecked.children;
      if (cards.length === stand.length && cards.every((card, index) => card.isEqualNode(stand[index]))) return;
      this.unchecked.replaceChildren(...cards);
    }

    showFiles() {
      const { desk } = this;
      const kept = desk.kept();
      if (isStale(this.files, JSON.stringify([kept && kept.key, today(), desk.log.sessions.length]))) {
        const { parts, tell } = daysSection({
          ...this.acts,
          log: desk.log,
          kept,
          say: (text) => desk.say(text),
          choose: (key) => desk.choose(key),
          imported: () => {
            const [last] = desk.log.sessions.slice(-1);
            if (!desk.kept() && last) desk.choose(last.key);
            desk.show();
          },
        });
        this.files.replaceChildren(...parts);
        this.tellUnsaved = tell;
      }
      this.tellUnsaved();
    }

    /** @param {KeptSession|null} kept */
    showCharts(kept) {
      if (!this.charts.hasAttribute("open") || !kept) return;
      const { sealer } = kept.session;
      const charts = chartsOf(this.desk.log.sessions.map(({ session }) => session)).filter(
        (chart) => chart.sealer === sealer,
      );
      const isFirst = (/** @type {LogChart} */ { dimension }) => dimension === "seam-thickness";
      const sorted = [...charts.filter(isFirst), ...charts.filter((chart) => !isFirst(chart))];
      const figures = sorted.map((chart) => drawChart(chart, limitsOf(chart)));
      const none = make("p", { class: "tw-quiet" }, "Nothing was measured on this sealer yet.");
      this.figures.replaceChildren(...(figures.length ? figures : [none]));
    }
  }

  root.tinwrightBenchLogRest = { Rest };
})(globalThis);
