"""Cohorts of people whose ability is known, to see how often an examination decides wrongly.

A simulation is not the truth about volunteers: it shows what a length, a cut and its critical items do when the model
holds. The table of `guessing` must come out of it again, within the error of the simulation.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy.special import expit

from tinwright.errors import QuizError
from tinwright.quizzes.statistic import Statistic

if TYPE_CHECKING:
    from collections.abc import Collection

    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]

__all__ = ["SimulatedRates", "decide_all", "rasch_chances", "simulate_answers", "simulate_rates"]


@dataclass(frozen=True)
class SimulatedRates:
    """How often a simulated cohort was decided wrongly."""

    masters: int
    """How many should pass."""
    non_masters: int
    """How many must not."""
    false_pass: Statistic
    """Share of the non-masters who passed."""
    false_fail: Statistic
    """Share of the masters who failed."""
    false_pass_error: Statistic
    """Standard error of the first share, from the size of the cohort."""
    false_fail_error: Statistic
    """Standard error of the second."""


def rasch_chances(abilities: npt.ArrayLike, difficulties: npt.ArrayLike) -> Floats:
    """Compute the chance of a right answer of each person to each item under the Rasch model.

    Args:
        abilities: one for each person, in logits.
        difficulties: one for each item, in logits.

    Returns:
        People by items.

    >>> rasch_chances([0.0], [0.0, 0.0]).tolist()
    [[0.5, 0.5]]
    """
    gaps = np.asarray(abilities, dtype=np.float64)[:, None] - np.asarray(difficulties, dtype=np.float64)
    chances: Floats = expit(gaps)
    return chances


def simulate_answers(chances: npt.ArrayLike, seed: int) -> npt.NDArray[np.bool_]:
    """Draw right and wrong answers.

    Args:
        chances: people by items, each from 0 to 1.
        seed: the same seed draws the same answers.

    Raises:
        QuizError: when a chance is outside 0 to 1.

    >>> simulate_answers([[0.0, 1.0]], 1).tolist()
    [[False, True]]
    """
    table = np.asarray(chances, dtype=np.float64)
    if not ((table >= 0) & (table <= 1)).all():
        raise QuizError("expected chances from 0 to 1")
    answers: npt.NDArray[np.bool_] = np.random.default_rng(seed).random(table.shape) < table
    return answers


def decide_all(answers: npt.ArrayLike, cut: int, critical: Collection[int] = ()) -> npt.NDArray[np.bool_]:
    """Decide who passes: enough items right, and every critical one.

    Args:
        answers: people by items, true where right.
        cut: fewest right answers that pass.
        critical: which items, counted from 0, must be right.

    >>> decide_all([[1, 0, 1], [0, 1, 1]], 2, critical={0}).tolist()
    [True, False]
    """
    table = np.asarray(answers, dtype=np.bool_)
    passed: npt.NDArray[np.bool_] = np.count_nonzero(table, axis=1) >= cut
    return passed & table[:, sorted(critical)].all(axis=1)


def simulate_rates(
    chances: npt.ArrayLike, masters: npt.ArrayLike, *, cut: int, seed: int, critical: Collection[int] = ()
) -> SimulatedRates:
    """Let a cohort sit the examination once, and count who was decided wrongly.

    Args:
        chances: people by items, the chance of a right answer.
        masters: for each person, whether they should pass.
        cut: fewest right answers that pass.
        seed: the same seed gives the same cohort.
        critical: which items, counted from 0, must be right.

    Raises:
        QuizError: when the numbers do not fit.

    >>> chances = [[0.60] * 30] * 1000 + [[0.85] * 30] * 1000
    >>> rates = simulate_rates(chances, [False] * 1000 + [True] * 1000, cut=23, seed=7)
    >>> abs(rates.false_pass.value - 0.0435) < 4 * rates.false_pass_error.value
    True
    """
    answers, able = simulate_answers(chances, seed), np.asarray(masters, dtype=np.bool_)
    if able.shape != answers.shape[:1]:
        raise QuizError(f"expected a master or not for each of {len(answers)} people, got {len(able)}")
    passed = decide_all(answers, cut, critical)
    false_pass, false_pass_error = _rate(passed[~able], "nobody in the cohort is a non-master")
    false_fail, false_fail_error = _rate(~passed[able], "nobody in the cohort is a master")
    count = int(np.count_nonzero(able))
    return SimulatedRates(count, len(able) - count, false_pass, false_fail, false_pass_error, false_fail_error)


def _rate(wrong: npt.NDArray[np.bool_], nobody: str) -> tuple[Statistic, Statistic]:
    if len(wrong) == 0:
        return Statistic(None, nobody), Statistic(None, nobody)
    share = float(wrong.mean())
    return Statistic(share), Statistic((share * (1 - share) / len(wrong)) ** 0.5)
