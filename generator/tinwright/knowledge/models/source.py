"""Sources: the documents statements rest on."""

from __future__ import annotations

from enum import StrEnum
from typing import ClassVar

from tinwright.knowledge.models.base import Record, Text, ref

__all__ = ["Reading", "Source"]


class Reading(StrEnum):
    """How much of a source was read when the content was written."""

    WHOLE = "whole"
    """The section cited was read from end to end."""
    PART = "part"
    """Only part of the section was at hand."""
    WEAK = "weak"
    """Read in a weak copy: a translation, a re-post or a passage without its title."""
    MEMORY = "memory"
    """Not read again; cited from memory of the document."""


class Source(Record):
    """A published document."""

    kind: ClassVar[str] = "source"
    folder: ClassVar[str] = "sources"

    title: Text
    """Title as printed."""
    short: Text
    """Short form for use after a statement, such as `21 CFR 113.60`."""
    publisher: Text
    """Who published it."""
    year: Text
    """Edition or date, in words where that is clearer."""
    about: Text
    """What it is and whom it binds, in one or two sentences."""
    reading: Reading
    """How much of it was read."""
    same_as: ref("source") | None = None  # type: ignore[valid-type]
    """The source this one translates, re-posts or passes on; the two count as one."""
    address: Text | None = None
    """The publisher's own page; nothing when there is none to trust."""
    licence: Text
    """License or public-domain note."""
