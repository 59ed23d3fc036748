"""Every kind of page from the browser onto paper: black on white, whole, and nothing that only a screen needs."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect
from pypdf import PdfReader

from browser.kinds import ONE_OF_EACH_KIND, WITH_LONG_WORDS

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = pytest.mark.browser

LETTER_LESS_MARGINS = 720
"""Width of Letter paper less margins of half an inch, in CSS pixels of 1/96 inch (CSS Values and Units 3, section 6.2)."""

ONLY_FOR_SCREENS = (
    ".md-header, .md-tabs, .md-sidebar, .md-footer, .md-top, .md-skip, .tw-crumbs, .tw-filter, .tw-foot, .headerlink, "
    "button, input[type=file], input[type=search], select"
)

UNREADABLE = """() => {
    const bright = (text) => {
        const [red, green, blue, alpha = 1] = text.match(/[\\d.]+/g).map(Number);
        if (alpha === 0) return 1;
        const line = (v) => { v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; };
        return alpha * (0.2126 * line(red) + 0.7152 * line(green) + 0.0722 * line(blue)) + 1 - alpha;
    };
    const found = [];
    for (const element of document.querySelectorAll("body, article, article *:not(svg *)")) {
        if (!element.checkVisibility() || /^(script|style|option)$/i.test(element.tagName)) continue;
        const style = getComputedStyle(element);
        const words = [...element.childNodes].some((node) => node.nodeType === 3 && node.data.trim());
        // 7:1 on white (WCAG 2.2, 1.4.6): luminance at most 1.05 / 7 - 0.05
        if (words && bright(style.color) > 0.1) found.push(`${style.color}: ${element.outerHTML.slice(0, 90)}`);
        if (bright(style.backgroundColor) < 0.9) found.push(`on ${style.backgroundColor}: ${element.outerHTML.slice(0, 90)}`);
    }
    return found;
}"""


@pytest.mark.parametrize("address", ONE_OF_EACH_KIND + WITH_LONG_WORDS)
def test_a_page_read_in_the_dark_prints_black_on_white_and_fits_the_sheet(
    page: Page, over_http: str, address: str
) -> None:
    page.emulate_media(color_scheme="dark")
    page.set_viewport_size({"width": LETTER_LESS_MARGINS, "height": 960})
    page.goto(over_http + address)
    assert page.locator("body").get_attribute("data-md-color-scheme") == "slate"
    page.emulate_media(media="print", color_scheme="dark")
    shown = page.evaluate(
        "all => [...document.querySelectorAll(all)].filter(e => e.checkVisibility()).map(e => e.outerHTML.slice(0, 90))",
        ONLY_FOR_SCREENS,
    )
    assert shown == []
    assert page.evaluate(UNREADABLE) == []
    wide = page.evaluate(
        """() => [...document.querySelectorAll("article *:not(svg *)")]
            .filter(e => e.checkVisibility() && e.getBoundingClientRect().right > innerWidth + 1)
            .map(e => e.outerHTML.slice(0, 90))"""
    )
    assert wide == []


@pytest.mark.parametrize("address", ["defects/index.html", "set-up/index.html", "causes/first-roller-loose.html"])
def test_rows_and_cards_are_not_cut_at_the_end_of_a_sheet(page: Page, over_http: str, address: str) -> None:
    page.goto(over_http + address)
    page.emulate_media(media="print")
    pieces = page.evaluate(
        """() => [...document.querySelectorAll("article :is(tr, .tw-card, .tw-caution, figure)")]
            .map(e => [getComputedStyle(e).breakInside, getComputedStyle(e.parentElement).display])"""
    )
    assert len(pieces) > 3
    assert {inside for inside, _ in pieces} == {"avoid"}
    # a row of a grid would be cut all the same
    assert {display for _, display in pieces} & {"grid", "flex"} == set()


@pytest.mark.browser_context_args(java_script_enabled=False)
def test_what_is_folded_on_the_screen_is_open_on_paper(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}quizzes/cautions.html")
    folded = page.locator("details > :not(summary)")
    assert folded.count() > 20
    assert not folded.first.is_visible()
    page.emulate_media(media="print")
    text = " ".join(sheet.extract_text() for sheet in PdfReader(io.BytesIO(page.pdf())).pages)
    assert text.count("Answer to question") == text.count("Read: ") > 20


def test_an_address_elsewhere_is_printed_in_full(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}sources/cfr-21-113-60.html")
    link = page.locator('article a[href^="https://"]').first
    assert link.evaluate("e => getComputedStyle(e, '::after').content") == "none"
    page.emulate_media(media="print")
    assert link.get_attribute("href") in link.evaluate("e => getComputedStyle(e, '::after').content")


def test_a_set_up_sheet_prints_on_one_side_of_one_sheet(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}set-up/bench-crank-sealer-307x409.html")
    assert len(PdfReader(io.BytesIO(page.pdf(format="Letter"))).pages) == 1


def test_home_leads_to_print_and_print_to_what_prints_well(page: Page, over_http: str) -> None:
    heading = page.get_by_role("heading", level=1)
    page.goto(over_http)
    page.get_by_role("link", name="Print").first.click()
    page.wait_for_url("**/print.html")
    expect(heading).to_contain_text("Print")
    page.get_by_role("link", name="Set-up sheets").click()
    page.wait_for_url("**/set-up/index.html")
    page.get_by_role("link", name="Set-up sheet", exact=False).first.click()
    page.wait_for_url("**/set-up/*-*.html")
    page.goto(f"{over_http}print.html")
    page.get_by_role("link", name="Seam readings").click()
    expect(heading).to_contain_text("Seam readings")
