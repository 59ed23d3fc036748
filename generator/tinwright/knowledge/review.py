"""Which records are due for review."""

from __future__ import annotations

import calendar
import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tinwright.knowledge.base import KnowledgeBase

__all__ = ["Overdue", "due_date", "overdue"]


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
