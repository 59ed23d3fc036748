"""What the site is made of: pages of Markdown and assets of bytes, each at an address of its own."""

from __future__ import annotations

import posixpath
from dataclasses import dataclass

from tinwright.remembering import remembered

__all__ = ["Asset", "Page", "address_of", "relative_address"]


@dataclass(frozen=True)
class Page:
    """One page, before any static-site tool has seen it."""

    uri: str
    """Where its Markdown lies below the documents folder, such as `defects/droop.md`."""
    text: str
    """Its Markdown, front matter included."""


@dataclass(frozen=True)
class Asset:
    """A file the site needs beside its pages."""

    uri: str
    """Where it lies below the documents folder."""
    content: bytes
    """What is in it."""


@remembered
def address_of(uri: str, *, directory_urls: bool) -> str:
    """Return the address a page's Markdown is published at.

    >>> address_of("defects/droop.md", directory_urls=False)
    'defects/droop.html'
    >>> address_of("defects/droop.md", directory_urls=True)
    'defects/droop/'
    """
    stem = uri.removesuffix(".md")
    if stem == uri:
        return uri
    if not directory_urls:
        return f"{stem}.html"
    folder = posixpath.dirname(stem) if posixpath.basename(stem) == "index" else stem
    return f"{folder}/" if folder else ""


def relative_address(target: str, here: str, *, directory_urls: bool) -> str:
    """Return the link from the page `here` to the page or asset `target`, an anchor kept.

    Args:
        target: uri of a page or asset, with or without `#anchor`.
        here: uri of the page the link stands on.
        directory_urls: True when pages are published as folders.

    >>> relative_address("causes/x.md#confirm", "defects/droop.md", directory_urls=False)
    '../causes/x.html#confirm'
    """
    return _link(target, _folder(here, directory_urls=directory_urls), directory_urls=directory_urls)


@remembered
def _folder(here: str, *, directory_urls: bool) -> str:
    start = address_of(here, directory_urls=directory_urls)
    return start if start.endswith("/") else posixpath.dirname(start)


@remembered
def _link(target: str, folder: str, *, directory_urls: bool) -> str:
    uri, hash_, anchor = target.partition("#")
    if not uri:
        return target
    there, _, name = address_of(uri, directory_urls=directory_urls).rpartition("/")
    way = _way(there, folder)
    return f"{name if name and way == '.' else f'{way}/{name}'}{hash_}{anchor}"


@remembered
def _way(there: str, here: str) -> str:
    return posixpath.relpath(f"/{there}", f"/{here}")  # from the root of the site; without it, of this folder
