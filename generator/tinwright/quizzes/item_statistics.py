"""How each item did: how many had it right, and whether those who know the rest also know this.

The rest score of a person is the share right of the other items that person saw, so people who sat different forms of
one length can be put together. On one form it gives the same correlations as the number right.

Everything that is undefined comes as a `Statistic` without value and with its reason. Method: Lord & Novick 1968,
Crocker & Algina 1986, chapter 14 (from memory, not looked up); values checked against R's psych and psychometric.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tinwright.errors import QuizError
from tinwright.quizzes.score_table import read_scores
from tinwright.quizzes.statistic import MIN_PEOPLE, Statistic, too_few

if TYPE_CHECKING:
    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]

__all__ = [
    "EVERYBODY_RIGHT",
    "NEGATIVE",
    "NOBODY_RIGHT",
    "ItemAnalysis",
    "ItemStatistics",
    "analyse_items",
    "corrected_discriminations",
    "difficulties",
    "discriminations",
    "rest_scores",
    "upper_lower",
]

EVERYBODY_RIGHT, NOBODY_RIGHT, NEGATIVE = "everybody-right", "nobody-right", "negative-discrimination"

GROUP_SHARE = 0.27
"""Size of the upper and of the lower group, as a share of all (Kelley 1939; from memory, not looked up)."""
_FLAT = 1e-12
"""A mean square below this is rounding, not spread."""


@dataclass(frozen=True)
class ItemStatistics:
    """One item, described."""

    people: int
    """How many saw it."""
    difficulty: Statistic
    """Share right: 1 is easy."""
    discrimination: Statistic
    """Correlation with the whole score, the item itself in it; flatters short forms."""
    corrected: Statistic
    """Correlation with the rest score."""
    upper_lower: Statistic
    """Share right in the upper group minus that in the lower group."""
    flags: tuple[str, ...]
    """Why to look at it: `everybody-right`, `nobody-right`, `negative-discrimination`; empty for no reason."""


@dataclass(frozen=True)
class ItemAnalysis:
    """All items, described, or the reason why not."""

    people: int
    """How many people's answers there are."""
    people_needed: int
    """How many it takes, for each item."""
    reason: str
    """Why nothing is said about any item; empty when something is."""
    items: tuple[ItemStatistics, ...]
    """The items in the order given; empty when there are too few people."""


def analyse_items(scores: npt.ArrayLike, *, people_needed: int = MIN_PEOPLE) -> ItemAnalysis:
    """Describe every item that enough people saw.

    Args:
        scores: people by items, 0 to 1, as `read_scores` takes them.
        people_needed: fewest people who say anything about an item.

    Raises:
        QuizError: when the table cannot be read.

    >>> analyse_items([[1, 0], [0, 1]]).reason
    'needs 30 people, has 2'
    """
    table = read_scores(scores)
    people = len(table)
    reason = too_few(people, people_needed)
    if reason:
        return ItemAnalysis(people, people_needed, reason, ())
    columns = zip(
        np.count_nonzero(~np.isnan(table), axis=0).tolist(),
        difficulties(table),
        discriminations(table),
        corrected_discriminations(table),
        upper_lower(table),
        strict=True,
    )
    return ItemAnalysis(people, people_needed, "", tuple(_item(people_needed, *column) for column in columns))


def difficulties(scores: npt.ArrayLike) -> tuple[Statistic, ...]:
    """Compute the share right of each item, of those who saw it.

    >>> [item.value for item in difficulties([[1, 0], [1, 1]])]
    [1.0, 0.5]
    """
    table = read_scores(scores)
    seen = ~np.isnan(table)
    return tuple(
        Statistic(total / people) if people else Statistic(None, "nobody saw it")
        for total, people in zip(np.nansum(table, axis=0).tolist(), seen.sum(axis=0).tolist(), strict=True)
    )


def discriminations(scores: npt.ArrayLike) -> tuple[Statistic, ...]:
    """Correlate each item with the share right of all items, itself among them."""
    table = read_scores(scores)
    whole = np.broadcast_to(_shares(table)[:, None], table.shape)
    return _correlations(table, whole, "everybody has the same score")


def corrected_discriminations(scores: npt.ArrayLike) -> tuple[Statistic, ...]:
    """Correlate each item with the rest score.

    >>> [item.value for item in corrected_discriminations([[1, 1], [0, 0], [1, 1]])]
    [1.0, 1.0]
    """
    table = read_scores(scores)
    return _correlations(table, rest_scores(table), "everybody has the same score on the other items")


