"""Addresses of pages, and links between them."""

from __future__ import annotations

import posixpath

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tinwright.site.pages_and_assets import address_of, relative_address

URIS = st.sampled_from(
    [
        "index.md",
        "reference.md",
        "defects/index.md",
        "defects/droop.md",
        "set-up/motor-sealer-307x200.25.md",
        "a/b/c.md",
    ]
)


@pytest.mark.parametrize(
    ("uri", "files", "folders"),
    [
        ("index.md", "index.html", ""),
        ("reference.md", "reference.html", "reference/"),
        ("defects/index.md", "defects/index.html", "defects/"),
        ("defects/droop.md", "defects/droop.html", "defects/droop/"),
        ("cans/307x200.25.md", "cans/307x200.25.html", "cans/307x200.25/"),
        ("photos/a.jpg", "photos/a.jpg", "photos/a.jpg"),
    ],
)
def test_a_page_lies_where_mkdocs_puts_it(uri: str, files: str, folders: str) -> None:
    assert address_of(uri, directory_urls=False) == files
    assert address_of(uri, directory_urls=True) == folders


@pytest.mark.parametrize(
    ("target", "here", "files", "folders"),
    [
        ("causes/x.md", "defects/droop.md", "../causes/x.html", "../../causes/x/"),
        ("defects/vee.md", "defects/droop.md", "vee.html", "../vee/"),
        ("defects/index.md", "defects/droop.md", "index.html", "../"),
        ("index.md", "defects/droop.md", "../index.html", "../../"),
        ("index.md", "index.md", "index.html", "./"),
        ("defects/index.md", "index.md", "defects/index.html", "defects/"),
        ("photos/a.jpg", "parts/crank.md", "../photos/a.jpg", "../../photos/a.jpg"),
        ("causes/x.md#correction", "index.md", "causes/x.html#correction", "causes/x/#correction"),
        ("#can", "defects/droop.md", "#can", "#can"),
    ],
)
def test_a_link_is_relative_to_the_page_it_stands_on(target: str, here: str, files: str, folders: str) -> None:
    assert relative_address(target, here, directory_urls=False) == files
    assert relative_address(target, here, directory_urls=True) == folders


@given(URIS, URIS, st.booleans())
def test_following_a_link_ends_at_the_page_it_names(target: str, here: str, directory_urls: bool) -> None:
    start = address_of(here, directory_urls=directory_urls)
    folder = start if start.endswith("/") else posixpath.dirname(start)
    link = relative_address(f"{target}#x", here, directory_urls=directory_urls)
    path, _, anchor = link.partition("#")
    assert anchor == "x"
    assert not path.startswith("/")
    reached = posixpath.normpath(posixpath.join(folder, path))
    assert reached == posixpath.normpath(address_of(target, directory_urls=directory_urls) or ".")
    assert path.endswith("/") == directory_urls
