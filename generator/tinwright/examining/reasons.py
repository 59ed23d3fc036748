"""Why to look at an item, in plain words. A reason sends somebody to read the item again; it proves nothing."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.quizzes.intervals import wilson
from tinwright.quizzes.item_statistics import EVERYBODY_RIGHT, NEGATIVE, NOBODY_RIGHT
from tinwright.quizzes.option_statistics import BEATS_KEY, DRAWS_STRONG, KEY_DRAWS_WEAK, RARE
from tinwright.quizzes.questions import letter_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.quizzes.item_statistics import ItemStatistics
    from tinwright.quizzes.option_statistics import OptionAnalysis
    from tinwright.quizzes.questions import Question

__all__ = ["Reason", "reasons_for"]


_MINOR = 4
"""Ranks from here on are minor."""


@dataclass(frozen=True, order=True)
class Reason:
    """A reason to look at an item."""

    rank: int
    """How grave: 0 is that the key may be wrong."""
    name: str
    """A short name, for a table."""
    words: str
    """The reason in a sentence or two."""

    @property
    def minor(self) -> bool:
        """Whether it is about a question that tells people apart little, and not about one that may be wrong."""
        return self.rank >= _MINOR


def reasons_for(
    statistics: ItemStatistics | None, options: OptionAnalysis | None, question: Question | None, *, dropped: bool
) -> tuple[Reason, ...]:
    """Return the reasons to look at an item, the gravest first; none for an item that is dropped already.

    Args:
        statistics: its numbers; None when there are too few people.
        options: how its options did, if it has any.
        question: the question, where it is at hand.
        dropped: whether a correction counts it as right for everybody.
    """
    if dropped or statistics is None:
        return ()
    return tuple(sorted({*_of_numbers(statistics, question), *_of_options(options, question)}))


def _of_numbers(statistics: ItemStatistics, question: Question | None) -> Iterator[Reason]:
    corrected, difficulty, people = statistics.corrected.value, statistics.difficulty.value, statistics.people
    if NEGATIVE in statistics.flags and corrected is not None:
        chance = "; with so few people that may be chance" if -corrected < _noise(people) else ""
        yield Reason(
            0 if not chance else 2,
            NEGATIVE,
            f"Those who know the rest have it wrong more often than the others (r = {_signed(corrected)}{chance}): "
            "is the key right, and can it be read in two ways?",
        )
    if NOBODY_RIGHT in statistics.flags:
        yield Reason(0, NOBODY_RIGHT, "Nobody had it right: is the key right, and is it taught?")
    if EVERYBODY_RIGHT in statistics.flags:
        yield Reason(4, EVERYBODY_RIGHT, "Everybody had it right: keep it only if all must know it.")
    elif difficulty is not None and question is not None:
        high = wilson(min(difficulty * people, people), people).high
        if difficulty > 0 and high < question.difficulty:
            yield Reason(
                3,
                "harder-than-judged",
                f"{difficulty:.0%} had it right; {question.difficulty:.0%} of those who only just qualify were "
                "expected to. Unless most were not ready: is it clear, is it taught, was it judged too easy?",
            )


def _of_options(options: OptionAnalysis | None, question: Question | None) -> Iterator[Reason]:
    if options is None or question is None:
        return
    rare = []
    right = "the right one" if question.asks != "several-answers" else "a right one"
    for place, option in enumerate(options.options):
        letter = letter_of(place)
        share = f"{option.share:.0%} chose it"
        strong = option.correlation.value is not None and option.correlation.value > _noise(options.people)
        if BEATS_KEY in option.flags:
            yield Reason(
                0 if strong else 1,
                BEATS_KEY,
                f"The wrong answer {letter} is chosen more often than {right} ({share}): may it be right?",
            )
        elif DRAWS_STRONG in option.flags and strong:
            yield Reason(1, DRAWS_STRONG, f"The wrong answer {letter} draws those who know the rest: may it be right?")
        if KEY_DRAWS_WEAK in option.flags and question.asks == "several-answers":
            yield Reason(
                2, KEY_DRAWS_WEAK, f"Those who know the rest leave out the right answer {letter}: is it clear?"
            )
        if RARE in option.flags:
            rare.append(letter)
    if rare:
        yield Reason(5, RARE, f"Hardly anybody takes {', '.join(rare)}: such a wrong answer does no work.")


def _noise(people: int) -> float:
    """Return two standard errors of a correlation of zero."""
    return 2 / math.sqrt(people)


def _signed(value: float) -> str:
    return f"{value:.2f}".replace("-", "\N{MINUS SIGN}")
