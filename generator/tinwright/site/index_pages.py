"""The ways in: home, the gallery of defects, the index of each kind, and the hand-written pages."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tinwright.advice import drawings
from tinwright.browser import needed_scripts
from tinwright.knowledge.evidence_table import with_evidence_table
from tinwright.knowledge.models.trouble import Extent, FoundBy, Place
from tinwright.knowledge.plain_words import KIND_TITLES, say
from tinwright.knowledge.published import read_published
from tinwright.knowledge.scenarios import load_scenarios
from tinwright.site.certificate_page import CERTIFICATE_PAGE
from tinwright.site.pages_and_assets import Page
from tinwright.site.practice_page import PRACTICE_PAGE
from tinwright.site.print_page import PRINT_PAGE
from tinwright.site.rendering import markdown_text, uri_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from markupsafe import Markup

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.handwritten import HandwrittenPage
    from tinwright.knowledge.models import Defect
    from tinwright.knowledge.models.base import Record
    from tinwright.site.rendering import Renderer

__all__ = ["index_pages"]

_LEADS = {
    "cause": "What makes a seam go wrong, in the order of adjustment.",
    "procedure": "What to do at the sealer, step by step.",
    "part": "What each part does, how to inspect it, and what happens when it is worn.",
    "sealer": "The sealers of the program.",
    "can": "Can sizes by code: diameter, then height; whole inches, then sixteenths.",
    "caution": "What can hurt you or the people who eat from the can.",
    "term": "The words of the trade, as the standards use them.",
    "source": "The documents that statements on this site rest on.",
    "seam-specification": "What a can supplier says a good seam measures. Put in the sheet of your own supplier: "
    "no public source gives seam dimensions by can size.",
}


@dataclass(frozen=True)
class Door:
    """One answer to `what do you need now?`."""

    title: str
    text: str
    uri: str
    urgent: bool = False
    """Whether somebody may be harmed who does not read it at once."""


@dataclass(frozen=True)
class Card:
    """A defect in the gallery."""

    defect: Defect
    svg: Markup


_URGENT = "swell"
"""Id of the defect that comes before every other way in: what is in that can may be poison."""
_SEAM = Door("A seam looks wrong", "Where do you see or feel it?", "defects/index.md")
_QUIZ = Door("Take a quiz", "Practice questions with answers explained; nobody sees your score", "quizzes/index.md")
_BENCH = Door("Practice at a sealer", "A sealer set wrong, cans to spend; a bad seam here hurts nobody", PRACTICE_PAGE)
_DOORS = (
    _SEAM,
    Door("Set up for a can", "Chuck, roller position, spacers, steps", "set-up/index.md"),
    Door("Check a seam", "Type in what you measured; get a verdict and a drawing", "seam-check.md"),
    Door("Find the cause", "Answer what you know; get the likely cause", "find-the-cause.md"),
    Door("Keep the bench log", "Write the sealing day down; see what is due and what to hold", "bench-log.md"),
    _QUIZ,
    _BENCH,
    Door("Look it up", "Procedures, parts, terms, cautions, sources", "reference.md"),
    Door("Print", "Cards, wall chart and sheets to hang up or write on", PRINT_PAGE),
    Door("Take it along", "Keep it on a phone, or save it on a USB drive", "take-along.md"),
)


def index_pages(
    kb: KnowledgeBase, renderer: Renderer, handwritten: Iterable[HandwrittenPage], *, quizzes: bool = False
) -> Iterator[Page]:
    """Yield home, gallery, an index page for each kind of record, and the hand-written pages."""
    urgent = list(_urgent_door(kb))
    doors = urgent + [door for door in _DOORS if (quizzes or door != _QUIZ) and (door != _BENCH or load_scenarios(kb))]
    written = list(handwritten)
    titles = [(page.title, f"{page.name}.md") for page in written]
    if read_published(kb.own):
        titles.append(("Check a certificate", CERTIFICATE_PAGE))
    cautions = [id_ for id_ in ("botulism",) if id_ in kb.cautions]
    places = [place for place in Place if any(defect.places[0] == place for defect in kb.defects.values())]
    home = renderer.render(
        "home.md.j2", "index.md", doors=doors, seam=_SEAM, places=places, cautions=cautions, pages=titles
    )
    yield Page("index.md", home)
    yield _gallery(kb, renderer, urgent)
    for kind in KIND_TITLES:
        if kind != "defect" and kb.of_kind(kind):
            yield _index(kb, renderer, kind)
    yield _reference(kb, renderer, titles)
    for page in written:
        yield _handwritten(kb, renderer, page)


def _urgent_door(kb: KnowledgeBase) -> Iterator[Door]:
    if defect := kb.defects.get(_URGENT):
        yield Door("A lid is puffed, leaks or spurts", "Do not open it. See what to do", uri_of(defect), urgent=True)


def _gallery(kb: KnowledgeBase, renderer: Renderer, urgent: list[Door]) -> Page:
    cards = [Card(defect, drawings.closeup(defect, f"card-{defect.id}")) for defect in kb.defects.values()]
    groups = [(place, [card for card in cards if card.defect.places[0] == place]) for place in Place]
    here = "defects/index.md"
    text = renderer.render(
        "gallery.md.j2",
        here,
        groups=[(place, found) for place, found in groups if found],
        urgent=urgent,
        found_by=list(FoundBy),
        places=list(Place),
        extents=list(Extent),
    )
    return Page(here, text)


def _describe(record: Record) -> str:
    known = type(record).model_fields
    field = next((field for field in _DESCRIBING if field in known), None)
    if field is None:
        return ""
    value = getattr(record, field)
    return value if isinstance(value, str) else str(value.text)


_DESCRIBING = ("summary", "about", "hazard", "what", "purpose", "does", "definition")
"""Fields that tell what a record is about, the best first."""


_STAGES = (
    "can-and-lid",
    "filling",
    "handling",
    "operation",
    "chuck",
    "base-height",
    "base-pressure",
    "roller-height",
    "first-roller",
    "second-roller",
)


def _groups(kind: str, records: Iterable[Any]) -> list[tuple[str, list[Any]]]:
    """Group the records of one kind under headings; one group without a heading where none helps."""
    listed = list(records)
    if kind == "cause":
        groups = [(say(a).capitalize(), [r for r in listed if r.adjuster == a]) for a in _STAGES]
    elif kind == "caution":
        groups = [(w, [r for r in listed if r.signal == w]) for w in ("DANGER", "WARNING", "CAUTION", "NOTICE")]
    else:
        groups = [("", sorted(listed, key=lambda r: r.name.lower()))]
    return [(heading, found) for heading, found in groups if found]


def _index(kb: KnowledgeBase, renderer: Renderer, kind: str) -> Page:
    records = kb.of_kind(kind)
    here = f"{next(iter(records.values())).folder}/index.md"
    text = renderer.render(
        "index-list.md.j2",
        here,
        title=KIND_TITLES[kind][1],
        lead=_LEADS[kind],
        groups=_groups(kind, records.values()),
        describe=_describe,
    )
    return Page(here, text)


def _reference(kb: KnowledgeBase, renderer: Renderer, titles: list[tuple[str, str]]) -> Page:
    entries = [
        (
            plural,
            f"{next(iter(kb.of_kind(kind).values())).folder}/index.md",
            len(kb.of_kind(kind)),
            _LEADS.get(kind, ""),
        )
        for kind, (_, plural) in KIND_TITLES.items()
        if kb.of_kind(kind)
    ]
    here = "reference.md"
    return Page(here, renderer.render("reference.md.j2", here, entries=entries, pages=titles))


_FIGURE = re.compile(r"\{\{\s*figure:([a-z-]+)\s*\}\}")
_LINK = re.compile(r"\[\[[a-z-]+/[a-z0-9.-]+(?:\|[^\]|]+)?\]\]")


def _frames(here: str, renderer: Renderer) -> str:
    """Lay out the two operations as stills, and the slider's script."""
    return renderer.render(
        "frames.md.j2",
        here,
        frames=drawings.frames_of_both_operations(),
        scripts=needed_scripts("still-frames.js"),
    )


def _handwritten(kb: KnowledgeBase, renderer: Renderer, page: HandwrittenPage) -> Page:
    here = f"{page.name}.md"

    def figure(match: re.Match[str]) -> str:
        if match[1] == "both-operations":
            return _frames(here, renderer)
        drawing = drawings.named_drawing(match[1])
        if drawing is None:
            return ""
        caption = markdown_text(drawing.caption)
        figcaption = f"<figcaption>{caption}</figcaption>"
        return f'<figure class="tw-figure tw-figure--wide">\n{drawing.svg}\n{figcaption}\n</figure>'

    text = _FIGURE.sub(figure, with_evidence_table(kb, page.text))
    return Page(here, _LINK.sub(lambda match: str(renderer.link_in_markdown(match[0], here)), text))
