"""Sealers and their parts."""

from __future__ import annotations

import re
from enum import StrEnum
from typing import Annotated, ClassVar

from pydantic import AfterValidator, Field, ValidationInfo, field_validator

from tinwright.knowledge.models.base import (
    Evidence,
    LengthField,
    Model,
    Photo,
    Record,
    Statement,
    Text,
    TurnsField,
    ref,
)
from tinwright.measures import parse_size, screw_travel_in

__all__ = [
    "Adjuster",
    "AdjusterScrew",
    "Chuck",
    "Drive",
    "Gauge",
    "Part",
    "RollerSlot",
    "Sealer",
    "SpacerKind",
]


def _readable_size(code: str) -> str:
    parse_size(code)
    return code


SizeText = Annotated[str, AfterValidator(_readable_size)]
"""One dimension of a can code, such as `307`, in quotes."""


def _readable_thread(thread: str) -> str:
    screw_travel_in(thread)
    return thread


ThreadText = Annotated[str, AfterValidator(_readable_thread)]
"""A screw thread, such as `1/4-20`, `No. 10-32` or `M6`."""


class Drive(StrEnum):
    """How the rollers are brought to the seam."""

    CRANK_CAM = "crank-cam"
    """A cam on the crank brings in first one roller, then the other."""
    HAND_LEVER = "hand-lever"
    """The operator brings in each roller with a lever."""
    MOTOR = "motor"
    """A motor turns the can and a cam brings in the rollers."""


class Adjuster(StrEnum):
    """What a correction acts on."""

    CAN_AND_LID = "can-and-lid"
    """The empty can, its flange, the lid, its curl and its compound."""
    FILLING = "filling"
    """What is in the can, and how full it is."""
    HANDLING = "handling"
    """How cans and lids are carried, stored and cooled."""
    OPERATION = "operation"
    """How the sealer is worked: speed, number of turns, order of the rollers."""
    CHUCK = "chuck"
    """The chuck: size, seating, wear."""
    BASE_HEIGHT = "base-height"
    """Distance from chuck to base plate, set with spacers."""
    BASE_PRESSURE = "base-pressure"
    """Force with which the base plate lifts the can against the chuck."""
    ROLLER_HEIGHT = "roller-height"
    """Height of a roller against the chuck, and its end play."""
    FIRST_ROLLER = "first-roller"
    """The roller of the first operation: its distance from the chuck, its groove."""
    SECOND_ROLLER = "second-roller"
    """The roller of the second operation: its distance from the chuck, its groove."""


class Part(Record):
    """A part of a sealer."""

    kind: ClassVar[str] = "part"
    folder: ClassVar[str] = "parts"

    title: Text
    """Name of the part."""
    also: tuple[Text, ...] = ()
    """Other names in use."""
    does: Statement
    """What it does."""
    inspect: tuple[Statement, ...] = Field(min_length=1)
    """How to inspect it."""
    wear: tuple[Statement, ...] = ()
    """Signs of wear or damage."""
    when_worn: tuple[ref("cause"), ...] = ()  # type: ignore[valid-type]
    """Causes of bad seams that this part leads to when it is worn, damaged or wrongly set."""
    procedures: tuple[ref("procedure"), ...] = ()  # type: ignore[valid-type]
    """Procedures in which it is fitted, set, cleaned or replaced."""
    cautions: tuple[ref("caution"), ...] = ()  # type: ignore[valid-type]
    """Cautions where this part can hurt."""
    figure: Text | None = None
    """Name of a part drawing that the product knows; see `tinwright schema`."""
    photos: tuple[Photo, ...] = ()
    """The program's own photographs."""


class Chuck(Model):
    """A chuck the sealer has."""

    size: SizeText
    """Diameter code of the can end it fits, such as `307`."""


class RollerSlot(Model):
    """A position of the rollers, and the can diameters it is for."""

    slot: Text
    """How the slot is marked on the sealer."""
    sizes: tuple[SizeText, ...] = Field(min_length=1)
    """Diameter codes it is for."""


class SpacerKind(Model):
    """Spacers of one thickness."""

    name: Text
    """What to call it, such as `thin spacer` or `extension`."""
    size: LengthField
    """Thickness."""
    count: int = Field(ge=1, le=20)
    """How many of them the sealer has."""


