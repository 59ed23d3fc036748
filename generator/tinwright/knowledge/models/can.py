"""Cans by size code, and what a can supplier says a good seam on them measures."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated, ClassVar, Self

from pydantic import AfterValidator, Field, StringConstraints, model_validator

from tinwright.knowledge.models.base import Amount, Evidence, LengthField, Model, Record, Statement, Text, ref
from tinwright.knowledge.models.limits import LimitField, PercentLimit
from tinwright.measures import parse_can_code

__all__ = [
    "Can",
    "Capacity",
    "ComputedValue",
    "Dimension",
    "DimensionLimits",
    "OverlapVariant",
    "SeamSpecification",
    "SheetReader",
    "SheetReading",
]


def _readable_code(code: str) -> str:
    parse_can_code(code)
    return code


CanCodeText = Annotated[str, AfterValidator(_readable_code)]
"""A can size code such as `307x409` or `307x200.25`."""


class Dimension(StrEnum):
    """What is measured or rated on a double seam; the standards' names."""

    COUNTERSINK = "countersink"
    SEAM_WIDTH = "seam-width"
    SEAM_THICKNESS = "seam-thickness"
    BODY_HOOK = "body-hook"
    COVER_HOOK = "cover-hook"
    OVERLAP = "overlap"
    TIGHTNESS = "tightness"


class ComputedValue(StrEnum):
    """What is worked out from the readings and may have a limit of its own."""

    PERCENT_OVERLAP = "percent-overlap"
    BODY_HOOK_BUTTING = "body-hook-butting"


class Capacity(Model):
    """How much a can holds, with the unit in the field's name because the two ounces differ by 4 percent."""

    oz_water_68f: Amount
    """Avoirdupois ounces of water at 68 °F that fill the can: a weight, not fluid ounces."""
    evidence: Evidence
    """Where the figure comes from."""


class Can(Record):
    """A round can of one size."""

    kind: ClassVar[str] = "can"
    folder: ClassVar[str] = "cans"

    code: CanCodeText
    """Size code, diameter by height, in quotes: whole inches, then two digits of sixteenths."""
    names: tuple[Text, ...] = ()
    """Common names in the trade, such as `No. 2`."""
    capacity: Capacity | None = None
    """What it holds; left out where no figure was found."""
    notes: tuple[Statement, ...] = ()
    """What a buyer or sealer of this can should know."""
    evidence: Evidence
    """Where the size itself comes from."""

    @property
    def name(self) -> str:
        """Code and first common name, such as `307x409 (No. 2)`."""
        return f"{self.code} ({self.names[0]})" if self.names else self.code


class DimensionLimits(Model):
    """What a supplier's sheet says of one dimension: both limits, or `no limit` where it has none."""

    dimension: Dimension
    """The dimension."""
    aim: LengthField | None = None
    """Value to aim for."""
    min: LimitField
    """Least value allowed, or `no limit`."""
    max: LimitField
    """Greatest value allowed, or `no limit`."""

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.dimension is Dimension.TIGHTNESS:
            raise ValueError("tightness is rated in percent: use 'tightness_percent_min'")
        values = [value for value in (self.min, self.aim, self.max) if value is not None]
        if sorted(values) != values:
            raise ValueError("expected min, aim and max in rising order")
        return self


class OverlapVariant(StrEnum):
    """Which published formula for percent overlap a limit is meant for; they differ by 3 to 6 points."""

    A = "A"
    B = "B"
    C = "C"


class SheetReader(Model):
    """Somebody who read the numbers of a sheet against the paper they come from."""

    who: Text
    """Who it was; initials will do, for this is published."""
    day: dt.date
    """The day."""


class SheetReading(Model):
    """That a sheet was read against the paper, number by number, by two people."""

    digest: Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{16}$")]
    """What `tinwright sheet` showed on that day; another one as soon as a number is another."""
    by: tuple[SheetReader, ...] = Field(min_length=2)
    """The two people."""


class SeamSpecification(Record):
    """A can supplier's sheet: limits of the seam for some cans. The product has none of its own."""

    kind: ClassVar[str] = "seam-specification"
    folder: ClassVar[str] = "seam-specifications"

    title: Text
    """What to call it."""
    supplier: Text
    """Whose sheet it is."""
    cans: tuple[ref("can"), ...] = Field(min_length=1)  # type: ignore[valid-type]
    """The cans it is for."""
    end_plate: LengthField
    """Thickness of the end (cover) plate."""
    body_plate: LengthField
    """Thickness of the body plate."""
    limits: tuple[DimensionLimits, ...] = Field(min_length=1)
    """Limits of each dimension."""
    overlap_percent_min: PercentLimit
    """Least percent overlap, or `no limit`."""
    overlap_variant: OverlapVariant = OverlapVariant.A
    """Formula the percent overlap limit is meant for."""
    butting_percent_min: PercentLimit
    """Least body hook butting, in percent, or `no limit`."""
    tightness_percent_min: PercentLimit
    """Least tightness rating, in percent, or `no limit`."""
    evidence: Evidence
    """Where the sheet comes from; `invented` for the demonstration."""
    read_against_paper: SheetReading | None = None
    """Who read it against the paper; no seam is accepted by a sheet that was changed since, or never read."""