def rest_scores(scores: npt.ArrayLike) -> Floats:
    """Compute each person's share right of the other items, for each item; NaN where the item was not seen.

    >>> rest_scores([[1, 0, 1]]).tolist()
    [[0.5, 1.0, 0.5]]
    """
    table = read_scores(scores)
    others = np.count_nonzero(~np.isnan(table), axis=1) - 1
    rest: Floats = np.nansum(table, axis=1)[:, None] - table
    rest /= others[:, None]
    return rest


def upper_lower(scores: npt.ArrayLike, share: float = GROUP_SHARE) -> tuple[Statistic, ...]:
    """Compute the share right of each item in the upper group minus that in the lower group.

    The groups are the highest and the lowest `share` of those who saw the item, by the share right of all items,
    rounded down to whole people. Where several people tie for the last places of a group, each of them counts for an
    equal part of those places: the mean over all ways of breaking the tie, whatever the order of the rows.

    Args:
        scores: people by items, 0 to 1.
        share: size of each group, above 0 and at most 0.5.

    Raises:
        QuizError: when the table cannot be read or the share does not fit.

    >>> [item.value for item in upper_lower([[1, 1], [1, 0], [1, 0], [0, 0]], 0.5)]
    [0.5, 0.5]
    """
    if not 0 < share <= 0.5:
        raise QuizError(f"expected groups above 0 and at most 0.5 of the people, got {share:g}")
    table = read_scores(scores)
    # Sums of part credits that should tie differ in the last digits.
    whole = np.round(_shares(table), 9)
    seen = ~np.isnan(table)
    if seen.all():
        return tuple(Statistic(value, why) for value, why in _group_gaps(table, whole, share))
    found = []
    for item in range(table.shape[1]):
        rows = seen[:, item]
        found += _group_gaps(table[rows, item : item + 1], whole[rows], share)
    return tuple(Statistic(value, why) for value, why in found)


def _group_gaps(table: Floats, whole: Floats, share: float) -> list[tuple[float | None, str]]:
    # The small amount keeps 0.3 of 10 people from being two, by rounding.
    places = int(share * len(table) + 1e-9)
    if places == 0:
        return [(None, "too few people for an upper and a lower group")] * table.shape[1]
    levels, level_of, sizes = np.unique(whole, return_inverse=True, return_counts=True)
    if len(levels) == 1:
        return [(None, "everybody has the same score")] * table.shape[1]
    lower = np.clip(places - (np.cumsum(sizes) - sizes), 0, sizes) / sizes
    upper = np.clip(places - (np.cumsum(sizes[::-1])[::-1] - sizes), 0, sizes) / sizes
    gaps = (upper - lower)[level_of] @ table / places
    return [(gap, "") for gap in gaps.tolist()]


def _shares(table: Floats) -> Floats:
    shares: Floats = np.nansum(table, axis=1) / np.count_nonzero(~np.isnan(table), axis=1)
    return shares


def _correlations(table: Floats, against: Floats, flat: str) -> tuple[Statistic, ...]:
    """Correlate the columns of two tables, over the cells that are in the first."""
    seen = ~np.isnan(table)
    people = seen.sum(axis=0)
    one, other = _centred(table, seen, people), _centred(against, seen, people)
    squares = [np.einsum("ij,ij->j", part, part) for part in (one, other)]
    products = np.einsum("ij,ij->j", one, other)
    found = []
    for number, product, own, others in zip(people.tolist(), products, *squares, strict=True):
        if number == 0:
            found.append(Statistic(None, "nobody saw it"))
        elif own <= _FLAT * number:
            found.append(Statistic(None, "everybody has the same score on it"))
        elif others <= _FLAT * number:
            found.append(Statistic(None, flat))
        else:
            # Rounding can carry a perfect correlation past 1.
            found.append(Statistic(float(np.clip(product / np.sqrt(own * others), -1.0, 1.0))))
    return tuple(found)


def _centred(table: Floats, seen: npt.NDArray[np.bool_], people: npt.NDArray[np.int_]) -> Floats:
    filled = table if seen.all() else np.where(seen, table, 0.0)
    centred: Floats = filled - filled.sum(axis=0) / np.maximum(people, 1)
    if filled is not table:
        centred[~seen] = 0.0
    return centred


def _item(
    people_needed: int, people: int, difficulty: Statistic, raw: Statistic, corrected: Statistic, gap: Statistic
) -> ItemStatistics:
    reason = too_few(people, people_needed)
    if reason:
        none = Statistic(None, f"{reason} who saw it")
        return ItemStatistics(people, none, none, none, none, ())
    flags = []
    if difficulty.value == 1:
        flags.append(EVERYBODY_RIGHT)
    elif difficulty.value == 0:
        flags.append(NOBODY_RIGHT)
    if corrected.value is not None and corrected.value < 0:
        flags.append(NEGATIVE)
    return ItemStatistics(people, difficulty, raw, corrected, gap, tuple(flags))
