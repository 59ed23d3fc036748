"""Seam readings from a file: a short CSV form that is as easy on paper as in a spreadsheet.

Notes begin with #. First come settings, one a line (`can,307x409`), then a line of headings, then one line a point:
can number, point, the readings, and what was seen. Entries may be written as people write them: `.055`, `55 thou`.
What cannot be read may be the very reading that is out, so a can with such a cell is never accepted.
"""

from __future__ import annotations

import csv
import io
import re
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from tinwright.errors import Problem, RecordError
from tinwright.given_file import read_given
from tinwright.knowledge.wording import commas_asked, nearest
from tinwright.seaming import (
    DIMENSIONS,
    POINTS_NEEDED,
    Reading,
    SeamReadings,
    find_unit,
    parse_percent,
    parse_reading,
)
from tinwright.seaming.wording import is_percent

if TYPE_CHECKING:
    from collections.abc import Iterator
    from fractions import Fraction
    from pathlib import Path

    from tinwright.knowledge import KnowledgeBase
    from tinwright.seaming import Entry

__all__ = [
    "BLANK_FORM",
    "COLUMNS",
    "POINT_NAMES",
    "SETTINGS",
    "CanReadings",
    "ReadingsSheet",
    "find_defect",
    "read_sheet",
]

SETTINGS = ("can", "specification", "sealer", "method", "unit", "end plate", "body plate", "lot", "date")
"""What stands at the head of a sheet."""
MEASURED = tuple(name for name in DIMENSIONS if name != "tightness")
COLUMNS = ("can no", "point", *(name.replace("-", " ") for name in MEASURED), "tightness", "seen")
"""What is read at each point."""

POINT_NAMES = (
    "opposite the side seam",
    "a third of the way round",
    "two thirds of the way round",
    "where it looks or feels worst",
)
"""Where the three points of the micrometer method lie, in words, and the one that is added.

Readings are most useful where a fault shows: Canadian manual of metal can defects, chapter 4, 4.1.2(a).
"""

BLANK_FORM = (
    "# Seam readings. Fill in one line for each point. Lines that begin with # are notes.\n"
    "# Three points about a third of the way round from each other (micrometer), two for the optical method.\n"
    "# Point 4 is the place that looks or feels worst; leave its line empty if none does.\n"
    "# Stay at least 1/2 in away from the side seam. Never average. Tightness in percent, once, at its worst place.\n"
    + "".join(
        f"{name},{value}\n"
        for name, value in zip(SETTINGS, ("", "", "", "micrometer", "in", "", "", "", ""), strict=True)
    )
    + ",".join(COLUMNS)
    + "\n"
    + "".join(f"1,{point}{',' * (len(COLUMNS) - 2)}\n" for point in range(1, len(POINT_NAMES) + 1))
)
"""The form with nothing filled in."""

_MAX_BYTES = 2_000_000


@dataclass(frozen=True)
class CanReadings:
    """What was read and seen on one can."""

    number: str
    """Its number on the sheet."""
    seam: SeamReadings
    """The readings."""
    defects: tuple[str, ...] = ()
    """Ids of the defects seen."""
    unread: tuple[str, ...] = ()
    """What could not be read and may belong to this can, with its place; such a can is never accepted."""


@dataclass
class ReadingsSheet:
    """A sheet of readings, as far as it could be read."""

    settings: dict[str, str] = field(default_factory=dict)
    """What stands at its head; ids of records resolved."""
    cans: tuple[CanReadings, ...] = ()
    """The cans."""
    problems: list[Problem] = field(default_factory=list)
    """What could not be read, each with its place; the rest still counts."""


def read_sheet(
    path: Path, kb: KnowledgeBase, *, specification: str | None = None, sealer: str | None = None
) -> ReadingsSheet:
    """Read a file of seam readings without ever raising for what is in it.

    Args:
        path: the CSV file.
        kb: where its names of cans, specifications, sealers and defects are looked up.
        specification: id of the seam specification to take in place of the one in the file.
        sealer: id of the sealer to take in place of the one in the file.
    """
    sheet = ReadingsSheet()
    try:
        raw = read_given(path, _MAX_BYTES)
    except RecordError as error:
        sheet.problems.append(Problem(path.name, 1, 1, "", str(error)))
        return sheet
    reader = _Reader(path.name, _lines(raw), kb, sheet, {"specification": specification, "sealer": sealer})
    reader.read()
    return sheet


def find_defect(kb: KnowledgeBase, name: str) -> str | None:
    """Return the id of the defect with this id, title or other trade name, or None.

    Args:
        kb: the knowledge base.
        name: what somebody wrote; capitals do not matter.
    """
    return _defect_names(kb).get(" ".join(name.lower().split()))


