"""How likely somebody passes under the whole pass rule: enough points, and enough critical questions of each area.

Exact, with no random numbers: answers are independent, each item with its own chance, so the points follow the
Poisson-binomial distribution (Wang 1993, Statistica Sinica 3:295-312; from memory, not looked up). A question that
gives part of a point counts here as right or wrong: of all ways to earn the same share of it, this one spreads most.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.errors import QuizError

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["AreaRule", "PassChances", "PassRule", "all_tries", "chances_at", "pass_chances", "right_counts"]

_HALVINGS = 80
"""Halvings of the search in `chances_at`; more than a double can tell apart."""


@dataclass(frozen=True)
class AreaRule:
    """The cut of one critical area."""

    places: tuple[int, ...]
    """Places of its critical items on the form, counted from 0."""
    right: int
    """How many of them must be right."""


@dataclass(frozen=True)
class PassRule:
    """What passes a form."""

    items: int
    """How many items it has."""
    cut: int
    """Fewest points that pass."""
    areas: tuple[AreaRule, ...] = ()
    """Its critical areas; no item belongs to two."""

    def __post_init__(self) -> None:
        if not 0 <= self.cut <= self.items:
            raise QuizError(f"expected a cut from 0 to {self.items}, got {self.cut}")
        places = [place for area in self.areas for place in area.places]
        if len(set(places)) != len(places) or not all(0 <= place < self.items for place in places):
            raise QuizError("expected each critical item in one area and on the form")
        for area in self.areas:
            if not 0 <= area.right <= len(area.places):
                raise QuizError(f"expected an area's cut from 0 to {len(area.places)}, got {area.right}")


@dataclass(frozen=True)
class PassChances:
    """How likely somebody passes."""

    at_once: float
    """With the first answers."""
    same_day: float
    """With the first answers, or after the second try of the same day in the areas that were missed."""


def right_counts(chances: Sequence[float]) -> list[float]:
    """Return the chance of each number of right answers, none to all.

    Raises:
        QuizError: when a chance is outside 0 to 1.

    >>> right_counts([0.5, 0.5])
    [0.25, 0.5, 0.25]
    """
    counts = [1.0]
    for chance in chances:
        if not 0 <= chance <= 1:
            raise QuizError(f"expected a chance from 0 to 1, got {chance:g}")
        counts = [low * (1 - chance) + high * chance for low, high in zip([*counts, 0.0], [0.0, *counts], strict=True)]
    return counts


def pass_chances(
    chances: Sequence[float], rule: PassRule, *, second: Sequence[Sequence[float]] | None = None
) -> PassChances:
    """Compute the chance to pass at once, and with the second try of the same day.

    Args:
        chances: for each item of the form, the chance of a right answer.
        rule: the pass rule.
        second: for each area, the chances in the items of its second try; those of the first try when left out. As many
            must be right as in the first.

    Raises:
        QuizError: when the numbers do not fit.

    >>> found = pass_chances([0.5] * 4, PassRule(4, 2, (AreaRule((0, 1), 2),)))
    >>> found.at_once, found.same_day
    (0.25, 0.359375)
    """
    if len(chances) != rule.items:
        raise QuizError(f"expected {rule.items} chances, got {len(chances)}")
    if second is not None and len(second) != len(rule.areas):
        raise QuizError(f"expected the second tries of {len(rule.areas)} areas, got {len(second)}")
    critical = {place for area in rule.areas for place in area.places}
    rest = right_counts([chance for place, chance in enumerate(chances) if place not in critical])
    at_once, same_day = rest, rest
    for number, area in enumerate(rule.areas):
        own = [chances[place] for place in area.places]
        again = math.fsum(right_counts(own if second is None else second[number])[area.right :])
        counts = right_counts(own)
        at_once = _added(at_once, [chance if right >= area.right else 0.0 for right, chance in enumerate(counts)])
        repaired = [chance * (1.0 if right >= area.right else again) for right, chance in enumerate(counts)]
        same_day = _added(same_day, repaired)
    return PassChances(math.fsum(at_once[rule.cut :]), math.fsum(same_day[rule.cut :]))


def all_tries(once: float, tries: int) -> float:
    """Compute the chance to pass in one of several sittings by somebody who learns nothing between them.

    >>> all_tries(0.5, 2)
    0.75
    """
    return 1 - (1 - once) ** tries


def chances_at(ratings: Sequence[float], share: float) -> tuple[float, ...]:
    """Return the chances of somebody who earns a given share of a form's points, hard items staying hard.

    The judges' ratings are moved up or down on the logit scale, all by as much (the Rasch model).

    Args:
        ratings: for each item the chance of somebody just qualified; taken as 0.02 to 0.98 at the ends.
        share: mean chance to come to, between 0 and 1.

    Raises:
        QuizError: when there is no item, or the share is not between 0 and 1.

    >>> [round(chance, 3) for chance in chances_at([0.5, 0.8], 0.65)]
    [0.5, 0.8]
    """
    if not ratings or not 0 < share < 1:
        raise QuizError(f"expected items and a share between 0 and 1, got {len(ratings)} and {share:g}")
    logits = [math.log(kept / (1 - kept)) for kept in (min(max(rating, 0.02), 0.98) for rating in ratings)]

    def moved(by: float) -> list[float]:
        return [1 / (1 + math.exp(-(logit + by))) for logit in logits]

    low, high = -40.0, 40.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if math.fsum(moved(middle)) < share * len(logits) else (low, middle)
    return tuple(moved((low + high) / 2))


def _added(left: Sequence[float], right: Sequence[float]) -> list[float]:
    """Return the distribution of the sum of two counts."""
    total = [0.0] * (len(left) + len(right) - 1)
    for place, chance in enumerate(left):
        for other, more in enumerate(right):
            total[place + other] += chance * more
    return total
