"""Laying down the files of the starter programme."""

from __future__ import annotations

import tempfile
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

from tinwright.errors import WriteError

if TYPE_CHECKING:
    from collections.abc import Callable
    from importlib.resources.abc import Traversable

__all__ = ["lay_down", "lay_whole", "refuse_filled"]


def lay_down(folder: Path) -> int:
    """Copy the starter programme to a new or empty folder, all of it or nothing.

    Returns:
        How many files were laid down.

    Raises:
        WriteError: as `lay_whole`.
    """
    return lay_whole(folder, lambda whole: _copy(files("tinwright.starter") / "files", whole))


def lay_whole(folder: Path, make: Callable[[Path], int]) -> int:
    """Fill a new or empty folder, all of it or nothing.

    Args:
        folder: where the files shall lie.
        make: makes the folder it is given and everything in it; returns how many files those are.

    Returns:
        How many files were laid down.

    Raises:
        WriteError: when the folder holds anything already, or cannot be written.
    """
    try:
        refuse_filled(folder)
        there = folder.exists()
        home = folder if there else folder.parent
        home.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=".tinwright-", dir=home) as made:
            whole = Path(made) / "programme"
            count = make(whole)
            if there:  # it may be the folder the educator stands in, so it is filled, not replaced
                for entry in sorted(whole.iterdir()):
                    entry.rename(folder / entry.name)
            else:
                whole.rename(folder)
    except WriteError:
        raise
    except OSError as error:
        raise WriteError(f"{folder}: cannot be written: {error.strerror}") from error
    return count


def refuse_filled(folder: Path) -> None:
    """Refuse a folder that holds anything already.

    Raises:
        WriteError: when it does, or is no folder.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise WriteError(f"{folder}: expected a new or an empty folder, but something is there already")


def _copy(source: Traversable, target: Path) -> int:
    """Copy a folder out of the package; return how many files it holds."""
    target.mkdir()
    count = 0
    for entry in source.iterdir():
        if entry.is_dir():
            count += _copy(entry, target / entry.name)
        else:
            (target / entry.name).write_bytes(entry.read_bytes())
            count += 1
    return count
