"""Every page says all sources of a statement, and the page about evidence says how many statements have what."""

from __future__ import annotations

from typing import TYPE_CHECKING

import markdown  # type: ignore[import-untyped]
import pytest
from bs4 import BeautifulSoup

from evidence_content import SMALL
from tinwright.knowledge import load
from tinwright.knowledge.handwritten import read_handwritten
from tinwright.paper import Press
from tinwright.paper.handwritten import handwritten_html
from tinwright.site import build_site

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from tinwright.knowledge import KnowledgeBase


@pytest.fixture
def small(content: Callable[[dict[str, str]], Path]) -> KnowledgeBase:
    return load(content(SMALL))


def page(kb: KnowledgeBase, uri: str) -> BeautifulSoup:
    text = next(page.text for page in build_site(kb).pages if page.uri == uri)
    html = markdown.markdown(text, extensions=["tables", "attr_list", "md_in_html"])
    return BeautifulSoup(html, "html.parser")


def rows(html: BeautifulSoup) -> list[list[str]]:
    return [[cell.get_text(" ", strip=True) for cell in row.find_all(["th", "td"])] for row in html.find_all("tr")]


def test_a_second_source_stands_beside_the_first_with_its_place_and_a_link(small: KnowledgeBase) -> None:
    said = [" ".join(e.get_text().split()) for e in page(small, "defects/loose.md").select(".tw-evidence--source")]
    assert "Manual, p. 4; also Book, p. 5" in said
    links = [a["href"] for a in page(small, "defects/loose.md").select(".tw-evidence--source a")]
    assert "../sources/book.md" in links or "../sources/book.html" in links


def test_the_page_of_a_translation_says_what_it_counts_as_one_with(small: KnowledgeBase) -> None:
    said = " ".join(page(small, "sources/manuel.md").get_text(" ").split())
    assert "Counts as the same source as Manual" in said
    assert "Counts as the same source as" not in page(small, "sources/manual.md").get_text(" ")


def test_how_we_know_shows_the_counts_by_grade_on_the_site(small: KnowledgeBase) -> None:
    # counted by hand in tests/evidence_content.py
    shown = rows(page(small, "how-we-know.md"))
    assert shown.count(["How it is known", "How many in all", "Two or more sources", "Section read whole"]) == 2
    assert ["Source", "2", "1", "1"] in shown
    assert ["Common practice, no source", "7", "0", "0"] in shown
    assert shown.count(["From trade memory", "1", "0", "0"]) == 2
    assert page(small, "how-we-know.md").find_all(style=True) == []


def test_how_we_know_shows_the_same_counts_on_paper(small: KnowledgeBase) -> None:
    (written,) = read_handwritten(small.root)
    on_paper = BeautifulSoup(str(handwritten_html(Press(small), written)), "html.parser")
    assert rows(on_paper) == rows(page(small, "how-we-know.md"))
    assert "{{" not in on_paper.get_text()
