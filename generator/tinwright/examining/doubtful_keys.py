"""Questions whose key should be looked at again before anybody is told a result: plain counts, no statistics."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tinwright.examining.grading import GradedSheet

__all__ = ["FEWEST_SHEETS", "doubtful_keys"]

FEWEST_SHEETS = 5
"""From how many sheets on one answer can be called shared; common practice, no source."""


def doubtful_keys(graded: Sequence[GradedSheet]) -> Iterator[str]:
    """Tell each question on which more people gave one same wrong answer than the right one.

    That is no statistic and proves nothing: the key is wrong, the question misleads, or all were taught wrong.

    Args:
        graded: sheets of one form.
    """
    if len(graded) < FEWEST_SHEETS:
        return
    for number, item in enumerate((item for item, _, _ in graded[0].responses), 1):
        answers = [row.responses[number - 1] for row in graded]
        right = sum(points == 1 for _, _, points in answers)
        wrong = Counter(answer for _, answer, points in answers if answer is not None and points == 0)
        if not wrong:
            continue
        answer, count = wrong.most_common(1)[0]
        if count > right:
            yield (
                f"look at question {number} ({item}) and its key: {count} of {len(graded)} answered {answer}, "
                f"{right} gave the right answer"
            )
