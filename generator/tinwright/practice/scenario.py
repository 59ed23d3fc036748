"""A practice scenario: the sealer, the can, what is wrong, and what may be spent."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from tinwright.errors import PracticeError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tinwright.practice.fault import Fault
    from tinwright.seaming.limits import SeamLimits

__all__ = ["BenchAdjuster", "BenchCan", "BenchSealer", "Scenario"]

_AIMED = ("countersink", "seam-width", "seam-thickness", "body-hook", "cover-hook")


@dataclass(frozen=True)
class BenchAdjuster:
    """A screw of a sealer."""

    adjuster: str
    """`base-pressure`, `first-roller` or `second-roller`."""
    safe_step_eighths: int = 1
    """Most eighths of a turn at once."""


@dataclass(frozen=True)
class BenchSealer:
    """The sealer at the bench."""

    sealer: str
    """Id of its record."""
    drive: str
    """`crank-cam`, `hand-lever` or `motor`, as its record says."""
    adjusters: tuple[BenchAdjuster, ...]
    """Its screws."""
    stack: tuple[str, ...] = ()
    """Names of the spacers that belong under this can, from below."""


@dataclass(frozen=True)
class BenchCan:
    """The can and lid at the bench: a healthy seam of the model is just what the sheet aims for.

    Raises:
        PracticeError: the sheet lacks an aim or a plate, or aims for a seam thinner than its five plates.
    """

    code: str
    """Code of the can's size."""
    limits: SeamLimits
    """The sheet, with aims and plates; lengths in inches."""

    def __post_init__(self) -> None:
        missing = [dimension for dimension in _AIMED if self.aims.get(dimension) is None]
        if missing or self.limits.end_plate_in is None or self.limits.body_plate_in is None:
            raise PracticeError(f"{self.code}: expected both plates and an aim for each dimension, missing {missing}")
        if self.aims["seam-thickness"] <= 3 * self.end_plate_in + 2 * self.body_plate_in:
            raise PracticeError(f"{self.code}: expected to aim for a seam thicker than its five plates")

    @cached_property
    def aims(self) -> dict[str, float]:
        """What the sheet aims for, by dimension, in inches."""
        return {limit.dimension: limit.aim for limit in self.limits.limits if limit.aim is not None}

    @property
    def end_plate_in(self) -> float:
        """Thickness of the end plate in inches."""
        return self.limits.end_plate_in or 0.0

    @property
    def body_plate_in(self) -> float:
        """Thickness of the body plate in inches."""
        return self.limits.body_plate_in or 0.0


@dataclass(frozen=True)
class Scenario:
    """What a round begins with.

    Raises:
        PracticeError: the grade or the budget is out of range, or there is nothing wrong.
    """

    scenario: str
    """Its id."""
    faults: tuple[Fault, ...]
    """What is wrong."""
    sealer: BenchSealer
    """The sealer."""
    can: BenchCan
    """The can and lid."""
    minutes: Mapping[str, float]
    """Minutes that each verb takes, as on the records; a verb left out takes one."""
    uncertainties: Mapping[str, float]
    """Standard uncertainty of each dimension's instrument, in inches, and of tightness in percent."""
    budget_cans: int = 12
    """Cans that may be spent."""
    budget_minutes: float = 120.0
    """Minutes that may be spent."""
    food_before: int = 0
    """Food cans that were sealed before anybody noticed."""
    grade: int = 1
    """How hard: 1, 2 or 3."""
    seed: int = 1
    """What chance begins from, from 1 to 4294967295."""

    def __post_init__(self) -> None:
        if not self.faults:
            raise PracticeError(f"{self.scenario}: expected one fault or more, got none")
        if self.grade not in {1, 2, 3} or self.budget_cans < 1 or not self.budget_minutes > 0:
            raise PracticeError(f"{self.scenario}: expected a grade from 1 to 3 and a budget above zero")
        if not 1 <= self.seed < 2**32:
            raise PracticeError(f"{self.scenario}: expected a seed from 1 to 4294967295, got {self.seed}")
