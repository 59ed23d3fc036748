"""Where private files may lie, and how they are written.

Whatever lies under the site's sources or the built site may be published, so nothing private is ever put there.
"""

from __future__ import annotations

import os
import stat
import tempfile
from pathlib import Path

from tinwright.errors import RecordError

__all__ = ["check_place", "create_private", "take_from_others", "write_private"]

PUBLISHED = frozenset({"site", "content", "quizzes", "public_html", "www", "_site"})
"""Folders that a programme publishes or publishes from, and those that web servers and site tools publish."""
_MARKS = ("index.html", "mkdocs.yml", "mkdocs.yaml")
"""Files that tell a folder of a web site, or of its sources."""


def check_place(file: Path) -> Path:
    """Return the file's true place, or refuse one that might be published.

    Args:
        file: where a private file is to lie; links are followed.

    Raises:
        RecordError: when it lies in a folder of the site or of its sources.
    """
    for place in (Path(os.path.abspath(file.expanduser())), file.expanduser().resolve()):  # noqa: PTH100 - keeps links
        for folder in place.parents:
            if folder.name.casefold() in PUBLISHED:
                raise RecordError(f"{file}: private records must not lie in the folder {folder}, which is published")
            for mark in _MARKS:
                if (folder / mark).exists():
                    raise RecordError(
                        f"{file}: private records must not lie in {folder}, a web site's ({mark} is there)"
                    )
    return place


def create_private(file: Path) -> None:
    """Make an empty file that only its owner may read, unless there is one."""
    try:
        os.close(os.open(file, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    except FileExistsError:
        return
    except OSError as error:
        raise RecordError(f"{file}: cannot be made: {error.strerror}") from error


def take_from_others(file: Path) -> None:
    """Take a file, and what the database keeps beside it, from every other account, whatever they were allowed."""
    for each in (file, *(file.with_name(file.name + ending) for ending in ("-wal", "-shm", "-journal"))):
        try:
            if stat.S_IMODE(each.stat().st_mode) & 0o177:
                each.chmod(0o600)
        except OSError:
            # Not there; or on a stick without permissions, or somebody else's: nothing can be done from here.
            continue


def write_private(file: Path, content: str | bytes) -> None:
    """Write a file whole, readable by its owner alone, and never where it might be published.

    Args:
        file: where to; replaced when it is there.
        content: what to write, text as UTF-8.

    Raises:
        RecordError: when the place is refused or cannot be written.
    """
    place = check_place(file)
    part: Path | None = None
    try:
        # mkstemp makes files that only their owner may read
        handle, name = tempfile.mkstemp(dir=place.parent, prefix=f".{place.name}.", suffix=".part")
        part = Path(name)
        with os.fdopen(handle, "wb") as out:
            out.write(content.encode() if isinstance(content, str) else content)
            out.flush()
            os.fsync(out.fileno())
        part.replace(place)
    except OSError as error:
        if part is not None:
            part.unlink(missing_ok=True)
        raise RecordError(f"{file}: cannot be written: {error.strerror}") from error
