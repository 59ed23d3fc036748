// @ts-check
// needs: elements.js
// <tw-frames>: shows one of several still pictures at a time, the one that a slider stands at.

(function (root) {
  "use strict";

  const { make } = root.tinwrightElements;

  /**
   * `<tw-frames data-label="Step">`: figures in their order. Without script, and on paper, all of them are shown.
   * Nothing moves by itself: the reader's hand or keys move the slider.
   */
  class TwFrames extends HTMLElement {
    connectedCallback() {
      const frames = this.frames();
      if (frames.length < 2 || this.querySelector("input")) return;
      const slider = /** @type {HTMLInputElement} */ (
        make("input", { type: "range", min: 1, max: frames.length, step: 1, value: 1, oninput: () => this.show() })
      );
      this.prepend(make("label", { class: "tw-frames__slider" }, this.dataset.label || "", slider));
      this.dataset.ready = "";
      this.show();
    }

    /** @returns {HTMLElement[]} */
    frames() {
      return Array.from(this.querySelectorAll("figure"));
    }

    show() {
      const slider = this.querySelector("input");
      if (!slider) return;
      this.frames().forEach((frame, index) => {
        const shown = index + 1 === Number(slider.value);
        frame.toggleAttribute("data-shown", shown);
        const caption = frame.querySelector("figcaption");
        if (shown && caption) slider.setAttribute("aria-valuetext", caption.textContent || "");
      });
    }
  }

  customElements.define("tw-frames", TwFrames);
})(globalThis);
