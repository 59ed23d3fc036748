"""The main journeys, once through: wherever the site is read, each must come to its end."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Page

READINGS = {
    "countersink": ".125",
    "seam-width": ".118",
    "seam-thickness": ".062",
    "body-hook": ".078",
    "cover-hook": ".060",
}
"""A seam too thick and too short in the cover hook: made up for the test, judged by the demonstration's invented sheet."""


def walk_the_journeys(page: Page, address: str) -> None:
    """Home, defect, cause; search; seam check; find the cause; tree; set-up sheet; dark."""
    _defect_and_cause(page, address)
    _search(page)
    _seam_check(page, address)
    _find_the_cause(page, address)
    _tree_and_set_up_sheet(page, address)
    _dark(page, address)


def walk_to_the_end(page: Page, address: str, *, with_copy: bool = True) -> None:
    """The main journeys, and then a quiz, a certificate, a copy to take along, and all that was kept erased.

    A device that keeps the site keeps no second copy of it to take along: not `with_copy` when the server is off.
    """
    walk_the_journeys(page, address)
    _quiz(page, address)
    _certificate(page, address)
    if with_copy:
        _copy(page, address)
    _erase(page, address)


def _defect_and_cause(page: Page, address: str) -> None:
    article = page.get_by_role("article")
    page.goto(f"{address}index.html")
    article.get_by_role("link", name="A seam looks wrong").click()
    article.get_by_role("link", name="Droop").first.click()
    page.locator(".tw-answer--yes a").first.click()
    page.locator(".tw-fix__cause a").first.click()
    expect(page.locator("#correction")).to_be_in_viewport()
    article.locator("a[href*='procedures/']").first.click()
    expect(page.locator(".tw-steps > li").first).to_be_visible()


def _search(page: Page) -> None:
    box = page.get_by_role("textbox", name="Search")
    box.click()
    box.fill("lip sticking out under the sea")
    box.press_sequentially("m")
    result = page.locator(".md-search-result__link[href*='defects/droop.html']").first
    expect(result).to_be_visible()  # the index is fetched and read now
    result.click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Droop")


def _seam_check(page: Page, address: str) -> None:
    page.goto(f"{address}seam-check.html")
    page.select_option("#sc-spec", "demo-307")
    for point in range(3):
        for name, value in READINGS.items():
            page.fill(f"#sc-{point}-{name}", value)
    expect(page.locator(".tw-verdict__word").first).to_have_text("Reject")
    expect(page.locator(".tw-bench__judged svg").first).to_be_visible()
    expect(page.locator(".tw-bench__advice .tw-causes")).to_be_visible()


def _find_the_cause(page: Page, address: str) -> None:
    page.goto(f"{address}find-the-cause.html")
    page.locator("tw-find-cause input[type=checkbox]").first.check(force=True)
    expect(page.locator("tw-find-cause .tw-causes").first).to_be_visible()


def _tree_and_set_up_sheet(page: Page, address: str) -> None:
    page.goto(f"{address}trees/droop.html")
    expect(page.locator(".tw-check").first).to_be_visible()
    page.goto(f"{address}set-up/index.html")
    page.locator("article a[href='bench-crank-sealer-307x409.html']").first.click()
    expect(page.locator(".tw-sheet")).to_be_visible()
    expect(page.locator("article svg").first).to_be_visible()


def _dark(page: Page, address: str) -> None:
    body = page.locator("body")
    page.goto(f"{address}index.html")
    expect(body).to_have_attribute("data-md-color-scheme", "default")
    page.locator("label[for=__palette_1]").click()
    expect(body).to_have_attribute("data-md-color-scheme", "slate")
    page.goto(f"{address}terms/overlap.html")
    expect(body).to_have_attribute("data-md-color-scheme", "slate")
    page.locator("label[for=__palette_0]").click()
    expect(page).to_have_url(re.compile(r"terms/overlap\.html$"))
    expect(body).to_have_attribute("data-md-color-scheme", "default")


def _quiz(page: Page, address: str) -> None:
    page.goto(f"{address}quizzes/mixed.html")
    page.get_by_label("5", exact=True).check()
    page.get_by_role("button", name="Start").click()
    expect(page.get_by_role("heading", name="Question 1 of 5")).to_be_focused()
    page.get_by_role("button", name="Review and finish").click()
    page.get_by_role("button", name="Finish with 5 not answered").click()
    expect(page.locator(".tw-quiz__score")).to_contain_text("not passed yet")


def _certificate(page: Page, address: str) -> None:
    page.goto(f"{address}verify-a-certificate.html")
    page.set_input_files("#vc-file", {"name": "x.json", "mimeType": "application/json", "buffer": b"{}"})
    expect(page.locator(".tw-verdict__word")).to_be_visible()


def _copy(page: Page, address: str) -> None:
    page.goto(f"{address}take-along.html")
    with page.expect_download() as download:
        page.get_by_role("link", name="Save the whole site").click()
    assert download.value.failure() is None


def _erase(page: Page, address: str) -> None:
    page.goto(f"{address}on-this-device.html")
    page.get_by_role("button", name="Erase what is mine").click()
    page.get_by_role("button", name="Yes, erase it").click()
    expect(page.get_by_role("status").filter(has_text="Erased.")).to_be_visible()
