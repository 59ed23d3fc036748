"""How a statement is known, in words; the grade is never raised on the way to a reader."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tinwright.knowledge.models.base import Evidence

__all__ = ["evidence_lead", "evidence_notes"]

_LEADS = {
    "source": "",
    "derived": "worked out here",
    "practice": "common practice, no source",
    "memory": "from trade memory, not checked in a published source",
    "invented": "invented as an example",
}
_LEADS_TO_A_SOURCE = {
    **_LEADS,
    "derived": "worked out here from ",
    "practice": "common practice, no source; compare ",
    "memory": "from memory, not checked: ",
}


def evidence_lead(evidence: Evidence) -> str:
    """Return the words that go before the source, or stand alone where none is named; empty for what was read there.

    >>> from tinwright.knowledge.models.base import Evidence
    >>> evidence_lead(Evidence(grade="practice"))
    'common practice, no source'
    """
    return (_LEADS if evidence.source is None else _LEADS_TO_A_SOURCE)[evidence.grade]


def evidence_notes(evidence: Evidence) -> str:
    """Return what goes after the source, such as that only one says so; empty when there is nothing to add."""
    notes = (["single source"] if evidence.single else []) + ([evidence.note] if evidence.note else [])
    return "; " + "; ".join(notes) if notes else ""
