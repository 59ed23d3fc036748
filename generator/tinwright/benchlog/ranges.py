"""Sets of cans as ranges of their numbers, so that a slip of the pen such as `1 to 900000` costs nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = ["Range", "Ranges", "cans_in_words", "count", "joined", "shared", "without"]

Range = tuple[int, int]
"""First and last can, both meant."""
Ranges = tuple[Range, ...]
"""Ranges in order, none touching the next."""


def joined(*parts: Iterable[Range]) -> Ranges:
    """Return all cans of some ranges; a range whose last is before its first holds none.

    >>> joined([(4, 6), (1, 2)], [(3, 3), (9, 8)])
    ((1, 6),)
    """
    found: list[Range] = []
    for first, last in sorted(part for ranges in parts for part in ranges if part[0] <= part[1]):
        if found and first <= found[-1][1] + 1:
            found[-1] = (found[-1][0], max(found[-1][1], last))
        else:
            found.append((first, last))
    return tuple(found)


def without(ranges: Iterable[Range], taken: Iterable[Range]) -> Ranges:
    """Return the cans of `ranges` that are not in `taken`.

    >>> without([(1, 10)], [(3, 4), (10, 12)])
    ((1, 2), (5, 9))
    """
    left = joined(ranges)
    for first, last in joined(taken):
        left = joined(*[((low, min(high, first - 1)), (max(low, last + 1), high)) for low, high in left])
    return left


def shared(one: Iterable[Range], other: Iterable[Range]) -> Ranges:
    """Return the cans that are in both.

    >>> shared([(1, 10)], [(3, 4), (10, 12)])
    ((3, 4), (10, 10))
    """
    one = joined(one)
    return without(one, without(one, other))


def count(ranges: Iterable[Range]) -> int:
    """Return how many cans there are.

    >>> count([(13, 17), (20, 20)])
    6
    """
    return sum(last - first + 1 for first, last in joined(ranges))


def cans_in_words(ranges: Iterable[Range]) -> str:
    """Write the numbers of cans.

    >>> cans_in_words([(13, 17), (20, 20)])
    '13 to 17, 20'
    """
    return ", ".join(str(first) if first == last else f"{first} to {last}" for first, last in ranges)
