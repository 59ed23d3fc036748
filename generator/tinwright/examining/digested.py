"""JSON files that carry their own digest: read them, and refuse what was damaged or changed."""

from __future__ import annotations

import hashlib
import json
from decimal import Decimal, InvalidOperation
from typing import TYPE_CHECKING, Any, TypeVar

import rfc8785

from tinwright.errors import ExamError, RecordError
from tinwright.given_file import read_given

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping
    from pathlib import Path

__all__ = [
    "bytes_of",
    "decimal_in",
    "decimal_text",
    "digest_of",
    "flag_in",
    "parse_file",
    "read_members",
    "text_in",
    "text_or_none",
    "texts_in",
    "whole_in",
]

T = TypeVar("T")

_MOST_BYTES = 16_000_000
"""A form of drawn seams takes a few hundred kilobytes."""


def digest_of(content: Mapping[str, Any]) -> str:
    """Return the SHA-256 of the canonical form of some JSON (RFC 8785), as hexadecimal digits.

    >>> digest_of({})
    '44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a'
    """
    return hashlib.sha256(rfc8785.dumps(dict(content))).hexdigest()


def parse_file(text: str | bytes, *, kind: str, name: str, check_digest: bool = True) -> dict[str, Any]:
    """Read the JSON of one of the files of an examination, and see that nobody changed it.

    Args:
        text: what is in it.
        kind: what it says it is under `tinwright`: `form`, `key` or `responses`.
        name: name of the file, for the message.
        check_digest: False for a file whose digest is looked at elsewhere.

    Raises:
        ExamError: when it is damaged, of another kind or changed.
    """
    try:
        found = json.loads(text, object_pairs_hook=_each_once, parse_constant=_no_constant)
        json.dumps(found, ensure_ascii=False).encode()  # half a letter (a lone surrogate) has no UTF-8
    except (ValueError, RecursionError) as error:
        raise ExamError(f"{name}: expected the JSON of a {kind} file, got something else or a damaged file") from error
    if not isinstance(found, dict) or found.get("tinwright") != kind:
        got = found.get("tinwright", "none") if isinstance(found, dict) else "none"
        raise ExamError(f'{name}: expected a file with "tinwright": "{kind}", got {str(got)[:40]!r}')
    if check_digest:
        content = {key: value for key, value in found.items() if key != "digest"}
        try:
            same = found.get("digest") == digest_of(content)
        except rfc8785.CanonicalizationError as error:
            raise ExamError(f"{name}: a number in it is too large") from error
        if not same:
            raise ExamError(f"{name}: it was changed after it was written: its digest does not fit what is in it")
    return found


def bytes_of(file: Path) -> bytes:
    """Return what is in a file, or say why it is not read."""
    try:
        return read_given(file, _MOST_BYTES)
    except RecordError as error:
        raise ExamError(f"{file}: {error}") from error


def read_members(read: Callable[[], T], file: Path) -> T:
    """Read the members of a file, and tell a missing or an unfit one with the name of the file."""
    try:
        return read()
    except KeyError as error:
        raise ExamError(f"{file}: the member {error} is missing") from error
    except (AttributeError, TypeError, ValueError, InvalidOperation) as error:
        raise ExamError(f"{file}: a member of it is not what it should be ({error})") from error


def _each_once(pairs: Iterable[tuple[str, Any]]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for key, value in pairs:
        if key in found:
            raise ValueError(f"the member {key!r} stands twice")
        found[key] = value
    return found


def _no_constant(word: str) -> None:
    raise ValueError(f"expected a number, got {word}")


def text_in(value: Any) -> str:
    """Return a member that is a text."""
    if not isinstance(value, str):
        raise TypeError(f"expected a text, got {value!r}")
    return value


def text_or_none(value: Any) -> str | None:
    """Return a member that is a text or null."""
    return None if value is None else text_in(value)


def texts_in(value: Any) -> tuple[str, ...]:
    """Return a member that is a list of texts."""
    if not isinstance(value, list):
        raise TypeError(f"expected a list of texts, got {value!r}")
    return tuple(text_in(item) for item in value)


def whole_in(value: Any) -> int:
    """Return a member that is a whole number."""
    if not isinstance(value, int) or isinstance(value, bool):
        raise TypeError(f"expected a whole number, got {value!r}")
    return value


def flag_in(value: Any) -> bool:
    """Return a member that is true or false."""
    if not isinstance(value, bool):
        raise TypeError(f"expected true or false, got {value!r}")
    return value


def decimal_in(value: Any) -> Decimal | None:
    """Return a member that is a number written as text, or null."""
    if value is None:
        return None
    number = Decimal(text_in(value))
    if not number.is_finite():
        raise ValueError(f"expected a number, got {value!r}")
    return number


def decimal_text(value: Decimal | None) -> str | None:
    """Write a number as a member, without an exponent."""
    return None if value is None else f"{value:f}"
