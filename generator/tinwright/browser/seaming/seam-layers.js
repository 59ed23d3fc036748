// @ts-check
// The plates of a double seam, bent as they lie: the browser's half of tinwright/figures/layers.py for a plain seam.
// joined: seam-drawing.js

(function (root) {
  "use strict";
  const PANEL_RISE = 0.028;
  const PANEL_LENGTH = 0.035;

  /** @type {SectionDimensions} */
  const GOOD_SEAM = {
    bodyHook: 0.078,
    coverHook: 0.076,
    seamWidth: 0.118,
    seamThickness: 0.055,
    countersink: 0.125,
    endPlate: 0.01,
    bodyPlate: 0.01,
  };

  /** The middle line of a bent plate: straight runs and arcs, headings in degrees, right is 0 and down is 90. */
  class Track {
    /** @param {SeamPoint} start @param {number} heading */
    constructor(start, heading) {
      /** @type {SeamPoint[]} */
      this.points = [start];
      /** @type {number[]} */
      this.headings = [heading];
    }

    get end() {
      return this.points[this.points.length - 1];
    }
    get heading() {
      return this.headings[this.headings.length - 1];
    }

    /** @param {number} length */
    forward(length) {
      const angle = (this.heading * Math.PI) / 180;
      const [x, y] = this.end;
      if (length > 0) this.add([x + length * Math.cos(angle), y + length * Math.sin(angle)], this.heading);
      return this;
    }

    /**
     * Turns by degrees, right if positive, on a radius of the middle line.
     * @param {number} radius
     * @param {number} by
     */
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

    /** @param {SeamPoint} point @param {number} heading */
    add(point, heading) {
      this.points.push(point);
      this.headings.push(heading);
    }

    /** The outline of a plate of this thickness along the track. @param {number} thickness @returns {SeamPoint[]} */
    ribbon(thickness) {
      const half = thickness / 2;
      /** @param {number} distance to the right of the track @returns {SeamPoint[]} */
      const side = (distance) =>
        this.points.map(([x, y], index) => {
          const angle = (this.headings[index] * Math.PI) / 180;
          return [x - distance * Math.sin(angle), y + distance * Math.cos(angle)];
        });
      return [...side(half), ...side(-half).reverse()];
    }
  }

  /**
   * Bends a plate back on itself until its tip is `length` past the crown.
   * @param {Track} track
   * @param {number} radius
   * @param {number} length
   */
  function hookUp(track, radius, length) {
    if (length >= radius) track.turn(radius, 180).forward(length - radius);
    else {
      track.turn(radius, 90).turn(radius, (Math.acos(Math.max(-1, Math.min(1, 1 - length / radius))) * 180) / Math.PI);
    }
  }

  /** @param {SectionDimensions} dims @returns {{lid: SeamPoint[], body: SeamPoint[]}} */
  function layers(dims) {
    const metal = 3 * dims.endPlate + 2 * dims.bodyPlate;
    const squeeze = Math.min(1, dims.seamThickness / metal);
    const lid = dims.endPlate * squeeze;
    const body = dims.bodyPlate * squeeze;
    const gap = Math.max(0, dims.seamThickness - metal) / 4;
    const knee = 0.012,
      bowl = 0.017,
      lean = 65;
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

  root.tinwrightSeamLayers = { GOOD_SEAM, layers };
})(globalThis);
