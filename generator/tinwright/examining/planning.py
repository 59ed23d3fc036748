"""How long a bank lasts: how many forms that share no item it gives, how many a year takes, and what it is short of."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from tinwright.errors import QuizError
from tinwright.examining.candidates import candidates_of, form_blueprint_of
from tinwright.quizzes.forms import assemble_forms
from tinwright.quizzes.statistic import MIN_PEOPLE

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from tinwright.knowledge.bank import Bank
    from tinwright.knowledge.models.examination import Blueprint

__all__ = ["BankPlan", "plan_bank", "plan_lines"]

_MOST = 12
"""The most forms that are tried."""


@dataclass(frozen=True)
class BankPlan:
    """What a bank is good for."""

    forms: int
    """Forms it gives that share no item, each with a second try of its own."""
    short: str
    """What it lacks for one form more."""
    classes: int
    """Classes in a year."""
    people: int
    """People in a class."""
    a_year: int
    """Forms that a year takes: one for each class, and one kept for those of all classes who sit again."""

    @property
    def years(self) -> float:
        """For how many years the forms last before a question comes again."""
        return self.forms / self.a_year

    @property
    def people_an_item(self) -> float:
        """How many people see an item in a year, on average over the forms of the bank."""
        return self.classes * self.people / max(self.forms, self.a_year)

    @property
    def years_to_statistics(self) -> int:
        """Years until an item was seen by as many people as its statistics need."""
        return ceil(MIN_PEOPLE / self.people_an_item)


def plan_bank(
    bank: Bank,
    blueprint: Blueprint,
    ratings: Mapping[str, Mapping[str, float]],
    *,
    classes: int,
    people: int,
    used: Collection[str] = (),
) -> BankPlan:
    """Find how many forms a bank gives, and for how long they last.

    Args:
        bank: the bank, its examination items read.
        blueprint: what a form is made of.
        ratings: what each judge rated each item.
        classes: classes in a year.
        people: people in a class.
        used: items that are not to come again.
    """
    items = candidates_of(bank, ratings, twins_apart=True)
    forms, short = 0, ""
    while forms < _MOST and not short:
        tried = forms + 1
        seconds = tried if blueprint.critical_areas else 0
        try:
            plan = form_blueprint_of(blueprint, items, forms=tried, second_tries=seconds)
            assemble_forms(items, plan, seed=1, used=used, seconds=20.0)
        except QuizError as error:
            short = str(error)
        else:
            forms = tried
    return BankPlan(forms, short, classes, people, classes + 1)


def plan_lines(found: BankPlan, *, items: int) -> list[str]:
    """Tell a plan in words.

    Args:
        found: the plan.
        items: examination items in the bank.
    """
    lasts = (
        f"A year of {found.classes} class(es) takes {found.a_year}: one a class, and one for those who sit again. "
        f"The bank lasts {found.years:.1f} year(s) before a question comes again."
    )
    pooled = (
        f"With {found.people} people a class an item is seen by about {found.people_an_item:.0f} people a year, pooled "
        f"over all forms: after {found.years_to_statistics} year(s) by the {MIN_PEOPLE} that full statistics need. "
        "Until then `exam analyze` draws the shares toward the judges' ratings and says so."
    )
    own = f"The bank of {items} items gives {found.forms} form(s) that share no item, each with its own second try."
    lines = [own, lasts, pooled]
    if found.short:
        lines.append(f"For one form more: {found.short}.")
    return lines
