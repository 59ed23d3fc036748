"""A scenario of the practice bench: a sealer that is set wrong, and the story that goes with it."""

from __future__ import annotations

from typing import ClassVar, Literal, Self

from pydantic import Field, model_validator

from tinwright.knowledge.models.base import Model, Record, Text, ref
from tinwright.knowledge.models.trouble import Change

__all__ = ["FaultSetting", "PracticeScenario"]


class FaultSetting(Model):
    """One thing that is wrong."""

    cause: ref("cause")  # type: ignore[valid-type]
    """The cause whose correction puts it right."""
    amount: int = Field(default=4, ge=-12, le=12)
    """How far wrong, in steps of the teaching model: at a screw, eighths of a turn."""
    at: int | None = Field(default=None, ge=0, lt=360)
    """Where around the can it is, in degrees from the side seam; left out: where the model puts it."""


class PracticeScenario(Record):
    """A sealer that is wrong in a way the learner is not told."""

    kind: ClassVar[str] = "practice"
    folder: ClassVar[str] = "practice"

    title: Text
    """What it is called in the list; it must not give the cause away."""
    use: Literal["practice", "examination"]
    """`practice` is published; `examination` is kept for practical examinations and never published."""
    grade: int = Field(ge=1, le=3)
    """1: one plain fault. 2: one fault that hides. 3: two faults at once."""
    story: Text
    """What a volunteer says is wrong, in two to four sentences, and what was done before."""
    sealer: ref("sealer")  # type: ignore[valid-type]
    """The sealer it happens on."""
    can: ref("can")  # type: ignore[valid-type]
    """The can that is sealed."""
    after: Change | None = None
    """What was changed last, where the story tells it."""
    faults: tuple[FaultSetting, ...] = Field(min_length=1, max_length=2)
    """What is wrong: two faults at grade 3, one below it."""
    sealed: int = Field(default=0, ge=0, le=48)
    """Filled cans sealed since the last good check; the learner decides what becomes of them."""
    cans: int | None = Field(default=None, ge=2, le=30)
    """Empty test cans there are to spend; left out: half as many again as a careful technician needs."""
    minutes: int | None = Field(default=None, ge=10, le=600)
    """Minutes there are to spend, as the records count them; left out: half as many again, too."""

    @model_validator(mode="after")
    def _faults_fit_the_grade(self) -> Self:
        expected = 2 if self.grade == 3 else 1
        if len(self.faults) != expected:
            raise ValueError(f"grade {self.grade} has {expected} fault{'s' * (expected > 1)}, got {len(self.faults)}")
        if len({fault.cause for fault in self.faults}) < len(self.faults):
            raise ValueError("two faults of one scenario have two causes")
        return self
