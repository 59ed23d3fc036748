"""What forms are chosen from, and what each must hold: a blueprint and a bank, as the solver takes them."""

from __future__ import annotations

from dataclasses import replace
from math import ceil
from typing import TYPE_CHECKING

from tinwright.advice.item_fits import fits
from tinwright.advice.item_questions import question_of
from tinwright.examining.ratings import mean_rating
from tinwright.quizzes.form_blueprint import CandidateItem, CriticalCell, FormBlueprint
from tinwright.quizzes.twins import kept_apart

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping

    from tinwright.knowledge.bank import Bank
    from tinwright.knowledge.models import Sealer
    from tinwright.knowledge.models.examination import Blueprint

__all__ = ["candidates_of", "form_blueprint_of"]


def form_blueprint_of(
    blueprint: Blueprint, items: Iterable[CandidateItem], *, forms: int = 1, second_tries: int = 0
) -> FormBlueprint:
    """Return what every form of a blueprint must hold, whatever items are left of those it is made from.

    The ratings of a form aim midway between two whole numbers, so that a small tolerance gives all forms one cut.
    """
    plan = FormBlueprint(
        {row.topic: row.items for row in blueprint.topics},
        forms=forms,
        tolerance=blueprint.difficulty_tolerance,
        anchors=True,
        critical_cells=tuple(
            CriticalCell(area.title, frozenset(area.topics), area.items) for area in blueprint.critical_areas
        ),
        second_tries=second_tries,
    )
    return replace(plan, target=max(ceil(round(plan.aim(items) * plan.items, 9)) - 0.5, 0.0) / plan.items)


def candidates_of(
    bank: Bank,
    ratings: Mapping[str, Mapping[str, float]],
    *,
    sealers: Collection[Sealer] = (),
    twins_apart: bool = False,
) -> tuple[CandidateItem, ...]:
    """Return the items of a bank as a form may take them, as hard as the judges rate them.

    Args:
        bank: the bank, its examination items read.
        ratings: what each judge rated each item.
        sealers: those that the form is for: items that ask of other drives and parts are left out. None when empty.
        twins_apart: whether items that ask nearly the same are kept out of one form, beside those that say so.
    """
    fitting = [item for item in bank.examination.values() if fits(item, sealers)]
    apart = kept_apart([question_of(item) for item in fitting]) if twins_apart else {}
    nobody: frozenset[str] = frozenset()
    return tuple(
        CandidateItem(
            item.id,
            item.topic,
            mean_rating(ratings, item.id, otherwise=item.difficulty),
            item.critical,
            frozenset(item.enemies) | apart.get(item.id, nobody),
            item.anchor,
        )
        for item in fitting
    )
