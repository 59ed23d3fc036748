"""The page of the bench log in its states: no barrier, no sideways scrolling, by keyboard, on paper, framed, without script."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from browser.framing import another_site
from browser.judging import OF_LIGHT, barriers, switch
from browser.test_every_kind_of_page import LEAST, TARGETS, too_wide
from browser.thumb import ALL_GOOD, Thumb

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from playwright.sync_api import Browser, BrowserContext, Page

pytestmark = pytest.mark.browser

STRICT_POLICY = "default-src 'none'; script-src 'self'; style-src 'self'; base-uri 'none'; form-action 'none'"


def states(thumb: Thumb) -> Iterator[str]:
    """Walk through what the page may look like."""
    yield "begin"
    thumb.begin()
    yield "due now"
    thumb.tap("More")
    yield "more"
    thumb.tap("Back")
    thumb.test_cans()
    thumb.tap("+6")
    thumb.look()
    thumb.seal(4)
    yield "counting"
    thumb.tap("Measure")
    for point in range(3):
        for dimension, values in ALL_GOOD.items():
            thumb.page.fill(f"#bl-{point}-{dimension}", values[point])
    yield "measuring"
    thumb.page.locator(".tw-log__key--accept").click()
    thumb.tap("In canner", "Write it down", "+6")
    thumb.look("Bad", defect="droop")
    yield "stop"
    thumb.tap("Release cans", "Write it down")
    yield "something missing"
    thumb.tap("Back")
    thumb.tap("Adjusted")
    thumb.page.select_option("#bl-adjuster", "first-roller")
    thumb.page.select_option("#bl-direction", "tighten")
    thumb.tap("Write it down")
    thumb.tap("Another sealer")
    thumb.begin("bench-lever-sealer")
    thumb.page.get_by_role("button", name="Bench crank sealer").click()
    thumb.log.locator(".tw-log__charts summary").evaluate("summary => summary.click()")
    yield "charts"


def test_no_barrier_in_any_state_in_light_or_dark(page: Page, over_http: str, axe: str) -> None:
    page.emulate_media(color_scheme="light", reduced_motion="reduce")
    thumb = Thumb(page, over_http)
    for state in states(thumb):
        # the end of the page, where the keys stand below all else and cover none of it by halves
        page.evaluate("scrollTo(0, document.documentElement.scrollHeight)")
        assert barriers(page, axe) == [], state
        switch(page, "dark")
        assert barriers(page, axe, *OF_LIGHT) == [], f"{state}, dark"
        switch(page, "light")


@pytest.mark.browser_context_args(has_touch=True)
def test_at_320_pixels_nothing_scrolls_sideways_in_any_state(page: Page, over_http: str) -> None:
    thumb = Thumb(page, over_http)
    page.set_viewport_size({"width": 320, "height": 640})
    for state in states(thumb):
        wide = page.evaluate("[document.documentElement.scrollWidth, document.documentElement.clientWidth]")
        assert wide[0] <= wide[1], (state, too_wide(page))
        low = page.evaluate(
            """([targets, least]) => [...document.querySelectorAll(targets)]
                .filter(e => e.checkVisibility() && e.getBoundingClientRect().height < least - 0.5)
                .map(e => e.outerHTML.slice(0, 80))""",
            [TARGETS, LEAST],
        )
        assert low == [], state


def test_by_keyboard_alone_a_failed_check_is_written_and_struck_out(page: Page, over_http: str) -> None:
    thumb = Thumb(page, over_http)

    def go_to(name: str) -> None:
        for _ in range(80):
            page.keyboard.press("Tab")
            if page.evaluate("document.activeElement.textContent.trim()") == name:
                return
        pytest.fail(f"the keyboard does not reach {name}")

    page.locator("#bl-kitchen").focus()
    go_to("Begin")
    page.keyboard.press("Enter")
    expect(thumb.log.locator(".tw-log__key--first", has_text="+1 can sealed")).to_be_focused()
    page.keyboard.press("Enter")
    page.keyboard.press("Enter")
    expect(thumb.log.locator(".tw-log__count")).to_contain_text("2 cans sealed")
    go_to("Look")
    page.keyboard.press("Enter")
    expect(page.locator(".tw-log__head")).to_be_focused()
    go_to("Bad")
    page.keyboard.press("Space")
    expect(thumb.stop).to_contain_text("Hold cans 1 to 2")
    expect(thumb.stop.locator("h2")).to_be_focused()
    go_to("Undo")
    page.keyboard.press("Enter")
    expect(thumb.stop).to_have_count(0)


def test_the_log_of_the_day_prints_as_a_table(page: Page, over_http: str) -> None:
    thumb = Thumb(page, over_http)
    thumb.begin()
    thumb.test_cans()
    thumb.tap("+6", "Undo")
    page.emulate_media(media="print")
    page.evaluate("document.querySelector('tw-bench-log').showPrint()")
    table = page.locator(".tw-log__print table")
    expect(table.locator("caption")).to_have_text(
        "2026-11-14, Mill Street, Bench crank sealer, 307x409, lids A1, green beans, supervised by AE"
    )
    expect(table.locator("tbody tr")).to_have_count(3)
    expect(table.locator("tbody tr").last).to_contain_text("struck")
    for part in (".tw-log__pad", ".tw-log__due", "#how"):
        expect(page.locator(part)).to_be_hidden()


def test_it_works_in_the_frame_of_another_page(browser: Browser, over_http: str, tmp_path: Path) -> None:
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    with another_site(tmp_path / "parent") as parent:
        page.goto(f"{parent}#{over_http}bench-log.html?embed")
        log = page.frame_locator("#frame").locator("tw-bench-log")
        log.get_by_role("button", name="Begin").click()
        log.get_by_role("button", name="+1 can sealed").click()
        expect(log.locator(".tw-log__count")).to_contain_text("1 can sealed")
    context.close()


def test_it_works_alone_under_a_policy_that_allows_files_of_the_site_only(
    page: Page, over_http: str, tmp_path: Path
) -> None:
    whole = page.request.get(f"{over_http}bench-log.html").text()
    scripts = "".join(re.findall(r'<script src="assets/(?:elements|seaming|bench)[^"]*" defer></script>', whole))
    styles = "".join(
        f'<link rel="stylesheet" href="assets/{sheet}.css">' for sheet in ("tinwright", "bench", "bench-log")
    )
    body = (
        '<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">'
        f'<title>Alone</title>{styles}<div class="tw-bench tw-log"><tw-bench-log></tw-bench-log></div>{scripts}'
    )
    page.route(
        "**/bench-log.html",
        lambda route: route.fulfill(
            body=body, content_type="text/html", headers={"Content-Security-Policy": STRICT_POLICY}
        ),
    )
    thumb = Thumb(page, over_http)
    thumb.begin()
    thumb.tap("+6")
    assert thumb.saved(tmp_path)["sessions"][0]["events"][0]["last"] == 6
    thumb.log.locator(".tw-log__charts summary").click()


def test_without_script_it_says_what_to_write_on_paper(
    new_context: Callable[..., BrowserContext], over_http: str
) -> None:
    page = new_context(java_script_enabled=False).new_page()
    page.goto(f"{over_http}bench-log.html")
    note = page.locator("noscript .tw-note")
    expect(note).to_contain_text("write on paper")
    links = [link.get_attribute("href") for link in note.get_by_role("link").all()]
    assert links == ["print.html", "seam-form.html"]
    expect(page.locator("article")).to_contain_text("Cans put in the canner")


def test_it_is_reached_from_home_the_menu_and_the_procedures(page: Page, over_http: str) -> None:
    for address, name in (
        ("index.html", re.compile("Keep the bench log")),
        ("procedures/when-a-check-fails.html", "Write it in the bench log"),
        ("procedures/mid-session-recheck.html", "Write it in the bench log"),
    ):
        page.goto(over_http + address)
        page.locator("article").get_by_role("link", name=name).click()
        expect(page.locator("tw-bench-log")).to_be_visible()
    expect(page.locator(".md-nav__link", has_text="Bench log").first).to_be_attached()


@pytest.mark.parametrize(("width", "height"), [(320, 480), (320, 640), (375, 553), (360, 740)])
def test_on_a_small_phone_stop_and_the_cans_to_hold_show_above_everything(
    page: Page, over_http: str, width: int, height: int
) -> None:
    thumb = Thumb(page, over_http)
    page.set_viewport_size({"width": width, "height": height})
    thumb.begin()
    thumb.test_cans()
    thumb.seal(1)
    thumb.look("Good")
    thumb.tap("+6", "+6")
    thumb.look("Bad", defect="droop")
    expect(page.locator(".tw-log__cans")).to_have_text("Hold cans 2 to 13")
    for scroll in ("", "scrollTo(0, 0)"):
        page.evaluate(scroll)
        for what in (".tw-log__word", ".tw-log__cans"):
            assert page.evaluate(IN_SIGHT, f".tw-log__stop {what}"), (scroll, what)


IN_SIGHT = """what => {
  const element = document.querySelector(what);
  const { left, right, top, bottom } = element.getBoundingClientRect();
  const isSeen = (x, y) => element.contains(document.elementFromPoint(x, y));
  return isSeen(left + 2, top + 2) && isSeen(left + 2, bottom - 2) && right <= innerWidth;
}"""
