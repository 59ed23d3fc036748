"""The sheets of a form: the questions, the sheet for the answers, and the key with its reasons."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.examining.claims import claims_lines, claims_of_key
from tinwright.examining.instructions import HOW_TO, unit_words
from tinwright.examining.pass_curve import printed_curve
from tinwright.examining.pictures import picture_of
from tinwright.examining.print import sheet_pdf
from tinwright.knowledge.linking import plain_text
from tinwright.knowledge.plain_words import KIND_TITLES
from tinwright.quizzes.questions import letter_of
from tinwright.quizzes.scoring import RULES

if TYPE_CHECKING:
    from tinwright.examining.form import ExamForm, ExamKey, FormItem
    from tinwright.examining.making import MadeForm
    from tinwright.knowledge import KnowledgeBase
    from tinwright.quizzes.questions import Question

__all__ = ["answer_sheet", "key_sheet", "question_sheet", "reader_script"]


def question_sheet(form: ExamForm, kb: KnowledgeBase, key: ExamKey | None = None, *, large: bool = False) -> bytes:
    """Return the questions of a form as PDF, without any answer.

    Args:
        form: the form, or a second try.
        kb: the knowledge base.
        key: its key, for the rule that passes it, and for the areas of a second try; it says no answer.
        large: whether to print it in 18 points.
    """
    title = f"{form.title}: questions, form {form.code}"
    asked = [(number, item, picture_of(item, number, kb)) for number, item in enumerate(form.items, 1)]
    kinds = dict.fromkeys(item.asks for item in form.items)
    return sheet_pdf(
        "questions.html.j2",
        title=title,
        large=large,
        sheet="Questions",
        form=form,
        programme=kb.programme,
        asked=asked,
        how_to=HOW_TO,
        rules=[(HOW_TO[asks], RULES[asks]) for asks in HOW_TO if asks in kinds],
        unit_words=unit_words,
        key=key,
        claims=claims_lines(claims_of_key(key)) if key and not key.second_try_of else (),
        starts=_starts(key),
        policy=kb.programme.policy,
    )


def answer_sheet(form: ExamForm, kb: KnowledgeBase, key: ExamKey | None = None, *, large: bool = False) -> bytes:
    """Return the sheet that answers are marked on with a pen, as PDF; arguments as for `question_sheet`."""
    title = f"{form.title}: answers, form {form.code}"
    return sheet_pdf(
        "answers.html.j2",
        title=title,
        large=large,
        sheet="Answers",
        form=form,
        programme=kb.programme,
        unit_words=unit_words,
        starts=_starts(key),
    )


def reader_script(form: ExamForm, kb: KnowledgeBase) -> bytes:
    """Return what somebody reads aloud to a person who cannot read the form, as PDF; it holds no answer."""
    title = f"{form.title}: to be read aloud, form {form.code}"
    return sheet_pdf(
        "reader.html.j2",
        title=title,
        large=False,
        sheet="To be read aloud",
        form=form,
        programme=kb.programme,
        asked=[(number, item, picture_of(item, number, kb)) for number, item in enumerate(form.items, 1)],
        how_to=HOW_TO,
        unit_words=unit_words,
    )


def _starts(key: ExamKey | None) -> dict[int, str]:
    """Return the number of the first question of each area of a second try, with the area's title."""
    if key is None or not key.second_try_of:
        return {}
    number = {item.id: place for place, item in enumerate(key.items, 1)}
    return {min(number[id_] for id_ in area.items): area.title for area in key.areas}


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
        policy=kb.programme.policy,
        claims=() if made.is_second_try else claims_lines(claims_of_key(made.key)),
        curve="" if made.is_second_try else printed_curve(made.key),
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
