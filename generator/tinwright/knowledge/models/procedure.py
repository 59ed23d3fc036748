"""Procedures: what to do, what to see, and why."""

from __future__ import annotations

from enum import StrEnum
from typing import ClassVar

from pydantic import Field

from tinwright.knowledge.models.base import Evidence, Model, Photo, Record, Statement, Text, ref
from tinwright.knowledge.models.machine import Adjuster, Drive

__all__ = ["HeldCan", "Movement", "Procedure", "Step"]


class HeldCan(StrEnum):
    """How far a held can has come; what becomes of it depends on that."""

    NOT_HEATED = "not-heated"
    """Sealed, not yet in the canner."""
    HEATED = "heated"
    """Heated, or in the canner now."""


class Movement(StrEnum):
    """What a drawn step moves, and which way. Screws and nuts have none: sealers differ in which way they turn."""

    CAN_ON = "can-on"
    CHUCK_OFF = "chuck-off"
    CHUCK_ON = "chuck-on"
    FIRST_ROLLER_IN = "first-roller-in"
    HOOK_DOWN = "hook-down"
    LEVER_DOWN = "lever-down"
    LEVER_UP = "lever-up"
    PANEL_OUT = "panel-out"
    PLATE_OFF = "plate-off"
    PLATE_ON = "plate-on"
    ROLLERS_AWAY = "rollers-away"
    SECOND_ROLLER_IN = "second-roller-in"
    SECOND_ROLLER_OUT = "second-roller-out"


class Step(Model):
    """One step of a procedure."""

    do: Text
    """What to do, as an order: `Turn the crank slowly.`"""
    see: Text | None = None
    """What is seen, felt or heard when it went right."""
    why: Text | None = None
    """Why it matters."""
    drives: tuple[Drive, ...] = ()
    """Drives this step is for; all when left out."""
    held: tuple[HeldCan, ...] = ()
    """Held cans it says what to do with; the page of held cans, the bench log and its reports print its words."""
    cautions: tuple[ref("caution"), ...] = ()  # type: ignore[valid-type]
    """Cautions at this very step."""
    evidence: Evidence | None = None
    """How it is known, where that differs from the procedure's own evidence."""
    figure: Movement | None = None
    """What it moves, drawn: only where the step moves something, and the way is the same on every sealer it is for."""
    photo: Photo | None = None
    """The program's own photograph."""


class Procedure(Record):
    """A job done at the sealer."""

    kind: ClassVar[str] = "procedure"
    folder: ClassVar[str] = "procedures"

    title: Text
    """Name, as an order: `Set the first roller`."""
    said: tuple[Text, ...] = ()
    """How a volunteer would say it; the search finds it by this, too."""
    purpose: Statement
    """What it is for."""
    when: Text
    """When to do it."""
    minutes: int = Field(ge=1, le=240)
    """How long it takes with some practice."""
    tools: tuple[Text, ...] = ()
    """Tools and materials."""
    sets: tuple[Adjuster, ...] = ()
    """What it adjusts; the set-up sheet and the corrections find it by this."""
    judges_seam: bool = False
    """True when its end is to know whether a seam is good; only such a one can be the retest of a cause."""
    drives: tuple[Drive, ...] = ()
    """Drives the whole procedure is for; all when left out."""
    parts: tuple[ref("part"), ...] = ()  # type: ignore[valid-type]
    """Parts touched."""
    cautions: tuple[ref("caution"), ...] = ()  # type: ignore[valid-type]
    """Cautions for the whole procedure, shown before the first step."""
    steps: tuple[Step, ...] = Field(min_length=1)
    """The steps, in order."""
    done_when: Text
    """How to know that it is done."""
    then: tuple[ref("procedure"), ...] = ()  # type: ignore[valid-type]
    """What comes next."""
    evidence: Evidence
    """How the steps are known, unless a step says otherwise."""
