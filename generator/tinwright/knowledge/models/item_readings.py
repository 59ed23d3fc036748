"""Readings of a seam that an item asks about: limits, the points of one can, and what follows from them."""

from __future__ import annotations

from typing import Literal, Self

from pydantic import Field, model_validator

from tinwright.knowledge.models.base import LengthField, Model, ref
from tinwright.knowledge.models.can import Dimension

__all__ = ["ReadPoint", "ReadingsLimit", "ReadingsTable"]


class ReadingsLimit(Model):
    """What the sheet in the question allows of one dimension; at least one of the two is given."""

    dimension: Dimension
    """What is limited."""
    min: LengthField | None = None
    """Least that is allowed."""
    max: LengthField | None = None
    """Most that is allowed."""

    @model_validator(mode="after")
    def _limits_something(self) -> Self:
        if self.min is None and self.max is None:
            raise ValueError("expected a min or a max")
        if self.min is not None and self.max is not None and self.min.inches > self.max.inches:
            raise ValueError(f"expected min <= max, got {self.min} and {self.max}")
        return self


class ReadPoint(Model):
    """What was read at one point of the seam."""

    countersink: LengthField | None = None
    """Countersink depth."""
    seam_width: LengthField | None = None
    """Seam width."""
    seam_thickness: LengthField | None = None
    """Seam thickness."""
    body_hook: LengthField | None = None
    """Body hook."""
    cover_hook: LengthField | None = None
    """Cover hook."""


class ReadingsTable(Model):
    """A column of readings to decide on. The verdict, and what else is claimed, is checked by the product's own."""

    limits: tuple[ReadingsLimit, ...] = ()
    """The sheet that the question gives; invented for it. None where the question is not about a verdict."""
    end_plate: LengthField
    """Thickness of the lid's plate."""
    body_plate: LengthField
    """Thickness of the body's plate."""
    points: tuple[ReadPoint, ...] = Field(min_length=1, max_length=4)
    """What was read, point by point."""
    verdict: Literal["accept", "measure-again", "reject", "no-limit"]
    """The verdict that the answer rests on, with the instruments of the program; `no-limit` where there is no sheet."""
    cause: ref("cause") | None = None  # type: ignore[valid-type]
    """The cause that the answer rests on: the first that the cause finder names for these readings."""
