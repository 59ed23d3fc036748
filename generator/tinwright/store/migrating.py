"""Bring a store's tables up to date when it is opened."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import inspect, text

from tinwright.errors import RecordError
from tinwright.store.tables import ALL_TABLES

if TYPE_CHECKING:
    from sqlalchemy import Connection, Engine

__all__ = ["APPLICATION_ID", "NEWEST", "VERSION_TABLE", "bring_up_to_date"]

VERSION_TABLE = "schema_revision"
"""Table with the revision that a store is at."""
NEWEST = "0006"
"""The newest revision; known here so that opening a store that is up to date need not load Alembic."""
APPLICATION_ID = 0x54775267
"""Marks an SQLite file as a register: `TwRg` in ASCII. Also the key of the lock on PostgreSQL."""


def bring_up_to_date(engine: Engine, shown: str, *, to: str = "head") -> None:
    """Make or upgrade the tables of a store, all in one transaction.

    Args:
        engine: an engine made by `store`.
        shown: how to name the store in a message.
        to: revision to stop at; the newest when left out.

    Raises:
        RecordError: when the store is somebody else's, or was made by a newer version.
    """
    with engine.connect() as connection:
        if _revision(connection, shown) == NEWEST:
            return
    with engine.connect() as connection:
        # SQLite can change a table only by making it anew, which foreign keys must not see; the switch works only
        # outside a transaction, so it goes by SQLAlchemy, which would begin one.
        driver: Any = connection.connection.driver_connection
        sqlite = engine.dialect.name == "sqlite"
        if sqlite:
            driver.execute("PRAGMA foreign_keys=OFF")
        try:
            _upgrade(connection.execution_options(writes=True), shown, to)
        finally:
            if sqlite:
                driver.execute("PRAGMA foreign_keys=ON")


def _upgrade(connection: Connection, shown: str, to: str) -> None:
    with connection.begin():
        if connection.dialect.name != "sqlite":
            connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": APPLICATION_ID})
        # Another program may have done it while this one waited for its turn.
        if _revision(connection, shown) == NEWEST:
            return
        # Loading it takes longer than most commands do.
        from alembic import command  # noqa: PLC0415
        from alembic.config import Config  # noqa: PLC0415

        config = Config()
        config.set_main_option("script_location", "tinwright.store:migrations")
        config.attributes["connection"] = connection
        command.upgrade(config, to)
        if connection.dialect.name == "sqlite":
            connection.execute(text(f"PRAGMA application_id={APPLICATION_ID}"))
            if connection.execute(text("PRAGMA foreign_key_check")).first() is not None:
                raise RecordError(f"{shown}: entries refer to what is not there; it was left as it was")


def _revision(connection: Connection, shown: str) -> str | None:
    """Return the store's revision, None when it is empty; refuse what is not a register or is too new."""
    tables = set(inspect(connection).get_table_names())
    if VERSION_TABLE not in tables:
        taken = tables if connection.dialect.name == "sqlite" else tables & {table.name for table in ALL_TABLES}
        if taken:
            raise RecordError(f"{shown}: expected a register, got another program's database")
        return None
    if connection.dialect.name == "sqlite":
        mark = connection.execute(text("PRAGMA application_id")).scalar_one()
        if mark != APPLICATION_ID:
            raise RecordError(f"{shown}: expected a register, got another program's database")
    revision = str(connection.execute(text(f"SELECT version_num FROM {VERSION_TABLE}")).scalar_one())  # noqa: S608 - our own name
    if revision > NEWEST:
        raise RecordError(
            f"{shown}: made by a newer version ({revision}; this one knows up to {NEWEST}): update Tinwright"
        )
    return revision
