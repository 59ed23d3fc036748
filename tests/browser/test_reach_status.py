"""What changes without a new page is said aloud, and the focus stays where it was or goes where the reader asked.

WCAG 2.2: 4.1.3 status messages, 3.3.1 error identification, 2.5.7 dragging movements.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from browser.test_quiz import first_of, open_quiz, put_in_order, steps_shown
from browser.walking import READINGS

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

    from tinwright.knowledge.bank import Bank

pytestmark = [
    pytest.mark.browser,
    pytest.mark.browser_context_args(has_touch=True, viewport={"width": 390, "height": 844}),
]


def status(page: Page, words: str) -> Locator:
    return page.locator("[role=status], [role=alert], [aria-live]").filter(has_text=words).first


def test_the_verdict_is_said_while_the_focus_stays_in_the_field(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}seam-check.html")
    page.select_option("#sc-spec", "demo-307")
    for point in range(3):
        for name, value in READINGS.items():
            page.fill(f"#sc-{point}-{name}", value)
    page.keyboard.press("Tab")
    expect(said(page)).to_contain_text("Verdict: reject. ")
    page.focus("#sc-2-cover-hook")
    expect(page.locator("#sc-2-cover-hook")).to_be_focused()
    page.fill("#sc-0-body-hook", "a lot")
    box = page.locator("#sc-0-body-hook")
    expect(page.locator("#sc-0-body-hook-ask")).not_to_be_empty()
    assert "sc-0-body-hook" in str(box.get_attribute("aria-describedby"))
    page.keyboard.press("Tab")
    expect(said(page)).to_contain_text(page.locator("#sc-0-body-hook-ask span").inner_text())


def said(page: Page) -> Locator:
    return page.locator("tw-seam-check > [role=status]")


HEARD = """() => {
  window.heard = [];
  const listen = (changes) => {
    for (const { target } of changes) if (target.closest("[role=status], [aria-live]")) window.heard.push(target.textContent);
  };
  new MutationObserver(listen).observe(document.querySelector("tw-seam-check"), { childList: true, subtree: true });
}"""


def test_a_verdict_is_said_once_and_not_at_every_key(page: Page, over_http: str) -> None:
    """Ten readings that stay a reject are a reject once: a screen reader says each change of the status."""
    page.goto(f"{over_http}seam-check.html")
    page.select_option("#sc-spec", "demo-307")
    page.evaluate(HEARD)
    for point in range(3):
        for name, value in READINGS.items():
            page.locator(f"#sc-{point}-{name}").press_sequentially(value)
            page.keyboard.press("Tab")
    heard: list[str] = page.evaluate("window.heard")
    assert len(heard) == len(set(heard))
    assert len(heard) <= 3
    assert heard[-1].startswith("Verdict: reject. ")


def test_the_finder_and_the_gallery_say_what_they_found(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}find-the-cause.html")
    tick = page.locator("tw-find-cause input[type=checkbox]").first
    tick.focus()
    page.keyboard.press("Space")
    expect(page.locator("tw-find-cause [role=status]")).not_to_be_empty()
    expect(tick).to_be_focused()
    page.goto(f"{over_http}defects/index.html")
    page.get_by_role("checkbox", name="Just under the seam").tap()
    expect(status(page, "shown")).to_be_visible()


def test_a_refused_certificate_is_said(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}verify-a-certificate.html")
    page.set_input_files("#vc-file", {"name": "x.json", "mimeType": "application/json", "buffer": b"{"})
    expect(page.get_by_role("status").locator(".tw-verdict__word")).to_be_visible()


def test_by_touch_each_question_is_answered_with_single_taps_and_no_dragging(
    page: Page, over_http: str, bank: Bank
) -> None:
    order = first_of(bank, "order")
    open_quiz(page, over_http, order.id)
    put_in_order(page, order.steps, lambda name: page.get_by_role("button", name=name, exact=True).tap())
    assert steps_shown(page) == list(order.steps)
    expect(status(page, f"of {len(order.steps)}.")).to_be_attached()
    page.get_by_role("button", name="Check the answer").tap()
    expect(status(page, "Right. 1 of 1 points so far.")).to_be_attached()
    open_quiz(page, over_http, first_of(bank, "point").id)
    page.locator(".tw-quiz__spot").nth(1).tap()
    expect(page.locator("fieldset input").nth(1)).to_be_checked()
