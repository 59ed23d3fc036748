"""Does a file lie on another computer? There the locks that keep two writers apart do not always hold."""

from __future__ import annotations

import os
import re
import sys
from pathlib import Path

__all__ = ["network_share"]

_MOUNTS = Path("/proc/self/mountinfo")
_SHARES = frozenset(
    [
        *("nfs", "nfs4", "cifs", "smb3", "smbfs", "afs", "ceph", "ncpfs", "davfs"),
        *("fuse.sshfs", "fuse.davfs2", "fuse.glusterfs", "fuse.rclone", "fuse.smbnetfs"),
    ]
)
"""Kinds of file systems whose files lie on another computer."""
_REMOTE_DRIVE = 4
"""What GetDriveTypeW of Windows says of a drive on another computer."""


def network_share(place: Path, mounts: str | None = None) -> str | None:
    """Return the kind of network share on which a place lies; None when it lies on this computer, or nothing is known.

    Args:
        place: an absolute path without links.
        mounts: text of `/proc/self/mountinfo`; this computer's own when left out.

    >>> network_share(Path("/office/ann/office/register.db"), "24 1 0:20 / /office/ann/office rw - nfs4 nas:/office rw")
    'nfs4'
    """
    if sys.platform == "win32":
        return _on_windows(place)
    if mounts is None:
        try:
            mounts = _MOUNTS.read_text(encoding="utf-8", errors="surrogateescape")
        except OSError:
            return None
    # of several that hold the place the deepest counts, of two of one depth the one mounted last
    deepest, found = -1, ""
    for line in mounts.splitlines():
        before, _, after = line.partition(" - ")
        fields, kind = before.split(" "), after.partition(" ")[0]
        if len(fields) < 5:
            continue
        point = Path(_without_escapes(fields[4]))
        if place.is_relative_to(point) and len(point.parts) >= deepest:
            deepest, found = len(point.parts), kind
    return found if found in _SHARES else None


def _without_escapes(text: str) -> str:
    return re.sub(r"\\([0-7]{3})", lambda match: chr(int(match[1], 8)), text)


def _on_windows(place: Path) -> str | None:
    if place.drive.startswith("\\\\"):
        return place.drive
    import ctypes  # noqa: PLC0415 - of use there only

    kernel = getattr(ctypes, "windll", None)
    drive = place.drive + os.sep
    return place.drive if kernel is not None and kernel.kernel32.GetDriveTypeW(drive) == _REMOTE_DRIVE else None
