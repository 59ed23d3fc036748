"""Defects of a seam, and their causes."""

from __future__ import annotations

from enum import StrEnum
from typing import ClassVar, Self

from pydantic import Field, model_validator

from tinwright.knowledge.models.base import Evidence, LengthField, Model, Photo, Record, Statement, Text, ref
from tinwright.knowledge.models.can import ComputedValue, Dimension
from tinwright.knowledge.models.machine import Adjuster

__all__ = [
    "Action",
    "Cause",
    "CauseLink",
    "Change",
    "CheckStep",
    "Conflict",
    "Correction",
    "Defect",
    "Direction",
    "Disposition",
    "Effect",
    "Extent",
    "FigureSpec",
    "FoundBy",
    "HookFeature",
    "HookFigure",
    "Likelihood",
    "LookAlike",
    "OutsideFeature",
    "OutsideFigure",
    "Place",
    "Repeats",
    "Scheme",
    "SectionFeature",
    "SectionFigure",
    "Severity",
]


class FoundBy(StrEnum):
    """How a defect is found."""

    SEE = "see"
    FEEL = "feel"
    MEASURE = "measure"
    TEARDOWN = "teardown"


class LeastCheck(StrEnum):
    """The least check whose good result says that a defect was not there."""

    LOOK = "look"
    """Looked at and felt."""
    MEASURE = "measure"
    """Measured outside."""
    TEARDOWN = "teardown"
    """Torn down."""


class Place(StrEnum):
    """Where on the can a defect shows."""

    BELOW_SEAM = "below-seam"
    """On the body, just under the seam."""
    SEAM_FACE = "seam-face"
    """On the outside face of the seam."""
    SEAM_TOP = "seam-top"
    """On the top edge of the seam."""
    CHUCK_WALL = "chuck-wall"
    """Inside the countersink, on the wall the chuck bears on."""
    END_PANEL = "end-panel"
    """On the flat of the lid."""
    INSIDE_SEAM = "inside-seam"
    """Inside the seam; seen only when it is torn down or measured."""
    CAN_BODY = "can-body"
    """On the can body away from the seam."""
    EMPTY_PARTS = "empty-parts"
    """On the empty can or the lid, before sealing."""


class Extent(StrEnum):
    """How far around the can a defect goes."""

    ALL_ROUND = "all-round"
    PART_ROUND = "part-round"
    ONE_PLACE = "one-place"
    SIDE_SEAM = "side-seam"


class Repeats(StrEnum):
    """How a fault shows from can to can."""

    EVERY_CAN = "every-can"
    """On every can, anywhere or all around."""
    SAME_PLACE = "same-place"
    """At the same place of the chuck on every can."""
    WANDERS = "wanders"
    """On some cans, at no fixed place."""
    ONE_CAN = "one-can"
    """On one can only."""


class Scheme(StrEnum):
    """A published scheme of severity; schemes are never merged."""

    CFIA = "cfia"
    """Canadian Food Inspection Agency, metal can defects: serious, minor."""
    FAO_17 = "fao-17"
    """FAO manual of food quality control 17: unacceptable."""
    AFDO = "afdo"
    """Association of Food and Drug Officials: class I, II, III."""
    CFR_42 = "7-cfr-42"
    """USDA, 7 CFR 42: critical, major, minor."""


class Likelihood(StrEnum):
    """How often a cause is behind a defect, in words: no counts support a number."""

    COMMON = "common"
    OCCASIONAL = "occasional"
    RARE = "rare"


class Direction(StrEnum):
    """Which way a dimension goes."""

    LARGER = "larger"
    """Longer, wider, thicker, deeper, tighter."""
    SMALLER = "smaller"
    """Shorter, narrower, thinner, shallower, looser."""
    VARIES = "varies"
    """Different around the can or from can to can."""
    DISPUTED = "disputed"
    """Sources disagree, so no direction is given."""


class Disposition(StrEnum):
    """What to do with the can."""

    DISCARD_PART = "discard-part"
    """Do not seal: throw the empty can or the lid away."""
    REJECT = "reject"
    """Do not use the can: its seal cannot be trusted."""
    HOLD = "hold"
    """Set the can aside until it has been measured or judged."""
    COSMETIC = "cosmetic"
    """A mark only: the seal is usually sound. The can waits for the program's word; nothing else is held for it."""


class Severity(Model):
    """What one published scheme calls the defect."""

    scheme: Scheme
    """The scheme."""
    grade: Text
    """Its word: serious, minor, unacceptable, class I, critical 1 ..."""
    evidence: Evidence
    """Where it says so."""


