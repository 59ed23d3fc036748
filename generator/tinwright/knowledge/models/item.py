"""Items of the question bank: one model for each way of asking."""

from __future__ import annotations

from decimal import Decimal
from enum import StrEnum
from typing import ClassVar, Literal, Self

from pydantic import Field, model_validator

from tinwright.knowledge.models.base import Id, Model, Record, Text, any_ref, ref
from tinwright.knowledge.models.item_readings import ReadingsTable
from tinwright.knowledge.models.machine import Drive

__all__ = [
    "ASKS",
    "Item",
    "Match",
    "Mistake",
    "NumberItem",
    "OneAnswer",
    "Option",
    "OrderSteps",
    "Pair",
    "PointAt",
    "SeveralAnswers",
    "Unit",
    "Use",
]


class Use(StrEnum):
    """Where an item may be shown."""

    PRACTICE = "practice"
    """In practice quizzes on the site, with its answer."""
    EXAMINATION = "examination"
    """In examinations only; never on the site."""


class Unit(StrEnum):
    """What a number is counted in."""

    INCH = "in"
    """Inches."""
    MILLIMETER = "mm"
    """Millimeters."""
    PERCENT = "percent"
    """Hundredths of the whole."""
    TURN = "turns"
    """Turns of a screw or a crank."""
    CAN = "cans"
    """Cans."""
    PIECE = "pieces"
    """Pieces, such as spacers."""
    POINT = "points"
    """Points of measurement around the can."""
    MINUTE = "minutes"
    """Minutes."""
    HOUR = "hours"
    """Hours."""
    MONTH = "months"
    """Months."""
    YEAR = "years"
    """Years."""


class Item(Record):
    """What every item has, whatever it asks for."""

    kind: ClassVar[str] = "item"
    folder: ClassVar[str] = "items"

    topic: ref("topic")  # type: ignore[valid-type]
    """Topic of the blueprint it belongs to."""
    use: Use
    """`practice` or `examination`."""
    critical: bool = False
    """True when getting it wrong at the sealer could hurt somebody."""
    difficulty: float = Field(ge=0.2, le=0.98)
    """Share of volunteers who are only just good enough that would get it right, as its author judges."""
    drives: tuple[Drive, ...] = ()
    """Drives that it is about; it is asked where one of them is in use. Left out where it holds for every sealer."""
    parts: tuple[ref("part"), ...] = ()  # type: ignore[valid-type]
    """Parts that a sealer must have for it to make sense there, such as `belt-guard`."""
    question: Text
    """What is asked, as a full sentence."""
    drawing: ref("defect") | None = None  # type: ignore[valid-type]
    """Defect whose drawing is shown with the question, without its name."""
    readings: ReadingsTable | None = None
    """Readings of a seam to decide on, shown as a table under the question."""
    why: Text
    """Why the right answer is right, in one to three sentences."""
    teaches: tuple[any_ref(), ...] = Field(min_length=1)  # type: ignore[valid-type]
    """Records that teach the answer, as `kind/id`, the one to read first; their evidence is the item's."""
    enemies: tuple[Id, ...] = ()
    """Items that give this one away, or that ask the same; they never stand in one form with it."""
    anchor: bool = False
    """True when it may stand in more than one form, to compare them."""

    @property
    def title(self) -> str:
        """The question, as the item's name."""
        return str(self.question)


class Option(Model):
    """One answer to choose."""

    text: Text
    """What it says."""
    right: bool = False
    """True for a right answer."""
    why: Text
    """For a wrong one, why it tempts and where it goes wrong; for a right one, why it is right."""


class OneAnswer(Item):
    """Choose the one right answer."""

    asks: Literal["one-answer"]
    """What the item asks for."""
    options: tuple[Option, ...] = Field(min_length=3, max_length=5)
    """The answers to choose from, one of them right."""

    @model_validator(mode="after")
    def _one_right(self) -> Self:
        right = sum(option.right for option in self.options)
        if right != 1:
            raise ValueError(f"expected one option with 'right: true', got {right}")
        return self


