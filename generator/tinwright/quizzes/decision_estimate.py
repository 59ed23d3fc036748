"""How far pass and fail can be trusted on one form, estimated from the scores of those who sat it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tinwright.errors import QuizError
from tinwright.quizzes.decisions import (
    Consistency,
    Decisions,
    decide,
    effective_length,
    fit_true_scores,
    livingston_k2,
    normal_consistency,
    phi_lambda,
)
from tinwright.quizzes.reliability import alpha, read_form
from tinwright.quizzes.statistic import MIN_PEOPLE, Statistic, attempt, too_few

if TYPE_CHECKING:
    import numpy.typing as npt

__all__ = ["DecisionEstimate", "estimate_decisions"]


@dataclass(frozen=True)
class DecisionEstimate:
    """What is known of the decisions on one form, or the reasons why not."""

    people: int
    """How many sat it."""
    people_needed: int
    """How many it takes."""
    reason: str
    """Why the parts below are missing, where they are; empty when none is."""
    passed: int
    """How many reached the cut."""
    normal: Consistency | None
    """Consistency, scores taken for normal."""
    beta_binomial: Decisions | None
    """Accuracy and consistency, true scores taken for beta-distributed."""
    livingston: Statistic
    """Livingston's index at the cut."""
    dependability: Statistic
    """Brennan and Kane's index at the cut; only for items that are right or wrong."""


def estimate_decisions(scores: npt.ArrayLike, cut: int, *, people_needed: int = MIN_PEOPLE) -> DecisionEstimate:
    """Estimate how far the decisions on one form can be trusted.

    Args:
        scores: people by items, 0 to 1, no cell missing.
        cut: fewest right answers that pass, 1 to the number of items.
        people_needed: fewest people who say anything about a form.

    Raises:
        QuizError: when the table cannot be read, a cell is missing, or the cut does not fit.

    >>> estimate_decisions([[1, 0], [1, 1]], 2).reason
    'needs 30 people, has 2'
    """
    table = read_form(scores)
    people, items = table.shape
    if not 1 <= cut <= items:
        raise QuizError(f"expected a cut from 1 to the number of items, got {cut} of {items}")
    totals = table.sum(axis=1)
    # Part credits that add up to the cut may fall short of it in the last digits.
    passed = int(np.count_nonzero(np.round(totals, 9) >= cut))
    reason = too_few(people, people_needed)
    reliability = Statistic(None, reason) if reason else attempt(alpha, table)
    if reliability.value is None:
        none = Statistic(None, reliability.reason)
        return DecisionEstimate(people, people_needed, reliability.reason, passed, None, None, none, none)
    mean, variance = float(totals.mean()), float(totals.var(ddof=1))
    reason, normal, beta_binomial = "", None, None
    try:
        normal = normal_consistency(mean, variance**0.5, reliability.value, cut)
        beta_binomial = decide(
            fit_true_scores(mean, variance, reliability.value, greatest=items),
            items=items,
            cut=cut,
            length=effective_length(mean, variance, reliability.value, greatest=items),
        )
    except QuizError as error:
        reason = str(error)
    if np.isin(table, (0.0, 1.0)).all():
        dependability = attempt(phi_lambda, items, mean / items, float((totals / items).var()), cut / items)
    else:
        dependability = Statistic(None, "needs items that are right or wrong, without part credit")
    return DecisionEstimate(
        people,
        people_needed,
        reason,
        passed,
        normal,
        beta_binomial,
        attempt(livingston_k2, mean, variance, reliability.value, cut),
        dependability,
    )
