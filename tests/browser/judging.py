"""What axe-core finds on a page as it stands: at a desk and on phones, in light and in dark."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from playwright.sync_api import Page

ASKED = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa", "best-practice")
"""All that axe-core knows of WCAG 2.2 A and AA, and what its makers advise beyond. A bare run leaves target size out."""

LEFT_OUT = ("aria-allowed-role",)
"""Advice beyond WCAG that is not taken: the theme opens its menu by labels of hidden boxes, and `theme-keys.js` gives
these labels the role, the name, the state and the keys of a button, which that advice would refuse them."""

DESK, PHONE, SMALL_PHONE = (1280, 900), (390, 844), (320, 640)
"""Widths and heights in CSS pixels; 320 is the width of WCAG 1.4.10."""

OF_LIGHT = ("color-contrast", "link-in-text-block")
"""Rules whose answer may change between light and dark."""

OF_WIDTH = (*OF_LIGHT, "target-size", "scrollable-region-focusable")
"""Rules whose answer may change with the width, and costs little to ask again."""

_RUN = """async options => {
  const bars = document.querySelectorAll(".tw-bar");
  for (const bar of bars) bar.style.position = "static"; // what it covers is scrolled out from under it; axe does not
  const { violations } = await axe.run(options);
  for (const bar of bars) bar.style.position = "";
  return violations.flatMap(({ id, nodes }) =>
    nodes.slice(0, 3).map(({ html, failureSummary }) => `${id}: ${html.slice(0, 160)} ${failureSummary.slice(0, 300)}`));
}"""


def barriers(page: Page, axe: str, *rules: str) -> list[str]:
    """What the judge finds on the page as it is shown now, by all rules or the ones named; of each three places."""
    if page.evaluate("typeof axe") == "undefined":
        page.evaluate(axe)
    run_only: Any = {"type": "rule", "values": rules} if rules else {"type": "tag", "values": ASKED}
    left_out = {rule: {"enabled": False} for rule in LEFT_OUT}
    options = {"runOnly": run_only, "rules": left_out, "resultTypes": ["violations"], "preload": False}
    found: list[str] = page.evaluate(_RUN, options)
    return found


def switch(page: Page, to: str) -> None:
    """Switch to `light` or `dark` by the reader's own switch, wherever it is hidden on a phone."""
    scheme = {"light": "default", "dark": "slate"}[to]
    if page.locator("body").get_attribute("data-md-color-scheme") != scheme:
        page.evaluate("to => document.querySelector(`.md-header__button[title='Switch to ${to}']`).click()", to)
        page.wait_for_function("name => document.body.dataset.mdColorScheme === name", arg=scheme)


def barriers_everywhere(page: Page, axe: str) -> list[str]:
    """What the judge finds in any light on any screen; the page must be shown in the light scheme, with the theme."""
    found = []
    looks: tuple[tuple[str, tuple[int, int], tuple[str, ...]], ...] = (
        ("light", DESK, ()),
        ("light", SMALL_PHONE, OF_WIDTH),
        ("light", PHONE, ()),
        ("dark", PHONE, OF_LIGHT),
        ("dark", DESK, OF_LIGHT),
    )
    for light, (width, height), rules in looks:
        switch(page, light)
        page.set_viewport_size({"width": width, "height": height})
        found += [f"{light}, {width} px: {barrier}" for barrier in barriers(page, axe, *rules)]
    return found
