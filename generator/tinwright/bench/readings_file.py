"""Seam readings from a file: a short CSV form that is as easy on paper as in a spreadsheet.

Notes begin with #. First come settings, one a line (`can,307x409`), then a line of headings, then one line a point:
can number, point, the readings, and what was seen. Entries may be written as people write them: `.055`, `55 thou`.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from tinwright.errors import Problem
from tinwright.knowledge.wording import nearest
from tinwright.seaming import DIMENSIONS, POINTS_NEEDED, Reading, SeamReadings, parse_percent, parse_reading
from tinwright.seaming.wording import is_percent

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from tinwright.knowledge import KnowledgeBase

__all__ = ["BLANK_FORM", "CanReadings", "ReadingsSheet", "read_sheet"]

SETTINGS = ("can", "specification", "sealer", "method", "unit", "end plate", "body plate", "lot", "date")
MEASURED = tuple(name for name in DIMENSIONS if name != "tightness")
COLUMNS = ("can no", "point", *(name.replace("-", " ") for name in MEASURED), "tightness", "seen")

BLANK_FORM = (
    "# Seam readings. Fill in one line for each point. Lines that begin with # are notes.\n"
    "# Three points about a third of the way round from each other (micrometer), two for the optical method.\n"
    "# Stay at least 1/2 in away from the side seam. Never average. Tightness in percent, once, at its worst place.\n"
    + "".join(
        f"{name},{value}\n"
        for name, value in zip(SETTINGS, ("", "", "", "micrometer", "in", "", "", "", ""), strict=True)
    )
    + ",".join(COLUMNS)
    + "\n"
    + "".join(f"1,{point}{',' * (len(COLUMNS) - 2)}\n" for point in (1, 2, 3))
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


@dataclass
class ReadingsSheet:
    """A sheet of readings, as far as it could be read."""

    settings: dict[str, str] = field(default_factory=dict)
    """What stands at its head; ids of records resolved."""
    cans: tuple[CanReadings, ...] = ()
    """The cans."""
    problems: list[Problem] = field(default_factory=list)
    """What could not be read, each with its place; the rest still counts."""


def read_sheet(path: Path, kb: KnowledgeBase) -> ReadingsSheet:
    """Read a file of seam readings without ever raising for what is in it.

    Args:
        path: the CSV file.
        kb: where its names of cans, specifications, sealers and defects are looked up.
    """
    sheet = ReadingsSheet()
    try:
        raw = path.read_bytes()
        text = raw[:_MAX_BYTES].decode("utf-8-sig")
    except OSError as error:
        sheet.problems.append(Problem(path.name, 1, 1, "", f"cannot be read: {error.strerror}"))
        return sheet
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        sheet.problems.append(Problem(path.name, line, 1, "", "expected UTF-8 text, got other bytes"))
        return sheet
    _Reader(path.name, text, kb, sheet).read()
    return sheet


@dataclass(frozen=True)
class _Cell:
    """One cell with its place."""

    text: str
    line: int
    column: int


class _Reader:
    """Reads one sheet, row by row."""

    def __init__(self, name: str, text: str, kb: KnowledgeBase, sheet: ReadingsSheet) -> None:
        self._name, self._text, self._kb, self._sheet = name, text, kb, sheet
        self._places: dict[str, _Cell] = {}

    def read(self) -> None:
        rows = self._rows()
        for row in rows:
            first = row[0].text.lower()
            if first == COLUMNS[0]:
                columns = self._columns(row)
                break
            self._setting(row)
        else:
            self._problem(_Cell("", 1, 1), f"expected a line of headings that begins with {COLUMNS[0]!r}, got none")
            return
        self._resolve()
        self._sheet.cans = tuple(self._cans(rows, columns))
        if not self._sheet.cans:
            self._problem(_Cell("", 1, 1), "expected at least one line of readings below the headings, got none")

    def _problem(self, cell: _Cell, message: str) -> None:
        self._sheet.problems.append(Problem(self._name, cell.line, cell.column, "", message))

    def _rows(self) -> Iterator[list[_Cell]]:
        for number, line in enumerate(self._text.splitlines(), 1):
            if not line.strip(" ,\t") or line.lstrip().startswith("#"):
                continue
            try:
                texts = next(csv.reader(io.StringIO(line), strict=True), [])
            except csv.Error:
                self._problem(_Cell(line, number, 1), "expected quotes that open and close in one line")
                continue
            yield list(_placed(texts, line, number))

    def _setting(self, row: list[_Cell]) -> None:
        key, value = row[0], row[1] if len(row) > 1 else _Cell("", row[0].line, row[0].column)
        name = key.text.lower()
        if name not in SETTINGS:
            expected = ", ".join(SETTINGS)
            self._problem(key, f"expected one of {expected}, got {key.text!r}{nearest(name, SETTINGS)}")
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
        for name, kind in (("specification", "seam-specification"), ("sealer", "sealer"), ("can", "can")):
            if name in settings and settings[name] not in self._kb.of_kind(kind):
                hint = nearest(settings[name], self._kb.of_kind(kind))
                self._problem(self._places[name], f"no {kind} is called {settings[name]!r}{hint}")
                del settings[name]
        for name, allowed in (("method", tuple(POINTS_NEEDED)), ("unit", ("in", "mm"))):
            value = settings.setdefault(name, allowed[0]).lower()
            if value not in allowed:
                hint = nearest(value, allowed)
                self._problem(self._places[name], f"expected {' or '.join(allowed)}, got {settings[name]!r}{hint}")
                value = allowed[0]
            settings[name] = value

    def _plate(self, name: str) -> float | None:
        if name not in self._sheet.settings:
            specification = self._sheet.settings.get("specification")
            if specification is None:
                return None
            record = self._kb.seam_specifications[specification]
            return float((record.end_plate if name == "end plate" else record.body_plate).inches)
        return self._length(self._places[name], name)

    def _length(self, cell: _Cell, name: str) -> float | None:
        percent = is_percent(name.replace(" ", "-"))
        entry = parse_percent(cell.text) if percent else parse_reading(cell.text, self._sheet.settings["unit"])
        if entry.value is None:
            self._problem(cell, f"{name.replace('-', ' ')}: {entry.question} Got {cell.text!r}.")
            return None
        return float(entry.value)

    def _cans(self, rows: Iterator[list[_Cell]], columns: dict[int, str]) -> Iterator[CanReadings]:
        end, body = self._plate("end plate"), self._plate("body plate")
        readings: dict[str, list[Reading]] = {}
        defects: dict[str, list[str]] = {}
        for row in rows:
            cells = {columns[index]: cell for index, cell in enumerate(row) if index in columns and cell.text}
            if len(row) > max(columns) + 1 and any(cell.text for cell in row[max(columns) + 1 :]):
                self._problem(row[max(columns) + 1], "expected no more cells than headings in this line")
            number = cells["can no"].text if "can no" in cells else ""
            if not number:
                self._problem(row[0], "expected the number of the can in the first cell, got nothing")
                continue
            mine = readings.setdefault(number, [])
            point = cells["point"].text if "point" in cells else str(len({r.point for r in mine}) + 1)
            for name in (*MEASURED, "tightness"):
                cell = cells.get(name.replace("-", " "))
                if cell is not None and (value := self._length(cell, name)) is not None:
                    mine.append(Reading(name, point, value))
            if "seen" in cells:
                defects.setdefault(number, []).extend(self._seen(cells["seen"]))
        method = self._sheet.settings["method"]
        for number, found in readings.items():
            seen = tuple(dict.fromkeys(defects.get(number, ())))
            yield CanReadings(number, SeamReadings(method, tuple(found), end, body), seen)

    def _seen(self, cell: _Cell) -> Iterator[str]:
        """Look up what was seen: ids or titles of defects, several apart by semicolons."""
        by_name = {defect.title.lower(): id_ for id_, defect in self._kb.defects.items()}
        for word in filter(None, (part.strip() for part in cell.text.split(";"))):
            if word.lower() in self._kb.defects:
                yield word.lower()
            elif word.lower() in by_name:
                yield by_name[word.lower()]
            else:
                hint = nearest(word.lower(), [*self._kb.defects, *by_name])
                self._problem(cell, f"seen: no defect is called {word!r}{hint}")


def _placed(texts: list[str], line: str, number: int) -> Iterator[_Cell]:
    """Give each cell its column, counted from 1, by walking the line past quotes and commas."""
    column = 1
    for text in texts:
        rest = line[column - 1 :]
        quoted = rest.startswith('"')
        yield _Cell(text.strip(), number, column)
        column += len(text) + text.count('"') + 2 if quoted else len(text)
        column += 1
