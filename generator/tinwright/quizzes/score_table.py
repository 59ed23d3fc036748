"""The table of scores that item statistics and reliability start from, checked."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from tinwright.errors import QuizError

if TYPE_CHECKING:
    import numpy.typing as npt

__all__ = ["read_scores"]


def read_scores(scores: npt.ArrayLike) -> npt.NDArray[np.float64]:
    """Read a table of scores, people down and items across, and check it.

    Args:
        scores: 0 to 1 in each cell; None or NaN where the item was not on that person's form. An item that was left
            blank was seen, and scores 0.

    Raises:
        QuizError: when the table is not rectangular, a score is outside 0 to 1, or somebody saw fewer than two items.

    >>> read_scores([[1, 0], [0.5, None], [1, 1]])
    Traceback (most recent call last):
        ...
    tinwright.errors.QuizError: expected at least two items scored for each person, got 1 for person 2
    """
    try:
        table = np.asarray(scores, dtype=np.float64)
    except (TypeError, ValueError):
        raise QuizError("expected a table of scores with one row for each person, all of one length") from None
    if table.ndim != 2:
        raise QuizError(f"expected a table of scores, people by items, got {table.ndim} dimension(s)")
    # Comparisons with NaN are false, so a cell that was not seen is not outside.
    outside = (table < 0) | (table > 1)
    if outside.any():
        person, item = np.argwhere(outside)[0]
        got = table[person, item]
        raise QuizError(f"expected scores from 0 to 1, got {got:g} for person {person + 1}, item {item + 1}")
    seen = np.count_nonzero(~np.isnan(table), axis=1)
    if (seen < 2).any():
        person = int(np.argmax(seen < 2))
        raise QuizError(
            f"expected at least two items scored for each person, got {seen[person]} for person {person + 1}"
        )
    return table
