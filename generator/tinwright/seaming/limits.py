"""What a seam is judged against: the limits of the specification chosen, and the defects seen.

There are no limits built in: they come from the can supplier's sheet.
"""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Limit", "SeamLimits", "SeenDefect"]


@dataclass(frozen=True)
class Limit:
    """What a specification says of one dimension; lengths in inches, tightness in percent."""

    dimension: str
    """One of `wording.DIMENSIONS`."""
    low: float | None = None
    """Least value allowed."""
    aim: float | None = None
    """Value to aim for; shown, never judged."""
    high: float | None = None
    """Greatest value allowed."""


@dataclass(frozen=True)
class SeamLimits:
    """A seam specification."""

    limits: tuple[Limit, ...] = ()
    """Limits of what is measured, and of the overlap."""
    percent_overlap_low: float | None = None
    """Least percent overlap."""
    overlap_variant: str = "A"
    """Formula that limit is meant for: `A`, `B` or `C`."""
    butting_low: float | None = None
    """Least body hook butting, in percent."""
    tightness_low: float | None = None
    """Least tightness rating, in percent."""
    end_plate_in: float | None = None
    """Thickness of the end plate that the limits are meant for, in inches; None when it is not known."""
    body_plate_in: float | None = None
    """Thickness of the body plate that the limits are meant for."""


@dataclass(frozen=True)
class SeenDefect:
    """A defect seen or felt on the can."""

    defect: str
    """Its id."""
    title: str
    """Its name."""
    disposition: str
    """What is done with the can: `discard-part`, `reject`, `hold` or `cosmetic`."""
