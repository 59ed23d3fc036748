"""Between the events of the log and their rows in the store."""

from __future__ import annotations

import json
from dataclasses import fields
from typing import TYPE_CHECKING, Any

from tinwright.benchlog import Event, MeasuredPoint
from tinwright.store.tables import bench_event

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["EVENT_COLUMNS", "event_of", "row_of"]

_ENTRIES = tuple(entry.name for entry in fields(Event) if entry.name != "session")
_READINGS = _ENTRIES.index("readings")
EVENT_COLUMNS = tuple(bench_event.c[name] for name in _ENTRIES)
"""The columns that hold the entries of an event, in the order of `Event`, but for its session."""


def row_of(event: Event) -> dict[str, Any]:
    """Return an event by columns; its readings become JSON."""
    said = vars(event)
    row = {name: said[name] for name in _ENTRIES}
    points = [[point.dimension, point.point, point.value] for point in event.readings]
    row["readings"] = json.dumps(points, separators=(",", ":")) if points else ""
    return row


def event_of(row: Sequence[Any], session: tuple[str, str, str]) -> Event:
    """Return the event of a row that begins with `EVENT_COLUMNS`."""
    entries = (row[0], session, *row[1:_READINGS], _points(row[_READINGS]), *row[_READINGS + 1 : len(EVENT_COLUMNS)])
    return Event(*entries)


def _points(text: str) -> tuple[MeasuredPoint, ...]:
    return tuple(MeasuredPoint(*point) for point in json.loads(text)) if text else ()