class SectionFeature(StrEnum):
    """What a drawn cross-section shows beyond its dimensions."""

    FIN = "fin"
    FRACTURED_FIN = "fractured-fin"
    FALSE_SEAM = "false-seam"
    FLANGE_DOWN = "flange-down"
    CURL_DOWN = "curl-down"
    TORN_FLANGE = "torn-flange"
    INCLUSION = "inclusion"
    UNPRESSED = "unpressed"
    CLINCHED = "clinched"
    COMPOUND_OUT = "compound-out"
    CHUCK_BUMP = "chuck-bump"
    CHUCK_LIFTED = "chuck-lifted"
    FRACTURE = "fracture"
    END_MISPLACED = "end-misplaced"
    DROOP = "droop"
    VEE = "vee"
    MUSHROOMED_FLANGE = "mushroomed-flange"
    DENTED = "dented"
    CUT = "cut"
    LAP = "lap"
    WIDE = "wide"
    NARROW = "narrow"
    SHALLOW = "shallow"
    BUTTING = "butting"
    UNEVEN_BODY_HOOK = "uneven-body-hook"
    UNEVEN_COVER_HOOK = "uneven-cover-hook"


class OutsideFeature(StrEnum):
    """What a drawn outside view of the can end shows."""

    DROOP = "droop"
    VEE = "vee"
    FIN = "fin"
    FRACTURED_FIN = "fractured-fin"
    FLANGE_BELOW = "flange-below"
    CURL_BELOW = "curl-below"
    TORN_FLANGE = "torn-flange"
    THICK_PART = "thick-part"
    ROUNDED = "rounded"
    CLINCHED = "clinched"
    JUMP = "jump"
    BUBBLES = "bubbles"
    BUMP_INSIDE = "bump-inside"
    CHUCK_PRINT = "chuck-print"
    KNURL_PRINT = "knurl-print"
    COMPOUND_OUT = "compound-out"
    INCLUSION = "inclusion"
    FRACTURE = "fracture"
    DENT = "dent"
    CUT = "cut"
    ABRASION = "abrasion"
    END_MISPLACED = "end-misplaced"
    BENT_FLANGE = "bent-flange"
    BENT_CURL = "bent-curl"
    WRINKLED_CURL = "wrinkled-curl"
    NO_RIDGE = "no-ridge"
    RIDGE = "ridge"
    PLAIN = "plain"
    SWELL = "swell"
    SPRINGER = "springer"
    FLIPPER = "flipper"
    BUCKLED_END = "buckled-end"
    PANELED = "paneled"
    PINHOLE = "pinhole"
    MAKERS_END_LEAK = "makers-end-leak"
    SIDE_SEAM_LEAK = "side-seam-leak"
    SOUND_CAN = "sound-can"


class HookFeature(StrEnum):
    """What a drawn stripped cover hook shows."""

    WRINKLES = "wrinkles"
    PLEAT = "pleat"
    PUCKER = "pucker"
    JUNCTURE_DROOP = "juncture-droop"
    UNEVEN = "uneven"


class SectionFigure(Model):
    """A cross-section, to scale; dimensions left out are those of the good seam drawn beside it."""

    body_hook: LengthField | None = None
    """Body hook drawn."""
    cover_hook: LengthField | None = None
    """Cover hook drawn."""
    seam_width: LengthField | None = None
    """Seam width drawn."""
    seam_thickness: LengthField | None = None
    """Seam thickness drawn."""
    countersink: LengthField | None = None
    """Countersink depth drawn."""
    feature: SectionFeature | None = None
    """What else the section shows."""


class OutsideFigure(Model):
    """An outside view of the seam, unrolled or seen from above."""

    feature: OutsideFeature
    """What it shows."""
    extent: Extent = Extent.ONE_PLACE
    """How far around it goes."""


class HookFigure(Model):
    """The stripped cover hook, seen from inside."""

    feature: HookFeature
    """What it shows."""


class FigureSpec(Model):
    """The drawings that show a defect beside a good seam; at least one."""

    section: SectionFigure | None = None
    """Cross-section."""
    outside: OutsideFigure | None = None
    """Outside view."""
    hook: HookFigure | None = None
    """Stripped cover hook."""
    caption: Text
    """What to look at, in one sentence."""

    @model_validator(mode="after")
    def _shows_something(self) -> Self:
        if not (self.section or self.outside or self.hook):
            raise ValueError("expected at least one of 'section', 'outside' and 'hook'")
        return self


class Effect(Model):
    """How a cause moves one dimension."""

    dimension: Dimension
    """The dimension."""
    direction: Direction
    """Which way."""
    evidence: Evidence
    """How it is known."""


class MeasuredSign(Model):
    """What a measured defect is: one dimension, or value worked out from several, out of limits in one direction."""

    dimension: Dimension | ComputedValue
    """The dimension or value."""
    direction: Direction
    """Which way it is out."""


class CauseLink(Model):
    """A cause of a defect, and how often it is the one."""

    cause: ref("cause")  # type: ignore[valid-type]
    """The cause."""
    likelihood: Likelihood
    """How often it is behind this defect."""
    because: Text
    """How it causes the defect, in one sentence."""
    evidence: Evidence
    """How the link is known."""


class Conflict(Model):
    """Two sources that disagree, side by side, and the safe thing to do."""

    about: Text
    """What they disagree on."""
    sides: tuple[Statement, ...] = Field(min_length=2)
    """What each says."""
    safe: Text
    """What to do, safe whichever is right."""


class LookAlike(Model):
    """A defect that looks like this one."""

    defect: ref("defect")  # type: ignore[valid-type]
    """The other defect."""
    difference: Text
    """How to tell them apart."""


