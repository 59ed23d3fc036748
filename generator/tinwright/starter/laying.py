"""Filling a folder with the files of a program, all of them or nothing."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from tinwright.errors import WriteError

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["lay_whole", "refuse_filled"]


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
