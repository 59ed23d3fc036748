"""Entries that were made by mistake, such as for the wrong person: they stay, with the reason, and count no more."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from sqlalchemy import insert, select

from tinwright.errors import RecordError
from tinwright.store import tables
from tinwright.store.changes import log, plain_text

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from sqlalchemy import Connection

__all__ = ["reasons", "void"]

Kind = Literal["sitting", "practical"]


def void(connection: Connection, by: str, kind: Kind, ids: Iterable[str], *, on: dt.date, reason: str) -> None:
    """Make entries void; those that are already stay as they are.

    Args:
        connection: a writing transaction.
        by: the account that does it.
        kind: what they are.
        ids: their ids.
        on: the day.
        reason: why; it stays in the register.

    Raises:
        RecordError: when all of them are void already.
    """
    why = plain_text(reason, "reason")
    there = reasons(connection, kind)
    wanted = list(ids)
    fresh = [id_ for id_ in wanted if id_ not in there]
    if not fresh:
        raise RecordError(f"{wanted[0]} is void already: {there[wanted[0]]}")
    for id_ in fresh:
        connection.execute(insert(tables.voided).values(kind=kind, id=id_, voided_on=on, reason=why))
        log(connection, by, f"{kind} made void", id_)


def reasons(connection: Connection, kind: Kind) -> dict[str, str]:
    """Return the ids of the void entries of a kind with the reasons."""
    table = tables.voided
    rows = connection.execute(select(table.c.id, table.c.reason).where(table.c.kind == kind))
    return {row.id: row.reason for row in rows}
