"""How the statements of a knowledge base are known, counted by grade."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any, get_args

from pydantic import BaseModel

from tinwright.knowledge.models.base import Evidence, Grade
from tinwright.knowledge.models.source import Reading

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from tinwright.knowledge.base import KnowledgeBase

__all__ = ["EvidenceRow", "EvidenceTable", "evidence_table", "independent_sources", "with_evidence_table"]

_PLACE = re.compile(r"\{\{\s*table:evidence\s*\}\}")

_READ = frozenset({Grade.SOURCE, Grade.DERIVED})
"""Grades that rest on sources; what a statement of another grade names beside it does not carry it."""
_LABELS = {
    Grade.SOURCE: "Source",
    Grade.DERIVED: "Worked out here",
    Grade.PRACTICE: "Common practice, no source",
    Grade.MEMORY: "From trade memory",
    Grade.INVENTED: "Invented",
}


@dataclass(frozen=True)
class EvidenceRow:
    """The statements of one grade."""

    grade: str
    """The grade, as it stands in the records."""
    label: str
    """The grade in the words of the pages."""
    statements: int
    """How many statements have it."""
    two_or_more: int
    """How many of them rest on two or more independent sources."""
    read_whole: int
    """How many of them rest on a source of which the section cited was read whole."""


@dataclass(frozen=True)
class EvidenceTable:
    """The rows of every grade, all statements together and the causes of defects apart."""

    statements: tuple[EvidenceRow, ...]
    """Every statement that can be checked."""
    causes_of_defects: tuple[EvidenceRow, ...]
    """Those that tie a defect to one of its causes."""


def evidence_table(kb: KnowledgeBase) -> EvidenceTable:
    """Count how the statements of a knowledge base are known."""
    every = [evidence for record in kb.records.values() for evidence in _evidence_in(record)]
    links = [link.evidence for defect in kb.defects.values() for link in defect.causes]
    return EvidenceTable(_rows(kb, every), _rows(kb, links))


def independent_sources(kb: KnowledgeBase, evidence: Evidence) -> frozenset[str]:
    """Return the sources that carry a statement by themselves, each by the id of the one it passes on.

    A translation, a re-post or a leaflet that passes on another's text is no second source. What was not read is none.
    """
    return frozenset(_first_of(kb, id_) for id_ in _read_for(kb, evidence))


def with_evidence_table(kb: KnowledgeBase, text: str) -> str:
    """Put the two tables in place of `{{ table:evidence }}` in the Markdown of a hand-written page."""
    if not _PLACE.search(text):
        return text
    table = evidence_table(kb)
    parts = (("Every statement that can be checked", table.statements), ("Causes of defects", table.causes_of_defects))
    both = "\n\n".join(f"**{title}**\n\n{_in_markdown(rows)}" for title, rows in parts)
    return _PLACE.sub(lambda _: both, text)


def _in_markdown(rows: Iterable[EvidenceRow]) -> str:
    lines = ["| How it is known | How many in all | Two or more sources | Section read whole |", "|---|---|---|---|"]
    lines += [f"| {row.label} | {row.statements} | {row.two_or_more} | {row.read_whole} |" for row in rows]
    return "\n".join(lines)


def _rows(kb: KnowledgeBase, statements: Iterable[Evidence]) -> tuple[EvidenceRow, ...]:
    total, several, whole = Counter[Grade](), Counter[Grade](), Counter[Grade]()
    for evidence in statements:
        total[evidence.grade] += 1
        several[evidence.grade] += len(independent_sources(kb, evidence)) > 1
        whole[evidence.grade] += any(kb.sources[id_].reading is Reading.WHOLE for id_ in _read_for(kb, evidence))
    return tuple(EvidenceRow(g.value, _LABELS[g], total[g], several[g], whole[g]) for g in Grade)


def _read_for(kb: KnowledgeBase, evidence: Evidence) -> list[str]:
    """Return the sources cited for a statement that somebody did read."""
    if evidence.grade not in _READ:
        return []
    cited = [evidence.source, *(other.source for other in evidence.also)]
    return [id_ for id_ in cited if id_ is not None and kb.sources[id_].reading is not Reading.MEMORY]


def _first_of(kb: KnowledgeBase, id_: str) -> str:
    """Return the source at the end of the line that this one passes on; the checker refuses a line that is a ring."""
    before = kb.sources[id_].same_as
    return id_ if before is None else _first_of(kb, before)


def _evidence_in(value: Any) -> Iterator[Evidence]:
    if isinstance(value, Evidence):
        yield value
    elif isinstance(value, BaseModel):
        for name in _fields_with_evidence(type(value)):
            yield from _evidence_in(getattr(value, name))
    elif isinstance(value, tuple):
        for item in value:
            yield from _evidence_in(item)


@cache
def _fields_with_evidence(model: type[BaseModel]) -> list[str]:
    return [name for name, info in model.model_fields.items() if _may_hold_evidence(info.annotation)]


def _may_hold_evidence(annotation: Any) -> bool:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation is Evidence or bool(_fields_with_evidence(annotation))
    return any(map(_may_hold_evidence, get_args(annotation)))
