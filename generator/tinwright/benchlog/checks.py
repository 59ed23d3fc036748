"""What one event says about the sealer: whether a check passed, how many cans are sealed, whether it was changed."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tinwright.benchlog.events import Event

__all__ = [
    "CHANGES",
    "CHECKS",
    "LOOKED_AT",
    "MEASURED",
    "NO_DISPOSITIONS",
    "NO_REACHES",
    "REACHES",
    "TORN_DOWN",
    "cans_shown",
    "checked_can",
    "outcome_of",
    "reach_needed",
    "reach_of",
    "seconds",
]

LOOKED_AT, MEASURED, TORN_DOWN = 1, 2, 3
REACHES: Mapping[int, str] = MappingProxyType(
    {LOOKED_AT: "looked at and felt", MEASURED: "measured outside", TORN_DOWN: "torn down"}
)
"""How far a check reaches; each takes in those before it."""

CHECKS = frozenset({"test-can", "visual-check", "measured-check"})
"""Kinds of event that are a look at a seam."""

CHANGES = frozenset({"set-up", "adjustment", "jam", "can-change"})
"""Kinds of event after which the sealer is no longer the one that sealed the cans before."""

NO_DISPOSITIONS: Mapping[str, str] = MappingProxyType({})
"""Nothing known of any defect: each one then holds cans."""

NO_REACHES: Mapping[str, int] = MappingProxyType({})
"""Nothing known of any defect: only a can torn down then shows that a fault was not there."""

_HARMLESS = frozenset({"cosmetic", "watch"})
_INSIDE = frozenset({"body-hook", "cover-hook", "overlap", "tightness"})
"""What can be measured only in a seam that was cut open."""
_SHOW_CANS = frozenset({"sealed", "heated", "defect"})


def reach_of(event: Event) -> int:
    """Return how far a check reached; 0 for what is no check.

    >>> from tinwright.benchlog.events import Event
    >>> reach_of(Event("a-1", ("2026-11-28", "Mill Street", "s"), "09:05", "test-can", result="good", torn_down=True))
    3
    """
    if event.kind not in CHECKS:
        return 0
    if event.torn_down or any(reading.dimension in _INSIDE for reading in event.readings):
        return TORN_DOWN
    return MEASURED if event.kind == "measured-check" else LOOKED_AT


def reach_needed(event: Event, reaches: Mapping[str, int] = NO_REACHES) -> int:
    """Return how far a check must reach to find the fault that an event tells of: the widest where it is not known."""
    return reaches.get(event.defect, TORN_DOWN) if event.defect else TORN_DOWN


def outcome_of(event: Event, dispositions: Mapping[str, str] = NO_DISPOSITIONS) -> str:
    """Return `good`, `failed` or, for whatever clears nothing, an empty text.

    A check fails by its result or by a defect it names, whichever is worse. `measure-again` is neither good nor
    failed, and so is a check that names a defect to `watch`: cosmetic by itself, of a cause that is not. A defect found
    without a check fails too, but for one that is `cosmetic` or to `watch`, and for one of the empty can or lid
    (`discard-part`) that no sealed can is named for.

    Args:
        event: One event of the log.
        dispositions: What the content says of the can, by id of the defect (`bench.held_cans`). A defect that is not
            in it counts as bad.

    >>> from tinwright.benchlog.events import Event
    >>> outcome_of(Event("a-1", ("2026-11-28", "Mill Street", "s"), "09:05", "measured-check", result="measure-again"))
    ''
    """
    disposition = dispositions.get(event.defect, "hold") if event.defect else "cosmetic"
    if event.kind == "defect":
        bad = disposition not in _HARMLESS and (disposition != "discard-part" or checked_can(event) is not None)
        return "failed" if bad else ""
    if event.kind not in CHECKS:
        return ""
    if event.result in {"bad", "reject"} or disposition not in {*_HARMLESS, "discard-part"}:
        return "failed"
    return "good" if event.result in {"good", "accept"} and disposition != "watch" else ""


def checked_can(event: Event) -> int | None:
    """Return the number of the can a check or a found defect is about; None for a test can or an unknown can."""
    if event.kind == "defect":
        return event.last if event.first is None else event.first
    return event.can_number if event.kind in {"visual-check", "measured-check"} else None


def cans_shown(event: Event) -> int:
    """Return the highest number of a can that must be sealed for this event to be true; 0 when it shows none.

    Cans held, released or discarded show nothing: such ranges are often written generously.
    """
    last = max(event.first or 0, event.last or 0) if event.kind in _SHOW_CANS else 0
    return max(last, event.can_number or 0)


def seconds(at: str) -> int:
    """Return a time of day in seconds since midnight.

    >>> seconds("09:05"), seconds("09:05:20")
    (32700, 32720)
    """
    hours, minutes, *rest = (int(part) for part in at.split(":"))
    return hours * 3600 + minutes * 60 + sum(rest)
