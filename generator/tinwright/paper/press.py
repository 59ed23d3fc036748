"""The press: templates, the style sheet and the words that every printed document shares."""

from __future__ import annotations

import base64
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any, TypeVar

from markupsafe import Markup, escape

from tinwright.knowledge import plain_words as words
from tinwright.knowledge.evidence_words import evidence_lead, evidence_notes
from tinwright.knowledge.linking import INLINE
from tinwright.knowledge.photographs import photo_path, resized
from tinwright.measures import MM_PER_INCH, mixed_number
from tinwright.paper.fitting import fitted
from tinwright.printing import inked, lay_out, qr_svg, to_pdf
from tinwright.templates import asset_of, templates_of

if TYPE_CHECKING:
    import datetime as dt
    import re
    from collections.abc import Callable, Iterable, Sequence

    from jinja2 import Environment

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models.base import Evidence, Photo, Record

__all__ = ["Press", "Printed", "anchor", "day_in_words", "in_order"]

R = TypeVar("R", bound="Record")

_PAGED = frozenset({"caution", "sealer", "part", "procedure", "defect", "cause", "seam-specification"})
"""Kinds whose mention is followed by its page; the others stand in the order of the alphabet, or in a table."""


@dataclass(frozen=True)
class Printed:
    """A printed document."""

    name: str
    """Name of its file, such as `handbook.pdf`."""
    title: str
    """Its title."""
    content: bytes
    """The PDF file."""
    pages: int
    """How many pages it has."""
    cards: tuple[tuple[str, ...], ...] = ()
    """For each page that is a card, the pages of the site that it goes with, such as `defects/droop.md`."""


def day_in_words(day: dt.date) -> str:
    """Write a day as people do.

    >>> import datetime
    >>> day_in_words(datetime.date(2026, 11, 2))
    'November 2, 2026'
    """
    return f"{day.strftime('%B')} {day.day}, {day.year}"


