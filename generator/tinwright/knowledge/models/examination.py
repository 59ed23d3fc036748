"""Topics and blueprints: what a volunteer is examined in, and how much of it."""

from __future__ import annotations

from typing import ClassVar

from pydantic import Field

from tinwright.knowledge.models.base import Evidence, Model, Record, Text, ref

__all__ = ["Blueprint", "Claims", "StandardSetting", "Topic", "TopicCount"]


class Topic(Record):
    """A topic of practice and examination."""

    kind: ClassVar[str] = "topic"
    folder: ClassVar[str] = "topics"

    title: Text
    """Name, as a heading."""
    about: Text
    """What a learner can do who has mastered it, in one sentence."""


class TopicCount(Model):
    """How many items of a topic stand in a form."""

    topic: ref("topic")  # type: ignore[valid-type]
    """The topic."""
    items: int = Field(ge=1, le=20)
    """How many of its items."""


class StandardSetting(Model):
    """How the cut score was set: modified Angoff."""

    ratings: Text
    """CSV file beside the blueprint: a row for each item and judge with the share of just-qualified people right."""
    method: Text
    """How the judges worked, in a sentence or two."""
    evidence: Evidence
    """How the ratings are known."""


class Claims(Model):
    """How often the examination may err, for two people of known ability; a simulated cohort checks it."""

    not_ready: float = Field(gt=0, lt=1)
    """Share of items that somebody gets right who must not pass."""
    ready: float = Field(gt=0, lt=1)
    """Share of items that somebody gets right who must pass."""
    false_pass: float = Field(gt=0, lt=1)
    """Highest chance that the one who must not pass does."""
    false_fail: float = Field(gt=0, lt=1)
    """Highest chance that the one who must pass does not, by the score alone."""


class Blueprint(Record):
    """What an examination is made of, and what passes it."""

    kind: ClassVar[str] = "blueprint"
    folder: ClassVar[str] = "blueprints"

    title: Text
    """Name of the examination."""
    about: Text
    """Who sits it and what for."""
    topics: tuple[TopicCount, ...] = Field(min_length=1)
    """How many items of each topic a form has."""
    critical: int = Field(ge=0)
    """Least number of critical items in a form."""
    difficulty_tolerance: float = Field(gt=0, le=0.2)
    """How far the mean difficulty of a form may lie from that of the bank."""
    minutes: int = Field(ge=5, le=480)
    """Time usually needed; the examination has no time limit of its own."""
    standard_setting: StandardSetting
    """How the cut score was set."""
    critical_must_be_right: bool = True
    """True when nobody passes with a critical item wrong."""
    claims: Claims
    """How often it may err."""
    practical: tuple[ref("procedure"), ...] = Field(min_length=1)  # type: ignore[valid-type]
    """What is observed at the sealer in the practical check, in order."""
    demonstration: bool = False
    """True while the bank is an example that anybody can read; printed on every form."""
