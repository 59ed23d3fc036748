"""The events that count as one CSV table, for a spreadsheet."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

from tinwright.logbook.rows import EVENT_COLUMNS, row_of
from tinwright.store.exporting import csv_cell

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tinwright.logbook.entries import LoggedSession

__all__ = ["events_csv"]

_HEAD = ("session", "date", "kitchen", "sealer", "supervisor", "product")
_ENTRIES = tuple(column.name for column in EVENT_COLUMNS)


def events_csv(sessions: Iterable[LoggedSession]) -> str:
    """Return a row for each event, struck ones among them (RFC 4180).

    Cells that a spreadsheet would run as a formula begin with an apostrophe.
    """
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow((*_HEAD, *_ENTRIES))
    for logged in sessions:
        head = (logged.id, *(getattr(logged.session, entry) for entry in _HEAD[1:]))
        for event in logged.events:
            row = row_of(event)
            writer.writerow(map(csv_cell, (*head, *(row[entry] for entry in _ENTRIES))))
    return out.getvalue()
