// @ts-check
// A double seam cut through, to scale, from its dimensions: the browser's half of tinwright/figures/section.py.
// needs: seam-layers.js

(function (root) {
  "use strict";
  const { GOOD_SEAM, layers } = root.tinwrightSeamLayers;
  const SVG = "http://www.w3.org/2000/svg";
  const SCALE = 2400;
  const FAULT = "var(--tw-svg-fault, #a3161a)";
  const PATTERNS = [
    { name: "body", size: 8, d: "M-2 2 l4 -4 M0 8 l8 -8 M6 10 l4 -4" },
    { name: "out", size: 7, d: "M0 0 l7 7 M7 0 l-7 7" },
  ];
  let drawn = 0;

  /** @param {string} tag @param {Record<string, string|number>} attributes @param {string} [text] */
  function node(tag, attributes, text) {
    const element = document.createElementNS(SVG, tag);
    for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value));
    if (text !== undefined) element.textContent = text;
    return element;
  }

  /** @param {SeamPoint[]} points */
  const joined = (points) => points.map(([x, y]) => `${(x * SCALE).toFixed(1)},${(y * SCALE).toFixed(1)}`).join(" ");

  /** @param {SectionDimensions} dims */
  const overlapOf = (dims) => dims.coverHook + dims.bodyHook + dims.endPlate - dims.seamWidth;

  /** What is drawn and said of a seam, under one number on the page. */
  class Drawing {
    /** @param {SectionDimensions} dims @param {SectionOptions} options */
    constructor(dims, { title, out = [], guessed = [], unit = "in" }) {
      drawn += 1;
      this.id = `tw-drawing-${drawn}`;
      this.dims = dims;
      this.out = out;
      this.guessed = guessed;
      this.unit = unit;
      const width = Math.max(0.062, dims.seamThickness) * SCALE + 330;
      this.height = (Math.max(dims.countersink, dims.seamWidth) + 0.045) * SCALE + 90;
      /** Where the plates end on the right. */
      this.right = Math.max(dims.seamThickness, dims.endPlate * 3) * SCALE;
      this.svg = /** @type {SVGElement} */ (
        node("svg", {
          class: "tw-svg",
          role: "img",
          "aria-labelledby": `${this.id}-t ${this.id}-d`,
          viewBox: `-150 -90 ${width} ${this.height}`,
          "font-family": "inherit",
          "stroke-width": 1.6,
          "stroke-linejoin": "round",
          "stroke-linecap": "round",
        })
      );
      this.svg.append(node("title", { id: `${this.id}-t` }, title));
      this.svg.append(node("desc", { id: `${this.id}-d` }, this.described()));
    }

    /** @param {number} value */
    written(value) {
      return this.unit === "mm" ? `${(value * 25.4).toFixed(2)} mm` : `${value.toFixed(3)} in`;
    }

    /** Every dimension in words, for who does not see the drawing. */
    described() {
      const { dims } = this;
      /** @type {[string, string, number][]} */
      const list = [
        ["seam-thickness", "Seam thickness", dims.seamThickness],
        ["countersink", "Countersink", dims.countersink],
        ["body-hook", "Body hook", dims.bodyHook],
        ["overlap", "Overlap", overlapOf(dims)],
        ["cover-hook", "Cover hook", dims.coverHook],
        ["seam-width", "Seam width", dims.seamWidth],
      ];
      return list
        .map(([key, name, value]) => `${name} ${this.written(value)}${this.out.includes(key) ? ", out of limits" : ""}`)
        .join("; ");
    }

    plates() {
      const defs = node("defs", {});
      for (const { name, size, d } of PATTERNS) {
        const box = { width: size, height: size, patternUnits: "userSpaceOnUse" };
        const pattern = node("pattern", { id: `${this.id}-${name}`, ...box });
        pattern.append(node("path", { d, fill: "none", stroke: "currentColor", "stroke-width": 1 }));
        defs.append(pattern);
      }
      const shapes = layers(this.dims);
      const [body, lid] = [joined(shapes.body), joined(shapes.lid)];
      const line = { stroke: "currentColor" };
      this.svg.append(
        defs,
        node("polygon", { points: body, class: "tw-svg-body", fill: "var(--tw-svg-body, #b9c6d3)", ...line }),
        node("polygon", { points: body, fill: `url(#${this.id}-body)`, stroke: "none" }),
        node("polygon", { points: lid, class: "tw-svg-lid", fill: "var(--tw-svg-lid, #e8edf2)", ...line }),
      );
    }

    /** The hatching of what is out of limits. @param {number} x @param {number} y @param {number[]} size */
    hatch(x, y, [width, height]) {
      this.svg.append(node("rect", { x, y, width, height, fill: `url(#${this.id}-out)`, stroke: FAULT }));
    }

    /** @param {number} x1 @param {number} y1 @param {number} x2 @param {number} y2 */
    stroke(x1, y1, x2, y2) {
      this.svg.append(node("line", { x1, x2, y1, y2, stroke: "currentColor" }));
    }

    /**
     * One dimension line, upright at x from y0 to y1, with its words.
     * @param {{key: string, name: string, value: number}} what
     * @param {[number, number, number]} place x, y0 and y1
     * @param {SeamPoint} at
     * @param {string} [anchor]
     */
    line(what, [x, y0, y1], at, anchor = "start") {
      if (this.out.includes(what.key)) {
        this.hatch(x - 6, Math.min(y0, y1), [12, Math.max(1, Math.abs(y1 - y0))]);
      }
      this.stroke(x, y0, x, y1);
      for (const y of [y0, y1]) this.stroke(x - 7, y, x + 7, y);
      this.words(what, at, anchor);
    }

    /** @param {{key: string, name: string, value: number}} what @param {SeamPoint} at @param {string} anchor */
    words({ key, name, value }, at, anchor) {
      const isOut = this.out.includes(key);
      const text = node("text", {
        x: at[0],
        y: at[1],
        "font-size": 16,
        fill: "currentColor",
        "text-anchor": anchor,
        "font-weight": isOut ? 700 : 400,
        stroke: "var(--tw-svg-paper, #fff)",
        "stroke-width": 4,
        "paint-order": "stroke",
      });
      const rows = [name, this.guessed.includes(key) ? "not measured" : this.written(value)];
      if (isOut) rows.push("OUT");
      rows.forEach((row, index) => text.append(node("tspan", { x: at[0], dy: index ? 18 : 0 }, row)));
      this.svg.append(text);
    }

    thickness() {
      const wide = this.dims.seamThickness * SCALE;
      this.stroke(0, -22, wide, -22);
      const what = { key: "seam-thickness", name: "Seam thickness", value: this.dims.seamThickness };
      this.words(what, [wide + 10, -62], "start");
      for (const x of [0, wide]) this.stroke(x, -29, x, -8);
      if (this.out.includes("seam-thickness")) this.hatch(0, -28, [wide, 12]);
    }

    lines() {
      const { dims, right } = this;
      const [width, deep] = [dims.seamWidth * SCALE, dims.countersink * SCALE];
      const top = dims.endPlate * SCALE;
      const tip = (dims.endPlate + dims.bodyHook) * SCALE;
      const cover = (dims.seamWidth - dims.coverHook) * SCALE;
      const countersink = { key: "countersink", name: "Countersink", value: dims.countersink };
      this.line(countersink, [-24, 0, deep], [-34, 36], "end");
      const bodyHook = { key: "body-hook", name: "Body hook", value: dims.bodyHook };
      this.line(bodyHook, [right + 20, top, tip], [right + 32, 40]);
      const overlap = { key: "overlap", name: "Overlap", value: overlapOf(dims) };
      this.line(overlap, [right + 56, cover, tip], [right + 68, width * 0.5]);
      const coverHook = { key: "cover-hook", name: "Cover hook", value: dims.coverHook };
      this.line(coverHook, [right + 38, cover, width], [right + 50, width - 22]);
      const seamWidth = { key: "seam-width", name: "Seam width", value: dims.seamWidth };
      this.line(seamWidth, [right + 160, 0, width], [right + 168, width + 38], "end");
    }

    sides() {
      const y = this.height - 90 - 10;
      const style = { y, "font-size": 16, "font-weight": 700, fill: "currentColor" };
      this.svg.append(node("text", { x: -142, ...style }, "inside the can"));
      this.svg.append(node("text", { x: this.right + 40, ...style }, "outside"));
    }
  }

  /** Draws a seam to scale, with its dimension lines. @type {TinwrightDrawing["section"]} */
  function section(dims, options) {
    const drawing = new Drawing(dims, options);
    drawing.plates();
    drawing.thickness();
    drawing.lines();
    drawing.sides();
    return drawing.svg;
  }

  root.tinwrightDrawing = { GOOD_SEAM, layers, section };
})(globalThis);
