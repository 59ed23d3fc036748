"""What a page is about, in the terms of schema.org, for catalogs and search engines."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from tinwright.knowledge.linking import INLINE
from tinwright.knowledge.plain_words import KIND_TITLES

if TYPE_CHECKING:
    from collections.abc import Callable

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Procedure, Term
    from tinwright.knowledge.models.base import Record

__all__ = ["structured_data"]

_CONTEXT = "https://schema.org"
_SPACES = re.compile(r"\s+")


def structured_data(
    kb: KnowledgeBase, record: Record, *, address: Callable[[Record], str] | None = None
) -> dict[str, Any]:
    """Describe a record's page: `HowTo` for a procedure, `DefinedTerm` for a term, `LearningResource` for others.

    Args:
        kb: the knowledge base it belongs to.
        record: the record.
        address: gives the full address of a record's page; addresses are left out without it.
    """
    if record.kind == "procedure":
        about = _how_to(kb, kb.procedures[record.id])
    elif record.kind == "term":
        about = _defined_term(kb, kb.terms[record.id])
    else:
        about = {"@type": "LearningResource", "learningResourceType": KIND_TITLES[record.kind][0]}
        summary = getattr(record, "summary", None)
        if summary:
            about["description"] = _words(kb, summary)
    common: dict[str, Any] = {"@context": _CONTEXT, "name": record.name}
    if address:
        common["url"] = address(record)
    if about["@type"] != "DefinedTerm":
        common |= {
            "inLanguage": "en-US",
            "isAccessibleForFree": True,
            "dateModified": record.reviewed.isoformat(),
            "publisher": {"@type": "Organization", "name": kb.programme.office},
        }
        topics = _teaches(kb, record)
        if about["@type"] == "LearningResource" and topics:
            about["teaches"] = topics
    return common | about


def _how_to(kb: KnowledgeBase, procedure: Procedure) -> dict[str, Any]:
    return {
        "@type": "HowTo",
        "description": _words(kb, procedure.purpose.text),
        "totalTime": f"PT{procedure.minutes}M",
        "tool": [{"@type": "HowToTool", "name": _words(kb, tool)} for tool in procedure.tools],
        "step": [
            {"@type": "HowToStep", "position": number, "text": _words(kb, step.do)}
            for number, step in enumerate(procedure.steps, 1)
        ],
    }


def _defined_term(kb: KnowledgeBase, term: Term) -> dict[str, Any]:
    return {
        "@type": "DefinedTerm",
        "description": _words(kb, term.definition.text),
        "inDefinedTermSet": {"@type": "DefinedTermSet", "name": f"Terms of {kb.programme.title}"},
    }


def _teaches(kb: KnowledgeBase, record: Record) -> list[dict[str, Any]]:
    named = {name.id: name for name in kb.named_by(record.kind, record.id, by="term")}
    return [{"@type": "DefinedTerm", "name": term.name} for term in list(named.values())[:5]]


def _words(kb: KnowledgeBase, text: str) -> str:
    """Return a text with its links as plain words."""

    def name(match: re.Match[str]) -> str:
        record = kb.records.get((match["kind"], match["id"]))
        return match["text"] or (record.name.lower() if record else match["id"])

    return _SPACES.sub(" ", INLINE.sub(name, text)).strip()
