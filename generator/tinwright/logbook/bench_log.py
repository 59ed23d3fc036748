"""The bench log in the store: files taken in, sessions read back, and what the desk decides.

with open_bench_log("register.db") as log:
    for logged in log.sessions(since="2026-11-14", until="2026-11-14"):
        print(logged.session.sealer, len(logged.events), len(logged.open_disputes))
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Self

from sqlalchemy import select

from tinwright.logbook import deciding, importing, reading
from tinwright.store import Store, open_store, tables
from tinwright.store.changes import account, plain_text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from tinwright.benchlog import Event
    from tinwright.logbook.entries import Dispute, LogFile, LoggedSession, TakenIn

__all__ = ["BenchLog", "open_bench_log"]


def open_bench_log(place: str | Path, *, by: str | None = None, create: bool = True) -> BenchLog:
    """Open the store for its bench log, and make or upgrade it where that is needed; as `open_register`."""
    return BenchLog(open_store(place, create=create), by or account())


class BenchLog:
    """The bench log in an open store. Each method is one transaction: it is done whole, or not at all.

    Args:
        store: an open store; closed with the log.
        by: who makes changes, for the change record.
    """

    def __init__(self, store: Store, by: str) -> None:
        self._store = store
        self._by = plain_text(by, "who makes the change")

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self._store.close()

    def take_in(self, file: LogFile) -> TakenIn:
        """Add what a file tells; every version is kept, and the same again changes nothing."""
        return self.take_in_all([file])[0]

    def take_in_all(self, files: Sequence[LogFile]) -> list[TakenIn]:
        """Add what some files tell, all of them or none; as `take_in`."""
        with self._store.writing() as connection:
            return importing.take_in(connection, self._by, files)

    def sessions(
        self,
        *,
        since: str = "",
        until: str = "9999-12-31",
        kitchen: str | None = None,
        sealer: str | None = None,
    ) -> Iterator[LoggedSession]:
        """Yield sessions as they stand, by date, kitchen and sealer, all as they were at one moment.

        Args:
            since: first day, as in `2026-11-14`.
            until: last day.
            kitchen: the only kitchen wanted.
            sealer: the only sealer wanted.
        """
        with self._store.reading() as connection:
            yield from reading.each_session(connection, since=since, until=until, kitchen=kitchen, sealer=sealer)

    def session(self, session_id: str) -> LoggedSession:
        """Return one session by its id, such as `B0001`.

        Raises:
            RecordError: when there is no such session.
        """
        with self._store.reading() as connection:
            return deciding.find(connection, session_id)

    def people(self) -> frozenset[str]:
        """Return the ids that may stand in a log: of the volunteers there are, and of those who were erased."""
        with self._store.reading() as connection:
            there = connection.execute(select(tables.volunteer.c.id)).scalars().all()
            erased = connection.execute(select(tables.erasure.c.volunteer_id)).scalars().all()
        return frozenset((*there, *erased))

    def choose(self, session_id: str, event_id: str, version: str, *, by: str, reason: str) -> Dispute:
        """Decide which version of an event, or of a session's `head`, counts.

        Args:
            session_id: such as `B0001`.
            event_id: id of the event, or `head`.
            version: the first digits of its digest.
            by: who decides: an id of the register, or initials.
            reason: why.

        Raises:
            RecordError: when there is no such session, event or version, or only one of them.
        """
        with self._store.writing() as connection:
            return deciding.choose(connection, self._by, session_id, event_id, version, by=by, reason=reason)

    def write_at_desk(
        self,
        session_id: str,
        kind: str,
        cans: tuple[int, int],
        *,
        at: str,
        by: str = "",
        reason: str = "",
        run: str = "",
        on: str = "",
    ) -> Event:
        """Enter cans held, released or discarded; as `deciding.write_at_desk`."""
        with self._store.writing() as connection:
            return deciding.write_at_desk(
                connection, self._by, session_id, kind, cans, at=at, by=by, reason=reason, run=run, on=on
            )
