"""No barrier that axe-core knows of WCAG 2.2 A and AA: on each kind of page, and in each state a reader brings it to."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect

from browser.judging import DESK, OF_LIGHT, PHONE, barriers, barriers_everywhere, switch
from browser.kinds import ONE_OF_EACH_KIND
from browser.test_advice_pages import LOOSE_FIRST_ROLLER, fill
from browser.test_search import first_results

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = [pytest.mark.browser, pytest.mark.browser_context_args(color_scheme="light", reduced_motion="reduce")]

SOUND = [(".125", ".118", ".055", ".078", ".076")] * 3
"""A seam on the aims of the demonstration's invented sheet for 307 cans."""


@pytest.mark.parametrize("address", ONE_OF_EACH_KIND)
def test_no_barrier_on_any_kind_of_page(page: Page, over_http: str, axe: str, address: str) -> None:
    page.set_viewport_size({"width": DESK[0], "height": DESK[1]})
    page.goto(over_http + address)
    assert barriers_everywhere(page, axe) == []


def test_no_barrier_on_the_page_for_what_is_not_there(page: Page, over_http: str, axe: str) -> None:
    page.goto(f"{over_http}404.html")
    assert barriers(page, axe) == []


def open_menu(page: Page, address: str) -> None:
    page.set_viewport_size({"width": PHONE[0], "height": PHONE[1]})
    page.goto(f"{address}find-the-cause.html")
    page.locator(".md-header__button[for=__drawer]").click()
    expect(page.locator(".md-nav--primary").get_by_role("link", name="Take a quiz")).to_be_in_viewport()


def open_contents_in_menu(page: Page, address: str) -> None:
    open_menu(page, address)
    page.locator(".md-nav__link--active[for=__toc]").click()
    expect(page.get_by_role("navigation", name="On this page")).to_be_in_viewport()


def search(page: Page, address: str) -> None:
    page.goto(f"{address}index.html")
    assert first_results(page, "lip sticking out under the seam")


def search_in_vain(page: Page, address: str) -> None:
    page.goto(f"{address}index.html")
    box = page.get_by_role("textbox", name="Search")
    box.click()
    box.press_sequentially("zzyzx")
    expect(page.locator(".md-search-result__meta")).to_contain_text("No matching documents")


def filter_the_gallery(page: Page, address: str) -> None:
    page.goto(f"{address}defects/index.html")
    page.get_by_role("checkbox", name="I see it").check()


def go_back_up(page: Page, address: str) -> None:
    page.goto(f"{address}sources/index.html")
    page.mouse.wheel(0, 2000)
    page.wait_for_function("scrollY > 500")
    page.mouse.wheel(0, -200)
    expect(page.locator(".md-top")).to_be_visible()


def judge_a_seam(page: Page, address: str, rows: list[tuple[str, ...]], word: str) -> None:
    page.goto(f"{address}seam-check.html")
    page.select_option("#sc-spec", "demo-307")
    page.select_option("#sc-sealer", "bench-crank-sealer")
    fill(page, rows)
    expect(page.locator(".tw-verdict__word").first).to_have_text(word)


def accept(page: Page, address: str) -> None:
    judge_a_seam(page, address, SOUND, "Measure again")
    page.fill("#sc-tight", "90")
    expect(page.locator(".tw-verdict__word").first).to_have_text("Accept")
    for summary in page.locator(".tw-bench__result summary").all():
        summary.click()


def reject(page: Page, address: str) -> None:
    judge_a_seam(page, address, LOOSE_FIRST_ROLLER, "Reject")
    expect(page.locator(".tw-bench__result .tw-causes li").first).to_be_visible()


def type_what_cannot_be_read(page: Page, address: str) -> None:
    page.goto(f"{address}seam-check.html")
    page.fill("#sc-0-body-hook", "78")
    page.fill("#sc-0-cover-hook", "thick")
    expect(page.locator("#sc-0-body-hook-ask").get_by_role("button")).to_be_visible()
    expect(page.locator("#sc-0-cover-hook-ask")).not_to_be_empty()


