"""What is due: records to review, sheets to read against the paper, instruments to calibrate."""

from __future__ import annotations

import calendar
import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.knowledge.sheet_rules import SheetState, state_of_sheet

if TYPE_CHECKING:
    from tinwright.knowledge.base import KnowledgeBase

__all__ = ["Due", "Overdue", "due_date", "overdue", "to_calibrate", "to_read"]


@dataclass(frozen=True)
class Overdue:
    """A record whose review is overdue."""

    kind: str
    """Kind of the record."""
    id: str
    """Its id."""
    reviewed: dt.date
    """When it was last reviewed."""
    due: dt.date
    """When it should have been."""

    def __str__(self) -> str:
        return f"overdue for review since {self.due}: {self.kind} {self.id} (last reviewed {self.reviewed})"


def due_date(reviewed: dt.date, months: int) -> dt.date:
    """Return the day some months after a review; the last day of a shorter month.

    >>> due_date(dt.date(2024, 1, 31), 1)
    datetime.date(2024, 2, 29)
    """
    years, month = divmod(reviewed.month - 1 + months, 12)
    year = reviewed.year + years
    last = calendar.monthrange(year, month + 1)[1]
    return dt.date(year, month + 1, min(reviewed.day, last))


def overdue(kb: KnowledgeBase, today: dt.date) -> list[Overdue]:
    """Return the records overdue by the programme's policy on a day, longest overdue first."""
    months = kb.programme.policy.review_months
    rows = [
        Overdue(kind, id_, record.reviewed, due_date(record.reviewed, months))
        for (kind, id_), record in kb.records.items()
    ]
    return sorted((row for row in rows if row.due < today), key=lambda row: (row.due, row.kind, row.id))


@dataclass(frozen=True)
class Due:
    """Something that somebody has to do before the records can be relied on."""

    subject: str
    """What it is about, such as `instrument seam micrometer`."""
    message: str
    """What is to be done, and why."""

    def __str__(self) -> str:
        return f"{self.subject}: {self.message}"


def to_read(kb: KnowledgeBase) -> list[Due]:
    """Return the seam specifications that two people have to read against the paper, by id."""
    why = {
        SheetState.CHANGED: "changed since it was read against the paper",
        SheetState.UNREAD: "nobody is recorded to have read it against the paper",
    }
    states = {id_: state_of_sheet(sheet) for id_, sheet in kb.seam_specifications.items()}
    return [
        Due(f"seam-specification {id_}", f"{why[state]}; no seam is accepted by it: see `tinwright sheet {id_}`")
        for id_, state in states.items()
        if state in why
    ]


def to_calibrate(kb: KnowledgeBase, today: dt.date) -> list[Due]:
    """Return the instruments whose calibration has run out on a day, or was never noted."""
    found = []
    for instrument in kb.programme.instruments:
        subject = f"instrument {instrument.name}"
        if instrument.calibrated is None:
            found.append(Due(subject, "no calibration is noted; its uncertainty is only believed"))
        elif (due := due_date(instrument.calibrated, instrument.calibration_months)) < today:
            found.append(Due(subject, f"its calibration of {instrument.calibrated} ran out on {due}"))
    return found
