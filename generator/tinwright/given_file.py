"""Read a file that somebody names: a plain file of reasonable size, never a pipe that waits or a device without end."""

from __future__ import annotations

import os
import stat
from typing import TYPE_CHECKING

from tinwright.errors import RecordError

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["kind_of", "read_given"]

_KINDS = {
    stat.S_IFDIR: "a folder",
    stat.S_IFIFO: "a pipe",
    stat.S_IFSOCK: "a socket",
    stat.S_IFCHR: "a device",
    stat.S_IFBLK: "a device",
}


def kind_of(mode: int) -> str | None:
    """Say what is there in place of a plain file, such as `a folder`; None when it is one.

    Args:
        mode: `st_mode` of it.
    """
    return None if stat.S_ISREG(mode) else _KINDS.get(stat.S_IFMT(mode), "something else")


def read_given(file: Path, most_bytes: int) -> bytes:
    """Return what is in a file.

    Args:
        file: the file.
        most_bytes: a longer one is refused, and not read further.

    Raises:
        RecordError: in words that go after the file's name: it cannot be read, is no plain file, or is too long.
    """
    try:
        # without waiting: a pipe would be opened only when somebody writes into it
        handle = os.open(file, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
        with os.fdopen(handle, "rb") as opened:
            kind = kind_of(os.fstat(handle).st_mode)
            raw = b"" if kind else opened.read(most_bytes + 1)
    except IsADirectoryError:
        kind, raw = "a folder", b""
    except OSError as error:
        raise RecordError(f"cannot be read: {error.strerror}") from error
    if kind:
        raise RecordError(f"expected a file, got {kind}")
    if len(raw) > most_bytes:
        raise RecordError(f"expected at most {most_bytes:,} bytes, got more")
    return raw
