"""A page of the site in a frame of another site's page, on another port."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from browser.framing import another_site
from demo_site import PATIENCE_MS

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser, FrameLocator, Page

pytestmark = pytest.mark.browser

NO_SCROLLING = "document.documentElement.scrollHeight <= document.documentElement.clientHeight + 1"


@pytest.fixture
def parent(tmp_path: Path) -> Iterator[str]:
    with another_site(tmp_path / "parent") as address:
        yield address


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(service_workers="block")
    context.set_default_timeout(PATIENCE_MS)
    yield context.new_page()
    context.close()


def framed(page: Page) -> FrameLocator:
    return page.frame_locator("#frame")


def the_frame_fits(page: Page) -> None:
    page.wait_for_function("heights.length > 0")
    frame = page.frames[1]
    frame.wait_for_function(NO_SCROLLING)
    height = page.evaluate("heights.at(-1)")
    assert set(height) == {"tinwright", "height"}
    assert height["tinwright"] == "height"
    assert abs(height["height"] - frame.evaluate("document.body.getBoundingClientRect().height")) <= 1


def test_the_bare_page_tells_its_height_and_its_links_stay_bare(page: Page, parent: str, over_http: str) -> None:
    page.goto(f"{parent}#{over_http}defects/droop.html%3Fembed")
    expect(framed(page).get_by_role("heading", level=1)).to_contain_text("Droop")
    for furniture in ("header.md-header", "footer", ".md-sidebar", ".tw-crumbs", ".md-search"):
        expect(framed(page).locator(f"{furniture}:visible")).to_have_count(0)
    the_frame_fits(page)
    framed(page).locator(".tw-answer--yes a").first.click()
    framed(page).locator(".tw-fix__cause a").first.click()
    page.frames[1].wait_for_url("**/causes/*.html?embed#correction")
    expect(framed(page).locator("header.md-header")).to_be_hidden()
    the_frame_fits(page)


def test_the_height_follows_the_page_as_it_grows(page: Page, parent: str, over_http: str) -> None:
    page.goto(f"{parent}#{over_http}seam-check.html%3Fembed")
    the_frame_fits(page)
    before = page.evaluate("heights.at(-1).height")
    frame = framed(page)
    frame.locator("#sc-spec").select_option("demo-307")
    frame.locator("#sc-0-body-hook").fill(".060")
    expect(frame.locator(".tw-verdict")).to_be_visible()
    page.wait_for_function("before => heights.at(-1).height > before + 100", arg=before)
    the_frame_fits(page)
    frame.get_by_role("button", name="Clear and start again").click()
    page.wait_for_function("before => heights.at(-1).height < before + 100", arg=before)


def test_a_link_to_another_site_opens_beside_the_frame(page: Page, parent: str, over_http: str) -> None:
    page.goto(f"{parent}#{over_http}sources/cfr-21-113-60.html%3Fembed")
    link = framed(page).locator("article a[href^='https:']").first
    link.evaluate("e => e.addEventListener('click', event => event.preventDefault())")
    link.click()
    assert link.get_attribute("target") == "_blank"
    assert link.get_attribute("rel") == "noopener"


def test_a_link_within_the_page_stays_in_the_page(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}seam-check.html?embed")
    page.evaluate(
        "document.querySelector('article').append(Object.assign(document.createElement('a'), { href: '#formulas', textContent: 'jump', id: 'jump' }))"
    )
    page.locator("#jump").click()
    assert page.url == f"{over_http}seam-check.html?embed#formulas"


def test_it_works_from_the_disk_too(page: Page, from_disk: str) -> None:
    page.goto(f"{from_disk}defects/droop.html?embed")
    expect(page.locator("header.md-header")).to_be_hidden()
    page.locator(".tw-answer--yes a").first.click()
    page.locator(".tw-fix__cause a").first.click()
    page.wait_for_url("**?embed#correction")


def test_without_the_word_the_page_is_whole(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}defects/droop.html?embedded")
    expect(page.locator("header.md-header")).to_be_visible()
