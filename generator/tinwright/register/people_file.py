"""Volunteers as a CSV file: taken in from an office's list, and written out again.

    name,email,kitchen
    Ann Example,ann@example.org,Mill Street

The headings may come in any order; all but `name` may be left out, and other columns are passed over.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.errors import RecordError
from tinwright.knowledge.wording import commas_asked, nearest
from tinwright.store.exporting import csv_cell
from tinwright.store.typed_table import typed_rows, typed_text

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Sequence
    from pathlib import Path

    from tinwright.register.entries import Volunteer

__all__ = ["ListedPerson", "people_csv", "read_people", "same_people"]

_HEAD = ("name", "email", "kitchen")
_ALSO = {"e-mail": "email", "mail": "email", "full name": "name"}
_MAX_BYTES = 2_000_000


@dataclass(frozen=True)
class ListedPerson:
    """A row of the list."""

    name: str
    """The name."""
    email: str | None
    """Where to reach them, if it is there."""
    kitchen: str | None
    """Where they work, if it is there."""
    place: str
    """Where it stands: the file, with line and column."""


def read_people(file: Path, *, kitchens: Collection[str] | None) -> tuple[list[ListedPerson], list[str]]:
    """Read a list of volunteers, and return it with one line for each thing that is wrong.

    Args:
        file: the CSV file.
        kitchens: the kitchens of the programme; None to take any.

    Raises:
        RecordError: when the file cannot be read at all.
    """
    rows = typed_rows(typed_text(file, _MAX_BYTES))
    head = next(rows, None)
    named = [cell.casefold() for cell in head.cells] if head else []
    columns = {_ALSO.get(name, name): place for place, name in enumerate(named)}
    if head and (said := commas_asked(head.cell(0), {*_HEAD, *_ALSO})):
        raise RecordError(f"{file}:{head.at(0)}: {said}")
    if "name" not in columns:
        raise RecordError(
            f"{file}:1:1: expected the headings {','.join(_HEAD)}, got {','.join(named)[:60] or 'nothing'}"
        )
    people, problems = [], []
    for row in rows:
        cells = {name: row.cell(columns[name]).removeprefix("'") if name in columns else "" for name in _HEAD}
        place = f"{file}:{row.at(columns['name'])}"
        kitchen = cells["kitchen"]
        if not cells["name"]:
            problems.append(f"{place}: name: expected a name, got nothing")
        elif kitchen and kitchens is not None and kitchen not in kitchens:
            where = f"{file}:{row.at(columns['kitchen'])}"
            problems.append(f"{where}: no kitchen is called {kitchen[:40]!r}{nearest(kitchen, kitchens)}")
        else:
            people.append(ListedPerson(cells["name"], cells["email"] or None, kitchen or None, place))
    return people, problems


def same_people(person: ListedPerson, known: Iterable[Volunteer]) -> list[Volunteer]:
    """Return who may be the same person: of the same name, or reached at the same address."""
    return [
        entry
        for entry in known
        if _plain(entry.name) == _plain(person.name)
        or (person.email and entry.email and _plain(entry.email) == _plain(person.email))
    ]


def people_csv(people: Sequence[Volunteer]) -> str:
    """Return volunteers as CSV, to be taken in again or used in another program."""
    out = io.StringIO()
    table = csv.writer(out, lineterminator="\n")
    table.writerow(["id", *_HEAD, "added_on"])
    for entry in people:
        row = (entry.id, entry.name, entry.email, entry.kitchen, entry.added_on.isoformat())
        table.writerow([csv_cell(value) for value in row])
    return out.getvalue()


def _plain(text: str) -> str:
    return " ".join(text.split()).casefold()
