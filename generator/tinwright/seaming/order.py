"""Order of checks: likelihood per minute, within the order of adjustment."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.errors import SeamingError

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["STAGES", "Check", "expected_minutes", "order_of_checks", "stage_of"]

STAGES = {
    "can-and-lid": 0,
    "filling": 0,
    "handling": 0,
    "operation": 0,
    "chuck": 1,
    "base-height": 1,
    "base-pressure": 1,
    "roller-height": 1,
    "first-roller": 2,
    "second-roller": 3,
}
"""Order of adjustment of what a correction acts on; 0 is free to come at any time."""


@dataclass(frozen=True)
class Check:
    """Something to check, or to put right and try again with a test can."""

    id: str
    """The cause it is about."""
    probability: float
    """How likely that cause is, 0 to 1."""
    minutes: float
    """How long the check takes, more than 0."""
    adjuster: str
    """What the correction would act on; gives the stage."""


def stage_of(adjuster: str) -> int:
    """Return the stage of an adjuster in the order of adjustment; 0 for what is free.

    Raises:
        SeamingError: for a word that is no adjuster.
    """
    try:
        return STAGES[adjuster]
    except KeyError:
        raise SeamingError(f"expected one of {', '.join(STAGES)}, got {adjuster!r}") from None


def expected_minutes(checks: Sequence[Check]) -> float:
    """Return the expected time to find the one cause, each check being made in turn, the last one too."""
    spent, expected = 0.0, 0.0
    for check in checks:
        spent = spent + check.minutes
        expected = expected + check.probability * spent
    return expected


def order_of_checks(checks: Sequence[Check]) -> list[Check]:
    """Put checks in the order that finds the cause soonest on average.

    Base height, base pressure and chuck come before the first roller, and that before the second; all else is free.
    Within what that leaves open the order is the best there is: blocks by their best ratio of probability to minutes
    (Smith 1956 for free jobs; Sidney 1975 for jobs under precedence; both from memory of the papers).

    Ties go to the earlier stage, then to the id.
    """
    chain = [
        check
        for stage in (1, 2, 3)
        for check in sorted((c for c in checks if stage_of(c.adjuster) == stage), key=_by_ratio)
    ]
    free = sorted((check for check in checks if stage_of(check.adjuster) == 0), key=_by_ratio)
    ordered: list[Check] = []
    while chain:
        length, probability, minutes = _best_prefix(chain)
        while free and _comes_first(free[0], probability, minutes):
            ordered.append(free.pop(0))
        ordered += chain[:length]
        chain = chain[length:]
    return ordered + free


def _by_ratio(check: Check) -> tuple[float, str]:
    return (-check.probability / check.minutes, check.id)


def _best_prefix(chain: Sequence[Check]) -> tuple[int, float, float]:
    """Return length, probability and minutes of the prefix with the best ratio, the longest of equals."""
    best = (1, chain[0].probability, chain[0].minutes)
    probability, minutes = 0.0, 0.0
    for length, check in enumerate(chain, 1):
        probability, minutes = probability + check.probability, minutes + check.minutes
        if probability * best[2] >= best[1] * minutes:
            best = (length, probability, minutes)
    return best


def _comes_first(check: Check, probability: float, minutes: float) -> bool:
    return check.probability * minutes >= probability * check.minutes
