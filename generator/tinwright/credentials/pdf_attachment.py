"""The certificate inside a PDF: followed from the end of the file to the one file that belongs to the document.

A PDF can be read in many ways, and what one program finds in a damaged or cunning one another does not. So a general
library is not asked: this and the browser's twin, `certificate-pdf.js`, follow the same few steps of ISO 32000 and
refuse the same files. What nothing leads to is not found, and nothing is unpacked beyond what a certificate can need.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from tinwright.credentials.pdf_streams import inflated, too_large, unpredicted, whole_numbers
from tinwright.credentials.pdf_syntax import BLANK, PdfDict, PdfRef, PdfText, damaged, read_value
from tinwright.errors import CertificateError

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.credentials.pdf_syntax import PdfValue

__all__ = ["ATTACHED_NAME", "LARGEST_ATTACHED", "attached_certificate"]

ATTACHED_NAME = "certificate.json"
"""Name of the attached file."""
LARGEST_ATTACHED = 100_000
"""Bytes of the largest certificate; one has about five thousand."""

_LARGEST_TABLE = 1_000_000
"""Bytes to which a table of places, or a pack of objects, is unpacked."""
_MOST_ENTRIES = 50_000
_MOST_SECTIONS = 16
_MOST_OBJECTS = 64
_MOST_PACKS = 8
_MOST_PACKED = 1000
_END = 2048
"""Bytes at the end among which the way into the file must be told."""
_RELATIONS = ("/Data", "/Source")
"""How an attached file may say that it belongs to the document (ISO 32000-2, table 43); ours says Data."""

_START = re.compile(rf"startxref{BLANK}{{1,32}}([0-9]{{1,10}})")
_TABLE = re.compile(rf"{BLANK}{{0,32}}xref{BLANK}{{1,32}}")
_SUBSECTION = re.compile(rf"{BLANK}{{0,32}}([0-9]{{1,8}}) ([0-9]{{1,8}}) ?[\r\n]{{1,2}}")
_ENTRY = re.compile(r"([0-9]{10}) ([0-9]{5}) ([nf])[ \r\n]{1,2}")
_TRAILER = re.compile(rf"{BLANK}{{0,32}}trailer")
_HEAD = re.compile(rf"{BLANK}{{0,32}}([0-9]{{1,10}}){BLANK}{{1,32}}([0-9]{{1,5}}){BLANK}{{1,32}}obj")
_AFTER = re.compile(rf"{BLANK}{{0,32}}(endobj|stream\r?\n)")
_STREAM_END = re.compile(rf"{BLANK}{{0,4}}endstream")
_PACKED_HEAD = re.compile(rf"{BLANK}{{0,32}}([0-9]{{1,10}}){BLANK}{{1,32}}([0-9]{{1,10}})")


def attached_certificate(pdf: bytes) -> bytes:
    """Return the file attached to a certificate's PDF.

    Raises:
        CertificateError: when there is none, there are several, or the file cannot be followed.
    """
    document = _Document(pdf.decode("latin-1"))
    names = document.dictionary(document.root.get("/Names"))
    found = list(document.leaves(names.get("/EmbeddedFiles"), 0))
    if not found:
        raise CertificateError("no certificate is attached to this PDF: a scan or a print of one cannot be checked")
    if len(found) > 1:
        raise CertificateError("several files are attached to this PDF, and a certificate has one")
    spec, belonging = document.dictionary(found[0]), document.resolved(document.root.get("/AF"))
    told = [spec[key] for key in ("/F", "/UF") if key in spec]
    files = document.dictionary(spec.get("/EF"))
    file = files.get("/F")
    if (
        not told
        or any(not isinstance(name, PdfText) or _file_name(name) != ATTACHED_NAME for name in told)
        or spec.get("/AFRelationship") not in _RELATIONS
        or not isinstance(found[0], PdfRef)
        or belonging != [found[0]]
        or not isinstance(file, PdfRef)
        or files.get("/UF", file) != file
    ):
        raise CertificateError("what is attached to this PDF is not a certificate of the kind issued here")
    return document.content(document.object(file), LARGEST_ATTACHED).encode("latin-1")


def _file_name(name: PdfText) -> str:
    if name.letters.startswith("\xfe\xff"):
        return name.letters.encode("latin-1").decode("utf-16", errors="replace")
    return name.letters


class _Object(NamedTuple):
    value: PdfValue
    stream: int | None
    """Where its bytes begin, when it has some."""


class _Place(NamedTuple):
    packed: bool
    """Whether it lies in a pack of objects."""
    at: int
    """Its place in the file; of a packed one, the number of the pack."""
    turn: int
    """Its generation; of a packed one, its turn in the pack."""


class _Document:
    """The objects of a file, found by its tables of places, the newest first."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._places: dict[int, _Place | None] = {}
        self._entries = _MOST_ENTRIES
        self._objects = _MOST_OBJECTS
        self._packs: dict[int, tuple[str, list[tuple[int, int]]]] = {}
        self.root = self.dictionary(self._read_places().get("/Root"))

    def dictionary(self, value: PdfValue) -> PdfDict:
        found = self.resolved(value)
        if found is None:
            return {}
        if not isinstance(found, dict):
            raise damaged()
        return found

    def resolved(self, value: PdfValue) -> PdfValue:
        return self.object(value).value if isinstance(value, PdfRef) else value

    def object(self, ref: PdfRef) -> _Object:
        self._objects -= 1
        if self._objects < 0:
            raise damaged()
        place = self._places.get(ref.number)
        if place is None:
            return _Object(None, None)
        if place.packed:
            return _Object(self._unpacked(ref.number, place), None)
        found, number, generation = self._object_at(place.at)
        if (number, generation) != ref or place.turn != generation:
            raise damaged()
        return found

    def leaves(self, node: PdfValue, depth: int) -> Iterator[PdfValue]:
        """Yield the values of a tree of names (ISO 32000-1, 7.9.6)."""
        found = self.dictionary(node)
        kids, names = self.resolved(found.get("/Kids")), self.resolved(found.get("/Names"))
        if depth > 4 or not isinstance(kids, list | None) or not isinstance(names, list | None):
            raise damaged()
        yield from (names or [])[1::2]
        for kid in kids or []:
            yield from self.leaves(kid, depth + 1)

    def content(self, found: _Object, limit: int) -> str:
        """Return what is in a stream, unpacked.

        Args:
            found: the object.
            limit: most bytes that it may have.
        """
        value, start = found
        if start is None or not isinstance(value, dict):
            raise damaged()
        length = value.get("/Length")
        if isinstance(length, PdfRef):
            place = self._places.get(length.number)
            length = None if place is None or place.packed else self.object(length).value
        if not isinstance(length, int) or isinstance(length, bool):
            raise damaged()
        if not _STREAM_END.match(self._text, start + length):
            raise damaged()
        raw = self._text[start : start + length]
        filters = value.get("/Filter")
        if filters in (None, []):
            if len(raw) > limit:
                raise too_large()
            return raw
        if filters not in ("/FlateDecode", ["/FlateDecode"]):
            raise damaged()
        return unpredicted(inflated(raw, limit), value.get("/DecodeParms"))

    def _read_places(self) -> PdfDict:
        """Read every table of places; return the newest trailer."""
        end = self._text[-_END:]
        found = _START.match(end, max(end.rfind("startxref"), 0))
        at: PdfValue = int(found[1]) if found else None
        trailers: dict[int, PdfDict] = {}
        while at is not None:
            if not isinstance(at, int) or isinstance(at, bool) or at in trailers or len(trailers) == _MOST_SECTIONS:
                raise damaged()
            trailers[at] = trailer = self._table(at) if _TABLE.match(self._text, at) else self._packed_table(at)
            if "/Encrypt" in trailer:
                raise CertificateError("the PDF is locked with a password: save it without one, or use the .json file")
            at = trailer.get("/Prev")
        if not trailers:
            raise damaged()
        return next(iter(trailers.values()))

    def _table(self, at: int) -> PdfDict:
        head = _TABLE.match(self._text, at)
        at = head.end() if head else at
        while found := _SUBSECTION.match(self._text, at):
            at = found.end()
            for number in range(int(found[1]), int(found[1]) + int(found[2])):
                entry = _ENTRY.match(self._text, at)
                if entry is None:
                    raise damaged()
                at = entry.end()
                self._note(number, _Place(False, int(entry[1]), int(entry[2])) if entry[3] == "n" else None)
        trailer = _TRAILER.match(self._text, at)
        value = read_value(self._text, trailer.end())[0] if trailer else None
        if not isinstance(value, dict):
            raise damaged()
        return value

    def _packed_table(self, at: int) -> PdfDict:
        found, _, _ = self._object_at(at)
        value = found.value
        if not isinstance(value, dict) or value.get("/Type") != "/XRef":
            raise damaged()
        widths, index = whole_numbers(value.get("/W")), whole_numbers(value.get("/Index", [0, value.get("/Size")]))
        row = sum(widths)
        if len(widths) != 3 or max(widths) > 4 or row == 0 or len(index) % 2:
            raise damaged()
        content, at = self.content(found, _LARGEST_TABLE), 0
        for first, count in zip(index[::2], index[1::2], strict=True):
            for number in range(first, first + count):
                if at + row > len(content):
                    raise damaged()
                kind, one, two = _fields(content[at : at + row], widths)
                at += row
                self._note(number, _Place(kind == 2, one, two) if kind in {1, 2} else None)
        return value

    def _note(self, number: int, place: _Place | None) -> None:
        self._entries -= 1
        if self._entries < 0:
            raise damaged()
        self._places.setdefault(number, place)

    def _object_at(self, at: int) -> tuple[_Object, int, int]:
        head = _HEAD.match(self._text, at)
        if head is None:
            raise damaged()
        value, end = read_value(self._text, head.end())
        after = _AFTER.match(self._text, end)
        if after is None:
            raise damaged()
        return _Object(value, None if after[1] == "endobj" else after.end()), int(head[1]), int(head[2])

    def _unpacked(self, number: int, place: _Place) -> PdfValue:
        if place.at not in self._packs:
            self._packs[place.at] = self._pack(place.at)
        text, heads = self._packs[place.at]
        if place.turn >= len(heads) or heads[place.turn][0] != number:
            raise damaged()
        return read_value(text, heads[place.turn][1])[0]

    def _pack(self, number: int) -> tuple[str, list[tuple[int, int]]]:
        place = self._places.get(number)
        if place is None or place.packed or len(self._packs) == _MOST_PACKS:
            raise damaged()
        found = self.object(PdfRef(number, place.turn))
        value = found.value
        if not isinstance(value, dict) or value.get("/Type") != "/ObjStm":
            raise damaged()
        count, first = whole_numbers([value.get("/N"), value.get("/First")])
        if count > _MOST_PACKED:
            raise damaged()
        text, heads, at = self.content(found, _LARGEST_TABLE), list[tuple[int, int]](), 0
        for _ in range(count):
            head = _PACKED_HEAD.match(text, at)
            if head is None:
                raise damaged()
            at = head.end()
            heads.append((int(head[1]), first + int(head[2])))
        return text, heads


def _fields(row: str, widths: list[int]) -> tuple[int, int, int]:
    """Return kind, place and turn out of a row of a table (ISO 32000-1, 7.5.8.3)."""
    first, second, _ = widths
    parts = (row[:first], row[first : first + second], row[first + second :])
    kind, one, two = (int.from_bytes(part.encode("latin-1")) for part in parts)
    return kind if first else 1, one, two
