"""Rows of a CSV file that somebody typed in from paper, each cell with its place, for what must be said of it."""

from __future__ import annotations

import csv
import datetime as dt
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.errors import RecordError
from tinwright.given_file import read_given

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

__all__ = ["TypedRow", "day_typed", "typed_rows", "typed_text"]

_US_DAY = re.compile(r"(\d{1,2})/(\d{1,2})/(\d{4})")


@dataclass(frozen=True)
class TypedRow:
    """One row, trimmed; empty cells at its end are left out."""

    line: int
    """Its line, counted from 1."""
    cells: tuple[str, ...]
    """What is in it."""
    starts: tuple[int, ...]
    """Column at which each cell begins, counted from 1."""

    def cell(self, place: int) -> str:
        """Return a cell by its place, counted from 0; empty beyond the end."""
        return self.cells[place] if place < len(self.cells) else ""

    def at(self, place: int) -> str:
        """Return `line:column` of a cell; beyond the end that of the last one."""
        return f"{self.line}:{self.starts[min(place, len(self.starts) - 1)]}"


def typed_text(file: Path, most_bytes: int) -> str:
    """Return what is in a CSV file.

    Args:
        file: the file.
        most_bytes: a longer one is refused.

    Raises:
        RecordError: when the file cannot be read at all, with its name.
    """
    try:
        return read_given(file, most_bytes).decode("utf-8-sig")
    except RecordError as error:
        raise RecordError(f"{file}: {error}") from error
    except UnicodeDecodeError as error:
        raise RecordError(f"{file}: expected text in UTF-8, got something else") from error


def typed_rows(text: str) -> Iterator[TypedRow]:
    r"""Split a CSV text into rows; empty ones, and notes that begin with #, are left out.

    >>> [(row.cells, row.at(1)) for row in typed_rows("# note\na, b,\n,,\n")]
    [(('a', 'b'), '2:3')]
    """
    for line, row in enumerate(text.splitlines(), 1):
        try:
            cells = [cell.strip() for cell in next(csv.reader([row]), [])]
        except csv.Error:  # a cell longer than the reader takes
            cells = [cell.strip() for cell in row.split(",")]
        while cells and not cells[-1]:
            cells.pop()
        if cells and not cells[0].startswith("#"):
            yield TypedRow(line, tuple(cells), _starts(row))


def day_typed(text: str) -> dt.date | None:
    """Read a day as typed, or None; spreadsheets in the United States turn 2026-11-02 into 11/2/2026.

    >>> day_typed("2026-11-02") == day_typed("11/2/2026")
    True
    """
    turned = _US_DAY.fullmatch(text)
    try:
        if turned:
            month, day, year = map(int, turned.groups())
            return dt.date(year, month, day)
        return dt.datetime.strptime(text, "%Y-%m-%d").date()  # noqa: DTZ007 - a day, not a moment
    except ValueError:
        return None


def _starts(row: str) -> tuple[int, ...]:
    starts, quoted = [1], False
    for column, character in enumerate(row, 2):
        if character == '"':
            quoted = not quoted
        elif character == "," and not quoted:
            starts.append(column)
    return tuple(starts)
