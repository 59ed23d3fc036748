"""What a few people say about an item: their share right, drawn toward what the judges expected.

The judges' rating counts like the answers of some people (a beta prior), so that three wrong answers of three do not
say that nobody can answer it. How many people it counts for is our judgment; no source gives a number.
"""

from __future__ import annotations

from dataclasses import dataclass

from scipy.special import betaincinv

from tinwright.errors import QuizError

__all__ = ["RATING_COUNTS_FOR", "Shrunk", "shrunk_share"]

RATING_COUNTS_FOR = 10.0
"""How many people the judges' rating counts for."""


@dataclass(frozen=True)
class Shrunk:
    """A share right with its interval."""

    people: int
    """How many people saw the item."""
    share: float
    """Share right, drawn toward the rating."""
    low: float
    """Lower end of the 95 % credible interval."""
    high: float
    """Upper end."""


def shrunk_share(right: float, people: int, rating: float) -> Shrunk:
    """Estimate the share right of an item from few people and the judges' rating.

    Args:
        right: points that the people earned on it.
        people: how many there were; none is allowed, and leaves the rating.
        rating: share of the point that the judges expect, 0 to 1; taken as 0.02 to 0.98.

    Raises:
        QuizError: when the numbers do not fit.

    >>> found = shrunk_share(0, 3, 0.8)
    >>> round(found.share, 3), found.low < 0.5 < found.high + 0.3
    (0.615, True)
    """
    if not 0 <= right <= people or not 0 <= rating <= 1:
        raise QuizError(f"expected points from 0 to {people} and a rating from 0 to 1, got {right:g} and {rating:g}")
    expected = min(max(rating, 0.02), 0.98)
    good = expected * RATING_COUNTS_FOR + right
    bad = (1 - expected) * RATING_COUNTS_FOR + people - right
    return Shrunk(people, good / (good + bad), float(betaincinv(good, bad, 0.025)), float(betaincinv(good, bad, 0.975)))
