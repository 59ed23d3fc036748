"""`tinwright register practicals`: checks from one file, and both parts needed for a certificate."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner, Result

from examining.sat_exams import a_plain_exam, a_register, lay_down, typed
from examining.sat_exams import run as run_exam
from tinwright.cli import main
from tinwright.register import open_register

if TYPE_CHECKING:
    from pathlib import Path

HEAD = "person,observed_on,drive,sealer,examiner,assemble,set-rollers,test-can,judge,correct-fault,passed\n"
DONE = "done,done,done,done,done"
DAY = "2026-11-26"

NO_COMMAS = "expected commas between the cells, got semicolons: in the spreadsheet save it as CSV with commas"


def run(folder: Path, text: str | bytes) -> Result:
    file = folder / "practicals.csv"
    file.write_bytes(text if isinstance(text, bytes) else text.encode())
    # Reading the content takes time, and only the names of sealers need it.
    content = "content" if b"-seler" in file.read_bytes() else str(folder / "none")
    arguments = [
        "register",
        "practicals",
        str(file),
        "--on",
        DAY,
        "--content",
        content,
        "--register",
        str(folder / "register.db"),
    ]
    return CliRunner().invoke(main, arguments)


def test_checks_are_taken_from_a_file_once(tmp_path: Path) -> None:
    a_register(tmp_path, 3)
    text = HEAD + (
        f"V0001,{DAY},hand-lever,bench-lever-sealer,AE,{DONE},\n"
        f"v0002,11/26/2026,motor,,AE,done,done,not-done,done,done\n"
        f"# examiner stopped it\nV0003,{DAY},crank-cam,,AE,{DONE},no\n"
    )
    done = run(tmp_path, text)
    assert done.exit_code == 0, done.stderr
    assert done.stdout.splitlines() == [
        "Person 1: P0001  2026-11-26  practical check on hand-lever: passed",
        "Person 2: P0002  2026-11-26  practical check on motor: not passed (test-can)",
        "Person 3: P0003  2026-11-26  practical check on crank-cam: not passed",
        "3 practical checks recorded, 0 already there",
    ]
    assert run(tmp_path, text).stdout.endswith("0 practical checks recorded, 3 already there\n")


@pytest.mark.parametrize(
    ("row", "told"),
    [
        (f"V0009,{DAY},motor,,AE,{DONE}", ":2:1: person: 'V0009' is not in the register; did you mean "),
        (f"V0001,soon,motor,,AE,{DONE}", ":2:7: observed_on: expected a day such as 2026-11-02, got 'soon'"),
        (f"V0001,2026-11-28,motor,,AE,{DONE}", ":2:7: observed_on: 2026-11-28 is in the future"),
        (f"V0001,{DAY},moter,,AE,{DONE}", ":2:18: drive: expected "),
        (f"V0001,{DAY},motor,motor-seler,AE,{DONE}", ":2:24: no sealer is called 'motor-seler'; did you mean "),
        (f"V0001,{DAY},motor,,,{DONE}", ":2:25: examiner: expected who observed, got nothing"),
        (f"V0001,{DAY},motor,,AE,done,yes,done,done,done", ":2:33: set-rollers: expected done or not-done, got 'yes'"),
        (f"V0001,{DAY},motor,,AE,done", ":2:28: set-rollers: expected done or not-done, got ''"),
        (f"V0001,{DAY},motor,,AE,{DONE},maybe", ":2:53: passed: expected yes, no or nothing, got 'maybe'"),
        (
            f"V0001,{DAY},motor,,AE,done,done,done,done,not-done,yes",
            ":2:57: passed: expected no, since not every step is done, got 'yes'",
        ),
    ],
)
def test_a_wrong_row_is_refused_at_its_place_and_nothing_is_recorded(tmp_path: Path, row: str, told: str) -> None:
    a_register(tmp_path, 2)
    done = run(tmp_path, f"{HEAD}{row}\nV0002,{DAY},motor,,AE,{DONE},\n")
    assert (done.exit_code, done.stdout) == (1, "")
    lines = done.stderr.splitlines()
    assert lines[0].startswith(f"{tmp_path / 'practicals.csv'}{told}")
    assert lines[-1].endswith("nothing is recorded")
    with open_register(tmp_path / "register.db") as books:
        assert books.practicals() == []


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", ":1:1: expected the headings person,"),
        ("person,day\n", ":1:8: expected the heading observed_on, got 'day'"),
        (HEAD.replace(",", ";"), f":1:1: {NO_COMMAS}"),
        (HEAD.strip() + ",more\n", ":1:99: expected no more headings, got 'more'"),
        (HEAD, ": expected a row for each check, found none"),
        (b"\xff\xfe", ": expected text in UTF-8, got something else"),
    ],
)
def test_a_file_of_another_kind_is_refused(tmp_path: Path, text: str | bytes, told: str) -> None:
    a_register(tmp_path, 1)
    done = run(tmp_path, text)
    assert (done.exit_code, done.stdout) == (1, "")
    assert done.stderr.startswith(f"{tmp_path / 'practicals.csv'}{told}")


def test_a_certificate_needs_the_examination_and_the_practical_check(tmp_path: Path) -> None:
    register = a_register(tmp_path, 3)
    form, key = a_plain_exam(6, cut=4)
    right = ["A", "B", "C", "D", "A", "B"]
    sheets = typed(tmp_path / "sheets.csv", form, [["V0001", *right], ["V0002", *right]])
    assert run_exam("grade", lay_down(tmp_path / "exams", form, key), sheets, register=register).exit_code == 0
    assert run(tmp_path, f"{HEAD}V0001,{DAY},motor,,AE,{DONE}\nV0003,{DAY},motor,,AE,{DONE}\n").exit_code == 0
    with open_register(register) as books:
        day = dt.date.fromisoformat(DAY)
        assert books.missing_for_certificate("V0001", day) == []
        assert books.missing_for_certificate("V0002", day) == [f"the practical check: none was observed by {DAY}"]
        assert books.missing_for_certificate("V0003", day) == [f"the examination: none was sat by {DAY}"]
        issued = books.issue_certificate("V0001", issued_on=day, years=2)
        assert (issued.exam, issued.form, issued.drives) == ("volunteer", form.code, ("motor",))
