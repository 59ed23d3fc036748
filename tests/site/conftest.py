"""The built demonstration site, parsed."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import TYPE_CHECKING

import pytest
from bs4 import BeautifulSoup

from demo_site import built_once

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path


@pytest.fixture(scope="session")
def site_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demonstration site as HTML, built with `mkdocs build --strict`."""
    return built_once(tmp_path_factory)


class _Pages(Mapping[str, BeautifulSoup]):
    """Each page is parsed when a test first looks at it."""

    def __init__(self, folder: Path) -> None:
        self._files = {
            file.relative_to(folder).as_posix(): file
            for file in sorted(folder.rglob("*.html"))
            if file.name != "404.html"
        }
        self._parsed: dict[str, BeautifulSoup] = {}

    def __getitem__(self, address: str) -> BeautifulSoup:
        if address not in self._parsed:
            text = self._files[address].read_text(encoding="utf-8")
            self._parsed[address] = BeautifulSoup(text, "html.parser")
        return self._parsed[address]

    def __contains__(self, address: object) -> bool:
        return address in self._files

    def __iter__(self) -> Iterator[str]:
        return iter(self._files)

    def __len__(self) -> int:
        return len(self._files)


@pytest.fixture(scope="session")
def pages(site_folder: Path) -> Mapping[str, BeautifulSoup]:
    """Every page of the built site by its address below the site."""
    return _Pages(site_folder)


@pytest.fixture(scope="session")
def text_of(pages: Mapping[str, BeautifulSoup]) -> Callable[[str], str]:
    """The words of a page's own part, with single spaces."""

    @cache
    def words(address: str) -> str:
        article = pages[address].article
        assert article is not None
        return " ".join(article.get_text(" ").split())

    return words
