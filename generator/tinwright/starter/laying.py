"""Laying down the files of the starter programme."""

from __future__ import annotations

import shutil
import tempfile
from importlib.resources import as_file, files
from pathlib import Path

from tinwright.errors import WriteError

__all__ = ["lay_down"]


def lay_down(folder: Path) -> int:
    """Copy the starter programme to a new or empty folder, all of it or nothing.

    Returns:
        How many files were laid down.

    Raises:
        WriteError: when the folder holds anything already, or cannot be written.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise WriteError(f"{folder} is there already: name a new or empty folder")
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        with (
            tempfile.TemporaryDirectory(dir=folder.parent) as made,
            as_file(files("tinwright.starter") / "files") as source,
        ):
            whole = Path(made) / "programme"
            shutil.copytree(source, whole)
            if folder.exists():
                folder.rmdir()
            whole.rename(folder)
    except OSError as error:
        raise WriteError(f"{folder} cannot be written: {error.strerror}") from error
    return sum(1 for path in folder.rglob("*") if path.is_file())