def _defect_names(kb: KnowledgeBase) -> dict[str, str]:
    names = {other.lower(): defect.id for defect in kb.defects.values() for other in defect.also}
    return (
        names | {defect.title.lower(): defect.id for defect in kb.defects.values()} | {id_: id_ for id_ in kb.defects}
    )


def _lines(raw: bytes) -> list[str]:
    """Split into lines as an editor counts them; bytes that are not UTF-8 become the mark for that."""
    return re.split("\r\n|\r|\n", raw.decode("utf-8-sig", errors="replace"))


@dataclass(frozen=True)
class _Cell:
    """One cell with its place."""

    text: str
    line: int
    column: int


class _Reader:
    """Reads one sheet, row by row."""

    def __init__(
        self, name: str, lines: list[str], kb: KnowledgeBase, sheet: ReadingsSheet, instead: dict[str, str | None]
    ) -> None:
        self._name, self._lines, self._kb, self._sheet, self._instead = name, lines, kb, sheet, instead
        self._places: dict[str, _Cell] = {}
        self._can: str | None = None
        self._unread: dict[str | None, list[str]] = {}
        self._written: dict[str, list[str]] = {}

    def read(self) -> None:
        """Fill the sheet."""
        rows = self._rows()
        for number, line in enumerate(self._lines, 1):
            if said := commas_asked(line, [COLUMNS[0]]):
                self._problem(_Cell("", number, 1), f"{said}, and numbers with a decimal point")
                return
        for row in rows:
            if row[0].text.lower() == COLUMNS[0]:
                columns = self._columns(row)
                break
            self._setting(row)
        else:
            self._problem(_Cell("", 1, 1), f"expected a line of headings that begins with {COLUMNS[0]!r}, got none")
            return
        self._resolve()
        self._sheet.cans = self._cans(rows, columns)
        if not self._sheet.cans:
            self._problem(_Cell("", 1, 1), "expected at least one line of readings below the headings, got none")

    def _problem(self, cell: _Cell, message: str, *, for_seam: bool = True) -> None:
        self._sheet.problems.append(Problem(self._name, cell.line, cell.column, "", message))
        if for_seam:
            self._unread.setdefault(self._can, []).append(f"Line {cell.line}: {message}")

    def _rows(self) -> Iterator[list[_Cell]]:
        for number, line in enumerate(self._lines, 1):
            if not line.strip(" ,;\t") or line.lstrip(' "').startswith("#"):
                continue
            if "\ufffd" in line:
                self._problem(_Cell("", number, line.index("\ufffd") + 1), "expected UTF-8 text, got other bytes")
            try:
                texts = next(csv.reader(io.StringIO(line), strict=True), [])
            except csv.Error:
                self._problem(_Cell(line, number, 1), "expected quotes that open and close in one line")
                continue
            if texts:
                yield list(_placed(texts, line, number))

    def _setting(self, row: list[_Cell]) -> None:
        key, value = row[0], row[1] if len(row) > 1 else _Cell("", row[0].line, row[0].column)
        name = key.text.lower()
        if name not in SETTINGS:
            expected = ", ".join(SETTINGS)
            self._problem(key, f"expected one of {expected}, got {key.text!r}{nearest(name, SETTINGS)}")
        elif value.text and name in self._places:
            self._problem(key, f"expected {name!r} once, got it again")
        elif value.text:
            self._sheet.settings[name] = value.text
            self._places[name] = value

    def _columns(self, row: list[_Cell]) -> dict[int, str]:
        found: dict[int, str] = {}
        for index, cell in enumerate(row):
            name = " ".join(cell.text.lower().replace("-", " ").split())
            if name in COLUMNS and name not in found.values():
                found[index] = name
            elif name:
                self._problem(cell, f"unknown or doubled heading {cell.text!r}{nearest(name, COLUMNS)}")
        return found

    def _resolve(self) -> None:
        settings = self._sheet.settings
        if "can" in settings:
            settings["can"] = settings["can"].lower().replace(" ", "").replace("×", "x")
        for name, id_ in self._instead.items():
            if id_ is not None:
                settings[name] = id_
        for name, kind in (("specification", "seam-specification"), ("sealer", "sealer"), ("can", "can")):
            if name in settings and settings[name] not in self._kb.of_kind(kind):
                hint = nearest(settings[name], self._kb.of_kind(kind))
                self._problem(
                    self._place(name), f"no {kind} is called {settings[name]!r}{hint}", for_seam=kind != "sealer"
                )
                del settings[name]
        self._resolve_specification()
        for name, allowed in (("method", tuple(POINTS_NEEDED)), ("unit", ("in", "mm"))):
            value = settings.setdefault(name, allowed[0]).lower()
            if value not in allowed:
                hint = nearest(value, allowed)
                self._problem(self._place(name), f"expected {' or '.join(allowed)}, got {settings[name]!r}{hint}")
                value = allowed[0]
            settings[name] = value

    def _resolve_specification(self) -> None:
        """Take no limits that are meant for other cans."""
        settings = self._sheet.settings
        if "specification" not in settings or "can" not in settings:
            return
        id_, can = settings["specification"], settings["can"]
        cans = self._kb.seam_specifications[id_].cans
        if can not in cans:
            expected = f"expected a can that {id_!r} is for ({', '.join(cans)})"
            self._problem(self._place("can"), f"{expected}, got {can!r}: nothing is judged by it")
            del settings["specification"]

    def _place(self, name: str) -> _Cell:
        return self._places.get(name, _Cell("", 1, 1))

    def _plate(self, name: str) -> tuple[float | None, float]:
        """Return the thickness of a plate and the unit of the last place it was written to."""
        if name not in self._sheet.settings:
            specification = self._sheet.settings.get("specification")
            if specification is None:
                return None, 0.0
            record = self._kb.seam_specifications[specification]
            return float((record.end_plate if name == "end plate" else record.body_plate).inches), 0.0
        entry = self._entry(self._places[name], name)
        return (None, 0.0) if entry is None else (_number(entry.value), _number(entry.step))

    def _entry(self, cell: _Cell, name: str) -> Entry | None:
        percent = is_percent(name.replace(" ", "-"))
        entry = parse_percent(cell.text) if percent else parse_reading(cell.text, self._sheet.settings["unit"])
        if entry.value is None:
            self._problem(cell, f"{name.replace('-', ' ')}: {entry.question} Got {cell.text!r}.")
            return None
        return entry

    def _cans(self, rows: Iterator[list[_Cell]], columns: dict[int, str]) -> tuple[CanReadings, ...]:
        (end, end_step), (body, body_step) = self._plate("end plate"), self._plate("body plate")
        found: dict[str, CanReadings] = {}
        method, unit = self._sheet.settings["method"], self._sheet.settings["unit"]
        empty = SeamReadings(method, (), end, body, end_step, body_step, unit)
        for row in rows:
            number = row[0].text
            if not number or number.lower() in {*SETTINGS, COLUMNS[0]}:
                got = "nothing" if not number else f"{number!r}: settings and headings stand once, above all readings"
                self._problem(row[0], f"expected the number of the can in the first cell, got {got}")
                continue
            self._can = number
            can = found.get(number, CanReadings(number, empty))
            found[number] = self._add(can, row, columns)
            self._can = None
        return tuple(
            replace(can, unread=(*self._unread.get(None, ()), *self._unread.get(number, ())))
            for number, can in found.items()
        )

    def _add(self, can: CanReadings, row: list[_Cell], columns: dict[int, str]) -> CanReadings:
        """Return the can with the readings of one more line."""
        cells = {columns[index]: cell for index, cell in enumerate(row) if index in columns and cell.text}
        beyond = next((cell for cell in row[max(columns) + 1 :] if cell.text), None)
        if beyond is not None:
            self._problem(beyond, f"expected no more cells than headings in this line, got {beyond.text!r}")
        known = can.seam.readings
        point = cells["point"].text if "point" in cells else str(len({reading.point for reading in known}) + 1)
        readings = []
        for name in (*MEASURED, "tightness"):
            cell = cells.get(name.replace("-", " "))
            if cell is not None and (entry := self._entry(cell, name)) is not None:
                readings.append(Reading(name, point, _number(entry.value), _number(entry.step)))
                self._written.setdefault(can.number, []).append(entry.unit)
        seen = tuple(self._seen(cells["seen"])) if "seen" in cells else ()
        unit = find_unit(self._written.get(can.number, ()), self._sheet.settings["unit"])
        seam = replace(can.seam, readings=(*known, *readings), unit=unit)
        return replace(can, seam=seam, defects=tuple(dict.fromkeys((*can.defects, *seen))))

    def _seen(self, cell: _Cell) -> Iterator[str]:
        """Look up what was seen: ids or names of defects, several apart by semicolons."""
        for word in filter(None, (part.strip() for part in cell.text.split(";"))):
            found = find_defect(self._kb, word)
            if found is not None:
                yield found
            else:
                hint = nearest(word.lower(), _defect_names(self._kb))
                self._problem(cell, f"seen: no defect is called {word!r}{hint}")


def _number(value: Fraction | None) -> float:
    return 0.0 if value is None else float(value)


def _placed(texts: list[str], line: str, number: int) -> Iterator[_Cell]:
    """Give each cell its column, counted from 1, by walking the line past quotes and commas."""
    column = 1
    for text in texts:
        rest = line[column - 1 :]
        quoted = rest.startswith('"')
        shown = "".join(letter if letter.isprintable() else " " for letter in text)
        yield _Cell(shown.strip(), number, column)
        column += len(text) + text.count('"') + 2 if quoted else len(text)
        column += 1
