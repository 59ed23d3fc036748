"""From a seam that looks wrong to the correction of the right roller: by mouse, by keys, without script."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from browser.checks import say_yes_to

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

pytestmark = pytest.mark.browser


def article(page: Page) -> Locator:
    return page.get_by_role("article")


def expect_correction_of_the_first_roller(fix: Locator) -> None:
    expect(fix.get_by_role("heading", name="Tighten the first roller.")).to_be_in_viewport()
    expect(fix).to_contain_text("no more than 1/8 turn")
    expect(fix).to_contain_text("The second operation cannot fix the first")
    expect(fix).to_contain_text("seal an empty can")
    expect(fix.get_by_role("link", name="Set the first roller")).to_be_visible()


def test_by_the_place_and_the_picture_from_home_to_the_correction(home: Page) -> None:
    article(home).get_by_role("link", name="Just under the seam").click()
    article(home).get_by_role("link", name="Droop").first.click()
    expect(home.locator(".tw-red")).to_contain_text("Do not use this can.")
    expect_correction_of_the_first_roller(say_yes_to(home, "first-roller-loose"))


def test_the_same_from_the_disk(page: Page, from_disk: str) -> None:
    page.goto(f"{from_disk}index.html")
    article(page).get_by_role("link", name="A seam looks wrong").click()
    article(page).get_by_role("link", name="Droop").first.click()
    expect_correction_of_the_first_roller(say_yes_to(page, "first-roller-loose"))


def test_the_back_button_takes_an_answer_back(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}defects/droop.html")
    check = page.locator(".tw-check:visible")
    expect(check).to_contain_text("Check 1 of")
    check.locator(".tw-answer--no a").click()
    expect(check).to_contain_text("Check 2 of")
    check.locator(".tw-answer--yes a").click()
    expect(check.locator(".tw-fix")).to_be_visible()
    page.go_back()
    expect(check.locator(".tw-fix")).to_be_hidden()
    page.go_back()
    expect(check).to_contain_text("Check 1 of")


def test_no_to_every_check_ends_with_holding_the_cans(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}defects/chuck-print.html")
    check = page.locator(".tw-check:visible")
    while check.locator(".tw-answer--no a").count():
        check.locator(".tw-answer--no a").click()
    expect(check).to_contain_text("None of these")
    expect(check).to_contain_text("throw the cans away")


def test_the_sealer_is_remembered_and_its_step_alone_is_shown(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}defects/droop.html")
    page.get_by_label("Your sealer").select_option("motor-sealer")
    page.goto(f"{over_http}defects/sharp-seam.html")
    expect(page.get_by_label("Your sealer")).to_have_value("motor-sealer")
    page.goto(f"{over_http}defects/droop.html")
    rows = say_yes_to(page, "first-roller-loose").locator(".tw-fix__sealer:visible")
    expect(rows).to_have_count(1)
    expect(rows).to_contain_text("seen from the outer end of the arm")


def test_a_link_to_what_is_folded_opens_it(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}defects/droop.html#can")
    expect(page.locator(".tw-red__steps")).to_be_visible()
    page.get_by_role("link", name="Not this one?").click()
    expect(page.locator("details:has(#alike) dl")).to_be_visible()


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
    def press(target: Locator) -> None:
        tab_to(home, target)
        home.keyboard.press("Enter")

    press(article(home).get_by_role("link", name="A seam looks wrong"))
    home.wait_for_url("**/defects/index.html")
    press(article(home).get_by_role("link", name="Droop").first)
    home.wait_for_url("**/defects/droop.html")
    expect_correction_of_the_first_roller(say_yes_to(home, "first-roller-loose", press))


@pytest.mark.browser_context_args(java_script_enabled=False)
@pytest.mark.parametrize("place", ["over_http", "from_disk"])
def test_without_script_by_the_gallery(page: Page, place: str, request: pytest.FixtureRequest) -> None:
    page.goto(f"{request.getfixturevalue(place)}index.html")
    article(page).get_by_role("link", name="A seam looks wrong").click()
    expect(page.locator("tw-filter")).to_be_hidden()
    assert page.locator(".tw-card").count() == page.locator(".tw-card:visible").count() >= 30
    article(page).get_by_role("link", name="Droop").first.click()
    expect_all_in_one_order(page)
    fix = page.locator(".tw-fix", has_text="First roller set too loose")
    assert fix.locator(".tw-fix__sealer:visible").count() == 3
    fix.get_by_role("link", name="Set the first roller").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Set the first roller")


def expect_all_in_one_order(page: Page) -> None:
    """What is urgent, the pictures, then each check: its Yes, its own correction, its No; at last what is safe."""
    seen = page.evaluate(
        """() => [...document.querySelectorAll(".tw-red, .tw-pair, .tw-check__do, .tw-answer--yes, .tw-fix, .tw-answer--no, #none")]
             .map((e) => [e.className.split(" ").at(-1) || e.id, e.getBoundingClientRect()])
             .filter(([, box]) => box.height > 0)
             .sort(([, one], [, other]) => one.top - other.top)
             .map(([name]) => name)"""
    )
    number = page.locator(".tw-answer--yes").count()
    each = ["tw-check__do", "tw-answer--yes", "tw-fix", "tw-answer--no"]
    assert number > 3
    assert seen == ["tw-red--reject", "tw-pair", *each * number, "tw-check--none"]


@pytest.mark.browser_context_args(java_script_enabled=False)
def test_without_script_by_the_tree(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}trees/index.html")
    article(page).get_by_role("link", name="Droop", exact=True).first.click()
    expect(page.locator(".tw-action").first).to_be_visible()
    check = page.locator(".tw-check", has_text="First roller set too loose").first
    expect(check.get_by_text("Yes", exact=True)).to_be_visible()
    expect(check.get_by_text("No", exact=True)).to_be_visible()
    expect(check).to_contain_text("no more than 1/8 turn")
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


NOTHING_FITS = """() => {
  const of = (name) => [...document.querySelectorAll(`tw-filter input[name=${name}]`)].map((box) => box.value);
  const cards = [...document.querySelectorAll(".tw-card")].map((card) => card.dataset);
  const fits = (found, place) => cards.some((c) => c.found.split(" ").includes(found) && c.place.split(" ").includes(place));
  for (const found of of("found")) for (const place of of("place")) if (!fits(found, place)) return [found, place];
  return null;
}"""


def test_ticks_that_nothing_fits_show_what_nearly_does_and_the_next_step(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}defects/index.html")
    everything = shown(page)
    found, place = page.evaluate(NOTHING_FITS)
    page.locator(f"tw-filter input[name=found][value='{found}']").check()
    page.locator(f"tw-filter input[name=place][value='{place}']").check()
    expect(page.get_by_role("status")).to_contain_text("Nothing fits all you ticked.")
    assert 0 < len(shown(page)) < len(everything)
    page.get_by_role("article").locator(".tw-filter__end").get_by_role("link").click()
    expect(page).to_have_url(re.compile(r"trees/index\.html"))


@pytest.mark.browser_context_args(viewport={"width": 360, "height": 740})
def test_the_count_stays_in_view_above_the_cards(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}defects/index.html")
    page.locator(".tw-card").last.scroll_into_view_if_needed()
    expect(page.locator(".tw-filter__end output")).to_be_in_viewport()


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
    assert page.locator(".tw-check:visible").count() == page.locator(".tw-check").count() > 3
    page.goto(f"{over_http}defects/droop.html")
    page.emulate_media(media="print")
    assert page.locator(".tw-fix:visible").count() == page.locator(".tw-fix").count() > 3
    expect(page.locator(".tw-bar")).to_be_hidden()
