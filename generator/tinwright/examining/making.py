"""Forms of an examination from a bank, a blueprint and the judges' ratings."""

from __future__ import annotations

import random
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tinwright.advice.item_fits import fits, sealers_of_programme
from tinwright.advice.item_questions import question_of
from tinwright.errors import QuizError
from tinwright.examining.arranging import arranged
from tinwright.examining.form import LARGEST_SEED, ExamForm, ExamKey, FormItem, KeyItem
from tinwright.examining.ratings import cut_of
from tinwright.knowledge.linking import plain_text
from tinwright.quizzes.form_blueprint import CandidateItem, FormBlueprint
from tinwright.quizzes.forms import assemble_forms
from tinwright.quizzes.questions import Choice, letter_of
from tinwright.quizzes.twins import kept_apart

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Collection, Mapping

    from tinwright.knowledge.bank import Bank
    from tinwright.knowledge.base import KnowledgeBase
    from tinwright.knowledge.models import Sealer
    from tinwright.knowledge.models.examination import Blueprint
    from tinwright.knowledge.models.item import Item
    from tinwright.quizzes.questions import Question

__all__ = ["MOST_FORMS", "MadeForm", "make_forms"]

MOST_FORMS = 10
"""The most forms that are made at once."""


@dataclass(frozen=True)
class MadeForm:
    """A form, its key, and its questions with all their reasons, as they are printed for the educator."""

    form: ExamForm
    """What is handed out."""
    key: ExamKey
    """What is kept back."""
    questions: tuple[Question, ...]
    """The questions with answers and reasons, in the order of the form, choices in the order shown."""


def make_forms(
    kb: KnowledgeBase,
    bank: Bank,
    blueprint: Blueprint,
    ratings: Mapping[str, Mapping[str, float]],
    *,
    forms: int,
    seed: int,
    salt: str,
    made_on: dt.date,
    used: Collection[str] = (),
    sealers: Collection[Sealer] = (),
) -> tuple[MadeForm, ...]:
    """Make parallel forms; the same bank, blueprint, ratings, seed, salt and day give the same forms.

    Args:
        kb: the knowledge base the items teach.
        bank: the bank, its examination items read.
        blueprint: what a form is made of.
        ratings: what each judge rated each item.
        forms: how many, 1 to `MOST_FORMS`.
        seed: zero or more; another one makes other forms.
        salt: drawn by lot; another one gives the same questions another digest, and so another code.
        made_on: the day they are made.
        used: items of earlier forms; they do not come again, unless they are anchors.
        sealers: those that the form is for; it asks nothing of other drives and parts. Those of the program when empty.

    Raises:
        QuizError: when there are no such forms, naming the cell of the blueprint that is short, or a rating is missing.
    """
    if not 1 <= forms <= MOST_FORMS:
        raise QuizError(f"expected 1 to {MOST_FORMS} forms, got {forms}")
    if not 0 <= seed <= LARGEST_SEED:
        raise QuizError(f"expected a seed from 0 to {LARGEST_SEED}, got {seed}")
    asked_of = sealers or sealers_of_programme(kb)
    fitting = [item for item in bank.examination.values() if fits(item, asked_of)]
    apart = kept_apart([question_of(item) for item in fitting])
    nobody: frozenset[str] = frozenset()
    chosen = assemble_forms(
        (
            CandidateItem(
                item.id,
                item.topic,
                item.difficulty,
                item.critical,
                frozenset(item.enemies) | apart.get(item.id, nobody),
                item.anchor,
            )
            for item in fitting
        ),
        FormBlueprint(
            {row.topic: row.items for row in blueprint.topics},
            forms=forms,
            critical=blueprint.critical,
            tolerance=blueprint.difficulty_tolerance,
            anchors=True,
            even_critical=blueprint.critical_must_be_right,
        ),
        seed=seed,
        used=used,
    )
    made = []
    for one in chosen:
        letter = letter_of(one.number - 1)
        items = [bank.examination[id_] for id_ in one.ids]
        # Seeded by a text, so that each form has a chance of its own and the same one on every computer.
        rng = random.Random(f"{blueprint.id} {seed} {letter}")  # noqa: S311 - must be repeatable, guards nothing
        questions = arranged([_plain(question_of(item), kb) for item in items], rng)
        form = ExamForm(
            exam=blueprint.id,
            title=blueprint.title,
            form=letter,
            seed=seed,
            salt=salt,
            made_on=made_on,
            demonstration=blueprint.demonstration,
            minutes=blueprint.minutes,
            items=tuple(_shown(question, item) for question, item in zip(questions, items, strict=True)),
        )
        cut = cut_of(ratings, one.ids, name=blueprint.standard_setting.ratings)
        key = ExamKey(
            exam=blueprint.id,
            form=letter,
            form_digest=form.digest,
            cut=cut.pass_score,
            cut_raw=f"{cut.cut:.6f}".rstrip("0").rstrip("."),
            critical_must_be_right=blueprint.critical_must_be_right,
            items=tuple(_right(question) for question in questions),
        )
        made.append(MadeForm(form, key, questions))
    return tuple(made)


def _plain(question: Question, kb: KnowledgeBase) -> Question:
    """Return the question with names in place of links: a form leads nowhere."""
    return replace(
        question,
        text=plain_text(kb, question.text),
        choices=tuple(Choice(plain_text(kb, one.text), plain_text(kb, one.why)) for one in question.choices),
        lefts=tuple(plain_text(kb, left) for left in question.lefts),
        wrong_numbers=tuple((number, plain_text(kb, why)) for number, why in question.wrong_numbers),
        why=plain_text(kb, question.why),
    )


def _shown(question: Question, item: Item) -> FormItem:
    return FormItem(
        id=question.id,
        asks=question.asks,
        text=question.text,
        choices=tuple(choice.text for choice in question.choices),
        lefts=question.lefts,
        unit=None if question.unit is None else str(question.unit),
        figure=question.figure,
        drawing=item.drawing,
        table=question.table,
    )


def _right(question: Question) -> KeyItem:
    return KeyItem(
        id=question.id,
        topic=question.topic,
        asks=question.asks,
        key=question.key,
        low=question.low,
        high=question.high,
        answer=question.answer,
        critical=question.critical,
        difficulty=question.difficulty,
        teaches=tuple(question.teaches),
    )
