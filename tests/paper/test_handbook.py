"""The handbook of a small programme: every page number in it is that of the page where the thing stands."""

from __future__ import annotations

import io
import re
from typing import TYPE_CHECKING

import pytest
from pypdf import PdfReader

from once import value_once
from paper.reading import pdf_ua_faults, texts
from small_kitchen import lay_down
from tinwright.knowledge import load
from tinwright.paper import Press, Printed, handbook

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> KnowledgeBase:
    folder = tmp_path_factory.mktemp("small")
    lay_down(folder)
    return load(folder / "content")


@pytest.fixture(scope="module")
def book(small: KnowledgeBase, tmp_path_factory: pytest.TempPathFactory) -> Printed:
    return value_once(tmp_path_factory, "handbook", lambda: handbook(Press(small)))


def headings(book: Printed) -> dict[str, set[int]]:
    """Heading in the reader's outline: the pages it leads to, counted from 1, as the page labels do."""
    reader = PdfReader(io.BytesIO(book.content))
    found: dict[str, set[int]] = {}
    open_ = list(reader.outline)
    while open_:
        entry = open_.pop()
        if isinstance(entry, list):
            open_ += entry
        else:
            number = reader.get_destination_page_number(entry)
            assert number is not None
            found.setdefault(" ".join(str(entry.title).split()), set()).add(number + 1)
    return found


def test_each_number_in_the_contents_is_the_page_its_heading_stands_on(book: Printed) -> None:
    pages = texts(book.content)
    where = headings(book)
    contents = " ".join(pages[1 : min(min(at) for at in where.values() if min(at) > 2) - 1])
    listed = re.findall(r"([^.]+?)[ .]*\. *\.[ .]*(\d+)", contents)
    assert len(listed) > 20
    checked = 0
    for title, number in listed:
        name = next((name for name in where if title.strip().endswith(name)), None)
        if name is not None:
            assert int(number) in where[name], title
            assert name.casefold() in pages[int(number) - 1].casefold()
            checked += 1
    assert checked > 20


def test_the_number_on_each_page_is_its_place_in_the_file(book: Printed) -> None:
    for number, text in enumerate(texts(book.content)[1:], 2):
        assert re.search(rf"\b{number}\b", text[-60:] + " " + text[:60]), number


def test_the_book_passes_the_check_of_pdf_ua(book: Printed) -> None:
    assert pdf_ua_faults(book.content) == []
