"""A store on SQLite or PostgreSQL: opened, brought up to date, read and written in whole transactions.

What was confirmed stays: SQLite writes ahead and waits for the disk at each commit, writers take turns, and an error
undoes the whole transaction. The register and whatever else is private share one store.
"""

from __future__ import annotations

import contextlib
import sqlite3
import time
from pathlib import Path
from typing import TYPE_CHECKING, Any, Self

from sqlalchemy import URL, create_engine, event, make_url, text
from sqlalchemy.exc import ArgumentError, DBAPIError, SQLAlchemyError

from tinwright.errors import RecordError
from tinwright.given_file import kind_of
from tinwright.store.migrating import bring_up_to_date
from tinwright.store.network_shares import network_share
from tinwright.store.place import check_place, create_private, take_from_others

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sqlalchemy import Connection, Engine

__all__ = ["Store", "open_store"]

WAIT_SECONDS = 30
"""How long a writer waits for its turn."""
_DRIVER = "postgresql+psycopg"


class Store:
    """An open store.

    Args:
        engine: set up by `open_store`.
        shown: how to name the store in messages; never with a password.
    """

    def __init__(self, engine: Engine, shown: str) -> None:
        self._engine = engine
        self.shown = shown

    @contextlib.contextmanager
    def reading(self) -> Iterator[Connection]:
        """Give a connection that sees the store as it is at one moment."""
        options: dict[str, Any] = {} if self._is_file else {"isolation_level": "REPEATABLE READ"}
        with _in_plain_words(self.shown), self._engine.connect().execution_options(**options) as connection:
            yield connection

    @contextlib.contextmanager
    def writing(self) -> Iterator[Connection]:
        """Give a connection in a transaction that is kept whole, or, after any error, not at all."""
        with (
            _in_plain_words(self.shown),
            self._engine.connect().execution_options(writes=True) as connection,
            connection.begin(),
        ):
            yield connection

    def scrub(self) -> bool:
        """Rewrite the store without the remains of what was deleted.

        Returns:
            Whether all of it is gone; not when another program is reading the file at this moment.
        """
        with _in_plain_words(self.shown):
            # Connections at rest would keep the log of writes from being emptied.
            self._engine.dispose()
            with self._engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
                if not self._is_file:
                    connection.execute(text("VACUUM (FULL, ANALYZE)"))
                    return True
                driver: Any = connection.connection.driver_connection
                driver.execute("VACUUM")
                busy, _, _ = driver.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
                return not busy

    def close(self) -> None:
        """Let go of the file or the server."""
        self._engine.dispose()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    @property
    def _is_file(self) -> bool:
        return self._engine.dialect.name == "sqlite"


def open_store(place: str | Path, *, create: bool = True) -> Store:
    """Open a store, and make or upgrade its tables.

    Args:
        place: a file, or `postgresql+psycopg://user@host/database`.
        create: whether to make the file when it is not there.

    Raises:
        RecordError: when the place is refused, cannot be reached, or holds something else.
    """
    engine, shown = _engine_for(place, create=create)
    try:
        with _in_plain_words(shown):
            _check_letters(engine, shown)
            bring_up_to_date(engine, shown)
            _take_from_others(engine)
    except RecordError:
        engine.dispose()
        raise
    return Store(engine, shown)


def _check_letters(engine: Engine, shown: str) -> None:
    """Refuse a server's database that cannot hold every letter: a name would be lost halfway through an entry."""
    if engine.dialect.name == "sqlite":
        return
    with engine.connect() as connection:
        found = connection.execute(text("SHOW server_encoding")).scalar()
    if found != "UTF8":
        raise RecordError(
            f"{shown}: expected a database in the encoding UTF8, got {found}: "
            "make one with createdb --encoding=UTF8 --template=template0"
        )


def _take_from_others(engine: Engine) -> None:
    """Only now is it known to be a register: another program's file is left as it is."""
    if engine.dialect.name == "sqlite" and engine.url.database:
        take_from_others(Path(engine.url.database))


def _engine_for(place: str | Path, *, create: bool) -> tuple[Engine, str]:
    if isinstance(place, str) and "://" in place:
        return _server_engine(place)
    file = check_place(Path(place))
    try:
        kind = kind_of(file.stat().st_mode)
    except OSError:
        kind = None
    if kind:
        raise RecordError(f"{place}: expected a file, got {kind}")
    if not file.parent.is_dir():
        raise RecordError(f"{place}: there is no folder {file.parent}")
    if share := network_share(file):
        raise RecordError(
            f"{place}: lies on a network share ({share}), where two writers at once can destroy it: keep it on this "
            "computer's own disk, or use PostgreSQL"
        )
    if not create and not file.exists():
        raise RecordError(f"{place}: there is no register; adding the first volunteer makes one")
    create_private(file)
    engine = create_engine(URL.create("sqlite", database=str(file)), connect_args={"timeout": WAIT_SECONDS})
    event.listen(engine, "connect", _set_up_sqlite)
    event.listen(engine, "begin", _begin_sqlite)
    return engine, str(place)


