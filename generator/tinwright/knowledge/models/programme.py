"""The programme: whose site this is, and its own rules."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import ClassVar

from pydantic import Field

from tinwright.knowledge.models.base import LengthField, Model, Record, Statement, Text, ref
from tinwright.knowledge.models.can import Dimension, OverlapVariant

__all__ = ["Accessibility", "EndCheck", "Instrument", "Kitchen", "Policy", "Programme"]


class Kitchen(Model):
    """A place where cans are sealed."""

    name: Text
    """Name of the kitchen."""
    sealers: tuple[ref("sealer"), ...] = ()  # type: ignore[valid-type]
    """The sealers that stand there."""


class Instrument(Model):
    """A measuring instrument and how far its readings can be trusted."""

    name: Text
    """What it is, such as `seam micrometer`."""
    measures: tuple[Dimension, ...] = Field(min_length=1)
    """The dimensions it is used for."""
    standard_uncertainty: LengthField
    """Standard uncertainty of one reading (about half of what one would call its error), before it is rounded to the
    places written down; that rounding is added."""
    calibrated: dt.date | None = None
    """Day on which it was last compared with gauge blocks or the like; left out when it never was."""
    calibration_months: int = Field(default=12, ge=1, le=60)
    """Months a calibration is good for; the program's own rule."""


class EndCheck(StrEnum):
    """How far the check at the end of a session reaches."""

    LOOK = "look"
    """The last can is looked at and felt."""
    MEASURE = "measure"
    """It is measured outside, too."""
    TEARDOWN = "teardown"
    """It, or a test can sealed after it, is torn down."""


class Policy(Model):
    """The program's own rules; there are no published ones for hand sealers."""

    test_cans: int = Field(ge=1, le=20)
    """Empty cans in a row that must pass before any can is filled."""
    recheck_minutes: int = Field(ge=5, le=240)
    """Longest time between two looks at a seam during a session."""
    recheck_cans: int = Field(ge=1, le=200)
    """Most cans sealed between two looks."""
    teardown_minutes: int = Field(default=240, ge=15, le=480)
    """Longest time of work between two cans torn down: a look clears no can of a fault that shows only inside. A rule
    for commercial canners has at most 4 hours (21 CFR 113.60(a)(1)); that is what counts when left out."""
    teardown_cans: int | None = Field(default=None, ge=1, le=1000)
    """Most cans sealed between two cans torn down; no such limit when left out."""
    end_check: EndCheck = EndCheck.TEARDOWN
    """The check at the end of a session: whatever it does not reach is held when a fault is found later."""
    review_months: int = Field(ge=1, le=120)
    """Months after which a record is due for review."""
    certificate_years: int = Field(ge=1, le=5)
    """Years a volunteer's certificate is valid."""
    exam_sittings: int = Field(default=2, ge=1, le=10)
    """Most sittings of one examination within `exam_months`, each with its second try on the same day."""
    exam_months: int = Field(default=12, ge=1, le=60)
    """Months in which those sittings are counted."""
    exam_wait_days: int = Field(default=14, ge=0, le=365)
    """Fewest days from a sitting that was not passed to the next one."""
    exam_coaching: bool = True
    """Whether coaching must be noted in the register before a second try and before another sitting."""
    practice_pass_percent: int = Field(default=80, ge=50, le=100)
    """Share of the points, in percent, that passes a practice quiz."""
    overlap_variant: OverlapVariant = OverlapVariant.A
    """Formula for percent overlap where no seam specification names one."""
    tightness_step_percent: int = Field(default=10, ge=1, le=50)
    """Step to which tightness is rated by eye, in percent. Our own judgment: no published figure was found."""


class Accessibility(Model):
    """What only the office can say in the site's accessibility statement."""

    rule: Statement | None = None
    """The law or rule the office goes by."""
    limits: tuple[Text, ...] = ()
    """What the office knows to be hard for some readers, or has not had anybody try."""


class Programme(Record):
    """The Extension program that publishes the site."""

    kind: ClassVar[str] = "programme"
    folder: ClassVar[str] = "programme"

    title: Text
    """Name of the program."""
    office: Text
    """The Extension office."""
    about: Text
    """What the program does, in a few sentences."""
    altitude_ft: int = Field(ge=-300, le=15000)
    """Altitude of the kitchens in feet."""
    contact: Text | None = None
    """How a reader reaches the office, such as a telephone number with its hours and an address for mail."""
    local_rules: Text
    """Whom to ask about local rules and food programs."""
    demonstration: bool = False
    """True for an invented program; every page then says so."""
    kitchens: tuple[Kitchen, ...] = Field(min_length=1)
    """The kitchens."""
    instruments: tuple[Instrument, ...] = ()
    """The measuring instruments."""
    policy: Policy
    """The program's own rules."""
    accessibility: Accessibility = Accessibility()
    """What the accessibility statement says beyond what is true of every such site."""
