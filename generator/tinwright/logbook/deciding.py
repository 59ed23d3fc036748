"""What the desk adds to the bench log: which of several versions counts, and cans held, released or discarded."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from sqlalchemy import insert, select, update

from tinwright.benchlog import Event, in_order, problems_of, still_held, unchecked_before_change
from tinwright.benchlog.ranges import cans_in_words, joined, shared, without
from tinwright.errors import RecordError
from tinwright.logbook.entries import HEAD
from tinwright.logbook.importing import count_again, take_turn, write_events
from tinwright.logbook.reading import DESK, each_session
from tinwright.store import tables
from tinwright.store.changes import log, optional_text, plain_text

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from tinwright.logbook.entries import Dispute, LoggedSession

__all__ = ["choose", "find", "write_at_desk"]

_WHAT = {"hold": "cans held", "release": "cans released", "discard": "cans discarded"}
_LONGEST = 500


def find(connection: Connection, id_: str) -> LoggedSession:
    """Return one session by its id, such as `B0001`.

    Raises:
        RecordError: when there is no such session.
    """
    number = id_.strip().upper().removeprefix("B")
    if number.isdecimal() and len(number) < 10:
        for session in each_session(connection, number=int(number)):
            return session
    raise RecordError(f"no session of the bench log is called {id_[:40]!r}")


def choose(
    connection: Connection, account: str, id_: str, event_id: str, version: str, *, by: str, reason: str
) -> Dispute:
    """Decide which version of an event, or of a session's `head`, counts; what was decided before is kept.

    Raises:
        RecordError: when there is no such session, event or version, or only one of them.
    """
    take_turn(connection)
    session = find(connection, id_)
    disputes = {dispute.event_id: dispute for dispute in session.disputes}
    if event_id not in disputes:
        told = f"; told in several ways: {', '.join(disputes)}" if disputes else ""
        raise RecordError(f"{session.id}: {event_id[:40]!r} is not told in several ways{told}")
    digests = [one.digest for one in disputes[event_id].versions]
    chosen = [digest for digest in digests if version and digest.startswith(version.lower())]
    if len(chosen) != 1:
        expected = ", ".join(digest[:6] for digest in digests)
        raise RecordError(f"{session.id} {event_id}: expected one of the versions {expected}, got {version[:40]!r}")
    number = int(session.id[1:])
    values = {
        "session": number,
        "event_id": event_id,
        "digest": chosen[0],
        "among": digests,
        "at": dt.datetime.now(tz=dt.UTC).strftime("%Y-%m-%dT%H:%M:%SZ"),
        "by": plain_text(by, "who decides"),
        "reason": plain_text(reason, "the reason", longest=_LONGEST),
    }
    connection.execute(insert(tables.bench_choice).values(values))
    if event_id != HEAD:
        count_again(connection, number, [event_id])
    log(connection, account, "bench log: version chosen", f"{session.id} {event_id}")
    return next(one for one in find(connection, session.id).disputes if one.event_id == event_id)


def write_at_desk(
    connection: Connection,
    account: str,
    id_: str,
    kind: str,
    cans: tuple[int, int],
    *,
    at: str,
    by: str,
    reason: str,
) -> Event:
    """Enter cans held, released or discarded, as an event of the session.

    Only cans that are held, or that nobody looked at before a change or the close, can be released: a release of
    others would let go in advance what a file taken in later holds. What a file itself says is always taken in.

    Args:
        connection: a writing connection.
        account: who makes the entry, for the change record.
        id_: id of the session.
        kind: `hold`, `release` or `discard`.
        cans: first and last of them, by the counter of the sealer.
        at: local time of day, as in `17:30`.
        by: who decides: an id of the register, or initials; a release needs it.
        reason: why; a release needs it.

    Raises:
        RecordError: when something is missing or makes no sense, or cans to release are not held.
    """
    take_turn(connection)
    session = find(connection, id_)
    event = Event(
        f"{DESK}-{_next_number(connection)}",
        session.session.key,
        at,
        kind,
        by=optional_text(by, "by") or "",
        first=cans[0],
        last=cans[1],
        reason=plain_text(reason, "the reason", longest=_LONGEST) if reason.strip() else "",
    )
    if problems := problems_of(event):
        raise RecordError("; ".join(f"{entry}: {what}" for entry, what in problems))
    if kind == "release":
        _refuse_what_is_not_held(session, event, cans)
    write_events(connection, int(session.id[1:]), [event], import_number=None)
    log(connection, account, _WHAT[kind], f"{session.id} {event.id}")
    return event


def _refuse_what_is_not_held(session: LoggedSession, release: Event, cans: tuple[int, int]) -> None:
    """Refuse cans that are not held when they are released; a defect of whatever kind counts as holding some."""
    ordered = in_order([*session.events, release])
    before = ordered[: ordered.index(release)]
    held = still_held(before).cans
    unchecked = joined(*(found.cans for found in unchecked_before_change(before)))
    not_held = without([cans], joined(held, unchecked))
    if not not_held:
        return
    hint = "they are held later that day: say when they were released, with --at"
    if not shared(not_held, still_held(session.events).cans):
        hold = f"tinwright log hold {session.id} {not_held[0][0]} {not_held[-1][1]}"
        hint = f"to decide about other cans, hold them first: {hold}"
    raise RecordError(
        f"{session.id} ({session.session.date}, {session.session.sealer}): not held at {release.at}: "
        f"{cans_in_words(not_held)}; held then: {cans_in_words(held) or 'none'}; {hint}"
    )


def _next_number(connection: Connection) -> int:
    counter = tables.counter
    connection.execute(update(counter).where(counter.c.name == DESK).values(last=counter.c.last + 1))
    return int(connection.execute(select(counter.c.last).where(counter.c.name == DESK)).scalar_one())