def _server_engine(place: str) -> tuple[Engine, str]:
    try:
        url = make_url(place)
    except (ArgumentError, ValueError) as error:
        raise RecordError(
            f"expected a file or {_DRIVER}://user@host/database, got an address that cannot be read"
        ) from error
    if url.drivername not in {_DRIVER, "postgresql"}:
        raise RecordError(f"expected a file or {_DRIVER}://user@host/database, got {url.drivername}://")
    shown = url.render_as_string(hide_password=True)
    try:
        settings = {"connect_timeout": WAIT_SECONDS, "client_encoding": "UTF8"}
        return create_engine(url.set(drivername=_DRIVER), connect_args=settings), shown
    except ModuleNotFoundError as error:
        raise RecordError(f"{shown}: needs the library psycopg: install tinwright[postgresql]") from error


def _set_up_sqlite(driver: sqlite3.Connection, _: object) -> None:
    """Set a new connection to lose nothing, to leave no remains, and to begin transactions only where told to."""
    driver.isolation_level = None
    for pragma in ("foreign_keys=ON", "synchronous=FULL", "secure_delete=ON", "temp_store=MEMORY"):
        driver.execute(f"PRAGMA {pragma}")
    end = time.monotonic() + WAIT_SECONDS
    while True:
        try:
            driver.execute("PRAGMA journal_mode=WAL")
        except sqlite3.OperationalError as error:
            # SQLite does not wait for its turn here, as it does everywhere else.
            if error.sqlite_errorcode & 0xFF != sqlite3.SQLITE_BUSY or time.monotonic() > end:
                raise
            time.sleep(0.01)
        else:
            return


def _begin_sqlite(connection: Connection) -> None:
    # A writer asks for its turn at once; one that read first could be refused halfway.
    immediate = connection.get_execution_options().get("writes")
    connection.exec_driver_sql("BEGIN IMMEDIATE" if immediate else "BEGIN")


@contextlib.contextmanager
def _in_plain_words(shown: str) -> Iterator[None]:
    try:
        yield
    except DBAPIError as error:
        raise RecordError(f"{shown}: {_plain(error)}") from error
    except SQLAlchemyError as error:
        raise RecordError(f"{shown}: the database answered what was not expected: {type(error).__name__}") from error


_SQLITE_WORDS = {
    sqlite3.SQLITE_FULL: "the disk is full; nothing was changed",
    sqlite3.SQLITE_IOERR: "the disk is full or failing; nothing was changed",
    sqlite3.SQLITE_BUSY: f"another program has been writing for {WAIT_SECONDS} seconds; nothing was changed: try again",
    sqlite3.SQLITE_READONLY: "the file may not be written",
    sqlite3.SQLITE_CANTOPEN: "the file cannot be opened",
    sqlite3.SQLITE_PERM: "the file may not be opened",
    sqlite3.SQLITE_NOTADB: "expected a register, got a file of another kind",
    sqlite3.SQLITE_CORRUPT: "the file is damaged: put back your last copy, and keep the damaged one",
}

_SERVER_WORDS = {
    "28": "the server refused the user or the password",
    "3D": "the server has no such database",
    "42501": "this user may not do that on the server",
    "53100": "the server's disk is full; nothing was changed",
    "53300": "the server has too many users at this moment; try again",
}
"""Class or code of PostgreSQL's appendix A: the same in plain words."""


def _plain(error: DBAPIError) -> str:
    """Say what went wrong without the statement and its values, which are private."""
    origin = error.orig
    if isinstance(origin, sqlite3.Error):
        code = getattr(origin, "sqlite_errorcode", 0) & 0xFF
        if code == sqlite3.SQLITE_CONSTRAINT:
            return _CLASH
        return _SQLITE_WORDS.get(code, f"the database refused: {origin}")
    state = getattr(origin, "sqlstate", None)
    if state is None:
        return "the server cannot be reached, or the connection broke; what was not confirmed was not kept"
    if state.startswith("23"):
        return _CLASH
    words = _SERVER_WORDS.get(state) or _SERVER_WORDS.get(state[:2])
    return words or f"the server refused with code {state}; nothing was changed"


_CLASH = "somebody else entered the same thing at the same moment; nothing was changed: look, then try again"
