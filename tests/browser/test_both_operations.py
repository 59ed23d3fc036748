"""The two operations as still pictures that a slider steps through, with keys, and without script all in their order."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tinwright.figures import FRAMES

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser
PAGE = "how-a-double-seam-is-made.html"


def test_one_still_is_shown_and_keys_move_to_the_next(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}{PAGE}")
    slider = page.get_by_role("slider", name="Move the slider")
    shown = page.locator("tw-frames figure:visible figcaption")
    expect(shown).to_have_count(1)
    expect(shown).to_contain_text(FRAMES[0].said)
    slider.press("ArrowRight")
    expect(shown).to_contain_text(FRAMES[1].said)
    expect(slider).to_have_attribute("aria-valuetext", f"2 of {len(FRAMES)}: {FRAMES[1].said}")
    slider.press("End")
    expect(shown).to_contain_text(FRAMES[-1].said)
    slider.press("Home")
    expect(shown).to_contain_text(FRAMES[0].said)


def test_without_script_and_on_paper_all_stills_are_shown_in_their_order(
    browser: Browser, page: Page, over_http: str
) -> None:
    page.goto(f"{over_http}{PAGE}")
    expect(page.get_by_role("slider")).to_be_visible()
    page.emulate_media(media="print")
    expect(page.locator("tw-frames figure:visible")).to_have_count(len(FRAMES))
    plain = browser.new_page(java_script_enabled=False)
    plain.goto(f"{over_http}{PAGE}")
    said = plain.locator("tw-frames figure:visible figcaption").all_inner_texts()
    plain.close()
    assert [text.split(": ", 1)[1] for text in said] == [frame.said for frame in FRAMES]


def test_the_page_is_light(site_folder: Path) -> None:
    """Bound: our own, a page on a slow phone."""
    assert (site_folder / PAGE).stat().st_size <= 100_000
