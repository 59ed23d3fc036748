"""Each kind of page when it is zoomed, spaced out, still, or drawn in the reader's own few colors.

WCAG 2.2: 1.4.4 and 1.4.10 (200 % zoom of a 1280 px window is 640 px; 400 % is 320 px), 1.4.12 text spacing, 2.5.8 target
size, 3.1.1 and 3.1.2 language; CSS Media Queries 5: prefers-reduced-motion, forced-colors.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from browser.kinds import ONE_OF_EACH_KIND, WITH_LONG_WORDS
from browser.test_quiz import first_of, open_quiz
from browser.walking import READINGS

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page

    from tinwright.knowledge.bank import Bank

pytestmark = pytest.mark.browser

SPACING = """* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; }
p { margin-bottom: 2em !important; }"""
"""The values of WCAG 2.2, 1.4.12."""

SPACE_OUT = "css => { const s = new CSSStyleSheet(); s.replaceSync(css); document.adoptedStyleSheets = [s]; }"

CUT_OFF = """() => {
  const found = [];
  for (const e of document.querySelectorAll("body *:not(svg *, math *)")) {
    if (![...e.childNodes].some(n => n.nodeType === Node.TEXT_NODE && n.data.trim())) continue;
    if (!e.checkVisibility({ opacityProperty: true, visibilityProperty: true })) continue;
    const range = document.createRange();
    range.selectNodeContents(e);
    for (let p = e; p !== document.body; p = p.parentElement) {
      const style = getComputedStyle(p);
      if (p.clientWidth < 3 && p.clientHeight < 3 && style.position === "absolute") break; // for screen readers only
      if (!/hidden|clip/.test(style.overflowX + style.overflowY)) continue;
      const box = p.getBoundingClientRect();
      const cut = [...range.getClientRects()].some(r => r.width > 0 && (r.right > box.right + 2 || r.left < box.left - 2 || r.bottom > box.bottom + 4));
      if (cut) { found.push(`${e.tagName}.${e.className} "${e.textContent.trim().slice(0, 50)}"`); break; }
    }
  }
  return [...new Set(found)];
}"""

SMALL = """() => {
  const seen = [...document.querySelectorAll("a[href], button, select, summary, input, [role=button], label.tw-quiz__spot")]
    .filter(e => e.checkVisibility({ opacityProperty: true, visibilityProperty: true }) && !e.matches(".headerlink, .md-option"));
  const inText = e => {  // the exceptions for a link in a sentence or in a line of text, and for what the browser draws
    const around = e.closest("p, li, dd, dt, td, th, figcaption, label");
    return e.matches("a, input") && around && (around.textContent.trim() !== e.textContent.trim() || around.matches("label"));
  };
  const boxes = seen.map(e => [e, e.getBoundingClientRect()]).filter(([, r]) => r.width > 1 && r.height > 1);
  const middle = r => [r.left + r.width / 2, r.top + r.height / 2];
  return boxes.filter(([e, r]) => (r.width < 24 || r.height < 24) && !inText(e)).filter(([e, r]) => {
    const [x, y] = middle(r);  // the exception for spacing: a circle of 24 px that touches no other target
    return boxes.some(([other, o]) => other !== e && !other.contains(e) && !e.contains(other)
      && Math.hypot(Math.max(o.left - x, 0, x - o.right), Math.max(o.top - y, 0, y - o.bottom)) < 12);
  }).map(([e, r]) => `${e.tagName}.${e.className} "${e.textContent.trim().slice(0, 40)}" ${r.width.toFixed(0)} x ${r.height.toFixed(0)}`);
}"""


@pytest.mark.browser_context_args(reduced_motion="reduce")
def test_zoomed_and_spaced_out_nothing_is_lost(page: Page, over_http: str) -> None:
    lost = {}
    for address in ONE_OF_EACH_KIND + WITH_LONG_WORDS:
        page.set_viewport_size({"width": 320, "height": 640})
        page.goto(over_http + address)
        if small := page.evaluate(SMALL):
            lost[address, "small targets"] = small
        page.evaluate(SPACE_OUT, SPACING)
        for width in (320, 640):
            page.set_viewport_size({"width": width, "height": 640})
            wide, window = page.evaluate("[document.documentElement.scrollWidth, document.documentElement.clientWidth]")
            cut = page.evaluate(CUT_OFF)
            if wide > window or cut:
                lost[address, f"{width} px, spaced out"] = [f"{wide} > {window}" * (wide > window), *cut]
    assert lost == {}


@pytest.mark.browser_context_args(reduced_motion="reduce")
def test_who_wants_no_motion_sees_none(page: Page, over_http: str) -> None:
    page.add_init_script(
        """window.moved = [];
           for (const kind of ["animationstart", "transitionrun"])
             addEventListener(kind, event => moved.push(`${kind} ${event.target.className}`), true);"""
    )
    page.set_viewport_size({"width": 390, "height": 700})
    for address in ("index.html", "defects/index.html", "quizzes/cautions.html"):
        page.goto(over_http + address)
        assert page.evaluate("getComputedStyle(document.documentElement).scrollBehavior") == "auto"
        page.mouse.wheel(0, 1200)
        page.mouse.wheel(0, -600)
        page.get_by_role("button", name="Menu").click()
        page.keyboard.press("Escape")
        page.get_by_role("article").get_by_role("link").first.hover()
        page.get_by_role("textbox", name="Search").focus()
        page.wait_for_timeout(200)
        assert page.evaluate("moved") == []
        assert page.evaluate("document.getAnimations().length") == 0


def lines(page: Page, selector: str) -> list[str]:
    """What tells two boxes apart when all grounds and shadows are gone."""
    found: list[str] = page.locator(selector).first.evaluate(
        "e => [getComputedStyle(e).borderTopStyle, getComputedStyle(e).borderTopWidth]"
    )
    return found


@pytest.mark.browser_context_args(forced_colors="active", viewport={"width": 390, "height": 844})
def test_in_the_readers_own_colors_every_state_still_shows(page: Page, over_http: str, bank: Bank) -> None:
    page.goto(f"{over_http}seam-check.html")
    page.select_option("#sc-spec", "demo-307")
    for point in range(3):
        for name, value in READINGS.items():
            page.fill(f"#sc-{point}-{name}", value)
    expect(page.locator(".tw-verdict__word").first).to_have_text("Reject")
    assert page.locator(".tw-verdict").evaluate("e => parseFloat(getComputedStyle(e).borderLeftWidth)") > 8
    drawn = page.locator(".tw-bench__judged svg").first
    ink, ground = drawn.evaluate(
        """svg => { const words = getComputedStyle(svg.querySelector("text")).fill;
                    return [words, getComputedStyle(svg.closest("figure")).backgroundColor]; }"""
    )
    assert ink != ground
    item = first_of(bank, "one-answer")
    open_quiz(page, over_http, item.id)
    wrong = next(option for option in item.options if not option.right)
    page.get_by_label(wrong.text, exact=True).check()
    page.get_by_role("button", name="Check the answer").click()
    assert lines(page, ".tw-quiz__choice--right") != lines(page, ".tw-quiz__choice--wrong")
    expect(page.locator(".tw-quiz__choice--wrong .tw-quiz__mark")).to_have_text("wrong, chosen")
    open_quiz(page, over_http, first_of(bank, "point").id)
    spots = page.locator(".tw-quiz__spot")
    spots.nth(1).click()
    width = "e => parseFloat(getComputedStyle(e).borderTopWidth)"
    page.mouse.move(0, 0)
    assert spots.nth(1).evaluate(width) >= 3 > spots.nth(0).evaluate(width)
    page.goto(over_http)
    page.keyboard.press("Tab")
    outline = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
    assert outline != "none"


@pytest.mark.browser_context_args(forced_colors="active", color_scheme="dark")
def test_a_picture_keeps_the_paper_that_its_ink_was_made_for(page: Page, over_http: str, bank: Bank) -> None:
    open_quiz(page, over_http, first_of(bank, "point").id)
    ground = page.locator(".tw-quiz__figure > img").evaluate("e => getComputedStyle(e).backgroundColor")
    assert ground == "rgb(255, 255, 255)"
    assert page.locator("body").evaluate("e => getComputedStyle(e).backgroundColor") == "rgb(0, 0, 0)"


def test_the_language_is_marked_everywhere(site_folder: Path) -> None:
    pages = list(site_folder.rglob("*.html"))
    unmarked = [
        file.name for file in pages if not re.search(r'<html\b[^>]*\blang="en"', file.read_text(encoding="utf-8")[:600])
    ]
    assert len(pages) > 100
    assert unmarked == []