def find_the_cause(page: Page, address: str) -> None:
    page.goto(f"{address}find-the-cause.html")
    page.get_by_label("Droop", exact=False).first.check()
    expect(page.locator(".tw-bench__result .tw-causes li").first).to_be_visible()


def find_no_cause(page: Page, address: str) -> None:
    page.goto(f"{address}find-the-cause.html")
    page.get_by_role("button", name="None of these").click()
    expect(page.locator(".tw-bench__result")).to_contain_text("Stop.")


def find_nothing_in_a_file(page: Page, address: str) -> None:
    page.goto(f"{address}verify-a-certificate.html")
    page.set_input_files("#vc-file", {"name": "a.json", "mimeType": "application/json", "buffer": b"{"})
    expect(page.locator(".tw-verdict__word")).to_have_text("No certificate found")


def ask_before_erasing(page: Page, address: str) -> None:
    page.goto(f"{address}seam-check.html")
    page.fill("#sc-0-body-hook", ".078")
    page.goto(f"{address}on-this-device.html")
    page.get_by_role("button", name="Erase what is mine").click()
    expect(page.get_by_role("button", name="No, keep it")).to_be_focused()


def read_in_a_frame(page: Page, address: str) -> None:
    page.goto(f"{address}defects/droop.html?embed")
    expect(page.locator(".md-header")).to_be_hidden()


@pytest.mark.parametrize(
    "state",
    [
        open_menu,
        open_contents_in_menu,
        search,
        search_in_vain,
        filter_the_gallery,
        go_back_up,
        accept,
        reject,
        type_what_cannot_be_read,
        find_the_cause,
        find_no_cause,
        find_nothing_in_a_file,
        ask_before_erasing,
        read_in_a_frame,
    ],
)
def test_no_barrier_in_any_state(page: Page, over_http: str, axe: str, state: Any) -> None:
    state(page, over_http)
    width = (page.viewport_size or {})["width"]
    assert barriers(page, axe) == [], f"light, {width} px"
    switch(page, "dark")
    assert barriers(page, axe, *OF_LIGHT) == [], f"dark, {width} px"
    switch(page, "light")


def luminance(color: str) -> float:
    """Relative luminance of `#rrggbb` or `rgb(r, g, b)` as WCAG 2.2 defines it, from 0 to 1."""
    if color.startswith("#"):
        channels = [int(color[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    else:
        channels = [int(channel) / 255 for channel in re.findall(r"\d+", color)[:3]]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio as WCAG 2.2 defines it, from 1 to 21."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_contrast_ratio_is_that_of_the_standard() -> None:
    assert contrast("#000000", "rgb(255, 255, 255)") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)  # the well-known gray that just fails


@pytest.mark.parametrize("light", ["light", "dark"])
def test_words_and_lines_of_drawings_stand_out(page: Page, over_http: str, light: str) -> None:
    """Axe cannot tell what lies behind a word in a drawing: each has a rim, and 4.5 to 1 against it is enough (1.4.3)."""
    words = """() => [...document.querySelectorAll("article svg :is(text, tspan)")].map(word => {
      const { fill, stroke, paintOrder } = getComputedStyle(word);
      return [fill, stroke, paintOrder];
    })"""
    for address in ("defects/cutover.html", "set-up/bench-crank-sealer-307x409.html", "trees/droop.html"):
        page.goto(over_http + address)
        switch(page, light)
        pairs = {tuple(each) for each in page.evaluate(words)}
        assert pairs, address
        for ink, rim, order in pairs:
            assert order == "stroke", address
            assert contrast(ink, rim) >= 4.5, f"{address}: {ink} on {rim}"
    color = page.evaluate(
        """() => {
          const style = getComputedStyle(document.querySelector("article .tw-svg"));
          return Object.fromEntries(["ink", "paper", "lid", "body", "tool", "dark", "fault"]
            .map(name => [name, style.getPropertyValue(`--tw-svg-${name}`).trim()]));
        }"""
    )
    for behind in ("paper", "lid", "body", "tool", "dark"):
        assert contrast(color["ink"], color[behind]) >= 3, behind  # WCAG 2.2, 1.4.11
    for behind in ("paper", "lid", "body"):
        assert contrast(color["fault"], color[behind]) >= 3, behind
