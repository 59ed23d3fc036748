"""Sets of cans as ranges of their numbers, so that a slip of the pen such as `1 to 900000` costs nothing.

A can of the first run of the counter is its number. Each further run begins `RUN` higher and has a letter: B1, B2.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = [
    "RUN",
    "Range",
    "Ranges",
    "can_name",
    "cans_in_words",
    "count",
    "joined",
    "run_letter",
    "run_named",
    "run_of",
    "shared",
    "without",
]

RUN = 10**10
"""How far apart two runs of the counter are: more than any counter shows."""
_LETTERS = 26

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
    """Write the names of cans.

    >>> cans_in_words([(13, 17), (20, 20), (RUN + 1, RUN + 15)])
    '13 to 17, 20, B1 to B15'
    """
    return ", ".join(
        can_name(first) if first == last else f"{can_name(first)} to {can_name(last)}" for first, last in ranges
    )


def can_name(can: int) -> str:
    """Return what is written on a can: its number, after the letter of its run from the second run on.

    >>> can_name(13), can_name(RUN + 13), can_name(26 * RUN + 1)
    ('13', 'B13', 'AA1')
    """
    run, number = divmod(can, RUN)
    return f"{run_letter(run) if run else ''}{number}"


def run_of(can: int) -> int:
    """Return the run of a can: 0 for the first."""
    return can // RUN


def run_letter(run: int) -> str:
    """Return the letter of a run: A for the first, whose cans go by their bare numbers.

    >>> [run_letter(run) for run in (0, 1, 25, 26, 51, 52)]
    ['A', 'B', 'Z', 'AA', 'AZ', 'BA']
    """
    higher, place = divmod(run, _LETTERS)
    return (run_letter(higher - 1) if higher else "") + chr(ord("A") + place)


def run_named(letters: str) -> int:
    """Return the run of a letter.

    >>> [run_named(letters) for letters in ("A", "B", "Z", "AA", "BA")]
    [0, 1, 25, 26, 52]
    """
    run = 0
    for letter in letters:
        run = run * _LETTERS + ord(letter) - ord("A") + 1
    return run - 1
