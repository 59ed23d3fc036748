"""The interval of a proportion: what a score of 24 out of 30 says, and what it does not."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from statistics import NormalDist

from scipy.special import betaincinv

from tinwright.errors import QuizError

__all__ = ["Interval", "clopper_pearson", "wilson"]


@dataclass(frozen=True)
class Interval:
    """Two ends of an interval."""

    low: float
    """Lower end."""
    high: float
    """Upper end."""


def wilson(right: float, of: int, confidence: float = 0.95) -> Interval:
    """Compute Wilson's interval of a proportion: right on average, also for small numbers and near 0 and 1.

    Args:
        right: number of successes; with part credit the sum of the points, and the interval is too wide.
        of: number of trials, one or more.
        confidence: how often such an interval holds the true share, between 0 and 1.

    Raises:
        QuizError: when the numbers do not fit.

    Source: Newcombe 1998, Statistics in Medicine 17:857-872, method 3.

    >>> interval = wilson(8, 10)
    >>> round(interval.low, 4), round(interval.high, 4)
    (0.4902, 0.9433)
    """
    _check(right, of, confidence)
    z = NormalDist().inv_cdf((1 + confidence) / 2)
    share, spread = right / of, z * z / of
    middle = (share + spread / 2) / (1 + spread)
    half = z * sqrt(share * (1 - share) / of + spread / (4 * of)) / (1 + spread)
    # At the ends the formula gives 0 and 1 but for rounding.
    return Interval(0.0 if right == 0 else middle - half, 1.0 if right == of else middle + half)


def clopper_pearson(right: int, of: int, confidence: float = 0.95) -> Interval:
    """Compute the exact interval of a proportion, which is never too narrow and mostly too wide.

    Args:
        right: number of successes.
        of: number of trials, one or more.
        confidence: the least chance that such an interval holds the true share, between 0 and 1.

    Raises:
        QuizError: when the numbers do not fit.

    Source: Newcombe 1998, Statistics in Medicine 17:857-872, method 5.

    >>> interval = clopper_pearson(8, 10)
    >>> round(interval.low, 4), round(interval.high, 4)
    (0.4439, 0.9748)
    """
    _check(right, of, confidence)
    tail = (1 - confidence) / 2
    low = 0.0 if right == 0 else float(betaincinv(right, of - right + 1, tail))
    high = 1.0 if right == of else float(betaincinv(right + 1, of - right, 1 - tail))
    return Interval(low, high)


def _check(right: float, of: int, confidence: float) -> None:
    if of < 1 or not 0 <= right <= of:
        raise QuizError(f"expected a number right from 0 to the number of items, got {right} of {of}")
    if not 0 < confidence < 1:
        raise QuizError(f"expected a confidence between 0 and 1, got {confidence:g}")
