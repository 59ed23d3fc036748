"""Volunteers: entered, corrected, looked up."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from sqlalchemy import insert, select, update

from tinwright.errors import RecordError
from tinwright.register.entries import Volunteer
from tinwright.store import tables
from tinwright.store.changes import in_order, log, next_id, optional_text, plain_text

if TYPE_CHECKING:
    import datetime as dt

    from sqlalchemy import Connection

__all__ = ["add", "correct", "every", "find", "hold"]

_EMAIL = re.compile(r"[^@\s]+@[^@\s]+")


def add(
    connection: Connection, by: str, *, name: str, email: str | None, kitchen: str | None, added_on: dt.date
) -> Volunteer:
    """Enter a volunteer under the next id."""
    entry = Volunteer(
        id=next_id(connection, "volunteer"),
        name=plain_text(name, "name"),
        email=_email(email),
        kitchen=optional_text(kitchen, "kitchen"),
        added_on=added_on,
    )
    connection.execute(insert(tables.volunteer).values(vars(entry)))
    log(connection, by, "volunteer added", entry.id)
    return entry


def correct(
    connection: Connection, by: str, id_: str, *, name: str | None, email: str | None, kitchen: str | None
) -> Volunteer:
    """Change what is given; an empty e-mail or kitchen is taken out."""
    held = hold(connection, id_)
    values: dict[str, str | None] = {}
    if name is not None:
        values["name"] = plain_text(name, "name")
    if email is not None:
        values["email"] = _email(email)
    if kitchen is not None:
        values["kitchen"] = optional_text(kitchen, "kitchen")
    values = {key: value for key, value in values.items() if value != getattr(held, key)}
    if values:
        connection.execute(update(tables.volunteer).where(tables.volunteer.c.id == held.id).values(values))
        log(connection, by, f"volunteer corrected: {', '.join(values)}", held.id)
    return find(connection, held.id)


def find(connection: Connection, id_: str) -> Volunteer:
    """Return a volunteer, or say that there is none or that they were erased."""
    return _one(connection, id_, hold_row=False)


def hold(connection: Connection, id_: str) -> Volunteer:
    """Return a volunteer, and keep other writers from their entries until the transaction ends."""
    return _one(connection, id_, hold_row=True)


def every(connection: Connection) -> list[Volunteer]:
    """Return all volunteers in the order they were entered."""
    rows = connection.execute(select(tables.volunteer).order_by(*in_order(tables.volunteer.c.id))).mappings()
    return [Volunteer(**row) for row in rows]


def _one(connection: Connection, id_: str, *, hold_row: bool) -> Volunteer:
    id_ = id_.strip().upper()
    query = select(tables.volunteer).where(tables.volunteer.c.id == id_)
    # SQLite has one writer at a time, and SQLAlchemy leaves the lock out there.
    row = connection.execute(query.with_for_update() if hold_row else query).mappings().first()
    if row is not None:
        return Volunteer(**row)
    erased = select(tables.erasure.c.erased_on).where(tables.erasure.c.volunteer_id == id_)
    if (day := connection.execute(erased).scalar()) is not None:
        raise RecordError(f"volunteer {id_} was erased on {day}")
    raise RecordError(f"no volunteer has the id {id_!r}")


def _email(text: str | None) -> str | None:
    address = optional_text(text, "e-mail")
    if address is not None and not _EMAIL.fullmatch(address):
        raise RecordError(f"e-mail: expected an address such as name@example.org, got {address!r}")
    return address
