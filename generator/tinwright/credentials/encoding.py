"""How what a certificate holds is written: JSON, base58, base64url; read once through, and in one way only.

The browser's twin is `certificate-encoding.js`. What is read comes from strangers: every text has a longest length.
"""

from __future__ import annotations

import base64
import binascii
import json
import re
from typing import TYPE_CHECKING, Any

import base58

from tinwright.errors import CertificateError

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = ["base64url", "decode_text", "from_base64url", "from_multibase", "parse_json"]

_DEEPEST = 16
_MULTIBASE = re.compile(r"z[1-9A-HJ-NP-Za-km-z]{0,198}")
"""Decoding takes time by the square of the length; a signature has 88 letters."""
_WHOLE_NUMBER = re.compile(r"0|-?[1-9][0-9]{0,14}")
"""Numbers that every reader of JSON takes for the same."""
_HALF_LETTER = re.compile("[\ud800-\udfff]")


def decode_text(content: bytes) -> str:
    """Return what is written in UTF-8, without a mark before it and blanks around it.

    Raises:
        CertificateError: when it is no text.
    """
    try:
        return content.decode("utf-8-sig").strip(" \t\r\n")
    except UnicodeDecodeError as error:
        raise CertificateError("expected a certificate as .json, .jwt or .pdf, got some other kind of file") from error


def parse_json(text: str) -> Any:
    """Read JSON that all readers take for the same: each member once, whole letters, exact numbers.

    Raises:
        CertificateError: when it is no JSON, or another reader might see something else in it.
    """
    try:
        found = json.loads(
            text,
            object_pairs_hook=_each_once,
            parse_int=_whole_number,
            parse_float=_whole_number,
            parse_constant=_whole_number,
        )
    except CertificateError:
        raise
    except (ValueError, RecursionError) as error:
        raise CertificateError("expected JSON, got something else or a damaged file") from error
    _check_letters_and_depth(found, _DEEPEST)
    return found


def _each_once(pairs: Iterable[tuple[str, Any]]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for key, value in pairs:
        if key in found:
            raise CertificateError(f"the member {key!r} stands twice")
        found[key] = value
    return found


def _whole_number(text: str) -> int:
    if not _WHOLE_NUMBER.fullmatch(text):
        raise CertificateError(f"expected whole numbers of at most 15 digits, got {text[:40]}")
    return int(text)


def _check_letters_and_depth(value: Any, depth: int) -> None:
    if isinstance(value, str):
        if _HALF_LETTER.search(value):
            raise CertificateError("expected JSON of whole letters, got half of one: the file is damaged")
        return
    if not isinstance(value, dict | list):
        return
    if depth == 0:
        raise CertificateError("expected a certificate, got lists within lists without end")
    for each in value:  # the keys of a dictionary
        _check_letters_and_depth(each, depth - 1)
    if isinstance(value, dict):
        for each in value.values():
            _check_letters_and_depth(each, depth - 1)


def from_multibase(text: object) -> bytes:
    """Return the bytes that base58 after a `z` stands for; none when it is something else, or far too long.

    >>> list(from_multibase("z2"))
    [1]
    """
    return base58.b58decode(text[1:]) if isinstance(text, str) and _MULTIBASE.fullmatch(text) else b""


def base64url(content: bytes) -> str:
    """Write bytes as base64url without padding (RFC 7515, appendix C)."""
    return base64.urlsafe_b64encode(content).rstrip(b"=").decode("ascii")


def from_base64url(text: str) -> bytes:
    """Read base64url without padding, written in the one way there is.

    Raises:
        CertificateError: when it is something else.
    """
    try:
        found = base64.b64decode(text + "=" * (-len(text) % 4), altchars=b"-_", validate=True)
    except (ValueError, binascii.Error) as error:
        raise CertificateError("expected base64url text between the dots of the token") from error
    if base64url(found) != text:
        raise CertificateError("expected base64url text written in the one right way")
    return found
