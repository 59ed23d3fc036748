"""Print: what the office has printed to hang up or write on, and how to print any page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.knowledge.printed import FOLDER, records_digest
from tinwright.site.pages_and_assets import Asset, Page
from tinwright.site.saved_copy import size_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.printed import Paper
    from tinwright.site.rendering import Renderer

__all__ = ["PRINT_PAGE", "card_lines", "print_assets", "print_page"]

PRINT_PAGE = "print.md"
"""The page's place."""

_KINDS = {
    "set-up": ("Set-up cards", "One side of a sheet for each can on each sealer. Hang it at the machine."),
    "adjustment": ("Adjustment cards", "For base, first roller and second roller: which sign, which way, how far."),
    "wall-chart": ("Wall chart", "Every defect that shows from outside, and what to do with the can."),
    "cautions": ("Caution card", "What can hurt you, or those who eat from the can. Hang it where cans are sealed."),
    "inspection": ("Sheets to write on", "For what you measure, and for what you see and feel."),
    "handbook": ("Handbook", "Everything on this site as a book, with contents, page numbers and an index."),
}
"""Kind: its heading, and what it is for; in the order they are listed."""


@dataclass(frozen=True)
class Offer:
    """A paper as the page offers it."""

    title: str
    uri: str
    pages: int
    size: str
    """Its size in words, such as `420 kB`."""


def print_page(kb: KnowledgeBase, renderer: Renderer, papers: Iterable[Paper]) -> Page:
    """Return the page; when nothing was printed for it, it says how to print any page."""
    listed = list(papers)
    groups = [
        (*words, [_offer(paper) for paper in listed if paper.kind == kind])
        for kind, words in _KINDS.items()
        if any(paper.kind == kind for paper in listed)
    ]
    now = records_digest(kb) if listed else ""
    outdated = [paper.edition for paper in listed if paper.records != now]
    return Page(
        PRINT_PAGE,
        renderer.render(
            "print.md.j2",
            PRINT_PAGE,
            groups=groups,
            printed_from=min(outdated) if outdated else None,
        ),
    )


def _offer(paper: Paper) -> Offer:
    return Offer(paper.title, f"{FOLDER}/{paper.file}", paper.pages, size_text(paper.size))


def print_assets(kb: KnowledgeBase, papers: Iterable[Paper]) -> Iterator[Asset]:
    """Yield the printed files as they are."""
    for paper in papers:
        yield Asset(f"{FOLDER}/{paper.file}", (kb.own / FOLDER / paper.file).read_bytes())


def card_lines(papers: Iterable[Paper]) -> dict[str, list[tuple[str, str]]]:
    """Return for each page that has a card on paper what the card is called, and where it lies."""
    lines: dict[str, list[tuple[str, str]]] = {}
    for paper in papers:
        for sheet, uris in enumerate(paper.cards, 1):
            where = f"{FOLDER}/{paper.file}#page={sheet}" if paper.pages > 1 else f"{FOLDER}/{paper.file}"
            title = f"{paper.title}, page {sheet}" if paper.pages > 1 else paper.title
            for uri in uris:
                lines.setdefault(uri, []).append((title, where))
    return lines
