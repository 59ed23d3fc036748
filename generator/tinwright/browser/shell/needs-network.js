// @ts-check
// Says so when a file that the device does not keep cannot be reached: a printed file (PDF), or the copy to save.
// Only over http and https: on a disk or a stick every file lies beside the page.
// joined: offline.js

(function () {
  "use strict";
  if (!/^https?:$/.test(location.protocol)) return;
  const FETCHED_WHEN_OPENED = /\.(?:pdf|zip)$/i;
  const PATIENCE_MS = 8000;
  /** Links that were tried and may be followed. @type {WeakSet<HTMLAnchorElement>} */
  const tried = new WeakSet();

  /** @param {Element} link @returns {link is HTMLAnchorElement} */
  const isToFetch = (link) =>
    link instanceof HTMLAnchorElement && link.origin === location.origin && FETCHED_WHEN_OPENED.test(link.pathname);

  /**
   * Whether the service worker has the file; it keeps files under their address and a hash.
   * @param {HTMLAnchorElement} link
   */
  async function isKept(link) {
    try {
      return (await caches.match(link.href.replace(/[?#].*/, ""), { ignoreSearch: true })) !== undefined;
    } catch {
      return false; // no storage of that kind, or blocked
    }
  }

  /** Whether a server answers, whatever it says. @param {HTMLAnchorElement} link */
  async function isReached(link) {
    const waiting = new AbortController();
    const timer = setTimeout(() => waiting.abort(), PATIENCE_MS);
    try {
      await fetch(link.href, { method: "HEAD", signal: waiting.signal });
      return true;
    } catch {
      return false;
    } finally {
      clearTimeout(timer);
    }
  }

  /** What is said beside a link. @param {HTMLAnchorElement} link @returns {HTMLElement} */
  function noteOf(link) {
    const about = link.closest("li, p") || link;
    const found = about.querySelector(".tw-needs");
    if (found instanceof HTMLElement) return found;
    const note = document.createElement("span");
    note.className = "tw-needs";
    about.append(note);
    return note;
  }

  /** Says beside each link to a file that is not kept that it needs the network. */
  async function mark() {
    for (const link of document.querySelectorAll("a[href]")) {
      if (isToFetch(link) && !(await isKept(link)) && !noteOf(link).textContent) {
        noteOf(link).textContent = "Needs the network.";
      }
    }
  }

  const unmark = () => document.querySelectorAll(".tw-needs").forEach((note) => note.remove());

  /** @param {HTMLAnchorElement} link */
  async function follow(link) {
    const note = noteOf(link);
    note.setAttribute("role", "status"); // read out when its words change while it stands on the page
    note.textContent = "";
    if ((await isKept(link)) || (await isReached(link))) {
      unmark();
      tried.add(link);
      link.click();
      return;
    }
    note.textContent =
      "Needs the network: there is no signal, or the server does not answer, " +
      "and this file is not kept on this device. Try again later.";
    await mark();
  }

  document.addEventListener("click", (event) => {
    const link = event.target instanceof Element ? event.target.closest("a[href]") : null;
    if (!link || !isToFetch(link) || tried.delete(link) || event.defaultPrevented) return;
    // With one of these keys it opens in a window of its own.
    if (event.button || event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return;
    event.preventDefault();
    follow(link);
  });
  addEventListener("offline", mark);
  addEventListener("online", unmark);
  if (!navigator.onLine) mark();
})();
