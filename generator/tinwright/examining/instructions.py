"""What each kind of question asks of the reader, in words; the same on paper and on the page."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tinwright.quizzes.questions import Asks

__all__ = ["HOW_TO", "UNIT_WORDS", "unit_words"]

HOW_TO: dict[Asks, str] = {
    "one-answer": "Choose one answer.",
    "several-answers": "Choose every right answer.",
    "order": "Put the steps in order.",
    "match": "Give each number the letter that belongs to it. A letter may be used again, or not at all.",
    "number": "Work out the number.",
    "point": "Choose the letter of the place in the drawing.",
}
"""What to do, under the question."""

UNIT_WORDS = {"in": "inches", "mm": "millimeters"}
"""Units that are written short in the files, in words."""


def unit_words(unit: str) -> str:
    """Return what a number is counted in, in words.

    >>> unit_words("in"), unit_words("turns")
    ('inches', 'turns')
    """
    return UNIT_WORDS.get(unit, unit)
