"""What the search knows of each page: its name, its beginning and how people say it; not every word on it.

The theme's index holds the whole text of every section, and a phone is long at it. A volunteer looks for a page.
"""

from __future__ import annotations

import html
import json
import re
from typing import TYPE_CHECKING, Any

from tinwright.browser import script_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from pathlib import Path

__all__ = ["SEARCHER", "searcher", "short_entries", "shorten_index"]

SEARCHER = "assets/search.js"
"""Address of the script that searches, in place of the theme's."""

_ELEMENT = re.compile(r"<[^>]*>")
_TEXT_LETTERS = 200
"""How much of a page's text is searched and shown: its first sentences say what it is about."""


def searcher(vendor: Mapping[str, bytes]) -> bytes:
    """Return the script that searches, after the libraries that it needs.

    Args:
        vendor: the libraries, by file; one of them is a module, and a worker from a disk cannot be one.
    """
    stemmer = vendor["stemmer.js"].replace(b"\nexport function stemmer", b"\nfunction stemmer", 1)
    library = re.sub(rb"//# sourceMappingURL.*\n", b"", vendor["minisearch.js"])
    shared = b"globalThis.stemmer = (function () {\n" + stemmer + b"return stemmer;\n})();\n"
    return library + shared + script_text("worker", "search.js").encode()


def short_entries(entries: Iterable[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """Return one entry for each page, of the theme's one for each section.

    >>> short_entries([
    ...     {"location": "a.html", "title": "A", "text": "<p>One.</p>", "tags": ["first one"]},
    ...     {"location": "a.html#b", "title": "B", "text": "<p>Two.</p>", "tags": ["first one"]},
    ... ])
    [{'location': 'a.html', 'title': 'A', 'text': 'One. Two.', 'tags': 'first one'}]
    """
    pages: dict[str, dict[str, Any]] = {}
    for entry in entries:
        place = entry["location"].partition("#")[0]
        text = " ".join(_ELEMENT.sub(" ", entry["text"]).split())
        if place not in pages:
            pages[place] = {
                "location": place,
                "title": entry["title"],
                "text": text,
                "tags": " ".join(entry.get("tags", ())),
            }
            if entry.get("boost", 1) != 1:
                pages[place]["boost"] = entry["boost"]
        elif len(pages[place]["text"]) < _TEXT_LETTERS:
            pages[place]["text"] = f"{pages[place]['text']} {text}".strip()
    for page in pages.values():
        page["text"] = _beginning(page["text"])
    return list(pages.values())


def shorten_index(site: Path) -> None:
    """Write the index of a built site again, short: as data, and as the script that is read from a disk."""
    file = site / "search" / "search_index.json"
    if not file.is_file():
        return
    index = json.loads(file.read_text(encoding="utf-8"))
    index["docs"] = short_entries(index["docs"])
    text = json.dumps(index, ensure_ascii=False, separators=(",", ":"))
    file.write_text(text, encoding="utf-8")
    script = file.with_suffix(".js")
    if script.is_file():
        script.write_text(f"var __index = {text}", encoding="utf-8")


def _beginning(text: str) -> str:
    """Return the beginning of an escaped text, to the end of a word."""
    plain = html.unescape(text)
    if len(plain) > _TEXT_LETTERS:
        plain = plain[:_TEXT_LETTERS].rpartition(" ")[0] + " ..."
    return html.escape(plain, quote=False)
