"""What each option of an item did: who chose it, and whether they were those who know the rest.

A distractor that nobody takes does no work; one that those who know the rest take is perhaps right; a key that they
avoid is perhaps wrong. A flag is a reason to read the item again, and proves nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tinwright.errors import QuizError
from tinwright.quizzes.statistic import MIN_PEOPLE, Statistic, too_few

if TYPE_CHECKING:
    from collections.abc import Collection

    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]

__all__ = [
    "BEATS_KEY",
    "DRAWS_STRONG",
    "KEY_DRAWS_WEAK",
    "NO_ANSWER",
    "RARE",
    "RARE_SHARE",
    "OptionAnalysis",
    "OptionStatistics",
    "analyse_options",
    "analyse_ticks",
]

RARE, DRAWS_STRONG, BEATS_KEY, KEY_DRAWS_WEAK = (
    "rarely-chosen",
    "draws-the-strong",
    "beats-the-key",
    "key-draws-the-weak",
)
NO_ANSWER = -1
"""Choice of somebody who saw the item and left it blank."""
RARE_SHARE = 0.05
"""A distractor chosen by less than this share does no work; common practice, no source."""


@dataclass(frozen=True)
class OptionStatistics:
    """One option, described."""

    keyed: bool
    """Whether it is right to choose it."""
    chosen: int
    """How many chose it."""
    share: float
    """Their share of those who saw the item."""
    correlation: Statistic
    """Correlation of choosing it with the rest score."""
    flags: tuple[str, ...]
    """Why to look: a distractor `rarely-chosen`, `draws-the-strong` or `beats-the-key`; a key `key-draws-the-weak`."""


@dataclass(frozen=True)
class OptionAnalysis:
    """The options of one item, described, or the reason why not."""

    people: int
    """How many saw the item."""
    people_needed: int
    """How many it takes."""
    reason: str
    """Why nothing is said; empty when something is."""
    blank: int
    """How many of those who saw it chose nothing."""
    options: tuple[OptionStatistics, ...]
    """The options in the order given; empty when there are too few people."""


def analyse_options(
    chosen: npt.ArrayLike, rest: npt.ArrayLike, *, key: int, options: int, people_needed: int = MIN_PEOPLE
) -> OptionAnalysis:
    """Describe the options of an item with one answer.

    Args:
        chosen: for each person the number of the option chosen, from 0; `NO_ANSWER` for a blank.
        rest: for each person the rest score (a column of `item_statistics.rest_scores`); NaN who did not see the item.
        key: number of the right option.
        options: how many options there are.
        people_needed: fewest people who say anything.

    Raises:
        QuizError: when the choices, the key and the number of options do not fit together.

    >>> analyse_options([0, 1, 1], [0.2, 0.8, 0.9], key=1, options=2).reason
    'needs 30 people, has 3'
    """
    if not 0 <= key < options:
        raise QuizError(f"expected a key from 0 to {options - 1}, got {key}")
    scores, picks = np.asarray(rest, dtype=np.float64), np.asarray(chosen)
    if picks.shape != scores.shape or scores.ndim != 1:
        raise QuizError(f"expected one choice for each rest score, got {picks.shape} and {scores.shape}")
    seen = ~np.isnan(scores)
    picks, scores = picks[seen], scores[seen]
    whole = picks.size == 0 or picks.dtype.kind in "iu"
    if not whole or (picks.size and not NO_ANSWER <= picks.min() <= picks.max() < options):
        raise QuizError(f"expected choices from 0 to {options - 1}, or {NO_ANSWER} for a blank")
    places = picks.astype(np.intp) - NO_ANSWER
    counts = np.bincount(places, minlength=options + 1)
    spread = _spread(scores)
    products: Floats = np.bincount(places, weights=spread, minlength=options + 1).astype(np.float64, copy=False)
    return _analysis(counts[1:], products[1:], spread, {key}, int(counts[0]), people_needed)


def analyse_ticks(
    ticks: npt.ArrayLike, rest: npt.ArrayLike, *, keys: Collection[int], people_needed: int = MIN_PEOPLE
) -> OptionAnalysis:
    """Describe the options of an item with several answers.

    Args:
        ticks: people by options, true where ticked.
        rest: for each person the rest score; NaN who did not see the item.
        keys: numbers of the options that should be ticked, from 0.
        people_needed: fewest people who say anything.

    Raises:
        QuizError: when the ticks, the keys and the rest scores do not fit together.
    """
    table, scores = np.asarray(ticks, dtype=np.bool_), np.asarray(rest, dtype=np.float64)
    if table.ndim != 2 or scores.shape != table.shape[:1]:
        raise QuizError(f"expected one row of ticks for each rest score, got {table.shape} and {scores.shape}")
    if not set(keys) <= set(range(table.shape[1])):
        raise QuizError(f"expected keys from 0 to {table.shape[1] - 1}, got {sorted(keys)}")
    seen = ~np.isnan(scores)
    table, spread = table[seen], _spread(scores[seen])
    blank = int(np.count_nonzero(~table.any(axis=1)))
    return _analysis(table.sum(axis=0), spread @ table, spread, set(keys), blank, people_needed)


def _spread(scores: Floats) -> Floats:
    spread: Floats = scores - scores.mean() if len(scores) else scores
    return spread


def _analysis(
    counts: npt.NDArray[np.int_], products: Floats, spread: Floats, keys: set[int], blank: int, people_needed: int
) -> OptionAnalysis:
    people = len(spread)
    reason = too_few(people, people_needed)
    if reason:
        return OptionAnalysis(people, people_needed, reason, blank, ())
    squares = float(spread @ spread)
    least_keyed = min((int(counts[key]) for key in keys), default=people)
    options = []
    for option, (number, product) in enumerate(zip(counts.tolist(), products.tolist(), strict=True)):
        correlation = _correlation(number, product, people, squares)
        flags = _flags(option in keys, number, number / people, correlation.value, least_keyed)
        options.append(OptionStatistics(option in keys, number, number / people, correlation, flags))
    return OptionAnalysis(people, people_needed, "", blank, tuple(options))


def _correlation(number: int, product: float, people: int, squares: float) -> Statistic:
    if number == 0:
        return Statistic(None, "nobody chose it")
    if number == people:
        return Statistic(None, "everybody chose it")
    if squares <= 1e-12 * people:
        return Statistic(None, "everybody has the same score on the other items")
    return Statistic(product / (number * (1 - number / people) * squares) ** 0.5)


def _flags(keyed: bool, number: int, share: float, correlation: float | None, least_keyed: int) -> tuple[str, ...]:
    flags = []
    if keyed:
        if correlation is not None and correlation < 0:
            flags.append(KEY_DRAWS_WEAK)
        return tuple(flags)
    if share < RARE_SHARE:
        flags.append(RARE)
    if correlation is not None and correlation > 0:
        flags.append(DRAWS_STRONG)
    if number > least_keyed:
        flags.append(BEATS_KEY)
    return tuple(flags)
