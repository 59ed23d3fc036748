"""The bench log's functions with cases: what is due, missed, held, charted, and which version counts."""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING, Any

from benchlog.twin import (
    ANSWERS,
    DISPOSITIONS,
    POLICIES,
    REACHES,
    a_random_day,
    a_season,
    event_of,
    on_the_phone,
    season_as_written,
    spoiled,
    written,
)
from cases.kind import Kind, rounded
from seaming.twin import plain, seeded
from tinwright.logbook.merging import most_cautious

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["LOG_KINDS"]


def _kind(asked: str, calls: Callable[[], list[list[Any]]]) -> Kind:
    return Kind(
        f"log-{asked}",
        lambda given: rounded(ANSWERS[asked](*given)),
        lambda given: rounded(on_the_phone(asked, given)),
        calls,
    )


def _some_days(seed: int) -> list[list[dict[str, Any]]]:
    rng = seeded(seed)
    return [[written(event) for event in a_random_day(rng)] for _ in range(24)]


def _some_due() -> list[list[Any]]:
    times = ("08:40", "09:30", "12:00", "18:30")
    return [[day, plain(POLICIES[n % 3]), times[n % 4], DISPOSITIONS] for n, day in enumerate(_some_days(41))]


def _some_missed() -> list[list[Any]]:
    return [[day, plain(POLICIES[n % 3]), DISPOSITIONS] for n, day in enumerate(_some_days(42))]


def _some_held() -> list[list[Any]]:
    return [[day, DISPOSITIONS, REACHES] for day in _some_days(43)]


def _some_seasons() -> list[list[Any]]:
    rng = seeded(45)
    return [[season_as_written(a_season(rng))] for _ in range(4)]


def _some_events() -> list[list[Any]]:
    rng = seeded(46)
    return [[spoiled(rng, event)] for day in _some_days(46) for event in day[:8]]


def _some_versions() -> list[list[Any]]:
    """Two of one line of which one is more cautious, whichever is told first."""
    found = []
    for day in _some_days(47):
        for one, other in product(day[:3], day[3:6]):
            pair = [event_of(one), event_of(other | {"id": one["id"]})]
            if most_cautious(pair) == most_cautious(pair[::-1]):
                found.append([one, other | {"id": one["id"]}])
    return found


LOG_KINDS = (
    _kind("due", _some_due),
    _kind("missed", _some_missed),
    _kind("holding", _some_held),
    _kind("reading", lambda: [[day] for day in _some_days(44)]),
    _kind("charts", _some_seasons),
    _kind("sound", _some_events),
    _kind("more-cautious", _some_versions),
)
"""Every function of the bench log with cases."""
