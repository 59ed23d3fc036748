"""Whether the blueprints of a bank keep what they claim, each problem with its place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.errors import ContentError, Problem, QuizError
from tinwright.examining.claims import claims_of_blueprint, unmet
from tinwright.examining.ratings import read_ratings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.knowledge.bank import Bank
    from tinwright.knowledge.models.examination import Blueprint

__all__ = ["claims_problems"]


def claims_problems(bank: Bank, *, sittings: int) -> tuple[Problem, ...]:
    """Compute the claims of every blueprint, and return those that are not met.

    Args:
        bank: the bank, its examination items read.
        sittings: how many sittings the programme allows.
    """
    return tuple(problem for blueprint in bank.blueprints.values() for problem in _of(blueprint, bank, sittings))


def _of(blueprint: Blueprint, bank: Bank, sittings: int) -> Iterator[Problem]:
    folder = bank.root / "blueprints"
    shown = f"{bank.root.name}/blueprints/{blueprint.id}.yml"
    try:
        ratings = read_ratings(folder / blueprint.standard_setting.ratings)
        found = claims_of_blueprint(blueprint, bank, ratings, sittings=sittings)
    except ContentError as error:
        yield from error.problems
    except QuizError:
        # That items are missing is told as a gap of the bank.
        return
    else:
        lines = (folder / f"{blueprint.id}.yml").read_text(encoding="utf-8").splitlines()
        line = next((number for number, text in enumerate(lines, 1) if text.startswith("claims:")), 1)
        for message in unmet(found, blueprint.claims):
            yield Problem(shown, line, 1, f"blueprint {blueprint.id}", message)
