"""The built demonstration site, parsed."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import pytest
from bs4 import BeautifulSoup

from demo_site import built_once

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path


@pytest.fixture(scope="session")
def site_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demonstration site as HTML, built with `mkdocs build --strict`."""
    return built_once(tmp_path_factory)


@pytest.fixture(scope="session")
def pages(site_folder: Path) -> Mapping[str, BeautifulSoup]:
    """Every page of the built site by its address below the site."""
    return {
        file.relative_to(site_folder).as_posix(): BeautifulSoup(file.read_text(encoding="utf-8"), "html.parser")
        for file in sorted(site_folder.rglob("*.html"))
        if file.name != "404.html"
    }


@pytest.fixture(scope="session")
def text_of(pages: Mapping[str, BeautifulSoup]) -> Callable[[str], str]:
    """The words of a page's own part, with single spaces."""

    @cache
    def words(address: str) -> str:
        article = pages[address].article
        assert article is not None
        return " ".join(article.get_text(" ").split())

    return words
