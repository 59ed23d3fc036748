"""Copies of a store that is one file: made while others write, checked before they count, put back without loss."""

from __future__ import annotations

import contextlib
import shutil
import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import func, select

from tinwright.errors import RecordError
from tinwright.store.place import check_place, create_private
from tinwright.store.store import open_store
from tinwright.store.tables import ALL_TABLES

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["back_up", "check_copy", "put_back"]

_BESIDE = ("-wal", "-shm")
"""What SQLite keeps beside a file that is in use."""


def back_up(place: str | Path, copy: Path) -> dict[str, int]:
    """Copy a store into a new file, and open the copy to see that all is in it.

    Args:
        place: the store, a file.
        copy: where to; there must be nothing yet.

    Returns:
        How many rows each table of the copy has.

    Raises:
        RecordError: when the store is on a server or cannot be read, or the copy cannot be written or is not whole.
    """
    source = _file(place)
    open_store(source, create=False).close()
    target = check_place(copy)
    if target.exists():
        raise RecordError(f"{copy}: it is there already: name another file, so that no copy is lost")
    if not target.parent.is_dir():
        raise RecordError(f"{copy}: there is no folder {target.parent}")
    create_private(target)
    try:
        with contextlib.closing(sqlite3.connect(source)) as old, contextlib.closing(sqlite3.connect(target)) as new:
            old.backup(new)
        return check_copy(target)
    except (sqlite3.Error, OSError, RecordError) as error:
        _remove(target)
        raise RecordError(f"{copy}: the copy is not whole and was removed: {error}") from error


def check_copy(file: Path) -> dict[str, int]:
    """Open a copy, and count the rows of each table.

    Raises:
        RecordError: when it is damaged or no register.
    """
    if not file.is_file():
        raise RecordError(f"{file}: there is no such file")
    if not file.stat().st_size:
        raise RecordError(f"{file}: it is empty")
    with open_store(file, create=False) as store, store.reading() as connection:
        if (found := connection.exec_driver_sql("PRAGMA integrity_check").scalar_one()) != "ok":
            raise RecordError(f"{file}: it is damaged: {found}")
        return {
            table.name: connection.execute(select(func.count()).select_from(table)).scalar_one() for table in ALL_TABLES
        }


def put_back(copy: Path, place: str | Path) -> tuple[dict[str, int], Path | None]:
    """Put a copy in the place of a store; what stood there is kept beside it under another name.

    Args:
        copy: the copy; it stays as it is.
        place: the store, a file; it need not be there.

    Returns:
        How many rows each table has now, and where the file lies that stood there before.

    Raises:
        RecordError: when the copy is damaged, nothing is changed.
    """
    target = check_place(_file(place))
    if not copy.is_file():
        raise RecordError(f"{copy}: there is no such file")
    if copy.resolve() == target:
        raise RecordError(f"{copy}: expected a copy, got the register itself")
    part = target.with_name(f".{target.name}.restored")
    _remove(part)
    create_private(part)
    try:
        shutil.copyfile(copy, part)
        if (log := copy.with_name(f"{copy.name}-wal")).exists():
            shutil.copyfile(log, part.with_name(f"{part.name}-wal"))
        found = check_copy(part)
    except (OSError, RecordError) as error:
        _remove(part)
        raise RecordError(f"{copy}: cannot be put back, nothing was changed: {error}") from error
    kept = None
    if target.exists():
        # Opened and closed once more, so that all of it is in the one file.
        open_store(target, create=False).close()
        kept = next(name for name in _names(target) if not name.exists())
        target.replace(kept)
        for end in _BESIDE:
            target.with_name(f"{target.name}{end}").unlink(missing_ok=True)
    part.replace(target)
    _remove(part)
    return found, kept


def _file(place: str | Path) -> Path:
    if isinstance(place, str) and "://" in place:
        raise RecordError("a register on a server is copied with the server's own means, such as pg_dump")
    return Path(place)


def _names(target: Path) -> Iterator[Path]:
    number = 1
    while True:
        yield target.with_name(f"{target.stem}-before-restore-{number}{target.suffix}")
        number += 1


def _remove(file: Path) -> None:
    for end in ("", *_BESIDE):
        file.with_name(f"{file.name}{end}").unlink(missing_ok=True)
