"""What the desk adds to the bench log: which of several versions counts, and cans held, released or discarded."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

from sqlalchemy import insert, select, update

from tinwright.benchlog import (
    Event,
    bad_cans,
    last_written,
    problems_of,
    read_lines,
    still_held,
    unchecked_before_change,
)
from tinwright.benchlog.checks import CHECKS
from tinwright.benchlog.ranges import can_name, cans_in_words, joined, shared, without
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
        others = f"; what was: {', '.join(disputes)}" if disputes else ""
        raise RecordError(f"{session.id}: {event_id[:40]!r} was not written down in more than one way{others}")
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
    run: str = "",
    on: str = "",
) -> Event:
    """Enter cans held, released or discarded, as an event of the session.

    It comes after all that the log holds of the session by now, whatever the time. Only cans that are held, or that
    nobody looked at before a change or the close, can be released: a release of others would let go in advance what a
    file imported later holds. A can that was found bad is never released. What a file itself says is always imported.

    Args:
        connection: a writing connection.
        account: who makes the entry, for the change record.
        id_: id of the session.
        kind: `hold`, `release` or `discard`.
        cans: first and last of them, by the counter of the sealer.
        at: local time of day when it is decided, as in `17:30`.
        by: who decides: an id of the register, or initials; a release needs it.
        reason: why; a release needs it.
        run: letter of the run of the counter; the first one when left out.
        on: day on which it is decided, as in `2026-11-15`; the day of the session when left out.

    Raises:
        RecordError: when something is missing or makes no sense, or cans to release are not held or were found bad.
    """
    take_turn(connection)
    session = find(connection, id_)
    has_runs = any(line.run for line in read_lines(session.events))
    event = Event(
        f"{DESK}-{_next_number(connection)}",
        session.session.key,
        at,
        kind,
        by=optional_text(by, "by") or "",
        first=cans[0],
        last=cans[1],
        reason=plain_text(reason, "the reason", longest=_LONGEST) if reason.strip() else "",
        run=run or ("A" if has_runs else ""),
        on="" if on == session.session.date else on,
        after=last_written(session.events, but=DESK),
    )
    if problems := problems_of(event):
        raise RecordError("; ".join(f"{entry}: {what}" for entry, what in problems))
    if kind == "release":
        _refuse_what_may_not_go(session, event)
    write_events(connection, int(session.id[1:]), [event], import_number=None)
    log(connection, account, _WHAT[kind], f"{session.id} {event.id}")
    return event


def _refuse_what_may_not_go(session: LoggedSession, release: Event) -> None:
    """Refuse to release cans that were found bad, or are not held; a defect of whatever kind counts as holding some."""
    shown = f"{session.id} ({session.session.date}, {session.session.sealer})"
    cans = [line.cans for line in read_lines([*session.events, release]) if line.event is release and line.cans]
    checks = [replace(event, defect="") if event.kind in CHECKS else event for event in session.events]
    if bad := shared(cans, bad_cans(event for event in checks if event.kind != "defect")):
        raise RecordError(
            f"{shown}: found bad: {cans_in_words(bad)}; a can that was found bad is never released: "
            f"release the others, and write it down as discarded: tinwright log discard {session.id}"
        )
    held = still_held(session.events).cans
    unchecked = joined(*(found.cans for found in unchecked_before_change(session.events)))
    if not_held := without(cans, joined(held, unchecked)):
        hold = f"tinwright log hold {session.id} {can_name(not_held[0][0])} {can_name(not_held[-1][1])}"
        raise RecordError(
            f"{shown}: not held: {cans_in_words(not_held)}; held: {cans_in_words(held) or 'none'}; "
            f"to decide about other cans, hold them first: {hold}"
        )


def _next_number(connection: Connection) -> int:
    counter = tables.counter
    connection.execute(update(counter).where(counter.c.name == DESK).values(last=counter.c.last + 1))
    return int(connection.execute(select(counter.c.last).where(counter.c.name == DESK)).scalar_one())
