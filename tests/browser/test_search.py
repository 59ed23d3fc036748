"""What a volunteer says at the bench finds the right defect, by search and by the gallery, and leads to a correction."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = pytest.mark.browser


@dataclass(frozen=True)
class Observation:
    """What somebody at the bench says, and what it is."""

    words: str
    defects: tuple[str, ...]
    """The defects any of which is right: more than one where the words fit both."""
    how: str
    where: str


OBSERVATIONS = (
    Observation("lip sticking out under the seam", ("droop",), "I see it", "Just under the seam"),
    Observation("shiny skid marks inside the lid", ("spinner",), "I see it", "Inside, on the wall of the countersink"),
    Observation("I can see the can body under the seam", ("knocked-down-flange",), "I see it", "Just under the seam"),
    Observation(
        "lots of little bubbles in the hot water", ("bubbles-in-water-test",), "I see it", "Just under the seam"
    ),
    Observation(
        "sharp edge inside the lid cut my finger", ("sharp-seam", "cutover"), "I feel it", "On the top edge of the seam"
    ),
    Observation(
        "wrinkles in the lid hook when torn apart", ("low-tightness",), "I find it at teardown", "Inside the seam"
    ),
    Observation("bean skin stuck in the rim", ("seam-inclusion",), "I see it", "Just under the seam"),
    Observation(
        "rim still round, second roller did nothing", ("no-second-operation",), "I see it", "On the outside of the seam"
    ),
    Observation(
        "one side of the lid fell into the can", ("knocked-down-end",), "I see it", "On the top edge of the seam"
    ),
    Observation("gasket rubber squeezed out", ("compound-squeeze-out",), "I see it", "Just under the seam"),
)


def first_results(page: Page, words: str, number: int = 3) -> list[str]:
    """Type into the search box, and return where the first results lead."""
    box = page.get_by_role("textbox", name="Search")
    box.click()
    box.fill(words[:-1])
    box.press_sequentially(words[-1])  # the search listens for keys, and then asks for all that is in the box
    expect(page.locator(".md-search-result__meta")).to_contain_text("matching document")
    results = "[...document.querySelectorAll('.md-search-result__item > .md-search-result__link')].map(a => a.href)"
    seen: list[list[str]] = []
    while len(seen) < 40:  # results are ranked anew after each letter: wait until they stand still
        page.wait_for_timeout(250)
        seen.append(page.evaluate(results)[:number])
        if seen[-1] and seen[-5:] == seen[-1:] * 5:
            break
    return seen[-1]


def leads_to(address: str, defects: tuple[str, ...]) -> bool:
    return any(f"defects/{id_}.html" in address for id_ in defects)


@pytest.mark.parametrize("seen", OBSERVATIONS, ids=lambda seen: seen.words)
def test_search_finds_it_among_the_first_three_and_leads_to_a_correction(home: Page, seen: Observation) -> None:
    found = first_results(home, seen.words)
    right = [address for address in found if leads_to(address, seen.defects)]
    assert right, found
    home.goto(right[0].split("?")[0].split("#")[0])
    home.locator(".tw-causes .tw-go a").first.click()
    expect(home.locator("#correction")).to_be_in_viewport()
    expect(home.get_by_role("article").locator("a[href*='procedures/']").first).to_be_attached()


def test_no_result_is_said_to_miss_a_word_that_its_page_has(home: Page, over_http: str) -> None:
    """The theme counts the words of one section; a volunteer who reads "Missing: out" passes the right page by."""
    first_results(home, OBSERVATIONS[0].words)
    right = home.locator(".md-search-result__item", has=home.locator("a[href*='defects/droop.html']"))
    expect(right).to_be_visible()
    expect(right).to_contain_text("Missing: out")  # else the theme has changed, and the rule that hides it can go
    assert "missing" not in right.inner_text().lower()
    home.goto(f"{over_http}defects/droop.html")
    expect(home.get_by_role("article")).to_contain_text("sticking out")


def test_search_works_from_the_disk(page: Page, from_disk: str) -> None:
    page.goto(f"{from_disk}causes/index.html")
    found = first_results(page, OBSERVATIONS[0].words)
    assert [address for address in found if leads_to(address, OBSERVATIONS[0].defects)], found


@pytest.mark.parametrize(
    ("words", "address"),
    [
        ("botulism", "cautions/botulism.html"),
        ("overlap", "terms/overlap.html"),
        ("307x409", "cans/307x409.html"),
        ("bench crank 307x409", "set-up/bench-crank-sealer-307x409.html"),
        ("base pressure", "procedures/set-base-pressure.html"),
        ("second roller too loose", "causes/second-roller-loose.html"),
    ],
)
def test_pages_of_other_kinds_are_found_by_their_names(home: Page, words: str, address: str) -> None:
    assert [found for found in first_results(home, words) if address in found]


@pytest.mark.parametrize("seen", OBSERVATIONS, ids=lambda seen: seen.words)
def test_the_gallery_shows_it_after_two_ticks(page: Page, over_http: str, seen: Observation) -> None:
    page.goto(f"{over_http}defects/index.html")
    page.get_by_role("checkbox", name=seen.how).check()
    page.get_by_role("checkbox", name=seen.where).check()
    cards = page.locator(".tw-card:visible a")
    shown = [str(card.get_attribute("href")).removesuffix(".html") for card in cards.all()]
    assert set(seen.defects) & set(shown)
    assert len(shown) <= 16
    page.locator(f".tw-card:visible a[href='{seen.defects[0]}.html']").click()
    expect(page.locator(".tw-action")).to_be_visible()
    page.locator(".tw-causes .tw-go a").first.click()
    expect(page.locator("#correction")).to_be_in_viewport()
