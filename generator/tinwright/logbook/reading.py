"""Read the bench log as it stands, session by session."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING, Any

from sqlalchemy import func, select

from tinwright.benchlog import Session, in_order
from tinwright.logbook.entries import HEAD, Choice, Dispute, LoggedSession, Version, session_id
from tinwright.logbook.merging import digest_of, merged_head, standing
from tinwright.logbook.rows import EVENT_COLUMNS, event_of
from tinwright.store import tables

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sqlalchemy import Connection, Row

    from tinwright.benchlog import Event

__all__ = ["DESK", "disputed_heads", "each_session", "last_choices"]

DESK = "desk"
"""The source of what was entered at the desk."""
_AT_ONCE = 500


def each_session(
    connection: Connection,
    *,
    number: int | None = None,
    since: str = "",
    until: str = "9999-12-31",
    kitchen: str | None = None,
    sealer: str | None = None,
) -> Iterator[LoggedSession]:
    """Yield sessions by date, kitchen and sealer, so that a state's log need not fit into memory.

    Args:
        connection: a reading connection.
        number: number of the only session wanted.
        since: first day, as in `2026-11-14`.
        until: last day.
        kitchen: the only kitchen wanted.
        sealer: the only sealer wanted.
    """
    table = tables.bench_session
    query = select(table).where(table.c.date.between(since, until))
    wanted = {"number": number, "kitchen": kitchen, "sealer": sealer}
    query = query.filter_by(**{name: value for name, value in wanted.items() if value is not None})
    rows = connection.execute(query.order_by(table.c.date, table.c.kitchen, table.c.sealer)).all()
    for start in range(0, len(rows), _AT_ONCE):
        yield from _sessions(connection, rows[start : start + _AT_ONCE])


def _sessions(connection: Connection, rows: Sequence[Row[Any]]) -> Iterator[LoggedSession]:
    keys = {row.number: (row.date, row.kitchen, row.sealer) for row in rows}
    event = tables.bench_event
    query = select(*EVENT_COLUMNS, event.c.session).where(event.c.session.in_(keys), event.c.counts)
    events: dict[int, list[Event]] = {number: [] for number in keys}
    for row in connection.execute(query):
        number = row[-1]
        events[number].append(event_of(row, keys[number]))
    heads = _heads(connection, list(keys))
    disputes = _disputes(connection, keys)
    for number, key in keys.items():
        head, dispute = heads.get(number, (Session(*key), None))
        of_head = (dispute,) if dispute else ()
        told = (*of_head, *disputes.get(number, ()))
        yield LoggedSession(session_id(number), head, tuple(in_order(events[number])), told)


def last_choices(connection: Connection, sessions: Sequence[int]) -> dict[tuple[int, str], Choice]:
    """Return what was decided last, by session and event."""
    table = tables.bench_choice
    query = select(table).where(table.c.session.in_(sessions)).order_by(table.c.number)
    return {
        (row.session, row.event_id): Choice(row.digest, tuple(row.among), row.at, row.by, row.reason)
        for row in connection.execute(query)
    }


def disputed_heads(connection: Connection, sessions: Sequence[int]) -> list[int]:
    """Return the sessions whose heads are told in several ways, and nobody has decided."""
    heads = _heads(connection, sessions)
    return [number for number, (_, dispute) in heads.items() if dispute and dispute.choice is None]


def _heads(connection: Connection, sessions: Sequence[int]) -> dict[int, tuple[Session, Dispute | None]]:
    """Return the head of each session, and what its sources disagree about."""
    header, session = tables.bench_header, tables.bench_session
    query = (
        select(header, session.c.date, session.c.kitchen, session.c.sealer)
        .join(session, session.c.number == header.c.session)
        .where(header.c.session.in_(sessions))
        .order_by(header.c.weight.desc(), header.c.source, header.c.digest)
    )
    rows: dict[int, list[Row[Any]]] = defaultdict(list)
    for row in connection.execute(query):
        rows[row.session].append(row)
    choices = last_choices(connection, sessions)
    return {number: _head(number, found, choices.get((number, HEAD))) for number, found in rows.items()}


def _head(number: int, rows: Sequence[Row[Any]], choice: Choice | None) -> tuple[Session, Dispute | None]:
    """Merge what each source said last: what it said with less written says no more."""
    weights: dict[str, int] = {}
    last = [row for row in rows if row.weight == weights.setdefault(row.source, row.weight)]
    said = {
        row.digest: Session(row.date, row.kitchen, row.sealer, row.can, row.lid_lot, row.supervisor, row.product)
        for row in last
    }
    settled = choice if choice and choice.settles(said) else None
    head, differ = merged_head(list(said.values()), said[settled.digest] if settled else None)
    if not differ:
        return head, None
    counted = settled.digest if settled else next(iter(said))
    sources = {row.digest: row.source for row in reversed(last)}
    versions = [Version(digest, sources[digest], digest == counted, head=said[digest]) for digest in sorted(said)]
    return head, Dispute(session_id(number), HEAD, tuple(versions), settled)


def _disputes(connection: Connection, keys: dict[int, tuple[str, str, str]]) -> dict[int, list[Dispute]]:
    """Return the events of some sessions whose newest revision is told in several ways."""
    event, imports = tables.bench_event, tables.bench_import
    twice = (
        select(event.c.session, event.c.id)
        .where(event.c.session.in_(keys))
        .group_by(event.c.session, event.c.id, event.c.revision)
        .having(func.count() > 1)
        .subquery()
    )
    query = (
        select(*EVENT_COLUMNS, event.c.session, imports.c.source)
        .join(twice, (twice.c.session == event.c.session) & (twice.c.id == event.c.id))
        .outerjoin(imports, imports.c.number == event.c.import_number)
        .distinct()
    )
    told: dict[tuple[int, str], dict[Event, str]] = defaultdict(dict)
    for row in connection.execute(query):
        told[row.session, row.id][event_of(row, keys[row.session])] = row.source or DESK
    choices = last_choices(connection, list(keys)) if told else {}
    found: dict[int, list[Dispute]] = defaultdict(list)
    for (number, id_), versions in sorted(told.items()):
        choice = choices.get((number, id_))
        counts, candidates = standing(versions, choice)
        if len(candidates) > 1:
            settled = choice if choice and choice.settles(map(digest_of, candidates)) else None
            shown = [Version(digest_of(one), versions[one], one == counts, event=one) for one in candidates]
            found[number].append(Dispute(session_id(number), id_, tuple(shown), settled))
    return found
