"""Templates as they were compiled, kept for the next build: compiling those of a site takes longer than using them."""

from __future__ import annotations

from contextlib import suppress
from functools import cache
from typing import TYPE_CHECKING

from jinja2 import BytecodeCache, FileSystemBytecodeCache

if TYPE_CHECKING:
    from jinja2.bccache import Bucket

__all__ = ["compiled_templates"]


class _Kept(FileSystemBytecodeCache):
    """The library's own cache, which a full or write-protected disk does not make fail."""

    def dump_bytecode(self, bucket: Bucket) -> None:
        with suppress(OSError):
            super().dump_bytecode(bucket)


@cache
def compiled_templates() -> BytecodeCache | None:
    """Return what keeps compiled templates, in the folder for temporary files that is this user's alone.

    Each is known by its name and place and checked against its text. None where there is no such folder: templates
    are then compiled anew.
    """
    try:
        return _Kept(pattern="tinwright-%s.cache")
    except (OSError, RuntimeError):
        return None
