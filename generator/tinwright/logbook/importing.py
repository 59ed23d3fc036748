"""Take files of the bench log into the store: every version is kept, and which one counts is worked out anew."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING

from sqlalchemy import insert, select, update

from tinwright.logbook.entries import HEAD, LogFile, TakenIn, session_id
from tinwright.logbook.merging import digest_of, digest_of_head, standing
from tinwright.logbook.reading import disputed_heads, last_choices
from tinwright.logbook.rows import EVENT_COLUMNS, event_of, row_of
from tinwright.store import tables
from tinwright.store.changes import ERASED, log

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Sequence

    from sqlalchemy import Connection

    from tinwright.benchlog import Event, Session

__all__ = ["count_again", "session_number", "take_in", "take_turn", "write_events"]

_Key = tuple[str, int, str]
"""Id, revision and digest of a version."""


def take_in(connection: Connection, by: str, files: Sequence[LogFile]) -> list[TakenIn]:
    """Add what some files tell to the log; what is there already stays as it is.

    Args:
        connection: a writing connection.
        by: who takes them in, for the change record.
        files: what was read, and found sound.
    """
    take_turn(connection)
    there = set(connection.execute(select(tables.bench_import.c.digest)).scalars())
    erased = set(connection.execute(select(tables.erasure.c.volunteer_id)).scalars())
    found = []
    for file in files:
        found.append(TakenIn(again=True) if file.digest in there else _take_in_one(connection, by, file, erased))
        there.add(file.digest)
    return found


def _take_in_one(connection: Connection, by: str, file: LogFile, erased: Collection[str]) -> TakenIn:
    imports = tables.bench_import
    at = dt.datetime.now(tz=dt.UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    values = {"digest": file.digest, "file": file.name, "source": file.source, "at": at, "by": by}
    number = connection.execute(insert(imports).returning(imports.c.number), values).scalar_one()
    found = TakenIn()
    for head, events in file.sessions:
        session, is_new = session_number(connection, head)
        told = [_without(event, erased) for event in events] if erased else events
        disputes = _write_head(connection, session, head, file.source, told, erased, none_there=is_new)
        one = write_events(connection, session, told, import_number=number, none_there=is_new)
        found = TakenIn(
            found.added + one.added,
            found.revised + one.revised,
            found.older + one.older,
            found.same + one.same,
            (*found.disputes, *disputes, *one.disputes),
        )
    log(connection, by, "bench log taken in", f"I{number:04d}")
    return found


def take_turn(connection: Connection) -> None:
    """Wait until nobody else is writing into the log."""
    counter = tables.counter
    connection.execute(update(counter).where(counter.c.name == "desk").values(last=counter.c.last))


def session_number(connection: Connection, head: Session) -> tuple[int, bool]:
    """Return the number of a session, and whether it was made just now."""
    table = tables.bench_session
    values = dict(zip(("date", "kitchen", "sealer"), head.key, strict=True))
    found = connection.execute(select(table.c.number).filter_by(**values)).scalar()
    if found is not None:
        return int(found), False
    return int(connection.execute(insert(table).returning(table.c.number), values).scalar_one()), True


def _write_head(
    connection: Connection,
    session: int,
    head: Session,
    source: str,
    events: Iterable[Event],
    erased: Collection[str],
    *,
    none_there: bool,
) -> list[tuple[str, str]]:
    """Write what a source says at the head, and return the dispute that it opens, if any."""
    told = replace(head, supervisor=ERASED) if head.supervisor in erased else head
    table = tables.bench_header
    key = {"session": session, "source": source, "digest": digest_of_head(told)}
    weight = sum(event.revision for event in events)
    known = None if none_there else connection.execute(select(table.c.weight).filter_by(**key)).scalar()
    if known is not None:
        if weight > known:
            connection.execute(update(table).filter_by(**key).values(weight=weight))
        return []
    was_open = not none_there and bool(disputed_heads(connection, [session]))
    values = {name: getattr(told, name) for name in ("can", "lid_lot", "supervisor", "product")}
    connection.execute(insert(table), {**values, **key, "weight": weight})
    is_open = not none_there and bool(disputed_heads(connection, [session]))
    return [(session_id(session), HEAD)] if is_open and not was_open else []


def write_events(
    connection: Connection,
    session: int,
    events: Iterable[Event],
    *,
    import_number: int | None,
    none_there: bool = False,
) -> TakenIn:
    """Write the versions that are not there yet, and say anew which versions count.

    Args:
        connection: a writing connection.
        session: number of the session.
        events: versions of its events.
        import_number: the file they come from; None when they come from the desk.
        none_there: whether the session is known to be empty.
    """
    given: dict[_Key, Event] = {(event.id, event.revision, digest_of(event)): event for event in events}
    before = set() if none_there else _versions(connection, session)
    fresh = [key for key in given if key not in before]
    number_of: dict[str, int] = defaultdict(int)
    for id_, _, _ in (*before, *fresh):
        number_of[id_] += 1
    if fresh:
        shared = {"session": session, "import_number": import_number}
        rows = [{**row_of(given[key]), **shared, "digest": key[2], "counts": number_of[key[0]] == 1} for key in fresh]
        connection.execute(insert(tables.bench_event), rows)
    several = {id_ for id_, _, _ in fresh if number_of[id_] > 1}
    disputes = count_again(connection, session, several) if several else []
    return _told(before, given, fresh, [(session_id(session), id_) for id_ in disputes])


def count_again(connection: Connection, session: int, ids: Collection[str]) -> list[str]:
    """Say anew which version of some events counts, and return those that are open disputes.

    Args:
        connection: a writing connection.
        session: number of the session.
        ids: ids of events.
    """
    event = tables.bench_event
    mine = (event.c.session == session, event.c.id.in_(sorted(ids)))
    versions: dict[str, list[Event]] = defaultdict(list)
    for row in connection.execute(select(*EVENT_COLUMNS).where(*mine)):
        versions[row.id].append(event_of(row, ("", "", "")))
    choices = last_choices(connection, [session])
    connection.execute(update(event).where(*mine).values(counts=False))
    disputed = []
    for id_, told in versions.items():
        choice = choices.get((session, id_))
        counts, candidates = standing(told, choice)
        one = {"session": session, "id": id_, "revision": counts.revision, "digest": digest_of(counts)}
        connection.execute(update(event).filter_by(**one).values(counts=True))
        if len(candidates) > 1 and not (choice and choice.settles(map(digest_of, candidates))):
            disputed.append(id_)
    return disputed


def _versions(connection: Connection, session: int) -> set[_Key]:
    event = tables.bench_event
    query = select(event.c.id, event.c.revision, event.c.digest).where(event.c.session == session)
    return {(id_, revision, digest) for id_, revision, digest in connection.execute(query)}


def _without(event: Event, erased: Collection[str]) -> Event:
    return replace(event, by=ERASED) if event.by in erased else event


def _told(
    before: Collection[_Key], given: Iterable[_Key], fresh: Iterable[_Key], disputes: Sequence[tuple[str, str]]
) -> TakenIn:
    """Count by events what was new about them."""
    known, brought = _highest(before), _highest(fresh)
    same = len(_highest(given).keys() - brought.keys())
    revised = sum(1 for id_, revision in brought.items() if id_ in known and revision > known[id_])
    older = sum(1 for id_, revision in brought.items() if id_ in known and revision < known[id_])
    return TakenIn(len(brought.keys() - known.keys()), revised, older, same, tuple(disputes))


def _highest(keys: Iterable[_Key]) -> dict[str, int]:
    found: dict[str, int] = {}
    for id_, revision, _ in keys:
        found[id_] = max(revision, found.get(id_, 0))
    return found
