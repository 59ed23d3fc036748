"""Questions as plain values: what is asked, what may be answered, and what is right."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from tinwright.errors import QuizError

if TYPE_CHECKING:
    from decimal import Decimal

__all__ = ["Asks", "Choice", "Question", "letter_of"]

Asks = Literal["one-answer", "several-answers", "order", "match", "number", "point"]
"""The ways of asking."""

_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Names of choices: no I and no O, which are read as 1 and 0 on a typed answer sheet."""


def letter_of(index: int) -> str:
    """Return the letter of a choice by its place, counted from 0.

    >>> letter_of(0), letter_of(8)
    ('A', 'J')
    """
    return _LETTERS[index]


@dataclass(frozen=True)
class Choice:
    """Something that can be chosen, placed or paired."""

    text: str
    """What it says."""
    why: str = ""
    """Why it is right, or why it tempts and where it goes wrong."""


@dataclass(frozen=True)
class Question:
    """A question with its answer.

    `key` holds places in `choices`, counted from 0: the one right choice or place, every right choice in rising order,
    the steps in their right order, or for each thing on the left the choice that belongs to it. For a number it is
    empty, and `low` to `high` counts as right.

    Raises:
        QuizError: when the key does not fit the choices.
    """

    id: str
    """Name of the item."""
    topic: str
    """Its topic."""
    asks: Asks
    """The way of asking."""
    text: str
    """The question."""
    choices: tuple[Choice, ...] = ()
    """What can be chosen, placed or paired; none for a number."""
    key: tuple[int, ...] = ()
    """The right answer, as places in `choices`."""
    lefts: tuple[str, ...] = ()
    """For pairs, the things on the left."""
    unit: str | None = None
    """For a number, what it is counted in."""
    answer: Decimal | None = None
    """For a number, the right one."""
    low: Decimal | None = None
    """For a number, the lowest that counts as right."""
    high: Decimal | None = None
    """For a number, the highest that counts as right."""
    wrong_numbers: tuple[tuple[Decimal, str], ...] = ()
    """For a number, wrong ones that tempt, each with the slip behind it."""
    figure: str | None = None
    """For a place in a drawing, the drawing."""
    drawing: str | None = None
    """Defect whose drawing is shown, without its name."""
    table: tuple[tuple[str, ...], ...] = ()
    """Readings shown as a table, headings first; no row where there are none."""
    critical: bool = False
    """True when only the whole answer counts."""
    difficulty: float = 0.7
    """Share of just-qualified people expected to get it right."""
    why: str = ""
    """Why the right answer is right."""
    teaches: tuple[str, ...] = ()
    """Records that teach it, as `kind/id`, the one to read first."""

    def __post_init__(self) -> None:
        if self.asks == "number":
            if self.answer is None or self.low is None or self.high is None or not self.low <= self.answer <= self.high:
                raise QuizError(
                    f"{self.id}: expected low <= answer <= high, got {self.low}, {self.answer}, {self.high}"
                )
            return
        size = len(self.choices)
        if not self.key or not all(0 <= place < size for place in self.key):
            raise QuizError(f"{self.id}: expected a key within {size} choices, got {self.key}")
        if self.asks == "order" and sorted(self.key) != list(range(size)):
            raise QuizError(f"{self.id}: expected every step once in the key, got {self.key}")
        if self.asks == "match" and len(self.key) != len(self.lefts):
            raise QuizError(f"{self.id}: expected a choice for each of {len(self.lefts)} on the left, got {self.key}")
        if self.asks in {"one-answer", "point"} and len(self.key) != 1:
            raise QuizError(f"{self.id}: expected one right choice, got {self.key}")
        if self.asks == "several-answers" and list(self.key) != sorted(set(self.key)):
            raise QuizError(f"{self.id}: expected right choices in rising order, each once, got {self.key}")

    def rearranged(self, order: tuple[int, ...]) -> Question:
        """Return the question with its choices in another order: `order[i]` is where the new choice i stands now."""
        if sorted(order) != list(range(len(self.choices))):
            raise QuizError(f"{self.id}: expected each of {len(self.choices)} choices once, got {order}")
        new_place = {old: new for new, old in enumerate(order)}
        key = tuple(new_place[place] for place in self.key)
        return Question(
            **{
                **self.__dict__,
                "choices": tuple(self.choices[old] for old in order),
                "key": tuple(sorted(key)) if self.asks == "several-answers" else key,
            }
        )
