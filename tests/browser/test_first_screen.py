"""The page of a defect on a phone: all that is urgent on its first screen, one check at a time, by thumb and by keys.

Bounds: our own, for somebody with wet gloves beside the machine.
"""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING, Any

import pytest
from bs4 import BeautifulSoup

from demo_site import ROOT
from tinwright.knowledge import load

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

WIDTH, HEIGHT = 360, 740
PICTURE = 160
THUMB = 44
MOST_WORDS = 60
KB = load(ROOT / "content")

MEASURE = """(sealers) => {
  const box = (name) => {
    const found = [...document.querySelectorAll(name)].filter((e) => e.checkVisibility());
    return found.length ? found[0].getBoundingClientRect().toJSON() : null;
  };
  const check = ".tw-check:not([hidden])";
  const first = {
    red: box(".tw-red summary"), bad: box(".tw-pair__one--bad"), good: box(".tw-pair__one--good"),
    sealer: box("#your-sealer"), title: box(`${check} .tw-check__title`), yes: box(`${check} .tw-answer--yes a`),
    no: box(`${check} .tw-answer--no a`), fix: box(".tw-fix"), bar: box(".tw-bar"),
    links: [...document.querySelectorAll(".tw-bar a")].map((a) => a.getBoundingClientRect().height),
    wide: document.documentElement.scrollWidth,
  };
  const chosen = document.getElementById("your-sealer");
  const steps = {};
  for (const sealer of sealers) {
    chosen.value = sealer;
    chosen.dispatchEvent(new Event("change"));
    document.querySelector(`${check} .tw-answer--yes a`).click();
    const turned = [...document.querySelectorAll(`${check} .tw-fix__sealer`)].filter((row) => row.checkVisibility());
    const step = turned.length ? box(`${check} .tw-fix__amount`) : box(`${check} .tw-fix__steps li`);
    steps[sealer] = { top: step.top, bottom: step.bottom, rows: turned.map((row) => row.dataset.sealers.split(" ")) };
    history.replaceState(null, "", location.pathname);
    dispatchEvent(new PopStateEvent("popstate"));
    scrollTo(0, 0);
  }
  return { first, steps };
}"""


CARDS = """(places) => Object.fromEntries(places.flatMap((place) => {
  const start = document.getElementById(place);
  return [...start.nextElementSibling.querySelectorAll("a")].map((a) => [
    a.href.match(/([^/]+)\\.html/)[1],
    [place, a.getBoundingClientRect().bottom - start.getBoundingClientRect().top + 60], // below the bar on top
  ]);
}))"""


@pytest.fixture(scope="module")
def phone(browser: Browser) -> Iterator[Page]:
    """A phone, for all tests of this file that only look."""
    context = browser.new_context(viewport={"width": WIDTH, "height": HEIGHT}, service_workers="block")
    yield context.new_page()
    context.close()


@pytest.fixture(scope="module")
def pages(phone: Page, from_disk: str) -> dict[str, Any]:
    """Each page of a defect, measured: its first screen, and the correction of its first check on each sealer."""
    found = {}
    for id_ in KB.defects:
        phone.goto(f"{from_disk}defects/{id_}.html")
        found[id_] = phone.evaluate(MEASURE, list(KB.sealers))
    return found


def test_the_first_screen_holds_all_that_is_urgent(pages: dict[str, Any]) -> None:
    wrong = []
    for id_, page in pages.items():
        seen = page["first"]
        order = [seen[name] for name in ("red", "bad", "sealer", "title", "yes", "bar")]
        in_order = all(one["bottom"] <= other["top"] + 0.5 for one, other in itertools.pairwise(order))
        pair = [round(seen[name][side]) for name in ("bad", "good") for side in ("width", "height")]
        large = min(seen["yes"]["height"], seen["no"]["height"], *seen["links"]) >= THUMB
        above_the_bar = max(seen["yes"]["bottom"], seen["no"]["bottom"]) <= seen["bar"]["top"]
        stays = round(seen["bar"]["bottom"]) == HEIGHT and len(seen["links"]) == 3
        whole = seen["wide"] <= WIDTH and seen["fix"] is None
        if not (in_order and pair == [PICTURE] * 4 and large and above_the_bar and stays and whole):
            wrong.append((id_, seen))
    assert wrong == []


def words_before_the_first_correction(page: str) -> int:
    """Count what a reader meets: not what is folded away, drawn, or to be chosen from."""
    article = BeautifulSoup(page, "html.parser").article
    assert article is not None
    fix = article.select_one(".tw-fix")
    assert fix is not None
    for unseen in article.select("svg, option, .tw-red__steps, .tw-unseen, .headerlink, .tw-crumbs, script"):
        unseen.decompose()
    before = [text for text in fix.find_all_previous(string=True) if article in text.parents]
    return len(" ".join(map(str, before)).split())


def test_few_words_stand_before_the_first_correction(site_folder: Path) -> None:
    counts = {
        id_: words_before_the_first_correction((site_folder / "defects" / f"{id_}.html").read_text(encoding="utf-8"))
        for id_ in KB.defects
    }
    assert {id_: number for id_, number in counts.items() if number > MOST_WORDS} == {}


def test_three_taps_and_three_screens_from_home_to_the_turned_screw(
    phone: Page, from_disk: str, pages: dict[str, Any]
) -> None:
    """Taps: the place on the can, the picture, Yes. Screens: how far down each of them lies, and then the step."""
    phone.goto(f"{from_disk}index.html")
    chips = dict(
        phone.evaluate(
            "[...document.querySelectorAll('.tw-places a')].map(a => [a.hash.slice(1), a.getBoundingClientRect().bottom])"
        )
    )
    phone.goto(f"{from_disk}defects/index.html")
    cards = phone.evaluate(CARDS, list(chips))
    wrong = []
    for id_, sealer in itertools.product(KB.defects, KB.sealers):
        place, down = cards[id_]
        step = pages[id_]["steps"][sealer]
        screens = (chips[place] + down + pages[id_]["first"]["yes"]["bottom"] + step["bottom"]) / HEIGHT
        in_view = step["top"] >= 0 and step["bottom"] <= pages[id_]["first"]["bar"]["top"]
        one_sealer = all(sealer in row for row in step["rows"]) and len(step["rows"]) <= 1
        if screens > 3 or not in_view or not one_sealer:
            wrong.append((id_, sealer, screens, step))
    assert wrong == []
