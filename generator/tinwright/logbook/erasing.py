"""Take a person out of the bench log, and leave what happened at the bench."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, insert, or_, select, update

from tinwright.benchlog import Session
from tinwright.logbook.importing import count_again
from tinwright.logbook.merging import digest_of, digest_of_head
from tinwright.logbook.rows import EVENT_COLUMNS, event_of
from tinwright.store import tables

if TYPE_CHECKING:
    from collections.abc import Callable, Collection

    from sqlalchemy import Connection, RowMapping

__all__ = ["strike_from_log"]

_EVENT_TEXTS = ("by", "reason", "note")
_HEAD_TEXTS = ("supervisor", "product")


def strike_from_log(connection: Connection, words: Collection[str], strike: Callable[[str], str]) -> None:
    """Strike a person's id and names out of events, heads and choices.

    A version is called by a digest of what it says, which would lead back to the person, so it is reckoned anew; what
    was decided between versions is told the new digests. The same file taken in once more then changes nothing.

    Args:
        connection: a writing connection.
        words: the id and names, to find the rows by.
        strike: returns a text without them.
    """
    _strike_events(connection, words, strike)
    _strike_heads(connection, words, strike)
    _strike_choices(connection, strike)


def _strike_events(connection: Connection, words: Collection[str], strike: Callable[[str], str]) -> None:
    event = tables.bench_event
    mentions = or_(*(event.c[name].icontains(word, autoescape=True) for name in _EVENT_TEXTS for word in words))
    query = select(*EVENT_COLUMNS, event.c.number, event.c.session, event.c.digest).where(mentions)
    renamed: dict[int, dict[str, str]] = defaultdict(dict)
    touched: dict[int, set[str]] = defaultdict(set)
    for row in connection.execute(query).all():
        told = event_of(row, ("", "", ""))
        struck = replace(told, by=strike(told.by), reason=strike(told.reason), note=strike(told.note))
        if struck == told:
            continue
        digest = digest_of(struck)
        renamed[row.session][row.digest] = digest
        touched[row.session].add(row.id)
        same = {"session": row.session, "id": row.id, "revision": row.revision, "digest": digest}
        here = event.c.number == row.number
        if connection.execute(select(event.c.number).filter_by(**same)).first():
            connection.execute(delete(event).where(here))
        else:
            values = {name: getattr(struck, name) for name in _EVENT_TEXTS}
            connection.execute(update(event).where(here).values(**values, digest=digest))
    for session, ids in touched.items():
        _rename_choices(connection, session, renamed[session])
        count_again(connection, session, ids)


def _strike_heads(connection: Connection, words: Collection[str], strike: Callable[[str], str]) -> None:
    header = tables.bench_header
    mentions = or_(*(header.c[name].icontains(word, autoescape=True) for name in _HEAD_TEXTS for word in words))
    for row in connection.execute(select(header).where(mentions)).mappings().all():
        struck = {**row, **{name: strike(row[name]) for name in _HEAD_TEXTS}}
        if struck == dict(row):
            continue
        struck["digest"] = digest_of_head(_session(struck))
        connection.execute(delete(header).filter_by(**_key(row)))
        if not connection.execute(select(header.c.weight).filter_by(**_key(struck))).first():
            connection.execute(insert(header).values(struck))
        _rename_choices(connection, row["session"], {row["digest"]: struck["digest"]})


def _key(row: RowMapping | dict[str, Any]) -> dict[str, Any]:
    return {name: row[name] for name in ("session", "source", "digest")}


def _session(row: dict[str, Any]) -> Session:
    return Session("", "", "", row["can"], row["lid_lot"], row["supervisor"], row["product"])


def _rename_choices(connection: Connection, session: int, renamed: dict[str, str]) -> None:
    choice = tables.bench_choice
    for row in connection.execute(select(choice).where(choice.c.session == session)).all():
        digest = renamed.get(row.digest, row.digest)
        among = sorted({renamed.get(one, one) for one in row.among})
        connection.execute(update(choice).where(choice.c.number == row.number).values(digest=digest, among=among))


def _strike_choices(connection: Connection, strike: Callable[[str], str]) -> None:
    for table, names in ((tables.bench_choice, ("by", "reason")), (tables.bench_import, ("file", "by"))):
        for row in connection.execute(select(table)).mappings().all():
            struck = {name: strike(row[name]) for name in names}
            if any(struck[name] != row[name] for name in names):
                connection.execute(update(table).where(table.c.number == row["number"]).values(struck))
