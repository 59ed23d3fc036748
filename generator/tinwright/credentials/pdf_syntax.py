"""Values in the text of a PDF file: as much of ISO 32000-1, 7.2 and 7.3, as leads to an attached file.

The browser's twin is `certificate-pdf-syntax.js`: both read the same texts alike, and give up at the same place.
"""

from __future__ import annotations

import math
import re
from typing import NamedTuple, TypeAlias

from tinwright.errors import CertificateError

__all__ = ["BLANK", "LONGEST_VALUE", "PdfDict", "PdfRef", "PdfText", "PdfValue", "damaged", "read_value"]

LONGEST_VALUE = 16_384
"""Letters of the longest value that is read; a dictionary of a certificate has a few hundred."""
_DEEPEST = 16

BLANK = r"[\0\t\n\f\r ]"
"""One blank letter, as a regular expression (table 1)."""
_REGULAR = r"[^\0\t\n\f\r ()<>\[\]{}/%]"
_SPACE = re.compile(rf"(?:{BLANK}|%[^\r\n]*)*")
_NAME = re.compile(rf"/{_REGULAR}*")
_WORD = re.compile(rf"{_REGULAR}+")
_NUMBER = re.compile(r"[+-]?(?:[0-9]{1,15}(?:\.[0-9]*)?|\.[0-9]+)")
_INTEGER = re.compile(r"[0-9]{1,10}")
_REST_OF_REF = re.compile(rf"{BLANK}+([0-9]{{1,5}}){BLANK}+R(?!{_REGULAR})")
_PLAIN_LETTERS = re.compile(r"[^()\\]*(?:\\[\s\S][^()\\]*)*")
_HEX = re.compile(r"<([0-9A-Fa-f\0\t\n\f\r ]*)>")
_ESCAPE = re.compile(r"\\([0-7]{1,3}|\r\n|[\s\S])")
_ESCAPED = {"n": "\n", "r": "\r", "t": "\t", "b": "\b", "f": "\f", "\r": "", "\n": "", "\r\n": ""}
_WORDS = {"true": True, "false": False, "null": None}


class PdfRef(NamedTuple):
    """Where another object of the file is named."""

    number: int
    generation: int


class PdfText(NamedTuple):
    """A string, one letter for each of its bytes."""

    letters: str


PdfValue: TypeAlias = "bool | float | str | PdfText | PdfRef | list[PdfValue] | PdfDict | None"
"""Names are plain texts that begin with a slash; a number that is not whole is not needed, and is no number here."""
PdfDict: TypeAlias = dict[str, PdfValue]
"""Entries that are null are left out (7.3.7)."""


def damaged() -> CertificateError:
    """Return the refusal of a file that cannot be followed."""
    return CertificateError("the PDF is damaged, or written in a way that is not read here")


def read_value(text: str, at: int) -> tuple[PdfValue, int]:
    """Read one value of a file's text.

    Args:
        text: the file, one letter for each byte.
        at: where to begin.

    Returns:
        The value, and where it ends.

    Raises:
        CertificateError: when there is none, or a very long one.

    >>> read_value("<< /Type /Filespec /EF << /F 9 0 R >> >>", 0)[0]
    {'/Type': '/Filespec', '/EF': {'/F': PdfRef(number=9, generation=0)}}
    """
    reader = _Reader(text[at : at + LONGEST_VALUE])
    value = reader.value(0)
    return value, at + reader.at


class _Reader:
    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0

    def value(self, depth: int) -> PdfValue:
        if depth > _DEEPEST:
            raise damaged()
        self._skip_space()
        if self._take("<<"):
            return self._dictionary(depth)
        if self._take("["):
            return self._list(depth)
        if self._take("("):
            return self._literal()
        if found := _HEX.match(self.text, self.at):
            self.at = found.end()
            digits = re.sub(BLANK, "", found[1])
            return PdfText(bytes.fromhex(digits + "0" * (len(digits) % 2)).decode("latin-1"))
        if found := _NAME.match(self.text, self.at):
            self.at = found.end()
            return found[0]
        return self._word()

    def _skip_space(self) -> None:
        if found := _SPACE.match(self.text, self.at):
            self.at = found.end()

    def _take(self, mark: str) -> bool:
        if not self.text.startswith(mark, self.at):
            return False
        self.at += len(mark)
        return True

    def _dictionary(self, depth: int) -> PdfDict:
        found: PdfDict = {}
        while True:
            self._skip_space()
            if self._take(">>"):
                return found
            key = _NAME.match(self.text, self.at)
            if key is None or key[0] in found:
                raise damaged()
            self.at = key.end()
            value = self.value(depth + 1)
            if value is not None:
                found[key[0]] = value

    def _list(self, depth: int) -> list[PdfValue]:
        found: list[PdfValue] = []
        while True:
            self._skip_space()
            if self._take("]"):
                return found
            found.append(self.value(depth + 1))

    def _literal(self) -> PdfText:
        start, open_ = self.at, 1
        while open_:
            if found := _PLAIN_LETTERS.match(self.text, self.at):
                self.at = found.end()
            if self._take("("):
                open_ += 1
            elif self._take(")"):
                open_ -= 1
            else:
                raise damaged()
        return PdfText(_ESCAPE.sub(lambda found: _unescaped(found[1]), self.text[start : self.at - 1]))

    def _word(self) -> PdfValue:
        found = _WORD.match(self.text, self.at)
        if found is None:
            raise damaged()
        self.at = found.end()
        word = found[0]
        if word in _WORDS:
            return _WORDS[word]
        if not _NUMBER.fullmatch(word):
            raise damaged()
        if not _INTEGER.fullmatch(word):
            return math.nan
        if rest := _REST_OF_REF.match(self.text, self.at):
            self.at = rest.end()
            return PdfRef(int(word), int(rest[1]))
        return int(word)


def _unescaped(letters: str) -> str:
    if letters[0] in "01234567":
        return chr(int(letters, 8) % 256)
    return _ESCAPED.get(letters, letters)
