"""Procedures and what-to-do-with-the-can text read at US grade 8 or below (Flesch-Kincaid, by the textstat library)."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import textstat

from tinwright.advice.item_questions import question_of
from tinwright.knowledge.bank import load_bank

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase

ROOT = Path(__file__).parents[2]
_LINK = re.compile(r"\[\[[a-z-]+/([a-z0-9.-]+)(?:\|([^\]]+))?\]\]")


def plain(text: str) -> str:
    return _LINK.sub(lambda match: match[2] or match[1].replace("-", " "), text)


def grade(texts: list[str]) -> float:
    return float(textstat.flesch_kincaid_grade(" ".join(plain(text) for text in texts)))


def test_every_procedure_reads_at_grade_8_or_below(kb: KnowledgeBase) -> None:
    grades = {
        procedure.id: grade(
            [text for step in procedure.steps for text in (step.do, step.see, step.why) if text]
            + [procedure.done_when, procedure.when]
        )
        for procedure in kb.procedures.values()
    }
    assert {id_: value for id_, value in grades.items() if value > 8} == {}


def test_what_to_do_with_the_can_reads_at_grade_8_or_below(kb: KnowledgeBase) -> None:
    grades = {d.id: grade([step.text for step in d.can_action.steps]) for d in kb.defects.values()}
    assert {id_: value for id_, value in grades.items() if value > 8} == {}


def test_items_ask_in_words_of_grade_8_or_below(kb: KnowledgeBase) -> None:
    bank = load_bank(ROOT / "quizzes", kb, examination=ROOT / "quizzes" / "examination")
    grades: dict[str, list[str]] = {}
    for item in [*bank.practice.values(), *bank.examination.values()]:
        question = question_of(item)
        sentences = [
            question.text,
            *(f"{choice.text.rstrip('.')}." for choice in question.choices if question.asks != "point"),
        ]
        grades.setdefault(f"{item.use} {item.topic}", []).extend(sentences)
    hard = {name: round(grade(sentences), 1) for name, sentences in grades.items() if grade(sentences) > 8}
    assert hard == {}
