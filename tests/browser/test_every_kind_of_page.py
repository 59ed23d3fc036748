"""Each kind of page on a small phone: no sideways scrolling, room for thumbs; and the switch between light and dark."""

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
        # a row of chips is to be moved sideways by the thumb; nothing else is
        """() => [...document.querySelectorAll("article, article *:not(svg *, .tw-filter__row)")]
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


def test_the_switch_between_light_and_dark_works_and_is_kept(page: Page, over_http: str) -> None:
    page.emulate_media(color_scheme="light")
    page.goto(f"{over_http}defects/droop.html")
    page.get_by_title("Switch to dark").click()
    assert page.locator("body").get_attribute("data-md-color-scheme") == "slate"
    page.goto(f"{over_http}index.html")
    assert page.locator("body").get_attribute("data-md-color-scheme") == "slate"
