"""How a statement is known, in words; the grade is never raised on the way to a reader."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tinwright.knowledge.models.base import Evidence

__all__ = ["evidence_lead", "evidence_notes"]


def evidence_lead(evidence: Evidence) -> str:
    """Return the words that go before the source, or stand alone where none is named; empty for what was read there.

    >>> from tinwright.knowledge.models.base import Evidence
    >>> evidence_lead(Evidence(grade="practice"))
    'common practice, no source'
    """
    named = evidence.source is not None
    return {
        "source": "",
        "derived": "worked out here" + (" from " if named else ""),
        "practice": "common practice, no source" + ("; compare " if named else ""),
        "memory": "from memory, not checked: " if named else "from trade memory, not checked in a published source",
        "invented": "invented as an example",
    }[evidence.grade]


def evidence_notes(evidence: Evidence) -> str:
    """Return what goes after the source, such as that only one says so; empty when there is nothing to add."""
    notes = (["single source"] if evidence.single else []) + ([evidence.note] if evidence.note else [])
    return "; " + "; ".join(notes) if notes else ""
