"""Forms of an examination from a bank, a blueprint and the judges' ratings."""

from __future__ import annotations

import random
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tinwright.advice.item_fits import sealers_of_programme
from tinwright.advice.item_questions import question_of
from tinwright.errors import QuizError
from tinwright.examining.arranging import arranged
from tinwright.examining.candidates import candidates_of, form_blueprint_of
from tinwright.examining.form import LARGEST_SEED, ExamForm, ExamKey, FirstTry, FormItem, KeyArea, KeyItem
from tinwright.examining.ratings import cut_of, mean_rating
from tinwright.knowledge.linking import plain_text
from tinwright.quizzes.forms import assemble_forms
from tinwright.quizzes.questions import Choice, letter_of

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Collection, Mapping, Sequence

    from tinwright.knowledge.bank import Bank
    from tinwright.knowledge.base import KnowledgeBase
    from tinwright.knowledge.models import Sealer
    from tinwright.knowledge.models.examination import Blueprint
    from tinwright.knowledge.models.item import Item
    from tinwright.quizzes.form_blueprint import CandidateItem, Form
    from tinwright.quizzes.questions import Question

__all__ = ["MOST_FORMS", "SECOND", "MadeForm", "make_forms"]

MOST_FORMS = 10
"""The most forms that are made at once."""
SECOND = "2"
"""What the name of a second try ends with, after the letters of its forms."""


@dataclass(frozen=True)
class MadeForm:
    """A form, its key, and its questions with all their reasons, as they are printed for the educator."""

    form: ExamForm
    """What is handed out."""
    key: ExamKey
    """What is kept back."""
    questions: tuple[Question, ...]
    """The questions with answers and reasons, in the order of the form, choices in the order shown."""

    @property
    def is_second_try(self) -> bool:
        """Whether it is the sheet of a second try, and no form."""
        return bool(self.key.second_try_of)


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
    """Make parallel forms and their second tries; the same bank, blueprint, ratings, seed, salt and day give the same.

    Each form has a second try of its own where the bank has critical items enough; else forms share them.

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

    Returns:
        The forms, then the second tries.

    Raises:
        QuizError: when there are no such forms, naming the cell of the blueprint that is short, or a rating is missing.
    """
    if not 1 <= forms <= MOST_FORMS:
        raise QuizError(f"expected 1 to {MOST_FORMS} forms, got {forms}")
    if not 0 <= seed <= LARGEST_SEED:
        raise QuizError(f"expected a seed from 0 to {LARGEST_SEED}, got {seed}")
    items = candidates_of(bank, ratings, sealers=sealers or sealers_of_programme(kb), twins_apart=True)
    chosen = _chosen(items, blueprint, forms=forms, seed=seed, used=used)
    maker = _Maker(kb, bank, blueprint, ratings, seed, salt, made_on)
    made = [maker.form(one, letter_of(one.number - 1)) for one in chosen[:forms]]
    tries = len(chosen) - forms
    for number, one in enumerate(chosen[forms:]):
        made.append(maker.second_try(one, made[number:forms:tries]))
    return tuple(made)


def _chosen(
    items: Sequence[CandidateItem],
    blueprint: Blueprint,
    *,
    forms: int,
    seed: int,
    used: Collection[str],
) -> tuple[Form, ...]:
    """Choose the items of the forms with as many second tries as the bank has items for, one at least."""
    most = forms if blueprint.critical_areas else 0
    for second_tries in range(most, min(most, 1) - 1, -1):
        plan = form_blueprint_of(blueprint, items, forms=forms, second_tries=second_tries)
        try:
            return assemble_forms(items, plan, seed=seed, used=used)
        except QuizError:
            if second_tries <= 1:
                raise
    raise AssertionError


@dataclass(frozen=True)
class _Maker:
    """Writes forms and keys from the items that were chosen."""

    kb: KnowledgeBase
    bank: Bank
    blueprint: Blueprint
    ratings: Mapping[str, Mapping[str, float]]
    seed: int
    salt: str
    made_on: dt.date

    def form(self, one: Form, letter: str) -> MadeForm:
        cut = cut_of(self.ratings, one.ids, name=self.blueprint.standard_setting.ratings)
        return self._made(one, letter, cut=cut.pass_score, cut_raw=f"{cut.cut:.6f}".rstrip("0").rstrip("."))

    def second_try(self, one: Form, firsts: Sequence[MadeForm]) -> MadeForm:
        letters = "".join(first.form.form for first in firsts)
        tried = tuple(FirstTry(first.form.code, first.key.cut, first.key.areas) for first in firsts)
        # Asked area by area: somebody answers only those that were missed.
        ordered = [id_ for area in self._areas(one.ids) for id_ in area.items]
        return self._made(
            replace(one, ids=tuple(ordered)), f"{letters}{SECOND}", cut=0, cut_raw="0", second_try_of=tried
        )

    def _made(
        self, one: Form, name: str, *, cut: int, cut_raw: str, second_try_of: tuple[FirstTry, ...] = ()
    ) -> MadeForm:
        blueprint = self.blueprint
        items = [self.bank.examination[id_] for id_ in one.ids]
        # Seeded by a text, so that each form has a chance of its own and the same one on every computer.
        rng = random.Random(f"{blueprint.id} {self.seed} {name}")  # noqa: S311 - must be repeatable, guards nothing
        questions = arranged([_plain(question_of(item), self.kb) for item in items], rng)
        form = ExamForm(
            exam=blueprint.id,
            title=f"{blueprint.title}, second try" if second_try_of else blueprint.title,
            form=name,
            seed=self.seed,
            salt=self.salt,
            made_on=self.made_on,
            demonstration=blueprint.demonstration,
            minutes=max(5, round(blueprint.minutes * len(items) / sum(row.items for row in blueprint.topics))),
            items=tuple(_shown(question, item) for question, item in zip(questions, items, strict=True)),
        )
        key = ExamKey(
            exam=blueprint.id,
            form=name,
            form_digest=form.digest,
            cut=cut,
            cut_raw=cut_raw,
            areas=self._areas(one.ids),
            items=tuple(
                _right(question, mean_rating(self.ratings, question.id, otherwise=question.difficulty))
                for question in questions
            ),
            second_try_of=second_try_of,
            not_ready=blueprint.claims.not_ready,
            ready=blueprint.claims.ready,
            sittings=self.kb.programme.policy.exam_sittings,
        )
        return MadeForm(form, key, questions)

    def _areas(self, ids: Sequence[str]) -> tuple[KeyArea, ...]:
        items = [self.bank.examination[id_] for id_ in ids]
        return tuple(
            KeyArea(
                area.title, tuple(item.id for item in items if item.critical and item.topic in area.topics), area.right
            )
            for area in self.blueprint.critical_areas
        )


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


def _right(question: Question, rating: float) -> KeyItem:
    return KeyItem(
        id=question.id,
        topic=question.topic,
        asks=question.asks,
        key=question.key,
        low=question.low,
        high=question.high,
        answer=question.answer,
        critical=question.critical,
        difficulty=rating,
        teaches=tuple(question.teaches),
    )
