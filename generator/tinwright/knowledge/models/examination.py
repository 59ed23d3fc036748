"""Topics and blueprints: what a volunteer is examined in, and how much of it."""

from __future__ import annotations

from typing import ClassVar, Self

from pydantic import Field, model_validator

from tinwright.knowledge.models.base import Evidence, Model, Record, Text, ref

__all__ = ["Blueprint", "Claims", "CriticalArea", "StandardSetting", "Topic", "TopicCount"]


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


class CriticalArea(Model):
    """Topics in which a mistake can hurt somebody, with a cut of their own over their critical items."""

    title: Text
    """What is to be mastered, as it stands on paper."""
    topics: tuple[ref("topic"), ...] = Field(min_length=1)  # type: ignore[valid-type]
    """Topics whose critical items belong to it."""
    items: int = Field(ge=1, le=20)
    """How many critical items of these topics a form has, and again the second try of the same day."""
    right: int = Field(ge=1, le=20)
    """How many of them must be right."""

    @model_validator(mode="after")
    def _within(self) -> Self:
        if self.right > self.items:
            raise ValueError(f"right: expected at most the {self.items} items there are, got {self.right}")
        return self


class Claims(Model):
    """How often the whole rule may err; `check` and `exam make` compute it and fail when it is not met."""

    not_ready: float = Field(gt=0, lt=1)
    """Share of the points that somebody earns who must not pass."""
    ready: float = Field(gt=0, lt=1)
    """Share of the points that somebody earns who must pass."""
    false_pass: float = Field(gt=0, lt=1)
    """Highest chance that the one who must not pass does, in all sittings that the programme allows."""
    false_fail: float = Field(gt=0, lt=1)
    """Highest chance that the one who must pass does not, in one sitting with its second try."""
    just_qualified: float = Field(default=0.5, gt=0, lt=1)
    """Least chance that somebody just qualified, as the judges see them, passes within two sittings."""


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
    critical_areas: tuple[CriticalArea, ...] = ()
    """Areas with a cut of their own, whatever the score; no topic belongs to two."""
    difficulty_tolerance: float = Field(gt=0, le=0.2)
    """How far the mean rating of a form may lie from that of the bank; half an item keeps forms to one cut."""
    minutes: int = Field(ge=5, le=480)
    """Time usually needed; the examination has no time limit of its own."""
    standard_setting: StandardSetting
    """How the cut score was set."""
    claims: Claims
    """How often it may err."""
    practical: tuple[ref("procedure"), ...] = Field(min_length=1)  # type: ignore[valid-type]
    """What is observed at the sealer in the practical check, in order."""
    demonstration: bool = False
    """True while the bank is an example that anybody can read; printed on every form."""

    @model_validator(mode="after")
    def _areas_apart(self) -> Self:
        listed = [topic for area in self.critical_areas for topic in area.topics]
        if twice := sorted({topic for topic in listed if listed.count(topic) > 1}):
            raise ValueError(f"critical_areas: expected each topic in one area, got {', '.join(twice)} in two")
        if strange := sorted(set(listed) - {row.topic for row in self.topics}):
            raise ValueError(f"critical_areas: a form has no items of {', '.join(strange)}")
        return self
