"""The sheets of a form: the questions, the sheet for the answers, and the key with its reasons."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.examining.instructions import HOW_TO, unit_words
from tinwright.examining.pictures import picture_of
from tinwright.examining.print import sheet_pdf
from tinwright.knowledge.linking import plain_text
from tinwright.knowledge.plain_words import KIND_TITLES
from tinwright.quizzes.questions import letter_of
from tinwright.quizzes.scoring import RULES

if TYPE_CHECKING:
    from tinwright.examining.form import ExamForm, FormItem
    from tinwright.examining.making import MadeForm
    from tinwright.knowledge import KnowledgeBase
    from tinwright.quizzes.questions import Question

__all__ = ["answer_sheet", "key_sheet", "question_sheet"]


def question_sheet(form: ExamForm, kb: KnowledgeBase) -> bytes:
    """Return the questions of a form as PDF, without any answer."""
    title = f"{form.title}: questions, form {form.code}"
    asked = [(number, item, picture_of(item, number, kb)) for number, item in enumerate(form.items, 1)]
    kinds = dict.fromkeys(item.asks for item in form.items)
    return sheet_pdf(
        "questions.html.j2",
        title=title,
        sheet="Questions",
        form=form,
        programme=kb.programme,
        asked=asked,
        how_to=HOW_TO,
        rules=[(HOW_TO[asks], RULES[asks]) for asks in HOW_TO if asks in kinds],
        unit_words=unit_words,
    )


def answer_sheet(form: ExamForm, kb: KnowledgeBase) -> bytes:
    """Return the sheet that answers are marked on with a pen, as PDF."""
    title = f"{form.title}: answers, form {form.code}"
    return sheet_pdf(
        "answers.html.j2", title=title, sheet="Answers", form=form, programme=kb.programme, unit_words=unit_words
    )


def key_sheet(made: MadeForm, kb: KnowledgeBase) -> bytes:
    """Return the key of a form as PDF: what is right and why, and where it is taught."""
    title = f"{made.form.title}: key, form {made.form.code}"
    return sheet_pdf(
        "key.html.j2",
        title=title,
        sheet="Key",
        form=made.form,
        key=made.key,
        programme=kb.programme,
        answers=[
            (number, question, right_lines(question), pages_that_teach(question, kb), _shown_by(item, kb))
            for number, (question, item) in enumerate(zip(made.questions, made.form.items, strict=True), 1)
        ],
    )


def right_lines(question: Question) -> list[str]:
    """Say the right answer, a line for each part of it.

    >>> from tinwright.quizzes.questions import Choice, Question
    >>> right_lines(Question("q", "t", "one-answer", "Which?", (Choice("This"), Choice("That")), (1,)))
    ['B: That']
    """
    if question.asks == "number":
        unit = unit_words(question.unit or "")
        return [f"{question.answer:f} {unit} (from {question.low:f} to {question.high:f} counts)"]
    named = [f"{letter_of(place)}: {question.choices[place].text}" for place in question.key]
    if question.asks == "match":
        return [f"{number}. {left} \N{RIGHTWARDS ARROW} {right}" for number, (left, right) in
                enumerate(zip(question.lefts, named, strict=True), 1)]  # fmt: skip
    return named


def _shown_by(item: FormItem, kb: KnowledgeBase) -> str:
    """Return what the drawing of a question shows, for the examiner alone; empty where none is of a defect."""
    return "" if item.drawing is None else plain_text(kb, kb.defects[item.drawing].figure.caption)


def pages_that_teach(question: Question, kb: KnowledgeBase) -> list[str]:
    """Name the pages that teach the answer, the one to read first."""
    found = []
    for name in question.teaches:
        kind, _, id_ = name.partition("/")
        record = kb.records[kind, id_]
        shown = KIND_TITLES[kind][0].lower() if kind in KIND_TITLES else kind
        found.append(f"{plain_text(kb, record.name)} ({shown})")
    return found
