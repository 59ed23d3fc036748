"""Everything out of the register again, and nothing in it that a spreadsheet or a page would run."""

from __future__ import annotations

import csv
import io
import json
import stat
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from register_entries import MAY, a_ready_volunteer
from tinwright.errors import RecordError
from tinwright.store import check_place, csv_tables, write_private

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from tinwright.register import Register

HOSTILE = [
    "Robert'); DROP TABLE volunteer;--",
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "{{ name }} ${name} %s %(name)s",
    '=HYPERLINK("http://example.org","click")',
    "+1+1",
    "-2+3",
    "@SUM(A1)",
    "a,b;c\"d'e",
    "null",
    "Ærøskøbing Łódź 山田",
]
FORMULA_STARTS = ("=", "+", "-", "@")
"""OWASP, "CSV Injection": cells that begin with one of these may be run by a spreadsheet."""


def cells(tables: dict[str, str]) -> Iterable[str]:
    for table in tables.values():
        for row in csv.reader(io.StringIO(table)):
            yield from row


def test_hostile_names_come_back_as_they_were_and_do_no_harm(register: Register) -> None:
    for name in HOSTILE:
        register.add_volunteer(name, kitchen=name, added_on=MAY)
    assert [entry.name for entry in register.volunteers()] == HOSTILE
    assert [row["name"] for row in json.loads(json.dumps(register.export()))["volunteer"]] == HOSTILE


def test_no_cell_of_a_csv_file_is_a_formula_and_none_is_lost(register: Register) -> None:
    for name in HOSTILE:
        register.add_volunteer(name, kitchen=name, added_on=MAY)
    tables = csv_tables(register.export())
    assert not [cell for cell in cells(tables) if cell.startswith(FORMULA_STARTS)]
    names = [row["name"] for row in csv.DictReader(io.StringIO(tables["volunteer.csv"]))]
    assert [name.removeprefix("'") if name[1:2] in FORMULA_STARTS else name for name in names] == HOSTILE


@given(st.lists(st.text(), min_size=1))
def test_whatever_a_cell_holds_it_is_read_back_and_is_no_formula(texts: list[str]) -> None:
    table = csv_tables({"volunteer": [{"name": text} for text in texts]})["volunteer.csv"]
    rows = list(csv.reader(io.StringIO(table, newline="")))
    found = [row[0] if row else "" for row in rows[1:]]
    assert not [cell for cell in found if cell.startswith((*FORMULA_STARTS, "\t", "\r"))]
    assert [cell if cell == text else cell.removeprefix("'") for cell, text in zip(found, texts, strict=True)] == texts


def test_an_export_holds_every_row_as_json_can(register: Register) -> None:
    id_ = a_ready_volunteer(register)
    certificate = register.issue_certificate(id_, issued_on=MAY, years=2)
    exported = json.loads(json.dumps(register.export()))
    assert {name: len(rows) for name, rows in exported.items() if isinstance(rows, list)} == {
        "volunteer": 1,
        "sitting": 1,
        "item_response": 2,
        "practical": 1,
        "coaching": 0,
        "voided": 0,
        "certificate": 1,
        "erasure": 0,
        "change": 4,
        "counter": 5,
        "bench_import": 0,
        "bench_session": 0,
        "bench_header": 0,
        "bench_event": 0,
        "bench_choice": 0,
    }
    assert exported["certificate"][0]["id"] == certificate.id
    assert exported["certificate"][0]["valid_until"] == "2028-05-02"
    assert exported["sitting"][0]["profile"] == {"set-up": ["8.5", "10"], "defects": ["18", "20"]}


def test_a_csv_file_has_a_heading_and_a_line_for_each_row(register: Register) -> None:
    a_ready_volunteer(register)
    tables = csv_tables(register.export())
    assert "erasure.csv" not in tables
    rows = list(csv.DictReader(io.StringIO(tables["sitting.csv"])))
    assert [(row["id"], row["score"], row["passed"], row["supersedes"]) for row in rows] == [
        ("S0001", "26.5", "true", "")
    ]
    assert json.loads(rows[0]["profile"]) == {"set-up": ["8.5", "10"], "defects": ["18", "20"]}


def test_a_private_file_is_its_owners_alone_and_replaces_the_old_one_whole(tmp_path: Path) -> None:
    file = tmp_path / "export.json"
    file.write_text("old", encoding="utf-8")
    file.chmod(0o644)
    write_private(file, "new")
    assert file.read_text(encoding="utf-8") == "new"
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert list(tmp_path.iterdir()) == [file]


def test_a_private_file_is_not_written_into_the_site(tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    with pytest.raises(RecordError, match="private records must not lie in the folder"):
        write_private(tmp_path / "site" / "export.json", "{}")
    assert list((tmp_path / "site").iterdir()) == []
    assert check_place(tmp_path / "export.json") == tmp_path / "export.json"


def test_a_private_file_that_cannot_be_written_is_told_in_one_line(tmp_path: Path) -> None:
    with pytest.raises(RecordError, match=r"export\.json: cannot be written: No such file or directory"):
        write_private(tmp_path / "none" / "export.json", "{}")
