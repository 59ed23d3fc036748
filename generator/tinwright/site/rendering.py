"""Jinja templates that turn records into Markdown, with everything an educator wrote escaped."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass, field
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from jinja2 import pass_context
from markupsafe import Markup, escape

from tinwright.knowledge import plain_words as words
from tinwright.knowledge.evidence_words import evidence_lead, evidence_notes
from tinwright.knowledge.layers import where_from
from tinwright.knowledge.linking import INLINE, plain_text
from tinwright.knowledge.models import Defect, Source
from tinwright.knowledge.photographs import photo_name
from tinwright.knowledge.sheet_rules import unconfirmed_words
from tinwright.measures import MM_PER_INCH, mixed_number, nearest_awg, screw_travel_in
from tinwright.remembering import remembered
from tinwright.site.pages_and_assets import relative_address
from tinwright.templates import templates_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models.base import Evidence, Record, Statement

__all__ = [
    "Renderer",
    "markdown_text",
    "script_json",
    "search_words",
    "uri_of",
]

_BLANK_LINES = re.compile(r"\n\n\n+")
_MARKDOWN_SPECIAL = re.compile(r"[^\w .,;?/%°\u00a0-\uffff-]|_")


_WRITTEN_SMALL_WORDS = """
a about all an and are as at be been but by did do does for from get got has have here how i in into is
it it's its like looks my of on or out over so some than that the them then there there's these they
this to too up was what when where which while with you your
"""
_SMALL_WORDS = frozenset(_WRITTEN_SMALL_WORDS.split())
"""Words that are in every sentence; the search finds beginnings of words, so `the` would find `there's`."""

_ML_PER_OZ_WATER = 28.349523125 / 0.998207
"""Volume of one avoirdupois ounce of water at 68 °F (20 °C), 0.998207 g/mL."""

_ML_PER_US_FLUID_OUNCE = 29.5735295625


def uri_of(record: Record) -> str:
    """Return where a record's page lies.

    The set-up sheet, tree and other computed pages have addresses of their own, given by their builders.
    """
    return f"{record.folder}/{record.id}.md"


def markdown_text(text: object) -> Markup:
    """Escape a text for Markdown, and for HTML inside Markdown: each special character as its entity.

    >>> str(markdown_text("2 < 3 *x*"))
    '2 &#60; 3 &#42;x&#42;'
    """
    flat = " ".join(str(text).split())
    return Markup(_MARKDOWN_SPECIAL.sub(lambda match: f"&#{ord(match[0])};", flat))  # noqa: S704 just escaped


def search_words(texts: Iterable[str]) -> Markup:
    """Return the words of some texts that tell something, safe between double quotes in a page's front matter.

    >>> str(search_words(['Sharp "seam"', "there's a sharp edge in it"]))
    'sharp seam sharp edge'
    """
    words = re.sub(r"[^\w'-]+", " ", " ".join(texts)).lower().split()
    return Markup(" ".join(word for word in words if word not in _SMALL_WORDS))  # noqa: S704 letters, digits, ' and -


@dataclass
class _PageInHand:
    """What links and cautions depend on, of the page that is being rendered."""

    uri: str = ""
    told: set[str] = field(default_factory=set)


def _by_page(filter_: Callable[..., object]) -> Callable[..., object]:
    """Mark what depends on the page in hand: Jinja works out other filters of a constant once, when it compiles."""
    return pass_context(lambda _, *values: filter_(*values))


class Renderer:
    """Renders templates against one knowledge base, one page after the other.

    Within a template `page.uri` is where the page lies, `page.told` the ids of cautions that were told on it in full.

    Args:
        kb: the knowledge base.
        directory_urls: True when pages are published as folders.
        practice: for each record, as `kind/id`, that practice questions teach, how many there are and where to start.
        on_paper: for each page that has cards on paper, their titles and where they lie.
    """

    def __init__(
        self,
        kb: KnowledgeBase,
        *,
        directory_urls: bool,
        practice: Mapping[str, tuple[int, str]] = MappingProxyType({}),
        on_paper: Mapping[str, Sequence[tuple[str, str]]] = MappingProxyType({}),
    ) -> None:
        self._kb = kb
        self._directory_urls = directory_urls
        self._page = _PageInHand()
        self._env = templates_of("site")
        self._env.add_extension("jinja2.ext.do")
        self._template = cache(self._env.get_template)
        self._env.filters.update(
            md=markdown_text,
            rich=_by_page(self._rich),
            href=_by_page(self._href),
            link=_by_page(self._link),
            evidence=_by_page(self._evidence),
            statement=_by_page(self._statement),
            statements=_by_page(self._statements),
            said=_by_page(self._said),
            by_evidence=_by_page(self._by_evidence),
            plain=lambda text: plain_text(kb, text),
            listed=_by_page(self._listed),
            say=words.say,
            screw_travel=lambda thread: f"{float(screw_travel_in(thread)):.4f}",
            nearest_awg=nearest_awg,
            where_from=lambda record: where_from(kb.origins.get((record.kind, record.id), ()), kb.layers),
            slug_words=lambda ids: " ".join(str(id_) for id_ in ids),
            uri=uri_of,
            unconfirmed=unconfirmed_words,
            search_words=search_words,
            upper_first=lambda text: text[:1].upper() + text[1:],
            lower_first=lambda text: text[:1].lower() + text[1:],
            photo_name=photo_name,
            mixed=mixed_number,
            mm=lambda inches: f"{float(inches * MM_PER_INCH):.2f}",
            fluid_ounces=lambda oz: f"{float(oz) * _ML_PER_OZ_WATER / _ML_PER_US_FLUID_OUNCE:.2f}",
            milliliters=lambda oz: f"{float(oz) * _ML_PER_OZ_WATER:.0f}",
            no_2_cans=lambda oz: f"{float(oz) / 20.55:.3f}",
        )
        self._env.tests["safe_address"] = lambda address: re.match(r"https?://[^\s\"'<>]+$", address) is not None
        self._env.globals.update(
            kb=kb,
            page=self._page,
            practice=practice,
            on_paper=on_paper,
            programme=kb.programme,
            say_changes=words.say_changes,
            say_direction=words.say_direction,
            kind_titles=words.KIND_TITLES,
        )

    def render(self, template: str, here: str, **values: Any) -> str:
        """Render one template to the text of the page at `here`."""
        self._page.uri, self._page.told = here, set()
        text = self._template(template).render(**values)
        return _BLANK_LINES.sub("\n\n", text).strip() + "\n"

    def address(self, target: str, here: str) -> str:
        """Return the link from the page `here` to `target`."""
        return relative_address(target, here, directory_urls=self._directory_urls)

    def _href(self, target: str | Record) -> str:
        return self.address(target if isinstance(target, str) else uri_of(target), self._page.uri)

    def _link(self, record: Record, text: str | None = None) -> Markup:
        return _linked(self.address(uri_of(record), self._page.uri), text or record.name)

    def _listed(self, records: Iterable[Record]) -> Markup:
        """Make a line of a list of each record: a link, and what a defect is in short."""
        rows = [
            f"<li>{self._link(record)}{f': {self._rich(record.summary)}' if isinstance(record, Defect) else ''}</li>\n"
            for record in records
        ]
        return Markup("".join(rows))  # noqa: S704 each part escaped

    def _rich(self, text: str) -> Markup:
        return self.rich(text, self._page.uri)

    def _statement(self, statement: Statement) -> Markup:
        return Markup(f"{self._rich(statement.text)} {self._evidence(statement.evidence)}")  # noqa: S704 both escaped

    def _statements(self, statements: Iterable[Statement], tag: str = "ul") -> Markup:
        rows = "".join(f"<li>{self._statement(statement)}</li>\n" for statement in statements)
        return Markup(f'<{tag} class="tw-list">\n{rows}</{tag}>\n')  # noqa: S704 each part escaped

    def _said(self, statements: Iterable[Statement], tag: str = "ul") -> Markup:
        """Make a list of statements without how they are known, for a page that tells that in a fold."""
        rows = "".join(f"<li>{self._rich(statement.text)}</li>\n" for statement in statements)
        return Markup(f'<{tag} class="tw-list">\n{rows}</{tag}>\n')  # noqa: S704 each part escaped

    def _by_evidence(self, statements: Iterable[Statement]) -> list[tuple[str, Markup]]:
        """Return how some statements are known: their numbers from 1 on, those known alike together."""
        alike: dict[Markup, list[str]] = {}
        for number, statement in enumerate(statements, 1):
            alike.setdefault(self._evidence(statement.evidence), []).append(str(number))
        return [(", ".join(numbers), evidence) for evidence, numbers in alike.items()]

    def rich(self, text: str, here: str) -> Markup:
        """Escape a text, and turn each `[[kind/id]]` in it into a link."""
        if "[[" not in text:
            return escape(text)
        parts: list[Markup] = []
        end = 0
        for match in INLINE.finditer(text):
            record = self._kb.records[match["kind"], match["id"]]
            label = match["text"] or (record.short if isinstance(record, Source) else record.name)
            parts.append(escape(text[end : match.start()]))
            link = _linked(self.address(uri_of(record), here), label)
            parts.append(
                Markup('<span class="tw-evidence">{}</span>').format(link) if isinstance(record, Source) else link
            )
            end = match.end()
        parts.append(escape(text[end:]))
        return Markup("").join(parts)

    def link_in_markdown(self, text: str, here: str) -> Markup:
        """Turn one `[[kind/id]]` into a link that stands in Markdown: its words are escaped for that, too."""
        match = INLINE.fullmatch(text)
        if match is None:
            return markdown_text(text)
        record = self._kb.records[match["kind"], match["id"]]
        label = match["text"] or (record.short if isinstance(record, Source) else record.name)
        link = Markup('<a href="{}">{}</a>').format(self.address(uri_of(record), here), markdown_text(label))
        return Markup('<span class="tw-evidence">{}</span>').format(link) if isinstance(record, Source) else link

    def _evidence(self, evidence: Evidence) -> Markup:
        """Say in words how a statement is known, with a link to the source."""
        where = Markup("")
        if evidence.source is not None:
            where = self._cited(evidence.source, evidence.where)
        for other in evidence.also:
            where += "; also " + self._cited(other.source, other.where)
            where += self._rich(f" ({other.note})") if other.note else ""
        lead, note = escape(evidence_lead(evidence)), self._rich(evidence_notes(evidence))
        grade = escape(evidence.grade)
        return Markup(f'<span class="tw-evidence tw-evidence--{grade}">{lead}{where}{note}</span>')  # noqa: S704 each part escaped

    def _cited(self, id_: str, where: str | None) -> Markup:
        """Name a source with a link, and where in it."""
        source = self._kb.sources[id_]
        return self._link(source, source.short) + (f", {where}" if where else "")


@remembered
def _linked(address: str, label: str) -> Markup:
    return Markup(f'<a href="{escape(address)}">{escape(label)}</a>')  # noqa: S704 both escaped


def script_json(value: object) -> str:
    """JSON that may stand inside a script element or an attribute of double quotes."""
    text = json.dumps(value, ensure_ascii=True, sort_keys=True, separators=(",", ":"))
    return text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026")
