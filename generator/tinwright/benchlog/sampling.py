"""What checking some cans shows of those not checked, and what it cannot show.

Plain counting, exact: a lot of the day is small, so cans are drawn without putting any back.
"""

from __future__ import annotations

from fractions import Fraction
from math import comb

__all__ = [
    "chance_of_passing",
    "chance_of_passing_stream",
    "most_bad",
    "most_bad_share",
    "sampling_in_words",
    "to_check",
]

_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def chance_of_passing(lot: int, bad: int, checked: int, allowed: int = 0) -> float:
    """Return the chance to find no more than `allowed` bad cans among those checked: hypergeometric.

    Args:
        lot: Cans there are.
        bad: How many of them are bad.
        checked: How many are checked, drawn blindly.
        allowed: Bad ones that are let pass.

    Raises:
        ValueError: when more are bad or checked than there are.

    >>> round(chance_of_passing(lot=24, bad=2, checked=2), 3)
    0.837
    """
    if not (0 <= bad <= lot and 0 <= checked <= lot and lot > 0):
        raise ValueError(f"expected 0 to {lot} cans bad and checked, got {bad} and {checked}")
    ways = sum(comb(bad, found) * comb(lot - bad, checked - found) for found in range(min(allowed, checked) + 1))
    return float(Fraction(ways, comb(lot, checked)))


def chance_of_passing_stream(share: float, checked: int, allowed: int = 0) -> float:
    """Return the same for cans drawn from an endless stream in which `share` (0 to 1) are bad: binomial.

    >>> round(chance_of_passing_stream(0.1, 22), 3)
    0.098
    """
    return sum(
        comb(checked, found) * share**found * (1 - share) ** (checked - found)
        for found in range(min(allowed, checked) + 1)
    )


def most_bad(lot: int, checked: int, confidence: float = 0.95) -> int:
    """Return how many cans of the lot may still be bad when none of those checked was.

    The greatest number of bad cans that would go unseen in more than 1 - `confidence` of all such draws.

    >>> most_bad(lot=24, checked=2)
    18
    """
    unseen = (bad for bad in range(lot - checked, 0, -1) if chance_of_passing(lot, bad, checked) > 1 - confidence)
    return next(unseen, 0)


def most_bad_share(checked: int, confidence: float = 0.95) -> float:
    """Return the exact upper bound of the share of bad cans when none of `checked` was bad, 1 or more checked.

    The bound of Clopper and Pearson for 0 in n, in closed form: 1 - (1 - confidence)^(1/n). "About 3 in n" is its rule
    of thumb.

    >>> round(most_bad_share(30), 4)
    0.095
    """
    return float(1 - (1 - confidence) ** (1 / checked))


def to_check(lot: int, percent_bad: int = 10, confidence: float = 0.95) -> int:
    """Return how many cans to check so that a lot with so many bad is seldom let pass when none may be bad.

    Args:
        lot: Cans there are.
        percent_bad: Share of bad cans that is to be caught; rounded down to whole cans, but to one at least.
        confidence: Chance to catch it.

    >>> [to_check(lot) for lot in (10, 24, 100)]
    [10, 19, 25]
    """
    bad = max(1, lot * percent_bad // 100)
    return next(
        checked for checked in range(1, lot + 1) if chance_of_passing(lot, bad, checked) <= 1 - confidence + 1e-12
    )


def sampling_in_words(lot: int, checked: int, confidence: float = 0.95) -> str:
    """Say what it shows when some cans of a lot, taken blindly, were checked and none was bad.

    >>> for part in sampling_in_words(24, 2).split(": "):  # doctest: +ELLIPSIS
    ...     print(part)
    Two of 24 cans checked, none bad, prove little
    if 2 of the 24 were bad, such a draw would miss them 84 times in 100. Even with 18 bad, ...
    """
    if checked >= lot:
        return f"All {lot} cans were checked."
    if checked == 0:
        return f"None of the {lot} cans was checked: that shows nothing."
    bad = min(2, lot - checked)
    missed = 100 * chance_of_passing(lot, bad, checked)
    number = _NUMBERS[checked] if checked < len(_NUMBERS) else str(checked)
    prove = "proves" if checked == 1 else "prove"
    verdict = f"{prove} {'little' if missed > 100 * (1 - confidence) else 'something'}"
    times = f"{missed:.0f} times in 100" if missed >= 1.5 else "once in 100 or less"
    words = (
        f"{number.capitalize()} of {lot} cans checked, none bad, {verdict}: if {bad} of the {lot} "
        f"{'were' if bad > 1 else 'was'} bad, such a draw would miss {'them' if bad > 1 else 'it'} {times}."
    )
    most = most_bad(lot, checked, confidence)
    if most:
        words += f" Even with {most} bad, fewer than {confidence * 100:.0f} draws in 100 would show one."
    return words
