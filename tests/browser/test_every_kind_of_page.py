"""Each kind of page on a phone and at a desk, light and dark: no sideways scrolling, room for thumbs, readable."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from browser.kinds import ONE_OF_EACH_KIND, WITH_LONG_WORDS

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = pytest.mark.browser

TARGETS = (
    "article :is(.tw-door, .tw-card__link, .tw-go a, .tw-button, button, summary, .tw-filter label, .tw-table--grid a)"
)
"""What a thumb has to hit; links in running text are excepted, as in WCAG 2.5.8."""

LEAST = 44
"""Least height of a target in CSS pixels (WCAG 2.2, 2.5.5)."""


@pytest.mark.browser_context_args(viewport={"width": 320, "height": 640}, has_touch=True)
@pytest.mark.parametrize("address", ONE_OF_EACH_KIND + WITH_LONG_WORDS)
def test_at_320_pixels_nothing_scrolls_sideways_and_targets_fit_a_thumb(
    page: Page, over_http: str, address: str
) -> None:
    page.goto(over_http + address)
    wide = page.evaluate("[document.documentElement.scrollWidth, document.documentElement.clientWidth]")
    assert wide[0] <= wide[1], too_wide(page)
    inner = page.evaluate(
        """() => [...document.querySelectorAll("article, article *:not(svg *)")]
            .filter(e => /auto|scroll/.test(getComputedStyle(e).overflowX) && e.scrollWidth > e.clientWidth + 1)
            .map(e => e.outerHTML.slice(0, 100))"""
    )
    assert inner == []
    low = page.evaluate(
        """([targets, least]) => [...document.querySelectorAll(targets)]
            .filter(e => e.checkVisibility() && e.getBoundingClientRect().height < least - 0.5)
            .map(e => `${e.className || e.tagName} ${e.textContent.trim().slice(0, 40)}: ${e.getBoundingClientRect().height}`)""",
        [TARGETS, LEAST],
    )
    assert low == []


def too_wide(page: Page) -> list[str]:
    found: list[str] = page.evaluate(
        """() => [...document.querySelectorAll("article *")]
            .filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
            .map(e => e.outerHTML.slice(0, 120)).slice(-5)"""
    )
    return found


def serious(page: Page, *, only_contrast: bool) -> list[str]:
    """Run the judge on the page; returns what it calls serious or critical."""
    options: dict[str, object] = {"resultTypes": ["violations"]}
    if only_contrast:
        options["runOnly"] = ["color-contrast"]
    violations = page.evaluate("options => axe.run(document, options).then(r => r.violations)", options)
    return [
        f"{violation['id']}: {node['html'][:160]} {node['failureSummary'][:300]}"
        for violation in violations
        if violation["impact"] in {"serious", "critical"}
        for node in violation["nodes"][:3]
    ]


@pytest.mark.parametrize("address", ONE_OF_EACH_KIND)
def test_no_serious_barrier_on_phone_or_desk_in_light_or_dark(
    page: Page, over_http: str, axe: str, address: str
) -> None:
    page.add_init_script("localStorage.clear()")  # the theme else keeps the first scheme it showed
    for scheme, name in (("light", "default"), ("dark", "slate")):
        page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
        page.set_viewport_size({"width": 1280, "height": 800})
        page.goto(over_http + address)
        assert page.locator("body").get_attribute("data-md-color-scheme") == name
        page.evaluate(axe)
        for width, height in ((1280, 800), (360, 740)):
            page.set_viewport_size({"width": width, "height": height})
            # what is dark differs from what is light in its colors only
            assert serious(page, only_contrast=scheme == "dark") == [], f"{scheme}, {width} px"


def test_the_switch_between_light_and_dark_works_and_is_kept(page: Page, over_http: str) -> None:
    page.emulate_media(color_scheme="light")
    page.goto(f"{over_http}defects/droop.html")
    page.get_by_title("Switch to dark").click()
    assert page.locator("body").get_attribute("data-md-color-scheme") == "slate"
    page.goto(f"{over_http}index.html")
    assert page.locator("body").get_attribute("data-md-color-scheme") == "slate"
