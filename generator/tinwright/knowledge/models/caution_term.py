"""Cautions and terms."""

from __future__ import annotations

from enum import StrEnum
from typing import ClassVar

from tinwright.knowledge.models.base import Evidence, Record, Statement, Text, ref

__all__ = ["Caution", "Signal", "Term"]


class Signal(StrEnum):
    """A signal word with its meaning in ANSI Z535."""

    DANGER = "DANGER"
    """Will cause death or serious injury if not avoided."""
    WARNING = "WARNING"
    """Could cause death or serious injury."""
    CAUTION = "CAUTION"
    """Could cause minor or moderate injury."""
    NOTICE = "NOTICE"
    """Not about injury: property or quality."""


class Caution(Record):
    """A hazard, what it does, and how to avoid it."""

    kind: ClassVar[str] = "caution"
    folder: ClassVar[str] = "cautions"

    title: Text
    """Name of the hazard."""
    said: tuple[Text, ...] = ()
    """How a volunteer would say it; the search finds it by this, too."""
    signal: Signal
    """Signal word."""
    hazard: Text
    """What can go wrong."""
    consequence: Text
    """What it does to whom."""
    avoid: tuple[Text, ...]
    """How to avoid it, as orders."""
    evidence: Evidence
    """How it is known."""


class Term(Record):
    """A word of the trade."""

    kind: ClassVar[str] = "term"
    folder: ClassVar[str] = "terms"

    title: Text
    """The standard term."""
    also: tuple[Text, ...] = ()
    """Synonyms."""
    definition: Statement
    """What it means."""
    see: tuple[ref("term"), ...] = ()  # type: ignore[valid-type]
    """Related terms."""
    notes: tuple[Statement, ...] = ()
    """Where definitions differ, or what is easily confused."""
