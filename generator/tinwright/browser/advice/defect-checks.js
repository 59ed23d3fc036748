// @ts-check
// <tw-defect-checks>: one check of a defect at a time. Yes shows its correction for the sealer at hand, No the next check.

(function () {
  "use strict";
  const KEY = "tinwright.sealer";

  /** The sealer named last on this device; none when storage is blocked. */
  function kept() {
    try {
      return localStorage.getItem(KEY) || "";
    } catch {
      return "";
    }
  }

  /** @param {string} sealer its id, or nothing to forget it */
  function keep(sealer) {
    try {
      if (sealer) localStorage.setItem(KEY, sealer);
      else localStorage.removeItem(KEY);
    } catch {
      // Storage is full or blocked: the page works, but forgets.
    }
  }

  /**
   * The page lists all checks, each with its correction on every sealer; the answers are links to what comes next. This
   * shows what the address points at: a check (`#check-2`), the correction of a check (`#fix-2`) or the end (`#none`).
   */
  class TwDefectChecks extends HTMLElement {
    connectedCallback() {
      this.addEventListener("click", (event) => this.follow(event));
      addEventListener("hashchange", () => this.show(false));
      addEventListener("popstate", () => this.show(false));
      const box = this.querySelector("select");
      if (box) {
        const known = [...box.options].some((option) => option.value === kept());
        box.value = known ? kept() : "";
        box.addEventListener("change", () => {
          keep(box.value);
          this.tellApart(box.value);
        });
        this.tellApart(box.value);
      }
      this.show(false);
    }

    /** Shows of each correction what is for one sealer, or for all when none is named. @param {string} sealer */
    tellApart(sealer) {
      for (const row of this.querySelectorAll("[data-sealers]")) {
        const of = (row.getAttribute("data-sealers") || "").split(" ");
        /** @type {HTMLElement} */ (row).hidden = sealer !== "" && !of.includes(sealer);
      }
      this.toggleAttribute("data-one-sealer", sealer !== "");
    }

    /** An answer was tapped: no jump of the page, what comes next takes its place. @param {MouseEvent} event */
    follow(event) {
      const link = event.target instanceof Element ? event.target.closest('a[href^="#"]') : null;
      if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      history.pushState(null, "", link.getAttribute("href"));
      this.show(true);
    }

    /** @param {boolean} go whether to bring what is shown into view, and the keyboard to it */
    show(go) {
      const checks = /** @type {HTMLElement[]} */ ([...this.querySelectorAll(".tw-check")]);
      const target = this.querySelector(`#${CSS.escape(location.hash.slice(1) || "check-1")}`);
      const check = (target && target.closest(".tw-check")) || checks[0];
      for (const one of checks) {
        one.hidden = one !== check;
        const fix = /** @type {HTMLElement|null} */ (one.querySelector(".tw-fix"));
        if (fix) fix.hidden = fix !== target;
        const yes = one.querySelector(".tw-answer--yes a");
        if (yes) yes.toggleAttribute("aria-current", fix !== null && fix === target);
      }
      if (go) this.bring(/** @type {HTMLElement} */ (target || check));
    }

    /** @param {HTMLElement} shown */
    bring(shown) {
      const heading = shown.querySelector("h3, h4");
      if (!(heading instanceof HTMLElement)) return;
      heading.tabIndex = -1;
      heading.focus({ preventScroll: true });
      shown.scrollIntoView({ block: "nearest" });
    }
  }

  if (!customElements.get("tw-defect-checks")) customElements.define("tw-defect-checks", TwDefectChecks);

  /** What an address points at inside a fold is opened. */
  function unfold() {
    const target = document.getElementById(location.hash.slice(1));
    for (let at = target; at; at = at.parentElement) if (at instanceof HTMLDetailsElement) at.open = true;
    if (target && target.closest("details")) target.scrollIntoView();
  }
  addEventListener("hashchange", unfold);
  unfold();
})();
