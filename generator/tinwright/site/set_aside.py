"""Finished HTML, set aside while the rest of a page is converted: most of a page is HTML that stays as it is.

Python-Markdown reads a block of HTML tag by tag only to put it back as it was; the anchor check and the search read it
again. What is set aside here skips the first two; drawings, and what is not searched, skip the third as well.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from markdown.util import BLOCK_LEVEL_ELEMENTS  # type: ignore[import-untyped]

__all__ = ["SetAside", "set_aside"]

_HEADING = re.compile(r"^#{1,6} .*$", re.MULTILINE)
_TAG = re.compile(r"<(/?)([A-Za-z][^\s/>]*)((?:[^>\"]|\"[^\"]*\")*?)(/?)>")
_DRAWING = re.compile(r"<svg\b.*?</svg>", re.DOTALL)
_ANCHOR = re.compile(r"\sid=\"([^\"]*)\"")
_EMPTY = frozenset(
    ("area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr")
)
_BLOCKS = frozenset([*BLOCK_LEVEL_ELEMENTS, "link"])
_UNSEARCHED = "data-search-exclude"
_BLOCK_MARK = re.compile("<p>\ue000(\\d+)\ue000</p>")
_PART_MARK = re.compile("<!--\ue000(\\d+)\ue000-->")


@dataclass
class SetAside:
    """What was taken out of one page."""

    text: str
    """The Markdown that is left, with a mark for each block that was taken out."""
    blocks: list[str] = field(default_factory=list)
    """The blocks, with a mark for each part the search need not read."""
    parts: list[str] = field(default_factory=list)
    """Drawings, and elements that are not searched."""

    def with_blocks(self, html: str) -> str:
        """Put the blocks back into the converted page."""
        return _put_back(_BLOCK_MARK, self.blocks, html)

    def with_parts(self, html: str) -> str:
        """Put back what the search need not read."""
        return _put_back(_PART_MARK, self.parts, html)

    def anchors(self) -> set[str]:
        """Return the ids in what was set aside."""
        return {found for text in (*self.blocks, *self.parts) for found in _ANCHOR.findall(text)}


def _put_back(mark: re.Pattern[str], kept: list[str], html: str) -> str:
    def found(match: re.Match[str]) -> str:
        number = int(match[1])
        return kept[number] if number < len(kept) else match[0]  # a mark that somebody wrote is left alone

    return mark.sub(found, html)


def set_aside(text: str) -> SetAside:
    r"""Take the blocks of finished HTML out of a page's Markdown.

    What stands between two headings is taken when it is elements alone, each closed, each a block to Python-Markdown.

    Args:
        text: Markdown without front matter.

    >>> set_aside("# A\n\n<p>b</p>\n").blocks
    ['<p>b</p>']
    """
    page = SetAside("")
    left: list[str] = []
    start = 0
    headings = [match.span() for match in _HEADING.finditer(text)]
    for heading_start, heading_end in [*headings, (len(text), len(text))]:
        between = text[start:heading_start].strip()
        excluded = _elements(between)
        if excluded is None and between.startswith("<"):
            continue  # an element is still open: what looks like a heading is text in it, or ends the page
        if excluded is None or not between:
            left.append(between)
        else:
            left.append(f"\ue000{len(page.blocks)}\ue000")
            page.blocks.append(_without_parts(between, excluded, page.parts))
        left.append(text[heading_start:heading_end])
        start = heading_end
    left.append(text[start:].strip())
    page.text = "\n\n".join(piece for piece in left if piece) + "\n"
    return page


def _elements(html: str) -> list[tuple[int, int]] | None:
    """Return where the elements that are not searched lie; None when it is not whole block elements alone."""
    depth, end, begun = 0, 0, 0
    excluded: list[tuple[int, int]] = []
    unsearched = False
    for match in _TAG.finditer(html):
        closing, name, attributes, closed = match.groups()
        if depth == 0:
            if closing or name not in _BLOCKS or html[end : match.start()].strip():
                return None
            begun, unsearched = match.start(), _UNSEARCHED in attributes
        if closing:
            depth -= 1
        elif not closed and name not in _EMPTY:
            depth += 1
        if depth == 0:
            end = match.end()
            if unsearched:
                excluded.append((begun, end))
    return None if depth or html[end:].strip() else excluded


def _without_parts(html: str, excluded: list[tuple[int, int]], parts: list[str]) -> str:
    def kept(part: str) -> str:
        parts.append(part)
        return f"<!--\ue000{len(parts) - 1}\ue000-->"

    pieces, end = [], 0
    for start, stop in excluded:
        pieces += [_DRAWING.sub(lambda match: kept(match[0]), html[end:start]), kept(html[start:stop])]
        end = stop
    return "".join([*pieces, _DRAWING.sub(lambda match: kept(match[0]), html[end:])])
