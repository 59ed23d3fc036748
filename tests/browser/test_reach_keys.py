"""Every journey by keyboard alone, on a desk and on a phone's width; at each stop the focus shows and nothing hides it.

WCAG 2.2: 2.1.1 keyboard, 2.1.2 no keyboard trap, 2.4.1 bypass blocks, 2.4.7 focus visible, 2.4.11 focus not obscured.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from browser.checks import say_yes_to
from browser.stops import go_to, look, skip_to_content, stops
from browser.test_quiz import first_of, open_quiz, put_in_order
from browser.walking import READINGS

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

    from tinwright.knowledge.bank import Bank

pytestmark = [pytest.mark.browser, pytest.mark.browser_context_args(reduced_motion="reduce")]

DESK = {"width": 1280, "height": 800}
PHONE = {"width": 390, "height": 700}


@pytest.fixture(params=[DESK, PHONE], ids=["desk", "phone"])
def page(page: Page, request: pytest.FixtureRequest) -> Page:
    page.set_viewport_size(request.param)
    return page


def press(page: Page, target: Locator, key: str = "Enter") -> None:
    """Go to the target by Tab and press a key on it."""
    go_to(page, target)
    page.keyboard.press(key)


def open_at_content(page: Page, address: str) -> None:
    page.goto("about:blank")
    page.goto(address)
    skip_to_content(page)


def test_from_a_bad_seam_to_the_steps_that_correct_it(page: Page, over_http: str) -> None:
    article = page.get_by_role("article")
    open_at_content(page, f"{over_http}index.html")
    press(page, article.get_by_role("link", name="A seam looks wrong"))
    page.wait_for_url("**/defects/index.html")
    skip_to_content(page)
    press(page, page.get_by_role("checkbox", name="Just under the seam"), "Space")
    press(page, article.get_by_role("link", name="Droop").first)
    page.wait_for_url("**/defects/droop.html")
    skip_to_content(page)
    fix = say_yes_to(page, "first-roller-loose", lambda link: press(page, link))
    expect(fix).to_be_in_viewport()
    press(page, fix.get_by_role("link", name="Set the first roller"))
    expect(page.locator(".tw-steps > li").first).to_be_attached()


def test_the_finder_and_the_tree(page: Page, over_http: str) -> None:
    article = page.get_by_role("article")
    open_at_content(page, f"{over_http}find-the-cause.html")
    press(page, page.locator("tw-find-cause input[type=checkbox]").first, "Space")
    press(page, page.locator("tw-find-cause .tw-causes a").first)
    page.wait_for_url("**/causes/*.html*")
    open_at_content(page, f"{over_http}trees/index.html")
    press(page, article.get_by_role("link", name="Droop", exact=True).first)
    page.wait_for_url("**/trees/droop.html")
    skip_to_content(page)
    press(page, page.locator(".tw-fix__cause a").first)
    page.wait_for_url("**/causes/*.html*")


def test_from_a_can_to_its_set_up_sheet(page: Page, over_http: str) -> None:
    open_at_content(page, f"{over_http}set-up/index.html")
    press(page, page.locator("article a[href='bench-crank-sealer-307x409.html']").first)
    expect(page.locator(".tw-sheet")).to_be_visible()


def test_a_seam_is_measured_and_judged(page: Page, over_http: str) -> None:
    open_at_content(page, f"{over_http}seam-check.html")
    go_to(page, page.locator("#sc-spec"))
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowDown")
    expect(page.locator("#sc-spec")).to_have_value("demo-307")
    for point in range(3):
        for name, value in READINGS.items():
            go_to(page, page.locator(f"#sc-{point}-{name}"), at_most=8)
            page.keyboard.type(value)
    expect(page.locator(".tw-verdict__word").first).to_have_text("Reject")
    press(page, page.locator(".tw-bench__advice .tw-causes a").first)
    page.wait_for_url("**/causes/*.html*")


def test_a_quiz_to_its_result_with_steps_and_a_drawing(page: Page, over_http: str, bank: Bank) -> None:
    order, point = first_of(bank, "order"), first_of(bank, "point")
    open_quiz(page, over_http, order.id, size="5")

    def move(name: str) -> None:
        key = page.get_by_role("button", name=name, exact=True)
        key.focus()  # reached by Tab below, once: here the way there would only be walked again and again
        page.keyboard.press("Enter")
        look(page)

    go_to(page, page.get_by_role("button", name=re.compile("^Move up")).last, at_most=40)
    put_in_order(page, order.steps, move)
    press(page, page.get_by_role("button", name="Check the answer"))
    expect(page.locator(".tw-quiz__word")).to_have_text("Right.")
    press(page, page.get_by_role("button", name="Review and finish"))
    press(page, page.get_by_role("button", name=re.compile("^Finish with 4")))
    expect(page.get_by_role("heading", name="Result")).to_be_focused()

    open_quiz(page, over_http, point.id, size="5")
    go_to(page, page.locator("fieldset input[type=radio]").first)
    for key in ("Space", "ArrowDown", "ArrowDown"):
        page.keyboard.press(key)
        look(page)
    expect(page.locator(".tw-quiz__spot--chosen")).to_have_count(1)
    press(page, page.get_by_role("button", name="Check the answer"))
    expect(page.locator(".tw-quiz__feedback")).to_be_focused()


def test_a_pasted_certificate_is_judged(page: Page, over_http: str) -> None:
    open_at_content(page, f"{over_http}verify-a-certificate.html")
    go_to(page, page.locator("#vc-file"))
    press(page, page.get_by_text("Or paste its text"))
    go_to(page, page.locator("#vc-text"), at_most=3)
    page.keyboard.type("no certificate")
    press(page, page.locator(".tw-choose button"))
    expect(page.locator(".tw-verdict__word")).to_be_visible()


def test_a_copy_is_saved_and_what_is_kept_is_erased(page: Page, over_http: str) -> None:
    open_at_content(page, f"{over_http}seam-check.html")
    go_to(page, page.locator("#sc-0-body-hook"))
    page.keyboard.type(".078")
    open_at_content(page, f"{over_http}take-along.html")
    with page.expect_download():
        press(page, page.get_by_role("link", name="Save the whole site"))
    open_at_content(page, f"{over_http}on-this-device.html")
    press(page, page.get_by_role("button", name="Erase what is mine"))
    no, yes = page.get_by_role("button", name="No, keep it"), page.get_by_role("button", name="Yes, erase it")
    expect(no).to_be_focused()
    go_to(page, yes, key="Shift+Tab", at_most=1)
    page.keyboard.press("Enter")
    expect(page.get_by_role("status").filter(has_text="Erased.")).to_be_visible()
    assert page.evaluate("document.activeElement !== document.body"), "the focus is lost with what was erased"


def test_search_leads_from_words_to_a_page(page: Page, over_http: str) -> None:
    page.goto(over_http)
    go_to(page, page.get_by_role("textbox", name="Search"), at_most=12)
    page.keyboard.type("droop")
    found = page.locator(".md-search-result__link[href*='defects/droop.html']").first
    expect(found).to_be_visible()
    go_to(page, found, key="ArrowDown", at_most=5)
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_contain_text("Droop")


def test_light_and_dark_are_switched_by_either_key(page: Page, over_http: str) -> None:
    body = page.locator("body")
    page.goto(f"{over_http}terms/overlap.html")
    for key, scheme in (("Enter", "slate"), ("Space", "default")):
        go_to(page, page.locator(".md-option[tabindex='0']"), at_most=12)
        page.keyboard.press(key)
        expect(body).to_have_attribute("data-md-color-scheme", scheme)
        look(page)
        page.keyboard.press("Shift+Tab")


@pytest.mark.parametrize("key", ["Tab", "Shift+Tab"])
def test_forward_and_backward_there_is_an_end_and_nothing_hides_a_stop(page: Page, over_http: str, key: str) -> None:
    page.goto(f"{over_http}defects/droop.html")
    assert len(list(stops(page, key=key))) > 10


@pytest.mark.parametrize("page", [{"width": 320, "height": 640}], indirect=True, ids=["320"])
def test_on_a_narrow_window_the_menu_opens_closes_and_leads_on(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}defects/droop.html")
    menu = page.get_by_role("button", name="Menu")
    expect(menu).to_have_attribute("aria-expanded", "false")
    names = list(stops(page))
    assert not [name for name in names if "md-nav__link" in name], "a closed menu holds no stop"
    press(page, menu)
    expect(menu).to_have_attribute("aria-expanded", "true")
    assert "Sorrel County" in str(look(page))
    page.keyboard.press("Escape")
    expect(menu).to_be_focused()
    expect(menu).to_have_attribute("aria-expanded", "false")
    page.keyboard.press("Space")
    press(page, page.locator(".md-sidebar--primary").get_by_role("link", name="Check a seam"))
    page.wait_for_url("**/seam-check.html")
