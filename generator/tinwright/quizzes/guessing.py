"""How long an examination must be and where its cut must lie, so that neither luck nor a bad day decides.

Right answers are counted as independent, each with the same chance for one person (the binomial model of Millman 1973
and Wilcox 1976; from memory, not looked up).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from scipy.special import betainc

from tinwright.errors import QuizError

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["ErrorRates", "LengthAndCut", "error_rates", "guessing_chance", "pass_chance", "shortest_test"]

LONGEST = 300
"""Items in the longest test that is searched."""


@dataclass(frozen=True)
class ErrorRates:
    """The two ways in which an examination decides wrongly."""

    false_pass: float
    """Chance that somebody who must not pass does."""
    false_fail: float
    """Chance that somebody who should pass does not."""


@dataclass(frozen=True)
class LengthAndCut:
    """A length with its cut, and what they do."""

    items: int
    """How many items there are."""
    cut: int
    """Fewest right answers that pass."""
    rates: ErrorRates
    """The errors left."""


def pass_chance(items: int, cut: int, right: float, *, critical: int = 0) -> float:
    """Compute the chance that somebody passes: enough items right, and every critical one.

    Args:
        items: number of items.
        cut: fewest right answers that pass, 0 to the number of items.
        right: chance of a right answer, 0 to 1.
        critical: how many of the items must be right whatever the score.

    Raises:
        QuizError: when the numbers do not fit.

    >>> round(pass_chance(20, 10, 0.25), 5)
    0.01386
    >>> pass_chance(2, 1, 0.5, critical=1)
    0.5
    """
    _check(items, cut, right, critical)
    rest, still = items - critical, max(0, cut - critical)
    # P(at least k of n) is the regularised incomplete beta function at (k, n - k + 1).
    enough = 1.0 if still == 0 else float(betainc(still, rest - still + 1, right))
    return enough * right**critical


def guessing_chance(chances: Sequence[float], cut: int) -> float:
    """Compute the chance to reach the cut by blind guessing where the items differ in their options.

    Args:
        chances: for each item, the chance that a blind guess is right: 0.5 for two options, 0.25 for four.
        cut: fewest right answers that pass, 0 to the number of items.

    Raises:
        QuizError: when the numbers do not fit.

    >>> round(guessing_chance([0.5] * 10, 8), 4)
    0.0547
    """
    _check(len(chances), cut, 0.0, 0)
    ways = [1.0]
    """Chance of each number of right answers so far."""
    for chance in chances:
        if not 0 <= chance <= 1:
            raise QuizError(f"expected a chance from 0 to 1, got {chance:g}")
        ways = [low * (1 - chance) + high * chance for low, high in zip([*ways, 0.0], [0.0, *ways], strict=True)]
    return sum(reversed(ways[cut:]))


def error_rates(items: int, cut: int, *, non_master: float, master: float, critical: int = 0) -> ErrorRates:
    """Compute how often a length and a cut let the wrong person through, and turn the right one away.

    Args:
        items: number of items.
        cut: fewest right answers that pass.
        non_master: chance of a right answer of somebody who must not pass.
        master: chance of a right answer of somebody who should.
        critical: how many of the items must be right whatever the score.

    Raises:
        QuizError: when the numbers do not fit.

    >>> rates = error_rates(30, 23, non_master=0.60, master=0.85)
    >>> round(rates.false_pass, 3), round(rates.false_fail, 3)
    (0.044, 0.07)
    """
    if non_master >= master:
        raise QuizError(f"expected a master above a non-master, got {master:g} and {non_master:g}")
    return ErrorRates(
        pass_chance(items, cut, non_master, critical=critical), 1 - pass_chance(items, cut, master, critical=critical)
    )


def shortest_test(
    non_master: float, master: float, *, most_false_pass: float, most_false_fail: float, longest: int = LONGEST
) -> LengthAndCut:
    """Find the shortest test that keeps both errors within what is allowed.

    Where several cuts do at that length, the highest is taken: it lets fewest of the wrong people through.

    Args:
        non_master: chance of a right answer of somebody who must not pass.
        master: chance of a right answer of somebody who should.
        most_false_pass: the most allowed, 0 to 1.
        most_false_fail: the most allowed, 0 to 1.
        longest: items in the longest test worth thinking of.

    Raises:
        QuizError: when no test up to the longest does.

    >>> found = shortest_test(0.60, 0.85, most_false_pass=0.05, most_false_fail=0.05)
    >>> found.items, found.cut
    (33, 25)
    """
    for items in range(1, longest + 1):
        for cut in range(items, 0, -1):
            rates = error_rates(items, cut, non_master=non_master, master=master)
            # The false passes only grow as the cut comes down.
            if rates.false_pass > most_false_pass:
                break
            if rates.false_fail <= most_false_fail:
                return LengthAndCut(items, cut, rates)
    raise QuizError(
        f"no test of up to {longest} items tells {non_master:g} from {master:g} with at most {most_false_pass:g} "
        f"false passes and {most_false_fail:g} false fails"
    )


def _check(items: int, cut: int, right: float, critical: int) -> None:
    if items < 1 or not 0 <= cut <= items:
        raise QuizError(f"expected a cut from 0 to the number of items, got {cut} of {items}")
    if not 0 <= right <= 1:
        raise QuizError(f"expected a chance from 0 to 1, got {right:g}")
    if not 0 <= critical <= items:
        raise QuizError(f"expected from 0 to {items} critical items, got {critical}")
