// @ts-check
// `?embed`: the page in another page's frame. It tells its height to that page, and its links keep the frame.
//
// Message to the parent whenever the height of the page changes, in CSS px: { tinwright: "height", height: NUMBER }.

(function () {
  "use strict";
  const script = /** @type {HTMLScriptElement} */ (document.currentScript);
  const site = new URL("..", script.src).href;
  let told = 0;

  function tell() {
    const height = Math.ceil(document.body.getBoundingClientRect().height);
    if (height === told || window.parent === window) return;
    told = height;
    // The height is no secret, and whose page the frame stands in is not known here.
    window.parent.postMessage({ tinwright: "height", height }, "*");
  }

  /** Keeps a link in the frame; a link to another site opens beside it. @param {Event} event */
  function keep(event) {
    const link = event.target instanceof Element ? event.target.closest("a[href]") : null;
    if (!(link instanceof HTMLAnchorElement) || link.hasAttribute("download")) return;
    if (!link.href.startsWith(site)) {
      if (!/^https?:$/.test(link.protocol)) return;
      link.target = "_blank";
      link.rel = "noopener";
      return;
    }
    if ((link.getAttribute("href") || "").startsWith("#")) return;
    const query = new URLSearchParams(link.search);
    query.set("embed", "");
    link.search = query.toString().replace(/\bembed=(?=&|$)/, "embed");
  }

  function start() {
    new ResizeObserver(tell).observe(document.body);
    for (const way of ["click", "auxclick"]) document.addEventListener(way, keep, true);
    tell();
  }

  if (document.body) start();
  else document.addEventListener("DOMContentLoaded", start);
})();