class AdjusterScrew(Model):
    """A place where the sealer is adjusted."""

    adjuster: Adjuster
    """What it sets."""
    part: ref("part")  # type: ignore[valid-type]
    """The part that is turned or moved."""
    tighten: Text
    """How to move it to tighten: bring the roller nearer the chuck, raise the pressure, or lift the base."""
    loosen: Text
    """How to move it the other way."""
    thread: ThreadText | None = None
    """Thread of the screw, such as `1/4-20` or `M6`; helps to check the travel that was measured."""
    travel_per_turn: LengthField | None = None
    """Measured movement of the roller (not of the screw) for one turn; left out when it was not measured."""
    safe_step: TurnsField | None = None
    """Largest step to take before a test can."""


_AMOUNT_IN_WORDS = re.compile(
    r"\b(?:half|quarter|third|eighth|sixteenth|\d+/\d+|one|two|a (?:full|whole))\s+(?:of\s+)?(?:an?\s+)?turns?\b",
    re.IGNORECASE,
)


class Gauge(Model):
    """A wire, pin or feeler used to set a roller."""

    adjuster: Adjuster
    """What it sets."""
    name: Text
    """What it is called on this sealer, such as `flat feeler marked 1`."""
    diameter: LengthField | None = None
    """Measured diameter or thickness; left out when it comes with the sealer and was not measured."""
    use: Text
    """How it is used, up to contact: what is felt when roller, gauge and chuck just touch."""
    after_contact: TurnsField | None = None
    """How far the screw goes on past contact, the same way; left out when it stops there. At most the safe step."""
    right_when: Text | None = None
    """What is felt when the setting is right and locked."""

    @field_validator("use", "right_when")
    @classmethod
    def _turns_stand_as_a_figure(cls, text: str | None) -> str | None:
        if text and (found := _AMOUNT_IN_WORDS.search(text)):
            message = f"an amount of turning belongs in 'after_contact', where it is checked; got {found[0]!r}"
            raise ValueError(message)
        return text

    @property
    def orders(self) -> str:
        """All that is done with it, in order, as one text."""
        more = f"Turn the screw {self.after_contact} turn more, the same way." if self.after_contact else None
        return " ".join(part for part in (self.use, more, self.right_when) if part)


class Sealer(Record):
    """A can sealer of the program."""

    kind: ClassVar[str] = "sealer"
    folder: ClassVar[str] = "sealers"

    title: Text
    """What the program calls it."""
    drive: Drive
    """How the rollers are brought in."""
    about: Text
    """What it is, in a few sentences."""
    chucks: tuple[Chuck, ...] = Field(min_length=1)
    """The chucks it has."""
    roller_slots: tuple[RollerSlot, ...] = ()
    """The roller positions by can diameter; none when the rollers need no moving."""
    seat_height: LengthField | None = None
    """From the chuck's seat to the bare base, lever home: the height of a can that needs no spacer; left out until it
    is measured."""
    spacers: tuple[SpacerKind, ...] = ()
    """The spacers it has."""
    spring_travel: LengthField | None = None
    """How far the base spring gives when the can is lifted against the chuck."""
    adjusters: tuple[AdjusterScrew, ...] = Field(min_length=1)
    """Where it is adjusted."""
    gauges: tuple[Gauge, ...] = ()
    """The gauges it is set with, none of which moves a roller farther past contact than its safe step."""
    parts: tuple[ref("part"), ...] = Field(min_length=1)  # type: ignore[valid-type]
    """The parts it has."""
    procedures: tuple[ref("procedure"), ...] = ()  # type: ignore[valid-type]
    """Procedures for this sealer in particular."""
    cautions: tuple[ref("caution"), ...] = ()  # type: ignore[valid-type]
    """Cautions for this sealer in particular."""
    evidence: Evidence
    """Where its figures come from; `invented` in the demonstration."""
    photos: tuple[Photo, ...] = ()
    """The program's own photographs."""

    @field_validator("gauges")
    @classmethod
    def _stay_within_the_safe_step(cls, gauges: tuple[Gauge, ...], info: ValidationInfo) -> tuple[Gauge, ...]:
        steps = {screw.adjuster: screw.safe_step for screw in info.data.get("adjusters", ())}
        for gauge in gauges:
            if gauge.after_contact is None:
                continue
            roller = gauge.adjuster.replace("-", " ")
            if (step := steps.get(gauge.adjuster)) is None:
                message = f"{gauge.name}: 'after_contact' needs a 'safe_step' of the {roller} to be checked against"
                raise ValueError(message)
            if gauge.after_contact > step:
                expected = f"expected after_contact of at most the safe step of the {roller}, {step} turn"
                message = f"{gauge.name}: {expected}, got {gauge.after_contact} turn"
                raise ValueError(message)
        return gauges
