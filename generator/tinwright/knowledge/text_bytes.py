"""From the bytes of a file to its text, or to what is wrong with them: their likely encoding, and the cure."""

from __future__ import annotations

import codecs
import re
from typing import TYPE_CHECKING

from tinwright.errors import Problem

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["conflict_problems", "text_of"]

_MARKS = (
    (codecs.BOM_UTF32_LE, "UTF-32"),
    (codecs.BOM_UTF32_BE, "UTF-32"),
    (codecs.BOM_UTF16_LE, "UTF-16"),
    (codecs.BOM_UTF16_BE, "UTF-16"),
)
"""What stands at the beginning of a file to tell its encoding; the longer ones first, for one begins like another."""

_MAC_BYTES = frozenset(b"\xca\xc9\xd0\xd1\xd2\xd3\xd4\xd5")
"""Dashes, dots and quotation marks of Mac Roman; in Windows-1252 they are rare capitals that no English text has."""

_CURE = "save the file again as UTF-8"
_CONFLICT = re.compile(r"^(?:<{7}|>{7})(?: .*)?$", re.MULTILINE)


def text_of(raw: bytes, shown_as: str) -> str | Problem:
    r"""Return the text of a file, or where and why it is not UTF-8.

    Args:
        raw: what is in the file.
        shown_as: how a problem names it.

    >>> text_of(b"caf\xe9", "a.yml").message
    "expected UTF-8 text, got the byte 0xe9 ('é' in Windows-1252): save the file again as UTF-8"
    """
    for mark, encoding in _MARKS:
        if raw.startswith(mark):
            return Problem(shown_as, 1, 1, "", f"expected UTF-8 text, got {encoding}: {_CURE}")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        column = len(raw[: error.start].rpartition(b"\n")[2].decode(errors="ignore")) + 1
        return Problem(shown_as, line, column, "", f"expected UTF-8 text, got {_told(raw, error.start)}: {_CURE}")
    if "\0" in text and text[1::2].count("\0") + text[::2].count("\0") > len(text) // 3:
        return Problem(shown_as, 1, 1, "", f"expected UTF-8 text, got UTF-16: {_CURE}")
    return text


def _told(raw: bytes, at: int) -> str:
    beyond = {byte for byte in raw if byte > 0x7F}
    name, codec = ("Mac Roman", "mac-roman") if beyond <= _MAC_BYTES else ("Windows-1252", "cp1252")
    byte = raw[at : at + 1]
    try:
        letter = byte.decode(codec)
    except UnicodeDecodeError:
        return f"the byte 0x{byte.hex()}"
    return f"the byte 0x{byte.hex()} ({letter!r} in {name})"


def conflict_problems(text: str, shown_as: str) -> Iterator[Problem]:
    """Yield a problem for each place where a program that joins two versions of a file left both."""
    began = None
    for match in _CONFLICT.finditer(text):
        line = text.count("\n", 0, match.start()) + 1
        if match[0][0] == "<":
            began = line
            continue
        first = line if began is None else began
        yield Problem(shown_as, first, 1, "", f"two versions of the same lines, {first} to {line}: {_DECIDE}")
        began = None
    if began is not None:
        yield Problem(shown_as, began, 1, "", f"two versions of the same lines, from {began} on: {_DECIDE}")


_DECIDE = "keep the lines that are right, and delete the others and the marks (<<<<<<<, =======, >>>>>>>)"