class Press:
    """Turns records into printed documents.

    Args:
        kb: the knowledge base.
        address: gives the web address of a page of the site from its uri, such as `defects/droop.md`; None when
            there is no site to lead to.
    """

    def __init__(self, kb: KnowledgeBase, *, address: Callable[[str], str] | None = None) -> None:
        self.kb = kb
        self._address = address
        self._drawn = 0
        self._linked = False

    @cached_property
    def edition(self) -> dt.date:
        """The day of the newest review: the day of everything printed from these records."""
        return max(record.reviewed for record in self.kb.records.values())

    def print(
        self,
        name: str,
        template: str,
        *,
        title: str,
        cards: Sequence[str] = (),
        of: Sequence[tuple[str, ...]] = (),
        linked: bool = False,
        **values: Any,
    ) -> Printed:
        """Print a template.

        Args:
            name: name of the file.
            template: name of the template.
            title: title of the document.
            cards: ids of the elements that must each fit one page; the template is given `only`, those to print now,
                and `size`, how large.
            of: for each card, the pages of the site that it goes with.
            linked: True when every record has a place in the document that its mentions can point to.
            **values: what the template needs.
        """

        def html_at(only: Sequence[str], size: float) -> str:
            return self.html(template, title=title, linked=linked, only=only, size=size, **values)

        document = fitted(cards, html_at) if cards else lay_out(html_at((), 1))
        content = to_pdf(document, dated=self.edition)
        return Printed(name, title, content, len(document.pages), tuple(of))

    def html(self, template: str, *, title: str, linked: bool = False, **values: Any) -> str:
        """Return the HTML that a template is printed from."""
        self._drawn, self._linked = 0, linked
        return self._templates.get_template(template).render(title=title, **values)

    @cached_property
    def _templates(self) -> Environment:
        env = templates_of("paper")
        env.filters.update(
            rich=self.rich,
            evidence=self.evidence,
            ref=self.ref,
            plain=self.plain,
            anchor=anchor,
            say=words.say,
            day=day_in_words,
            mixed=mixed_number,
            mm=lambda inches: f"{float(inches * MM_PER_INCH):.1f}",
            upper_first=lambda text: text[:1].upper() + text[1:],
            lower_first=lambda text: text[:1].lower() + text[1:],
            ink=self.ink,
            photo=self.photo,
            known_by=self.known_by,
        )
        env.globals.update(
            kb=self.kb,
            programme=self.kb.programme,
            edition=self.edition,
            say=words.say,
            say_changes=words.say_changes,
            say_direction=words.say_direction,
            style=asset_of("paper", "paper.css"),
            web=self.web,
            qr=lambda uri: qr_svg(self.web(uri)),
        )
        return env

    def web(self, uri: str) -> str:
        """Return the web address of a page of the site, or nothing when there is no site to lead to."""
        return self._address(uri) if self._address is not None else ""

    def ink(self, svg: str) -> Markup:
        """Return a drawing in grays, its ids its own."""
        self._drawn += 1
        return inked(str(svg), f"d{self._drawn}")

    def photo(self, photo: Photo) -> str:
        """Return a photograph as an address that holds it."""
        content = base64.b64encode(resized(photo_path(self.kb.folders, photo.file))).decode()
        return f"data:image/jpeg;base64,{content}"

    def plain(self, text: str) -> str:
        """Return a text with the name of the record in place of each link."""
        return INLINE.sub(lambda match: _label_of(match, self.kb), text)

    def rich(self, text: str, *, cite: bool = True) -> Markup:
        """Escape a text, and make each `[[kind/id]]` in it a pointer to the page it is on.

        Args:
            text: as the educator wrote it.
            cite: True to set a source named in it as evidence is set, in small type and brackets.
        """
        parts: list[Markup] = []
        end = 0
        for match in INLINE.finditer(text):
            parts += [escape(text[end : match.start()]), self.pointer(match, cite=cite)]
            end = match.end()
        return Markup("").join([*parts, escape(text[end:])])

    def pointer(self, match: re.Match[str], *, cite: bool = True) -> Markup:
        """Return what stands in place of a link in a text."""
        record = self.kb.records[match["kind"], match["id"]]
        name = self.ref(record, _label_of(match, self.kb))
        return Markup('<span class="known">[{}]</span>').format(name) if cite and record.kind == "source" else name

    def ref(self, record: Record, text: str | None = None) -> Markup:
        """Name a record; in a linked document with the page it is on."""
        name = text or record.name
        if not self._linked or record.kind == "programme":
            return escape(name)
        kind = "ref ref--paged" if record.kind in _PAGED else "ref"
        return Markup('<a class="{}" href="#{}">{}</a>').format(kind, anchor(record), name)

    def evidence(self, evidence: Evidence) -> Markup:
        """Say in words how a statement is known."""
        where = Markup()
        if evidence.source is not None:
            where = self._cited(evidence.source, evidence.where)
        for other in evidence.also:
            where += "; also " + self._cited(other.source, other.where)
            where += self.rich(f" ({other.note})", cite=False) if other.note else ""
        return Markup('<span class="known">[{}{}{}]</span>').format(
            evidence_lead(evidence), where, self.rich(evidence_notes(evidence), cite=False)
        )

    def _cited(self, id_: str, where: str | None) -> Markup:
        """Name a source, and where in it."""
        source = self.kb.sources[id_]
        return self.ref(source, source.short) + (f", {where}" if where else "")

    def known_by(self, record: Record, by: str) -> tuple[Record, ...]:
        """Return the records of one kind that name a record."""
        return self.kb.named_by(record.kind, record.id, by=by)


def anchor(record: Record) -> str:
    """Return the id of a record's place in a document."""
    return f"{record.kind}-{record.id}"


def _label_of(match: re.Match[str], kb: KnowledgeBase) -> str:
    """Return what a link is called: as written, else the record's name, small where it is a word of the sentence."""
    if match["text"]:
        return match["text"]
    record = kb.records[match["kind"], match["id"]]
    label = str(getattr(record, "short", None) or record.name)
    before = match.string[: match.start()].rstrip(" (")[-1:]
    inside = before not in {"", ".", ":", "?", "!", "\n", "-"}
    common = inside and record.kind in {"term", "part"} and label[1:2].islower()
    return label[:1].lower() + label[1:] if common else label


def in_order(records: Iterable[R]) -> list[R]:
    """Sort records as an index does: by name, capitals and lower case alike."""
    return sorted(records, key=lambda record: (record.name.casefold(), record.id))
