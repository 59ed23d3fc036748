"""How far the scores of one form would come out alike if the examination were held again.

The divisor trap: KR-20 takes p(1 − p) for the variance of an item, which is the variance with divisor n. The variance
of the totals must have the same divisor. With n − 1 under the totals alone, the result is too high: 0.738 for 0.696 on
the ten-by-ten quiz. Here both have n; Cronbach's alpha, where the divisors cancel, is then the same number.

Formulas: Kuder & Richardson 1937, Cronbach 1951, Feldt 1965 (from memory, not looked up); values checked against a
published data set and pingouin.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING

import numpy as np
from scipy.special import fdtri

from tinwright.errors import QuizError
from tinwright.quizzes.intervals import Interval
from tinwright.quizzes.score_table import read_scores
from tinwright.quizzes.statistic import MIN_PEOPLE, Statistic, attempt, too_few

if TYPE_CHECKING:
    import numpy.typing as npt

__all__ = [
    "Reliability",
    "alpha",
    "alpha_interval",
    "estimate_reliability",
    "kr20",
    "kr21",
    "read_form",
    "standard_error",
]


@dataclass(frozen=True)
class Reliability:
    """The reliability of one form, or the reason why not."""

    people: int
    """How many sat it."""
    people_needed: int
    """How many it takes."""
    items: int
    """How many items it has."""
    mean: Statistic
    """Mean number right."""
    deviation: Statistic
    """Standard deviation of the number right, divisor n − 1."""
    kr20: Statistic
    """Kuder-Richardson 20; only for items that are right or wrong."""
    alpha: Statistic
    """Cronbach's alpha; also for part credit."""
    interval: Interval | None
    """95 % interval of alpha; None when there is no alpha."""
    kr21: Statistic
    """Kuder-Richardson 21, as if all items were equally hard; only for items that are right or wrong."""
    standard_error: Statistic
    """Standard error of measurement, in items, from alpha and the standard deviation."""


def estimate_reliability(scores: npt.ArrayLike, *, people_needed: int = MIN_PEOPLE) -> Reliability:
    """Estimate the reliability of one form that enough people sat.

    Args:
        scores: people by items, 0 to 1, no cell missing.
        people_needed: fewest people who say anything about a form.

    Raises:
        QuizError: when the table cannot be read or a cell is missing.

    >>> estimate_reliability([[1, 0], [0, 1]]).alpha
    Statistic(value=None, reason='needs 30 people, has 2')
    """
    table = read_form(scores)
    people, items = table.shape
    reason = too_few(people, people_needed)
    if reason:
        none = Statistic(None, reason)
        return Reliability(people, people_needed, items, none, none, none, none, None, none, none)
    totals = table.sum(axis=1)
    mean, deviation = float(totals.mean()), float(totals.std(ddof=1))
    whole = attempt(alpha, table)
    interval, error = None, Statistic(None, whole.reason)
    if whole.value is not None:
        interval = alpha_interval(whole.value, people, items)
        error = attempt(standard_error, deviation, whole.value)
    short = attempt(kr20, table)
    flat = attempt(kr21, items, mean, float(totals.var())) if short.value is not None else Statistic(None, short.reason)
    return Reliability(
        people, people_needed, items, Statistic(mean), Statistic(deviation), short, whole, interval, flat, error
    )


def kr20(scores: npt.ArrayLike) -> float:
    """Compute Kuder-Richardson 20, all variances with divisor n.

    Args:
        scores: people by items, 0 or 1, no cell missing.

    Raises:
        QuizError: when an item has part credit, or everybody has the same total.

    >>> round(kr20([[1, 1], [0, 0], [1, 0]]), 4)
    0.6667
    """
    table = read_form(scores)
    if not np.isin(table, (0.0, 1.0)).all():
        raise QuizError("KR-20 and KR-21 need items that are right or wrong, without part credit")
    right = table.mean(axis=0)
    return _stepped_up(table, float((right * (1 - right)).sum()))


def alpha(scores: npt.ArrayLike) -> float:
    """Compute Cronbach's alpha.

    Args:
        scores: people by items, 0 to 1, no cell missing.

    Raises:
        QuizError: when everybody has the same total.
    """
    table = read_form(scores)
    return _stepped_up(table, float(table.var(axis=0).sum()))


def alpha_interval(alpha: float, people: int, items: int, confidence: float = 0.95) -> Interval:
    """Compute Feldt's interval of alpha.

    Args:
        alpha: the alpha found.
        people: how many sat the form, two or more.
        items: how many items it has, two or more.
        confidence: how often such an interval holds the true alpha, between 0 and 1.

    Raises:
        QuizError: when the numbers do not fit.

    >>> found = alpha_interval(0.696347, 10, 10)
    >>> round(found.low, 3), round(found.high, 3)
    (0.309, 0.911)
    """
    if people < 2 or items < 2:
        raise QuizError(f"expected two people and two items or more, got {people} and {items}")
    if not 0 < confidence < 1:
        raise QuizError(f"expected a confidence between 0 and 1, got {confidence:g}")
    tail, one, other = (1 - confidence) / 2, people - 1, (people - 1) * (items - 1)
    low = 1 - (1 - alpha) * float(fdtri(one, other, 1 - tail))
    return Interval(low, 1 - (1 - alpha) * float(fdtri(one, other, tail)))


def kr21(items: int, mean: float, variance: float) -> float:
    """Compute Kuder-Richardson 21 from the mean and the variance of the totals.

    Args:
        items: how many items, two or more.
        mean: mean number right.
        variance: variance of the number right, divisor n.

    Raises:
        QuizError: when there are too few items, or everybody has the same total.

    >>> round(kr21(10, 6.6, 5.84), 6)
    0.68417
    """
    _check_spread(items, variance)
    return items / (items - 1) * (1 - mean * (items - mean) / (items * variance))


def standard_error(deviation: float, reliability: float) -> float:
    """Compute the standard error of measurement, in the unit of the standard deviation.

    Raises:
        QuizError: when the reliability is not from 0 to 1.

    >>> round(standard_error(1.035041, 0.2949972), 7)
    0.8690664
    """
    if not 0 <= reliability <= 1:
        raise QuizError(f"needs a reliability from 0 to 1, has {reliability:.2f}")
    return deviation * sqrt(1 - reliability)


def read_form(scores: npt.ArrayLike) -> npt.NDArray[np.float64]:
    """Read the scores of one form, people by items, 0 to 1, and refuse a table with a cell missing."""
    table = read_scores(scores)
    if np.isnan(table).any():
        raise QuizError("expected one form at a time, with every item scored for every person")
    return table


def _stepped_up(table: npt.NDArray[np.float64], item_variances: float) -> float:
    variance, items = float(table.sum(axis=1).var()), int(table.shape[1])
    _check_spread(items, variance)
    return items / (items - 1) * (1 - item_variances / variance)


def _check_spread(items: int, variance: float) -> None:
    if items < 2:
        raise QuizError(f"needs two items, has {items}")
    if variance <= 1e-12:
        raise QuizError("everybody has the same total")
