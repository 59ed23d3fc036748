"""What was found at the benches of the programme: how often each cause was confirmed, and no more."""

from __future__ import annotations

import datetime as dt
from typing import ClassVar

from pydantic import Field, field_validator

from tinwright.knowledge.models.base import Model, Record, ref

__all__ = ["ConfirmedCause", "SeenHere"]


class ConfirmedCause(Model):
    """How often a cause was confirmed behind a defect on a sealer."""

    sealer: ref("sealer")  # type: ignore[valid-type]
    """The sealer it was on."""
    defect: ref("defect")  # type: ignore[valid-type]
    """The defect that was found."""
    cause: ref("cause")  # type: ignore[valid-type]
    """The cause that was confirmed behind it."""
    times: int = Field(ge=1, le=100_000)
    """How often."""


class SeenHere(Record):
    """Counts of confirmed causes, written by `tinwright log counts`: no person, no session, no day."""

    kind: ClassVar[str] = "seen-here"
    folder: ClassVar[str] = "seen-here"

    reviewed: dt.date = dt.date.max
    """Leave it out: counts are counted again, not reviewed."""
    through: int = Field(ge=1900, le=2999)
    """The year up to which it was counted."""
    invented: bool = False
    """True for counts made up for a demonstration; every page that shows one then says so."""
    confirmed: tuple[ConfirmedCause, ...] = ()
    """The counts; each sealer, defect and cause once."""

    @field_validator("confirmed")
    @classmethod
    def _each_once(cls, confirmed: tuple[ConfirmedCause, ...]) -> tuple[ConfirmedCause, ...]:
        seen = set()
        for count in confirmed:
            key = (count.sealer, count.defect, count.cause)
            if key in seen:
                raise ValueError(f"{', '.join(key)} stands here twice: add the two up")
            seen.add(key)
        return confirmed
