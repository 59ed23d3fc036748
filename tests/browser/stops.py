"""Where the keyboard stands on a page: what has the focus, whether that shows, and whether anything covers it."""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import TimeoutError as WaitedTooLong

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Locator, Page

_FAULTS = """() => {
  const stop = document.activeElement;
  if (!stop || stop === document.body || stop === document.documentElement) return null;
  // the theme shows the focus of its hidden switch on the label behind it
  const shown = stop.classList.contains("md-option") ? stop.nextElementSibling : stop;
  const words = stop.getAttribute("aria-label") || stop.textContent || stop.id;
  const name = `${stop.tagName.toLowerCase()}.${stop.className} "${words.trim().replace(/\\s+/g, " ").slice(0, 50)}"`;
  const faults = [];
  const style = getComputedStyle(shown);
  const rgb = color => (color.match(/[\\d.]+/g) || []).map(Number);
  const light = color => rgb(color).slice(0, 3).map(c => c / 255)
    .map(c => c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)
    .reduce((sum, c, i) => sum + c * [0.2126, 0.7152, 0.0722][i], 0);
  const ground = element => {
    for (let e = element; e; e = e.parentElement) {
      const [, , , alpha = 1] = rgb(getComputedStyle(e).backgroundColor);
      if (alpha > 0.5) return light(getComputedStyle(e).backgroundColor);
    }
    return 1;
  };
  if (style.outlineStyle === "none" || parseFloat(style.outlineWidth) < 2) faults.push("shows no outline");
  else if (style.outlineStyle !== "auto") {
    const [line, back] = [light(style.outlineColor), ground(parseFloat(style.outlineOffset) < 0 ? shown : shown.parentElement)];
    const contrast = (Math.max(line, back) + 0.05) / (Math.min(line, back) + 0.05);
    if (contrast < 3) faults.push(`outline has a contrast of ${contrast.toFixed(2)}`);
  }
  if (!shown.checkVisibility({ opacityProperty: true, visibilityProperty: true })) faults.push("cannot be seen");
  let [free, covered] = [0, 0];
  const covers = new Set();
  for (const box of shown.getClientRects()) for (const x of [0.1, 0.5, 0.9]) for (const y of [0.1, 0.5, 0.9]) {
    const hit = document.elementFromPoint(box.left + box.width * x, box.top + box.height * y);
    if (hit && (shown.contains(hit) || hit.contains(shown) || hit.closest("label")?.control === stop)) free += 1;
    else if (hit) {
      covered += 1;
      covers.add(`${hit.tagName}.${hit.getAttribute("class")}`);
    }
  }
  if (free === 0 && covered === 0) faults.push("lies outside, as if covered");
  else if (free < covered) faults.push(`is covered by ${[...covers].join(", ")}`);
  return [name, faults];
}"""
"""WCAG 2.2: 2.4.7 focus visible, 1.4.11 contrast of 3 to 1, 2.4.11 focus not obscured (here: half of it is free)."""


def look(page: Page) -> str | None:
    """See that the stop the keyboard is at shows; returns its name, or nothing outside of the page."""
    found = page.evaluate(_FAULTS)
    if found is None:
        return None
    name, faults = found
    if any("cover" in fault for fault in faults):  # the page may still be moving to it, or folding something away
        with suppress(WaitedTooLong):
            page.wait_for_function(f"!({_FAULTS})()[1].some(fault => fault.includes('cover'))")
        name, faults = page.evaluate(_FAULTS)
    assert faults == [], f"{page.url}: {name} {', '.join(faults)}"
    return str(name)


def stops(page: Page, *, key: str = "Tab", at_most: int = 400) -> Iterator[str]:
    """Press a key until the focus leaves the page, and look at each stop on the way; yields their names."""
    before = None
    for _ in range(at_most):
        page.keyboard.press(key)
        name = look(page)
        if name is None:
            return
        now = page.evaluate_handle("document.activeElement")
        if before is not None:
            assert page.evaluate("([a, b]) => a !== b", [before, now]), f"{page.url}: the keyboard is stuck at {name}"
        before = now
        yield name
    pytest.fail(f"{page.url}: no end after {at_most} stops")


def go_to(page: Page, target: Locator, *, key: str = "Tab", at_most: int = 200) -> None:
    """Bring the focus to the target by one key, looking at each stop on the way."""
    for _ in range(at_most):
        page.keyboard.press(key)
        look(page)
        # asked for anew at each stop: the page may have drawn it once more
        if target.count() and target.first.evaluate("e => e === document.activeElement"):
            return
    pytest.fail(f"{page.url}: the keyboard does not reach {target}")


def skip_to_content(page: Page) -> None:
    """Take the first stop of a page, the link over the menus to its content."""
    page.keyboard.press("Tab")
    name = look(page)
    assert name is not None
    assert "Skip to content" in name
    page.keyboard.press("Enter")
