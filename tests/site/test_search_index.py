"""What people type finds the right page among the first three, in an index that a phone reads at once."""

from __future__ import annotations

import base64
import hashlib
import json
import re
import subprocess
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from demo_site import built_once
from tinwright.site.search_index import SEARCHER, searcher, short_entries, shorten_index

if TYPE_CHECKING:
    from collections.abc import Sequence

STORIES = Path(__file__).with_name("search_stories.txt")
VENDOR = Path(__file__).parents[2] / "generator" / "tinwright" / "site" / "vendor"
AS_PUBLISHED = {
    "minisearch.js": ("7.2.0", "A8J5MetgOvHTNYV56Yher9tqL1+pkpVXs+d9fpnQbQM="),
    "stemmer.js": ("2.0.1", "FUk2FV9UHh3KGLt18P5HxdiB97aLKVPZK9MyVKylzDk="),
}
FIRST = 3
READY_BYTES = 300_000
ASK = """
const vm = require("node:vm"), given = JSON.parse(require("node:fs").readFileSync(0));
const world = vm.createContext({ addEventListener() {}, postMessage() {} });
vm.runInContext(given.searcher, world);
Object.assign(world, { entries: JSON.stringify(given.entries), asked: JSON.stringify(given.asked) });
process.stdout.write(vm.runInContext(`
  const find = tinwrightFinder(JSON.parse(entries));
  JSON.stringify(JSON.parse(asked).map((words) => find(words).map(({ entry }) => entry.location)))`, world));
"""


def the_searcher() -> bytes:
    return searcher({file.name: file.read_bytes() for file in VENDOR.iterdir()})


def found(entries: Sequence[dict[str, Any]], asked: Sequence[str]) -> list[list[str]]:
    """Ask the site's searcher in Node, and return where each answer leads, the best first."""
    given = {"searcher": the_searcher().decode(), "entries": entries, "asked": asked}
    done = subprocess.run(
        ["node", "-e", ASK], input=json.dumps(given), text=True, capture_output=True, check=False, timeout=240
    )
    assert done.returncode == 0, done.stderr
    places: list[list[str]] = json.loads(done.stdout)
    return places


def stories() -> list[tuple[str, list[str]]]:
    """Return what people type, and the pages any of which is right."""
    lines = re.findall(r"(?m)^([^#\n].*?): (.*)$", STORIES.read_text(encoding="utf-8"))
    return [(words, [f"{page}.html" for page in pages.split(", ")]) for words, pages in lines]


def an_entry(location: str, title: str, *, tags: str = "", text: str = "", boost: float = 1) -> dict[str, Any]:
    return {"location": location, "title": title, "text": text, "tags": tags, "boost": boost}


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built_once(tmp_path_factory)


@pytest.fixture(scope="module")
def entries(site: Path) -> list[dict[str, Any]]:
    docs: list[dict[str, Any]] = json.loads((site / "search" / "search_index.json").read_bytes())["docs"]
    return docs


@pytest.mark.parametrize(("half", "least"), [(0, 0.95), (1, 0.9)], ids=["tuned by", "kept aside"])
def test_what_people_type_finds_the_page_among_the_first_three(
    entries: list[dict[str, Any]], half: int, least: float
) -> None:
    """Common ways of talking, no source; written before the search was tuned."""
    asked = stories()[half::2]
    assert len(asked) >= 100
    answers = found(entries, [words for words, _ in asked])
    missed = [
        (words, answer[:FIRST])
        for (words, pages), answer in zip(asked, answers, strict=True)
        if not set(pages) & set(answer[:FIRST])
    ]
    assert len(missed) <= (1 - least) * len(asked), missed


def test_the_pages_of_the_stories_are_there(site: Path) -> None:
    assert [page for _, pages in stories() for page in pages if not (site / page).is_file()] == []


def test_the_search_is_ready_with_few_bytes(site: Path) -> None:
    assert sum((site / name).stat().st_size for name in ("search/search_index.json", SEARCHER)) <= READY_BYTES


@pytest.mark.parametrize(
    ("asked", "right"),
    [
        ("leaking", "leak.html"),
        ("leeks", "leak.html"),
        ("rollar", "roller.html"),
        ("roll", "roller.html"),
        ("dead head", "spinner.html"),
        ("bodyhook", "hook.html"),
        ("307 x 409", "size.html"),
        ("what do i do with the leak", "leak.html"),
    ],
)
def test_slips_endings_and_words_together_or_apart_are_understood(asked: str, right: str) -> None:
    pages = [
        an_entry("leak.html", "A can that leaks"),
        an_entry("roller.html", "Roller"),
        an_entry("spinner.html", "Spinner", tags="deadhead"),
        an_entry("hook.html", "Body hook"),
        an_entry("size.html", "307x409"),
        an_entry("other.html", "What to do", text="And what with it."),
    ]
    assert found(pages, [asked])[0][:1] == [right]


def test_words_of_one_letter_begin_no_other_and_nothing_is_found_for_nonsense() -> None:
    pages = [an_entry("a.html", "Alpha"), an_entry("b.html", "Bent flange")]
    assert found(pages, ["b", "qqqqqqq", "", "*"]) == [[], [], [], []]


def test_an_entry_is_a_page_with_its_beginning() -> None:
    sections = [
        {"location": "a.html", "title": "A", "text": "", "tags": ["said so"], "boost": 2},
        {"location": "a.html#b", "title": "B", "text": "<p>1 &lt; 2 <b>and</b> " + "word " * 100 + "</p>"},
    ]
    [entry] = short_entries(sections)
    assert (entry["location"], entry["tags"], entry["boost"]) == ("a.html", "said so", 2)
    assert entry["text"].startswith("1 &lt; 2 and word")
    assert entry["text"].endswith("word ...")


def test_without_an_index_there_is_nothing_to_shorten(tmp_path: Path) -> None:
    shorten_index(tmp_path)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", AS_PUBLISHED)
def test_what_others_wrote_is_as_they_published_it(name: str) -> None:
    digest = base64.b64encode(hashlib.sha256((VENDOR / name).read_bytes()).digest()).decode()
    assert digest == AS_PUBLISHED[name][1]
