// @ts-check
// A double seam cut through, to scale, from its dimensions: the browser's half of tinwright.figures for a plain seam.
// joined: seam-check.js

/**
 * @typedef {[number, number]} Point
 * @typedef {{bodyHook: number, coverHook: number, seamWidth: number, seamThickness: number, countersink: number,
 *   endPlate: number, bodyPlate: number}} SectionDimensions
 */

(function (root) {
  "use strict";
  const SVG = "http://www.w3.org/2000/svg";
  const SCALE = 2400;
  const PANEL_RISE = 0.028;
  const PANEL_LENGTH = 0.035;

  /** @type {SectionDimensions} */
  const GOOD_SEAM = {
    bodyHook: 0.078, coverHook: 0.076, seamWidth: 0.118, seamThickness: 0.055, countersink: 0.125, endPlate: 0.01,
    bodyPlate: 0.01,
  };

  /** The middle line of a bent plate: straight runs and arcs, headings in degrees, right is 0 and down is 90. */
  class Track {
    /** @param {Point} start @param {number} heading */
    constructor(start, heading) {
      /** @type {Point[]} */
      this.points = [start];
      /** @type {number[]} */
      this.headings = [heading];
    }

    get end() { return this.points[this.points.length - 1]; }
    get heading() { return this.headings[this.headings.length - 1]; }

    /** @param {number} length */
    forward(length) {
      const angle = (this.heading * Math.PI) / 180;
      const [x, y] = this.end;
      if (length > 0) this.add([x + length * Math.cos(angle), y + length * Math.sin(angle)], this.heading);
      return this;
    }

    /** Turns by degrees, right if positive, on a radius of the middle line. @param {number} radius @param {number} by */
    turn(radius, by) {
      const start = this.heading;
      const side = Math.sign(by);
      const from = (start * Math.PI) / 180;
      const [x, y] = this.end;
      const center = [x - side * radius * Math.sin(from), y + side * radius * Math.cos(from)];
      const steps = Math.max(1, Math.ceil(Math.abs(by) / 7.5 - 1e-9));
      for (let step = 1; step <= steps; step += 1) {
        const now = start + (by * step) / steps;
        const angle = (now * Math.PI) / 180;
        this.add([center[0] + side * radius * Math.sin(angle), center[1] - side * radius * Math.cos(angle)], now);
      }
      return this;
    }

    /** @param {Point} point @param {number} heading */
    add(point, heading) {
      this.points.push(point);
      this.headings.push(heading);
    }

    /** The outline of a plate of this thickness along the track. @param {number} thickness @returns {Point[]} */
    ribbon(thickness) {
      const half = thickness / 2;
      /** @param {number} distance to the right of the track @returns {Point[]} */
      const side = (distance) => this.points.map(([x, y], index) => {
        const angle = (this.headings[index] * Math.PI) / 180;
        return [x - distance * Math.sin(angle), y + distance * Math.cos(angle)];
      });
      return [...side(half), ...side(-half).reverse()];
    }
  }

  /** Bends a plate back on itself until its tip is `length` past the crown. @param {Track} track @param {number} radius @param {number} length */
  function hookUp(track, radius, length) {
    if (length >= radius) track.turn(radius, 180).forward(length - radius);
    else track.turn(radius, 90).turn(radius, (Math.acos(Math.max(-1, Math.min(1, 1 - length / radius))) * 180) / Math.PI);
  }

  /** @param {SectionDimensions} dims @returns {{lid: Point[], body: Point[]}} */
  function layers(dims) {
    const metal = 3 * dims.endPlate + 2 * dims.bodyPlate;
    const squeeze = Math.min(1, dims.seamThickness / metal);
    const lid = dims.endPlate * squeeze;
    const body = dims.bodyPlate * squeeze;
    const gap = Math.max(0, dims.seamThickness - metal) / 4;
    const knee = 0.012, bowl = 0.017, lean = 65;
    const slope = (lean * Math.PI) / 180;
    const straight = Math.max(0, (PANEL_RISE - (knee + bowl) * (1 - Math.cos(slope))) / Math.sin(slope));
    const run = (knee + bowl) * Math.sin(slope) + straight * Math.cos(slope) + bowl;
    const low = dims.countersink + lid / 2;
    const high = low - (knee + bowl) * (1 - Math.cos(slope)) - straight * Math.sin(slope);
    const end = new Track([lid / 2 - run - PANEL_LENGTH, high], 0).forward(PANEL_LENGTH).turn(knee, lean);
    end.forward(straight).turn(bowl, -lean - 90);
    const arch = (dims.seamThickness - lid) / 2;
    end.forward(end.end[1] - lid / 2 - arch).turn(arch, 180);
    const heel = (lid + body) / 2 + gap;
    end.forward(dims.seamWidth - lid / 2 - heel - end.end[1]);
    hookUp(end, heel, dims.coverHook - lid / 2);
    const bend = (dims.seamThickness - 2 * lid - 2 * gap - body) / 2;
    const can = new Track([lid + gap + body / 2, Math.max(dims.countersink, dims.seamWidth) + 0.05], -90);
    can.forward(can.end[1] - dims.endPlate - body / 2 - bend);
    hookUp(can, bend, dims.bodyHook - body / 2);
    return { lid: end.ribbon(lid), body: can.ribbon(body) };
  }

  /** @param {string} tag @param {Object<string, string|number>} attributes @param {string} [text] */
  function node(tag, attributes, text) {
    const element = document.createElementNS(SVG, tag);
    for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value));
    if (text !== undefined) element.textContent = text;
    return element;
  }

  /** @param {Point[]} points */
  const joined = (points) => points.map(([x, y]) => `${(x * SCALE).toFixed(1)},${(y * SCALE).toFixed(1)}`).join(" ");

  let drawn = 0;

  /**
   * Draws a seam to scale, with its dimension lines.
   * @param {SectionDimensions} dims
   * @param {{title: string, out?: string[], guessed?: string[], unit?: string}} options what is out of limits, what was
   *   not measured, and what the values are written in
   * @returns {SVGElement}
   */
  function section(dims, { title, out = [], guessed = [], unit = "in" }) {
    drawn += 1;
    const id = `tw-drawing-${drawn}`;
    const overlap = dims.coverHook + dims.bodyHook + dims.endPlate - dims.seamWidth;
    /** @param {number} value */
    const written = (value) => (unit === "mm" ? `${(value * 25.4).toFixed(2)} mm` : `${value.toFixed(3)} in`);
    /** @param {string} name @param {number} value */
    const said = (name, value) => `${name} ${written(value)}`;
    const list = [
      ["seam-thickness", "Seam thickness", dims.seamThickness], ["countersink", "Countersink", dims.countersink],
      ["body-hook", "Body hook", dims.bodyHook], ["overlap", "Overlap", overlap],
      ["cover-hook", "Cover hook", dims.coverHook], ["seam-width", "Seam width", dims.seamWidth],
    ];
    const width = Math.max(0.062, dims.seamThickness) * SCALE + 330;
    const height = (Math.max(dims.countersink, dims.seamWidth) + 0.045) * SCALE + 90;
    const svg = /** @type {SVGElement} */ (node("svg", {
      class: "tw-svg", role: "img", "aria-labelledby": `${id}-t ${id}-d`, viewBox: `-150 -90 ${width} ${height}`,
      "font-family": "inherit", "stroke-width": 1.6, "stroke-linejoin": "round", "stroke-linecap": "round",
    }));
    svg.append(node("title", { id: `${id}-t` }, title), node("desc", { id: `${id}-d` },
      list.map(([key, name, value]) => said(String(name), Number(value)) + (out.includes(String(key)) ? ", out of limits" : "")).join("; ")));
    const defs = node("defs", {});
    for (const [name, size, d] of [["body", 8, "M-2 2 l4 -4 M0 8 l8 -8 M6 10 l4 -4"], ["out", 7, "M0 0 l7 7 M7 0 l-7 7"]]) {
      const pattern = node("pattern", { id: `${id}-${name}`, width: size, height: size, patternUnits: "userSpaceOnUse" });
      pattern.append(node("path", { d, fill: "none", stroke: "currentColor", "stroke-width": 1 }));
      defs.append(pattern);
    }
    svg.append(defs);
    const shapes = layers(dims);
    svg.append(node("polygon", { points: joined(shapes.body), class: "tw-svg-body", fill: "var(--tw-svg-body, #b9c6d3)", stroke: "currentColor" }));
    svg.append(node("polygon", { points: joined(shapes.body), fill: `url(#${id}-body)`, stroke: "none" }));
    svg.append(node("polygon", { points: joined(shapes.lid), class: "tw-svg-lid", fill: "var(--tw-svg-lid, #e8edf2)", stroke: "currentColor" }));

    const right = Math.max(dims.seamThickness, dims.endPlate * 3) * SCALE;
    /**
     * One dimension line, upright at x from y0 to y1, with its words.
     * @param {string} key @param {string} name @param {number} value @param {number} x @param {number} y0 @param {number} y1
     * @param {Point} at @param {string} [anchor]
     */
    const line = (key, name, value, x, y0, y1, at, anchor = "start") => {
      const bad = out.includes(key);
      if (bad) svg.append(node("rect", { x: x - 6, y: Math.min(y0, y1), width: 12, height: Math.max(1, Math.abs(y1 - y0)), fill: `url(#${id}-out)`, stroke: "var(--tw-svg-fault, #a3161a)" }));
      svg.append(node("line", { x1: x, x2: x, y1: y0, y2: y1, stroke: "currentColor" }));
      for (const y of [y0, y1]) svg.append(node("line", { x1: x - 7, x2: x + 7, y1: y, y2: y, stroke: "currentColor" }));
      words(key, name, value, at, anchor);
    };
    /** @param {string} key @param {string} name @param {number} value @param {Point} at @param {string} anchor */
    const words = (key, name, value, at, anchor) => {
      const text = node("text", { x: at[0], y: at[1], "font-size": 16, fill: "currentColor", "text-anchor": anchor, "font-weight": out.includes(key) ? 700 : 400, stroke: "var(--tw-svg-paper, #fff)", "stroke-width": 4, "paint-order": "stroke" });
      const rows = [name, guessed.includes(key) ? "not measured" : written(value)];
      if (out.includes(key)) rows.push("OUT");
      rows.forEach((row, index) => text.append(node("tspan", { x: at[0], dy: index ? 18 : 0 }, row)));
      svg.append(text);
    };
    const y = (/** @type {number} */ inches) => inches * SCALE;
    svg.append(node("line", { x1: 0, x2: y(dims.seamThickness), y1: -22, y2: -22, stroke: "currentColor" }));
    words("seam-thickness", "Seam thickness", dims.seamThickness, [y(dims.seamThickness) + 10, -62], "start");
    for (const x of [0, y(dims.seamThickness)]) svg.append(node("line", { x1: x, x2: x, y1: -29, y2: -8, stroke: "currentColor" }));
    if (out.includes("seam-thickness")) svg.append(node("rect", { x: 0, y: -28, width: y(dims.seamThickness), height: 12, fill: `url(#${id}-out)`, stroke: "var(--tw-svg-fault, #a3161a)" }));
    line("countersink", "Countersink", dims.countersink, -24, 0, y(dims.countersink), [-34, 36], "end");
    line("body-hook", "Body hook", dims.bodyHook, right + 20, y(dims.endPlate), y(dims.endPlate + dims.bodyHook), [right + 32, 40]);
    line("overlap", "Overlap", overlap, right + 56, y(dims.seamWidth - dims.coverHook), y(dims.endPlate + dims.bodyHook), [right + 68, y(dims.seamWidth) * 0.5]);
    line("cover-hook", "Cover hook", dims.coverHook, right + 38, y(dims.seamWidth - dims.coverHook), y(dims.seamWidth), [right + 50, y(dims.seamWidth) - 22]);
    line("seam-width", "Seam width", dims.seamWidth, right + 160, 0, y(dims.seamWidth), [right + 168, y(dims.seamWidth) + 38], "end");
    const foot = height - 90 - 10;
    svg.append(node("text", { x: -142, y: foot, "font-size": 16, "font-weight": 700, fill: "currentColor" }, "inside the can"));
    svg.append(node("text", { x: right + 40, y: foot, "font-size": 16, "font-weight": 700, fill: "currentColor" }, "outside"));
    return svg;
  }

  /** @type {any} */ (root).tinwrightDrawing = { GOOD_SEAM, layers, section };
})(globalThis);
