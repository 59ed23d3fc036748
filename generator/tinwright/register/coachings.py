"""Coaching of volunteers, noted before a second try and before another sitting."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import insert, select

from tinwright.register import volunteers
from tinwright.register.entries import Coaching
from tinwright.store import tables
from tinwright.store.changes import in_order, log, next_id, plain_text

if TYPE_CHECKING:
    import datetime as dt

    from sqlalchemy import Connection

__all__ = ["every", "record"]


def record(
    connection: Connection, by: str, volunteer_id: str, *, coached_on: dt.date, coach: str, about: str
) -> Coaching:
    """Enter that a volunteer was coached; the same again changes nothing."""
    person = volunteers.hold(connection, volunteer_id)
    coach, about = plain_text(coach, "coach"), plain_text(about, "about")
    for known in every(connection, person.id):
        if (known.coached_on, known.coach, known.about) == (coached_on, coach, about):
            return known
    entry = Coaching(next_id(connection, "coaching"), person.id, coached_on, coach, about)
    connection.execute(insert(tables.coaching).values(vars(entry)))
    log(connection, by, "coaching recorded", entry.id)
    return entry


def every(connection: Connection, volunteer_id: str | None = None) -> list[Coaching]:
    """Return the coachings in the order they were entered, of one volunteer or of all."""
    query = select(tables.coaching).order_by(*in_order(tables.coaching.c.id))
    if volunteer_id is not None:
        query = query.where(tables.coaching.c.volunteer_id == volunteer_id)
    return [Coaching(**row) for row in connection.execute(query).mappings()]
