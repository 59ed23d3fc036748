"""From a seam that looks wrong to the correction of the right roller: by mouse, by keys, without script."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

pytestmark = pytest.mark.browser


def article(page: Page) -> Locator:
    return page.get_by_role("article")


def expect_correction_of_the_first_roller(page: Page) -> None:
    expect(page).to_have_url(re.compile(r"causes/first-roller-loose\.html#correction$"))
    expect(page.get_by_role("heading", level=1)).to_contain_text("First roller set too loose")
    correction = page.locator("#correction")
    expect(correction).to_be_in_viewport()
    expect(article(page)).to_contain_text("The second operation cannot mend the first.")
    expect(article(page).get_by_role("link", name="Set the first roller").first).to_be_visible()


def first_roller_link(page: Page) -> Locator:
    return article(page).locator("a[href='../causes/first-roller-loose.html#correction']")


def test_three_clicks_of_the_mouse_from_home_to_the_correction(home: Page) -> None:
    article(home).get_by_role("link", name="A seam looks wrong").click()
    article(home).get_by_role("link", name="Droop").first.click()
    expect(home.get_by_role("heading", level=2).first).to_contain_text("What to do with the can")
    first_roller_link(home).click()
    expect_correction_of_the_first_roller(home)


def test_the_same_from_the_disk(page: Page, from_disk: str) -> None:
    page.goto(f"{from_disk}index.html")
    article(page).get_by_role("link", name="A seam looks wrong").click()
    article(page).get_by_role("link", name="Droop").first.click()
    first_roller_link(page).click()
    expect_correction_of_the_first_roller(page)


def tab_to(page: Page, target: Locator, *, at_most: int = 250) -> None:
    """Press Tab until the target has the focus, and see that the focus shows."""
    handle = target.element_handle()
    for _ in range(at_most):
        page.keyboard.press("Tab")
        if handle.evaluate("e => e === document.activeElement"):
            break
    else:
        pytest.fail(f"the keyboard does not reach {target}")
    seen = handle.evaluate(
        """e => { const s = getComputedStyle(e);
                  return s.outlineStyle !== "none" && parseFloat(s.outlineWidth) > 0 || s.boxShadow !== "none"; }"""
    )
    assert seen, f"the focus on {target} does not show"
    assert handle.evaluate("e => { const r = e.getBoundingClientRect(); return r.bottom > 0 && r.top < innerHeight; }")


def test_by_keyboard_alone(home: Page) -> None:
    tab_to(home, article(home).get_by_role("link", name="A seam looks wrong"))
    home.keyboard.press("Enter")
    home.wait_for_url("**/defects/index.html")
    tab_to(home, article(home).get_by_role("link", name="Droop").first)
    home.keyboard.press("Enter")
    home.wait_for_url("**/defects/droop.html")
    tab_to(home, first_roller_link(home))
    home.keyboard.press("Enter")
    expect_correction_of_the_first_roller(home)


@pytest.mark.browser_context_args(java_script_enabled=False)
@pytest.mark.parametrize("place", ["over_http", "from_disk"])
def test_without_script_by_the_gallery(page: Page, place: str, request: pytest.FixtureRequest) -> None:
    page.goto(f"{request.getfixturevalue(place)}index.html")
    article(page).get_by_role("link", name="A seam looks wrong").click()
    expect(page.locator("tw-filter")).to_be_hidden()
    assert page.locator(".tw-card").count() == page.locator(".tw-card:visible").count() >= 30
    article(page).get_by_role("link", name="Droop").first.click()
    first_roller_link(page).click()
    expect(page.locator("#correction")).to_be_in_viewport()
    article(page).get_by_role("link", name="Set the first roller").first.click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Set the first roller")


@pytest.mark.browser_context_args(java_script_enabled=False)
def test_without_script_by_the_tree(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}trees/index.html")
    article(page).get_by_role("link", name="Droop", exact=True).first.click()
    expect(page.locator(".tw-action").first).to_be_visible()
    check = page.locator(".tw-tree__check", has_text="First roller set too loose").first
    expect(check.get_by_text("Yes", exact=True)).to_be_visible()
    expect(check.get_by_text("No", exact=True)).to_be_visible()
    check.get_by_role("link", name="Set the first roller").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Set the first roller")


def shown(page: Page) -> list[str]:
    return page.locator(".tw-card:visible .tw-card__title").all_text_contents()


def test_the_gallery_narrows_by_what_is_seen_or_felt_and_by_place(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}defects/index.html")
    everything = shown(page)
    page.get_by_role("checkbox", name="I feel it").check()
    felt = shown(page)
    assert 0 < len(felt) < len(everything)
    assert {"Cutover", "Sharp seam"} <= set(felt)
    page.get_by_role("checkbox", name="Just under the seam").check()
    under = shown(page)
    assert 0 < len(under) < len(felt)
    assert "Droop" in under
    assert "Cutover" not in under
    expect(page.get_by_role("status")).to_have_text(f"{len(under)} of {len(everything)} shown")
    page.get_by_role("checkbox", name="I feel it").uncheck()
    page.get_by_role("checkbox", name="I measure it").check()
    assert set(shown(page)).isdisjoint(set(under) - set(shown(page)))
    page.get_by_role("button", name="Show all").click()
    assert shown(page) == everything


def test_headings_of_places_with_nothing_left_are_hidden(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}defects/index.html")
    page.get_by_role("checkbox", name="Just under the seam").check()
    for list_ in page.locator(".tw-cards").all():
        heading = list_.locator("xpath=preceding-sibling::h2[1]")
        assert list_.is_visible() == heading.is_visible()


def test_print_shows_the_sheet_and_nothing_round_it(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}set-up/bench-crank-sealer-307x409.html")
    page.emulate_media(media="print")
    for frame in (".md-header", ".md-sidebar--primary", ".md-search", ".tw-crumbs"):
        assert page.locator(f"{frame}:visible").count() == 0, frame
    expect(page.locator(".tw-sheet")).to_be_visible()
    expect(page.locator("article svg").first).to_be_visible()
    expect(page.locator(".tw-steps").last).to_be_visible()
    page.goto(f"{over_http}trees/droop.html")
    page.emulate_media(media="print")
    expect(page.locator(".tw-action").first).to_be_visible()
    assert page.locator(".tw-tree__check:visible").count() == page.locator(".tw-tree__check").count() > 3
