"""The cut score: what judges expect of somebody who only just qualifies (modified Angoff).

Each judge says of each item how likely such a person is to have it right. A judge's cut is the sum over the items, the
panel's cut the mean over the judges. After talking the items over they rate once more; the last round counts.

A cut is seldom a whole number. The rule here: pass with a score of at least the cut, so the fewest right answers that
pass are the cut rounded up. 7.13 asks for 8, and 7 asks for 7.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

import numpy as np

from tinwright.errors import QuizError
from tinwright.quizzes.statistic import Statistic

if TYPE_CHECKING:
    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]

__all__ = ["Agreement", "CutScore", "intraclass", "judge_agreement", "set_cut"]


@dataclass(frozen=True)
class CutScore:
    """What a panel of judges came to."""

    judge_cuts: tuple[float, ...]
    """Each judge's cut, in items, in the order given."""
    cut: float
    """The panel's cut, in items."""
    pass_score: int
    """Fewest right answers that pass: the cut rounded up."""
    deviation: Statistic
    """Standard deviation of the judges' cuts, in items."""
    standard_error: Statistic
    """Standard error of the panel's cut, in items."""
    item_means: tuple[float, ...]
    """Mean rating of each item."""
    item_ranges: tuple[float, ...]
    """Highest minus lowest rating of each item: the widest are worth talking over before the next round."""


@dataclass(frozen=True)
class Agreement:
    """The six intraclass correlations of Shrout and Fleiss: one judge's rating, then the mean of all judges."""

    one_way: Statistic
    """ICC(1,1): each target rated by other judges."""
    random: Statistic
    """ICC(2,1): the judges stand for many, and must agree in level."""
    fixed: Statistic
    """ICC(3,1): these judges only, and only the order counts."""
    one_way_mean: Statistic
    """ICC(1,k)."""
    random_mean: Statistic
    """ICC(2,k): the one to look at for a panel's cut."""
    fixed_mean: Statistic
    """ICC(3,k)."""


def set_cut(ratings: npt.ArrayLike) -> CutScore:
    """Compute the panel's cut from the last round of ratings.

    Args:
        ratings: judges by items, each the chance from 0 to 1 that somebody just qualified has the item right.

    Raises:
        QuizError: when the table is not rectangular, is empty, or a rating is outside 0 to 1.

    >>> found = set_cut([[0.9, 0.7, 0.5], [0.8, 0.6, 0.6]])
    >>> round(found.cut, 2), found.pass_score
    (2.05, 3)
    """
    table = _read(ratings, "ratings, judges by items")
    # NaN compares false, so it is refused too.
    fits = (table >= 0) & (table <= 1)
    if not fits.all():
        judge, item = np.argwhere(~fits)[0]
        got = table[judge, item]
        raise QuizError(f"expected ratings from 0 to 1, got {got:g} of judge {judge + 1} for item {item + 1}")
    cuts = table.sum(axis=1)
    cut = float(cuts.mean())
    deviation = error = Statistic(None, "needs two judges, has 1")
    if len(cuts) > 1:
        spread = float(cuts.std(ddof=1))
        deviation, error = Statistic(spread), Statistic(spread / len(cuts) ** 0.5)
    return CutScore(
        judge_cuts=tuple(cuts.tolist()),
        cut=cut,
        # Ratings such as 0.7 are not exact in binary: a sum that should be 7 must not ask for 8.
        pass_score=ceil(round(cut, 9)),
        deviation=deviation,
        standard_error=error,
        item_means=tuple(table.mean(axis=0).tolist()),
        item_ranges=tuple((table.max(axis=0) - table.min(axis=0)).tolist()),
    )


def judge_agreement(ratings: npt.ArrayLike) -> Agreement:
    """Compute how far the judges agree on which items are hard.

    Args:
        ratings: judges by items, as for `set_cut`.

    Raises:
        QuizError: when the table is not rectangular or has a gap.
    """
    return intraclass(_read(ratings, "ratings, judges by items").T)


def intraclass(ratings: npt.ArrayLike) -> Agreement:
    """Compute the six intraclass correlations.

    Args:
        ratings: targets by judges, any numbers.

    Raises:
        QuizError: when the table is not rectangular or has a gap.

    Source: Shrout & Fleiss 1979, Psychological Bulletin 86:420-428.

    >>> found = intraclass([[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]])
    >>> [round(form.value, 2) for form in (found.one_way, found.random, found.fixed)]
    [0.17, 0.29, 0.71]
    """
    table = _read(ratings, "ratings, targets by judges")
    if not np.isfinite(table).all():
        raise QuizError("expected a rating of every target by every judge")
    targets, judges = table.shape
    if targets < 2 or judges < 2:
        none = Statistic(None, f"needs two targets and two judges, has {targets} and {judges}")
        return Agreement(none, none, none, none, none, none)
    mean, by_target, by_judge = table.mean(), table.mean(axis=1), table.mean(axis=0)
    between = judges * float(((by_target - mean) ** 2).sum()) / (targets - 1)
    within = float(((table - by_target[:, None]) ** 2).sum()) / (targets * (judges - 1))
    judge = targets * float(((by_judge - mean) ** 2).sum()) / (judges - 1)
    residual = table - by_target[:, None] - by_judge + mean
    error = float((residual**2).sum()) / ((targets - 1) * (judges - 1))
    level = (judge - error) / targets
    return Agreement(
        one_way=_share(between - within, between + (judges - 1) * within),
        random=_share(between - error, between + (judges - 1) * error + judges * level),
        fixed=_share(between - error, between + (judges - 1) * error),
        one_way_mean=_share(between - within, between),
        random_mean=_share(between - error, between + level),
        fixed_mean=_share(between - error, between),
    )


def _share(part: float, whole: float) -> Statistic:
    # Below zero only by rounding, or where the judges' levels differ less than their errors do on targets all alike.
    if whole <= 1e-12:
        return Statistic(None, "the targets do not differ")
    return Statistic(part / whole)


def _read(ratings: npt.ArrayLike, what: str) -> Floats:
    try:
        table = np.asarray(ratings, dtype=np.float64)
    except (TypeError, ValueError):
        raise QuizError(f"expected a table of {what}, all rows of one length") from None
    if table.ndim != 2 or table.size == 0:
        raise QuizError(f"expected a table of {what}, got {'an empty one' if table.ndim == 2 else 'something else'}")
    return table
