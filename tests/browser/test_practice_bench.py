"""A volunteer at the practice bench: a badly set sealer is put right, with the mouse and with keys alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import BrowserContext, Page

pytestmark = pytest.mark.browser

STORY = "round-face"
"""A crank sealer whose second roller stands too loose, with cans of food sealed before."""


def begun(context: BrowserContext, address: str, *, width: int = 1280) -> Page:
    page = context.new_page()
    page.set_viewport_size({"width": width, "height": 800})
    page.goto(f"{address}practice-bench.html")
    page.locator(f"#play-{STORY}").click()
    return page


def do(page: Page, *buttons: str) -> str:
    for button in buttons:
        page.locator(f'[data-do="{button}"]').click()
    return page.locator(".tw-practice__said").inner_text()


def put_right(page: Page) -> None:
    do(page, "hold", "test-can", "look", "measure", "tear-down")
    page.locator("#pb-screw").select_option("second-roller")
    for _ in range(8):
        if "right" in do(page, "gauge/second-roller"):
            break
        do(page, "tighten", "test-can", "look", "measure")
    do(page, "tear-down", "test-can", "look", "measure")
    page.locator("#pb-cause").select_option("second-roller-loose")
    do(page, "declare-cause")
    page.locator('[data-do="declare-fit"]').click()


def test_a_loose_second_roller_is_found_and_put_right(context: BrowserContext, from_disk: str) -> None:
    page = begun(context, from_disk)
    put_right(page)
    expect(page.locator("#debrief")).to_be_focused()
    expect(page.locator(".tw-verdict__word")).to_have_text("Well done")
    expect(page.locator(".tw-verdict")).to_contain_text("100 of 100 points")
    expect(page.locator("tw-practice-bench")).to_contain_text("A careful technician: as you did.")
    page.locator("#another").click()
    expect(page.locator("tw-practice-bench li", has=page.locator(f"#play-{STORY}"))).to_contain_text("Passed")


def test_fit_without_a_change_is_not_passed(context: BrowserContext, from_disk: str) -> None:
    page = begun(context, from_disk)
    page.locator('[data-do="declare-fit"]').click()
    expect(page.locator(".tw-verdict__word")).to_have_text("Not yet")
    expect(page.locator(".tw-verdict")).to_contain_text("Unsafe")


def test_hands_in_a_sealer_with_power_end_the_round(context: BrowserContext, from_disk: str) -> None:
    page = context.new_page()
    page.goto(f"{from_disk}practice-bench.html")
    page.locator("summary", has_text="Grade 2").click()
    page.locator("#play-motor-bulge").click()
    page.locator('[data-do="gauge/first-roller"]').click()
    expect(page.locator(".tw-verdict")).to_contain_text("Unsafe: No hands in the sealer while a motor has power.")
    expect(page.locator(".tw-verdict a")).to_have_text("Read the caution")


def test_keys_alone_and_a_phone_are_enough(context: BrowserContext, from_disk: str) -> None:
    page = begun(context, from_disk, width=320)
    expect(page.locator("#story")).to_be_focused()
    page.locator('[data-do="test-can"]').focus()
    page.keyboard.press("Enter")
    expect(page.locator(".tw-practice__said")).to_contain_text("is sealed")
    expect(page.locator('[data-do="test-can"]')).to_be_focused()
    assert page.evaluate("document.documentElement.scrollWidth") <= 320


def test_a_sealer_by_chance_is_the_same_for_the_same_number(context: BrowserContext, from_disk: str) -> None:
    titles = []
    for _ in range(2):
        page = context.new_page()
        page.goto(f"{from_disk}practice-bench.html?sealer=77")
        page.locator("#any-1").click()
        titles.append(do(page, "test-can", "look", "measure", "tear-down"))
    assert titles[0] == titles[1]


def test_without_a_script_the_stories_are_there_to_read(
    new_context: Callable[..., BrowserContext], from_disk: str
) -> None:
    page = new_context(java_script_enabled=False).new_page()
    page.goto(f"{from_disk}practice-bench.html")
    expect(page.locator("tw-practice-bench dt").first).to_be_visible()
