"""Laying down the files of the starter programme."""

from __future__ import annotations

import tempfile
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

from tinwright.errors import WriteError

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

__all__ = ["lay_down"]


def lay_down(folder: Path) -> int:
    """Copy the starter programme to a new or empty folder, all of it or nothing.

    Returns:
        How many files were laid down.

    Raises:
        WriteError: when the folder holds anything already, or cannot be written.
    """
    try:
        there = folder.exists()
        if there and (not folder.is_dir() or any(folder.iterdir())):
            raise WriteError(f"{folder}: expected a new or an empty folder, but something is there already")
        home = folder if there else folder.parent
        home.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=".tinwright-", dir=home) as made:
            whole = Path(made) / "programme"
            count = _copy(files("tinwright.starter") / "files", whole)
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
