"""What a volunteer says at the bench finds the right defect, by search and by the gallery, and leads to a correction."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from demo_site import ROOT
from tinwright.knowledge import load
from tinwright.site.rendering import uri_of
from tinwright.site.search_index import SEARCHER

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
    box.fill(words)
    box.press("End")  # the search listens for keys, and then asks once for all that is in the box
    expect(page.locator(".md-search-result__meta")).to_contain_text("matching document")
    page.locator(".md-search-result__item").first.wait_for()
    results = "[...document.querySelectorAll('.md-search-result__item > .md-search-result__link')].map(a => a.href)"
    found: list[str] = page.evaluate(results)[:number]
    return found


def leads_to(address: str, defects: tuple[str, ...]) -> bool:
    return any(f"defects/{id_}.html" in address for id_ in defects)


@pytest.mark.parametrize("seen", OBSERVATIONS, ids=lambda seen: seen.words)
def test_search_finds_it_among_the_first_three_and_leads_to_a_correction(home: Page, seen: Observation) -> None:
    found = first_results(home, seen.words)
    right = [address for address in found if leads_to(address, seen.defects)]
    assert right, found
    home.goto(right[0].split("?")[0].split("#")[0])
    home.locator(".tw-answer--yes a").first.click()
    home.locator(".tw-fix__cause a").first.click()
    expect(home.locator("#correction")).to_be_in_viewport()
    expect(home.get_by_role("article").locator("a[href*='procedures/']").first).to_be_attached()


@pytest.mark.parametrize("words", ["puffed lid", "bulging lid", "popped", "swelled", "lid spurts", "puffed up can"])
def test_a_can_that_may_be_poison_is_found_before_anything_else(home: Page, words: str) -> None:
    found = first_results(home, words)
    assert leads_to(found[0], ("swell",)), found


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


ASK = """async ([worker, names]) => {
  const index = await (await fetch("search/search_index.json")).json();
  const search = new Worker(worker);
  const ask = (message) => new Promise((resolve) => {
    search.addEventListener("message", ({ data }) => resolve(data.data), { once: true });
    search.postMessage(message);
  });
  await ask({ type: 0, data: { config: index.config, docs: index.docs, options: {} } });
  const found = {};
  for (const name of names) found[name] = (await ask({ type: 2, data: name })).items.map(([first]) => first.location.split("#")[0]);
  return found;
}"""
"""Asks the searcher, without its box."""
LOOKED_UP = ("defect", "cause", "part", "term", "procedure", "caution")


def test_who_types_a_name_finds_its_page_before_those_that_hold_it(page: Page, over_http: str) -> None:
    """Nearly always: the words of a short name, such as lid, are in the names of many."""
    pages: dict[str, set[str]] = defaultdict(set)
    for kind in LOOKED_UP:
        for record in load(ROOT / "content").of_kind(kind).values():
            pages[record.name.lower().replace(",", "")].add(uri_of(record).replace(".md", ".html"))
    page.goto(f"{over_http}index.html?q=seam")  # words to search for: the searcher need not wait for its box
    found = page.evaluate(ASK, [SEARCHER, list(pages)])
    ranks = [next((rank for rank, page in enumerate(found[name]) if page in pages[name]), 99) for name in pages]
    assert sum(rank == 0 for rank in ranks) > 0.8 * len(pages)
    assert sum(rank < 3 for rank in ranks) > 0.95 * len(pages), [
        name for name, rank in zip(pages, ranks, strict=True) if rank > 2
    ]


@pytest.mark.parametrize("seen", OBSERVATIONS, ids=lambda seen: seen.words)
def test_the_gallery_shows_it_after_two_ticks(page: Page, over_http: str, seen: Observation) -> None:
    page.goto(f"{over_http}defects/index.html")
    page.get_by_role("checkbox", name=seen.how).check()
    page.get_by_role("checkbox", name=seen.where).check()
    every = page.locator(".tw-card a").count()
    cards = page.locator(".tw-card:visible a")
    shown = [str(card.get_attribute("href")).removesuffix(".html") for card in cards.all()]
    assert set(seen.defects) & set(shown)
    assert len(shown) <= every / 3
    page.locator(f".tw-card:visible a[href='{seen.defects[0]}.html']").click()
    expect(page.locator(".tw-red")).to_be_visible()
    page.locator(".tw-answer--yes a").first.click()
    page.locator(".tw-fix__cause a").first.click()
    expect(page.locator("#correction")).to_be_in_viewport()