class Action(Model):
    """What to do with the can, first of all."""

    disposition: Disposition
    """In one word."""
    steps: tuple[Statement, ...] = Field(min_length=1)
    """What to do with this can, and with those sealed since the last good check."""


class Defect(Record):
    """Something wrong with a seam, or with a part before it is sealed."""

    kind: ClassVar[str] = "defect"
    folder: ClassVar[str] = "defects"

    title: Text
    """The standards' name."""
    also: tuple[Text, ...] = ()
    """Other names in the trade."""
    said: tuple[Text, ...] = Field(min_length=3)
    """How a volunteer would say it; what search finds it by."""
    summary: Text
    """What is seen or felt, in at most 15 words, for the gallery."""
    found_by: tuple[FoundBy, ...] = Field(min_length=1)
    """How it is found."""
    cleared_by: LeastCheck | None = None
    """The least check whose good result clears cans of it; left out, it follows from how it is found."""
    places: tuple[Place, ...] = Field(min_length=1)
    """Where on the can it shows."""
    extents: tuple[Extent, ...] = Field(min_length=1)
    """How far around it may go."""
    can_action: Action
    """What to do with the can."""
    what: Statement
    """What it is."""
    look: tuple[Statement, ...] = Field(min_length=1)
    """How to look, feel or measure for it."""
    measured: tuple[MeasuredSign, ...] = ()
    """For a measured defect: the dimension that is out, and which way."""
    severity: tuple[Severity, ...] = ()
    """What each published scheme calls it."""
    listed_in: tuple[Evidence, ...] = ()
    """Rules whose list of visual checks names it."""
    conflicts: tuple[Conflict, ...] = ()
    """Where sources disagree."""
    figure: FigureSpec
    """The drawings."""
    causes: tuple[CauseLink, ...] = Field(min_length=1)
    """Likely causes."""
    look_alikes: tuple[LookAlike, ...] = ()
    """What looks like it."""
    cautions: tuple[ref("caution"), ...] = ()  # type: ignore[valid-type]
    """Cautions for looking at it and dealing with it."""
    photos: tuple[Photo, ...] = ()
    """The program's own photographs."""


class CheckStep(Model):
    """One thing to do to find out whether this is the cause."""

    do: Text
    """What to do."""
    if_so: Text
    """What is found when this is the cause."""
    if_not: Text
    """What is found when it is not."""
    evidence: Evidence
    """How it is known."""


class Change(StrEnum):
    """What was changed last at the sealer."""

    NOTHING = "nothing"
    CAN_SIZE = "can-size"
    CAN_LOT = "can-lot"
    LID_LOT = "lid-lot"
    CHUCK = "chuck"
    ROLLER = "roller"
    SPACERS = "spacers"
    ADJUSTMENT = "adjustment"
    OPERATOR = "operator"
    PRODUCT = "product"


class Turn(StrEnum):
    """Which way a correction goes."""

    TIGHTEN = "tighten"
    LOOSEN = "loosen"
    RAISE = "raise"
    LOWER = "lower"
    REPLACE = "replace"
    REFIT = "refit"
    CLEAN = "clean"
    SORT_OUT = "sort-out"
    REDO = "redo"


class Correction(Model):
    """What to do about a cause."""

    say: Text
    """What to do in one order of at most eight words, with a period, such as `Throw away bent lids.`"""
    direction: Turn
    """Which way."""
    do: tuple[Statement, ...] = Field(min_length=1)
    """What to do."""
    procedure: ref("procedure")  # type: ignore[valid-type]
    """The procedure with the steps."""


class Cause(Record):
    """Why a seam goes wrong."""

    kind: ClassVar[str] = "cause"
    folder: ClassVar[str] = "causes"

    title: Text
    """What is wrong, such as `First roller set too loose`."""
    said: tuple[Text, ...] = ()
    """How a volunteer would say it; the search finds it by this, too."""
    adjuster: Adjuster
    """What the correction acts on."""
    what: Statement
    """What happens in the seam."""
    confirm: tuple[CheckStep, ...] = Field(min_length=1)
    """How to find out whether this is the cause, the quickest check first."""
    minutes: int = Field(ge=1, le=120)
    """How long the first of these checks takes; gives the order of checks."""
    tools: tuple[Text, ...] = ()
    """Tools they take."""
    effects: tuple[Effect, ...] = ()
    """How it moves each dimension; dimensions left out: no claim."""
    extent: tuple[Extent, ...] = Field(min_length=1)
    """How far around the can its marks go."""
    repeats: tuple[Repeats, ...] = Field(min_length=1)
    """How it shows from can to can."""
    after: tuple[Change, ...] = ()
    """What was changed last when it is likeliest."""
    correction: Correction
    """What to do about it."""
    retest: ref("procedure")  # type: ignore[valid-type]
    """How to test that it is fixed; always with an empty can."""
    conflicts: tuple[Conflict, ...] = ()
    """Where sources disagree."""
    cautions: tuple[ref("caution"), ...] = ()  # type: ignore[valid-type]
    """Cautions while confirming and correcting."""
