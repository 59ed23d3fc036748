"""What a page is about, in the terms of schema.org, for catalogs and search engines."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tinwright.knowledge.linking import plain_text
from tinwright.knowledge.plain_words import KIND_TITLES

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Procedure, Term
    from tinwright.knowledge.models.base import Record
    from tinwright.quizzes.questions import Question

__all__ = ["quiz_data", "structured_data"]

_CONTEXT = "https://schema.org"
_ASKED_AS = {
    "one-answer": "Multiple choice",
    "several-answers": "Checkbox",
    "order": "Ordering",
    "match": "Matching",
    "number": "Numeric",
    "point": "Place in a drawing",
}
"""What schema.org's `eduQuestionType` says for each way of asking."""


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
        if record.kind == "defect":
            about["description"] = plain_text(kb, kb.defects[record.id].summary)
    common: dict[str, Any] = {"@context": _CONTEXT, "name": record.name}
    if address:
        common["url"] = address(record)
    if about["@type"] != "DefinedTerm":
        common |= _published(kb) | {"dateModified": record.reviewed.isoformat()}
        topics = _teaches(kb, record)
        if about["@type"] == "LearningResource" and topics:
            about["teaches"] = topics
    return common | about


def quiz_data(kb: KnowledgeBase, *, title: str, about: str, questions: Iterable[Question]) -> dict[str, Any]:
    """Describe a page of practice questions as `Quiz`: what is asked and in which way, never an answer or a choice.

    Args:
        kb: the knowledge base the questions are about.
        title: title of the quiz.
        about: what it is about, in a sentence.
        questions: its questions, in order.
    """
    return {
        "@context": _CONTEXT,
        "@type": "Quiz",
        "name": title,
        "description": plain_text(kb, about),
        "learningResourceType": "Practice quiz",
        **_published(kb),
        "hasPart": [
            {
                "@type": "Question",
                "name": plain_text(kb, question.text),
                "eduQuestionType": _ASKED_AS[question.asks],
                "learningResourceType": "Practice problem",
            }
            for question in questions
        ],
    }


def _published(kb: KnowledgeBase) -> dict[str, Any]:
    return {
        "inLanguage": "en-US",
        "isAccessibleForFree": True,
        "publisher": {"@type": "Organization", "name": kb.programme.office},
    }


def _how_to(kb: KnowledgeBase, procedure: Procedure) -> dict[str, Any]:
    return {
        "@type": "HowTo",
        "description": plain_text(kb, procedure.purpose.text),
        "totalTime": f"PT{procedure.minutes}M",
        "tool": [{"@type": "HowToTool", "name": plain_text(kb, tool)} for tool in procedure.tools],
        "step": [
            {"@type": "HowToStep", "position": number, "text": plain_text(kb, step.do)}
            for number, step in enumerate(procedure.steps, 1)
        ],
    }


def _defined_term(kb: KnowledgeBase, term: Term) -> dict[str, Any]:
    return {
        "@type": "DefinedTerm",
        "description": plain_text(kb, term.definition.text),
        "inDefinedTermSet": {"@type": "DefinedTermSet", "name": f"Terms of {kb.programme.title}"},
    }


def _teaches(kb: KnowledgeBase, record: Record) -> list[dict[str, Any]]:
    named = {name.id: name for name in kb.named_by(record.kind, record.id, by="term")}
    return [{"@type": "DefinedTerm", "name": term.name} for term in list(named.values())[:5]]
