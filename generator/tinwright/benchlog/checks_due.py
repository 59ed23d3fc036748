"""What a programme's policy asks for at the bench, as plain values."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tinwright.benchlog.events import Event
    from tinwright.benchlog.ranges import Range

__all__ = ["REASONS", "Due", "Missed", "Policy"]

REASONS: Mapping[str, str] = MappingProxyType(
    {
        "start": "before the first can is filled",
        "set-up": "after a set-up",
        "adjustment": "after an adjustment",
        "size": "after a change of can size",
        "lid-lot": "after a new lot of lids",
        "failed": "after a failed check",
        "jam": "after a jam",
        "long-stop": "after a long stop",
        "measure-again": "after a reading too close to the limit",
        "interval-cans": "limit of cans since the last check reached",
        "interval-minutes": "limit of minutes since the last check reached",
        "teardown-cans": "limit of cans since the last can torn down reached",
        "teardown-minutes": "limit of minutes since the last can torn down reached",
        "end": "at the end of the session",
    }
)
"""Why a check is asked for, in words."""


@dataclass(frozen=True)
class Policy:
    """The programme's own rules for the bench."""

    test_cans: int
    """Test cans in a row that must be good."""
    recheck_cans: int
    """Most cans sealed between two looks."""
    recheck_minutes: int
    """Most minutes of work between two looks."""
    teardown_cans: int = 0
    """Most cans sealed between two cans torn down; 0 when the programme asks for none."""
    teardown_minutes: int = 0
    """Most minutes of work between two cans torn down; 0 when the programme asks for none."""
    end_check: int = 0
    """How far the check at the end of a session reaches, as in `checks.REACHES`; 0 for no such check."""

    @property
    def tears_down(self) -> bool:
        """Whether it asks for cans to be torn down."""
        return bool(self.teardown_cans or self.teardown_minutes)


@dataclass(frozen=True)
class Due:
    """A check that is due, or will be."""

    check: str
    """`test-cans`, `next-can` (that very can), `measure-again`, `check` (the last can sealed) or `teardown`."""
    reasons: tuple[str, ...]
    """Why: keys of `REASONS`."""
    cans_left: int | None
    """Cans that may still be sealed before it; 0 is now, below 0 too late. None when it is not a matter of cans."""
    minutes_left: int | None = None
    """Minutes of work that may still pass, rounded down; None when it is not a matter of time."""
    test_cans: int = 0
    """Good test cans still wanted in the row."""
    can_number: int | None = None
    """The can to look at, where it is one can."""
    asked_by: Event | None = None
    """The last event that asked for it; None at the start and for the interval."""

    @property
    def is_now(self) -> bool:
        """Whether it comes before another can is sealed."""
        return any(left is not None and left <= 0 for left in (self.cans_left, self.minutes_left))


@dataclass(frozen=True)
class Missed:
    """A check that was asked for and not made in time."""

    check: str
    """As in `Due.check`, or `end-check`."""
    reasons: tuple[str, ...]
    """Why it was asked for: keys of `REASONS`."""
    at: str
    """When it was known to be missed: time of day of the event that shows a can too many, or the close."""
    cans: Range
    """First and last can sealed without it."""
    asked_by: Event | None = None
    """The last event that asked for it."""
    made: Event | None = None
    """The check that was made too late; None when none was made."""
    times: int = 1
    """How many checks are missing: more than one when the interval passed more than once."""
