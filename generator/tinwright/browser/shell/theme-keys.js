// @ts-check
// The theme's header and menu by keyboard and screen reader: its buttons are labels of hidden boxes, which take no key.
// joined: offline.js

(function () {
  "use strict";
  // Light and dark: only the switch that shows is a stop, and either key presses it.
  const switches = /** @type {NodeListOf<HTMLInputElement>} */ (document.querySelectorAll(".md-option"));
  const labelOf = (/** @type {Element} */ box) => /** @type {HTMLLabelElement|null} */ (box.nextElementSibling);
  const settle = () =>
    switches.forEach((box) => {
      box.tabIndex = (labelOf(box) || box).hidden ? -1 : 0;
    });
  for (const box of switches) {
    box.addEventListener("keydown", (event) => {
      const shown = labelOf(box);
      if ((event.key !== "Enter" && event.key !== " ") || !shown) return;
      event.preventDefault();
      event.stopPropagation(); // the theme listens for Enter, too
      shown.click();
      settle();
      const next = [...switches].find((other) => other.tabIndex === 0);
      if (next) next.focus();
    });
    new MutationObserver(settle).observe(labelOf(box) || box, { attributeFilter: ["hidden"] });
  }
  settle();

  const menu = /** @type {HTMLElement|null} */ (document.querySelector(".md-sidebar--primary"));
  if (!menu) return;

  /**
   * Makes a button of a label that opens a part of the menu.
   * @param {HTMLInputElement} box @param {HTMLElement} label @param {string} [name] where the label holds no words
   */
  function makeButton(box, label, name) {
    const show = () => label.setAttribute("aria-expanded", String(box.checked));
    label.setAttribute("role", "button");
    label.tabIndex = 0;
    if (name) label.setAttribute("aria-label", name);
    label.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" && event.key !== " ") return;
      event.preventDefault();
      box.click();
    });
    box.addEventListener("change", show);
    show();
  }

  /** @param {ParentNode} place the first that can be gone to */
  function enter(place) {
    const stops = /** @type {NodeListOf<HTMLElement>} */ (place.querySelectorAll("a[href], label[tabindex]"));
    const first = [...stops].find((stop) => stop.checkVisibility({ visibilityProperty: true }));
    if (first) first.focus();
  }

  const drawer = /** @type {HTMLInputElement|null} */ (document.getElementById("__drawer"));
  const opener = /** @type {HTMLElement|null} */ (document.querySelector(".md-header__button[for=__drawer]"));
  if (drawer && opener) {
    makeButton(drawer, opener, "Menu");
    const close = () => {
      if (drawer.checked) drawer.click();
    };
    drawer.addEventListener("change", () => {
      if (drawer.checked) enter(menu);
    });
    menu.addEventListener("keydown", (event) => {
      if (event.key !== "Escape" || !drawer.checked) return;
      close();
      opener.focus();
    });
    menu.addEventListener("focusout", (event) => {
      const next = event.relatedTarget;
      if (next instanceof Node && !menu.contains(next) && next !== opener) close();
    });
  }

  const contents = /** @type {HTMLInputElement|null} */ (document.getElementById("__toc"));
  const labels = /** @type {NodeListOf<HTMLElement>} */ (menu.querySelectorAll("label[for=__toc]"));
  if (contents) {
    for (const label of labels) makeButton(contents, label);
    contents.addEventListener("change", () => {
      const part = /** @type {HTMLElement|null} */ (
        contents.parentElement && contents.parentElement.querySelector(":scope > .md-nav")
      );
      if (contents.checked && part) enter(part);
      else if (labels[0]) labels[0].focus();
    });
  }
})();