class SeveralAnswers(Item):
    """Choose every right answer."""

    asks: Literal["several-answers"]
    """What the item asks for."""
    options: tuple[Option, ...] = Field(min_length=4, max_length=7)
    """The answers to choose from, at least two of them right and at least one wrong."""

    @model_validator(mode="after")
    def _some_right(self) -> Self:
        right = sum(option.right for option in self.options)
        if not 2 <= right < len(self.options):
            raise ValueError(
                f"expected at least two right options and one wrong, got {right} of {len(self.options)} right"
            )
        return self


class Mistake(Model):
    """A wrong answer that tempts."""

    answer: Text
    """What is answered."""
    why: Text
    """Why it tempts and where it goes wrong."""


class OrderSteps(Item):
    """Put steps into their order."""

    asks: Literal["order"]
    """What the item asks for."""
    steps: tuple[Text, ...] = Field(min_length=3, max_length=7)
    """The steps in their right order; a reader gets them mixed."""
    mistakes: tuple[Mistake, ...] = Field(min_length=1)
    """Orders that tempt, in words."""


class Pair(Model):
    """What belongs together."""

    left: Text
    """What is given."""
    right: Text
    """What belongs to it."""
    why: Text
    """Why they belong together, and what it is taken for by mistake."""


class Match(Item):
    """Give each thing on the left what belongs to it on the right."""

    asks: Literal["match"]
    """What the item asks for."""
    pairs: tuple[Pair, ...] = Field(min_length=3, max_length=6)
    """The pairs; two may share one right side."""
    spare: tuple[Mistake, ...] = ()
    """Right sides that belong to none."""

    @model_validator(mode="after")
    def _lefts_differ(self) -> Self:
        lefts = [pair.left for pair in self.pairs]
        if len(set(lefts)) != len(lefts):
            raise ValueError("expected every 'left' once, got one twice")
        return self


class WrongNumber(Model):
    """A wrong number that tempts."""

    number: Decimal
    """The number somebody gets who makes the slip."""
    why: Text
    """The slip."""


class NumberItem(Item):
    """Work out a number."""

    asks: Literal["number"]
    """What the item asks for."""
    unit: Unit
    """What the number is counted in."""
    answer: Decimal
    """The right number."""
    low: Decimal
    """Lowest number that counts as right."""
    high: Decimal
    """Highest number that counts as right."""
    mistakes: tuple[WrongNumber, ...] = Field(min_length=1)
    """Wrong numbers that tempt, each with the slip behind it."""

    @model_validator(mode="after")
    def _range_holds(self) -> Self:
        if not self.low <= self.answer <= self.high:
            raise ValueError(f"expected low <= answer <= high, got {self.low}, {self.answer}, {self.high}")
        for mistake in self.mistakes:
            if self.low <= mistake.number <= self.high:
                raise ValueError(
                    f"the mistake {mistake.number} counts as right: it lies within {self.low} to {self.high}"
                )
        return self


class Misplaced(Model):
    """A wrong place that tempts."""

    place: Id
    """The place somebody points at."""
    why: Text
    """Why it tempts and where it goes wrong."""


class PointAt(Item):
    """Point at a place in a drawing."""

    asks: Literal["point"]
    """What the item asks for."""
    figure: Literal["seam-section", "can-outside", "sealer-crank-cam", "sealer-hand-lever", "sealer-motor"]
    """The drawing, with numbered places."""
    place: Id
    """The right place in it."""
    mistakes: tuple[Misplaced, ...] = Field(min_length=1)
    """Wrong places that tempt."""

    @model_validator(mode="after")
    def _mistakes_are_elsewhere(self) -> Self:
        if any(mistake.place == self.place for mistake in self.mistakes):
            raise ValueError(f"the mistake {self.place!r} is the right place")
        return self


ASKS: dict[str, type[Item]] = {
    "one-answer": OneAnswer,
    "several-answers": SeveralAnswers,
    "order": OrderSteps,
    "match": Match,
    "number": NumberItem,
    "point": PointAt,
}
"""The ways of asking, by the word for each in the files."""
