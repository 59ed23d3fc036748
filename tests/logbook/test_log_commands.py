"""`tinwright log`: telephones and sheets taken in, shown, decided, and what is refused."""

from __future__ import annotations

import csv
import io
import json
from typing import TYPE_CHECKING, Any

import pytest
from click.testing import CliRunner, Result

from bench_content import lay_bench
from benchlog_files import SHEET, a_phone_file
from tinwright.cli import main
from tinwright.register import open_register

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

GOOD: dict[str, Any] = {"id": "k7f3q2-1", "at": "09:05:20", "kind": "test-can", "result": "good"}


@pytest.fixture
def run(tmp_path: Path) -> Callable[..., Result]:
    """Run a command of the log on a register in the test's folder, without a knowledge base unless one is named."""

    def call(command: str, *arguments: object) -> Result:
        given = [command, *map(str, arguments)]
        if command == "import":
            given += ["--on", "2026-11-28"]
            given += [] if "--content" in given else ["--content", str(tmp_path / "none")]
        if command != "blank":
            given += ["--register", str(tmp_path / "register.db")]
        return CliRunner().invoke(main, ["log", *given])

    return call


def a_sheet(folder: Path, text: str = SHEET) -> Path:
    file = folder / "sheet-P04.csv"
    file.write_bytes(text.encode())
    return file


def test_a_telephone_and_a_sheet_become_one_session_in_order(tmp_path: Path, run: Callable[..., Result]) -> None:
    phone = a_phone_file(
        tmp_path, [GOOD, {"id": "k7f3q2-2", "at": "13:06", "kind": "visual-check", "result": "good", "can_number": 21}]
    )
    sheet = a_sheet(tmp_path, "\ufeff" + SHEET.replace("\n", "\r\n"))
    taken = run("import", phone, sheet, "--content", lay_bench(tmp_path / "bench"))
    assert taken.exit_code == 0, taken.stderr
    assert taken.stdout == "bench-log-2026-11-14-k7f3q2.json: 2 new\nsheet-P04.csv: 6 new\n"
    again = run("import", phone, sheet)
    assert again.stdout.splitlines() == [
        "bench-log-2026-11-14-k7f3q2.json: imported before; nothing changed",
        "sheet-P04.csv: imported before; nothing changed",
    ]
    shown = run("show", "2026-11-14").stdout.splitlines()
    assert shown == [
        "B0001  2026-11-14  Mill Street, bench-crank-sealer: 8 events",
        "  09:05  P04-1  Test can  good",
        "  09:05:20  k7f3q2-1  Test can  good",
        "  09:10  P04-2  Cans sealed  1 to 12",
        "  09:40  P04-3  Adjustment  can 12  tighten the first roller  1/8  by BK",
        "  11:50  P04-4  Measured check  can 20  accept  seam-thickness 0.055, seam-thickness 0.056, "
        "seam-thickness 0.054, body-hook 0.078  torn down  by AE",
        "  13:05  P04-5  Jam",
        "  13:06  k7f3q2-2  Visual check  can 21  good",
        "  13:20  P04-6  Cans released  1 to 12  opened 3 of 12  by AE  (struck)",
    ]
    assert run("list").stdout.splitlines()[-1] == "1 session"
    assert json.loads(run("show", "b1", "--json").stdout)[0]["session"]["supervisor"] == "AE"


def test_what_two_telephones_tell_is_shown_beside_each_other_and_decided(
    tmp_path: Path, run: Callable[..., Result]
) -> None:
    first = a_phone_file(tmp_path, [GOOD])
    other = a_phone_file(tmp_path, [{**GOOD, "result": "bad"}], "zz9")
    taken = run("import", first, other)
    assert "B0001 k7f3q2-1 was written down in more than one way: tinwright log show B0001" in taken.stdout
    shown = run("show", "B0001").stdout.splitlines()
    versions = {line.split("  ")[-1]: line.split()[0] for line in shown if "zz9:" in line or "k7f3q2:" in line}
    assert next(line for line in shown if " counts " in line).endswith("Test can  bad")
    assert run("choose", "B0001", "k7f3q2-1", versions["good"], "--by", "AE").exit_code == 2
    chosen = run("choose", "B0001", "k7f3q2-1", versions["good"], "--by", "AE", "--reason", "asked BK")
    assert "decided by AE: asked BK" in chosen.stdout
    assert "Test can  good" in run("show", "B0001").stdout.splitlines()[1]


@pytest.mark.parametrize(("letter", "name"), [(";", "semicolons"), ("\t", "tabs")])
@pytest.mark.parametrize("first", ["sheet", "line"])
def test_a_sheet_that_a_spreadsheet_saved_without_commas_is_told_once_with_the_cure(
    tmp_path: Path, run: Callable[..., Result], letter: str, name: str, first: str
) -> None:
    settings, table = SHEET[: SHEET.index("line,")], SHEET[SHEET.index("line,") :]
    text = (settings if first == "line" else settings.replace(",", letter)) + table.replace(",", letter)
    refused = run("import", a_sheet(tmp_path, text))
    place = 1 if first == "sheet" else settings.count("\n") + 1
    assert refused.stderr.splitlines()[0] == (
        f"{tmp_path / 'sheet-P04.csv'}:{place}:1: expected commas between the cells, got {name}: "
        "in the spreadsheet save it as CSV with commas"
    )
    assert refused.stderr.count("expected") == 1


BAD_SHEET = """\
sheet,
date,11/41/2026
kitchen,Mill Stret
seeler,bench-crank-sealer
line,time,what,can no,to,result,defect,which,way,turns,who,readings,note,struck
1,9:05 AM,tset can,,,good
2,9.10,cans sealed,one,12
2,11:50,adjustment,12,,,,first rolle,tighten
3,1:05,jam,,5
4,13:00,test can,,,god,drop,B2
5,13:10,measured check,,,accept,,,,,V0009,thicknes .055; seam thickness 55
"""


def test_all_that_is_wrong_with_a_sheet_is_told_at_once_with_its_place(
    tmp_path: Path, run: Callable[..., Result]
) -> None:
    refused = run("import", a_sheet(tmp_path, BAD_SHEET), "--content", lay_bench(tmp_path / "bench"))
    assert refused.exit_code == 1
    text = refused.stderr
    for line in (
        "sheet-P04.csv:1:1: sheet: expected its number, such as P04, got nothing",
        "sheet-P04.csv:1:1: sealer: expected one, got nothing",
        "sheet-P04.csv:2:6: date: expected a day such as 2026-11-14, got '11/41/2026'",
        "sheet-P04.csv:3:9: kitchen: no kitchen is called 'Mill Stret'; did you mean 'Mill Street'?",
        "sheet-P04.csv:4:1: expected one of sheet, date",
        "got 'seeler'; did you mean 'sealer'?",
        "sheet-P04.csv:6:11: what: expected one of set-up, test-can",
        "got 'tset can'; did you mean 'test-can'?",
        "sheet-P04.csv:7:3: time: expected a time such as 13:05 or 1:05 PM, got '9.10'",
        "sheet-P04.csv:7:20: can no: expected the number of a can, got 'one'",
        "sheet-P04.csv:8:1: line: 2 already stands in line 7 of the file",
        "did you mean 'first-roller'?",
        "sheet-P04.csv:9:3: time: expected a time after 11:50 (the line above), got '1:05'; "
        "write 13:05 if it was in the afternoon",
        "sheet-P04.csv:9:13: to: expected nothing for jam, got 5",
        "sheet-P04.csv:10:24: defect: no defect is called 'drop'; did you mean 'droop'?",
        "sheet-P04.csv:10:29: which: expected nothing or torn down for test can, got 'B2'",
        "'V0009' is not in the register",
        "did you mean 'seam-thickness'?",
        "readings: seam-thickness: Is this 55 thousandths of an inch (.055)? Got '55'.",
        "nothing is imported: fix what is refused, or say --skip-refused",
    ):
        assert line in text
    assert run("list").stdout == "0 sessions\n"


def test_all_that_is_wrong_with_a_telephones_file_is_told_with_its_place(
    tmp_path: Path, run: Callable[..., Result]
) -> None:
    events = [
        {**GOOD, "at": "9:05"},
        {"id": "k7f3q2-2", "at": "09:06", "kind": "test-can", "reslt": "good"},
        {"id": "two", "at": "09:07", "kind": "sealed", "first": "1", "last": True},
        {"id": "k7f3q2-4", "at": "09:08", "kind": "cause", "defect": "droop", "cause": "flange-bnt"},
        {"id": "k7f3q2-5", "at": "09:09", "kind": "jam", "note": "a\u202eb"},
        "jam",
    ]
    file = a_phone_file(tmp_path, events, date="2026-12-24")
    refused = run("import", file, "--content", lay_bench(tmp_path / "bench"))
    told = [line.removeprefix(f"{file}:") for line in refused.stderr.splitlines()]
    assert told[:-1] == [
        "7:12: session 1: date: 2026-12-24 is in the future",
        "13:12: event k7f3q2-1: at: expected a time such as 09:05, got '9:05'",
        "21:15: event k7f3q2-2: unknown key 'reslt'; did you mean 'result'?",
        "24:12: event two: id: expected letters and digits, a hyphen and a number, got 'two'",
        "27:15: event two: first: expected a whole number from 0 to 1000000, got '1'",
        "28:14: event two: last: expected a whole number from 0 to 1000000, got 'True'",
        "35:15: event k7f3q2-4: cause: no cause is called 'flange-bnt'; did you mean 'flange-bent'?",
        "41:14: event k7f3q2-5: note: expected one line of plain text, got the character U+202E",
        "43:5: event 6: expected the entries of an event",
    ]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ('{"format": "tinwright-bench-log",\n "version": 1, "version": 1}', "2:16: duplicate key 'version'"),
        ('{"format": "tinwright-bench-log",\n "version" 1}', "2:12: not valid JSON: expecting ':' delimiter"),
        ('{"format": "other"}', "1:12: expected a file of the format 'tinwright-bench-log', got 'other'"),
        ('{"format": "tinwright-bench-log", "version": 2}', "expected version 1, got '2': update Tinwright"),
        ('{"format": "tinwright-bench-log", "version": 1, "device": "a b"}', "device: expected the telephone's name"),
        ("[" * 100_000, "1:1: expected a bench log, got lists within lists without end"),
        ("", "1:1: expected a line of headings"),
        ("\xff", "expected text in UTF-8, got other bytes"),
    ],
)
def test_what_is_no_bench_log_is_told_in_one_line(
    tmp_path: Path, run: Callable[..., Result], text: str, message: str
) -> None:
    file = tmp_path / "file"
    file.write_bytes(text.encode("latin-1"))
    refused = run("import", file)
    assert refused.exit_code == 1
    assert message in refused.stderr
    assert "Traceback" not in refused.output


def test_sound_files_are_taken_in_beside_refused_ones_only_when_told_to(
    tmp_path: Path, run: Callable[..., Result]
) -> None:
    files = a_sheet(tmp_path), a_phone_file(tmp_path, [{**GOOD, "kind": "jma"}])
    assert run("import", *files).exit_code == 1
    assert run("list").stdout == "0 sessions\n"
    assert run("import", *files, "--skip-refused").exit_code == 0
    assert run("list").stdout.endswith("1 session\n")


def test_the_blank_form_says_how_it_is_filled_in_and_can_be_read_back(
    tmp_path: Path, run: Callable[..., Result]
) -> None:
    form = run("blank").stdout
    filled = form.replace("sheet,\n", "sheet,P05\n").replace("date,\n", "date,2026-11-14\n")
    filled = filled.replace("kitchen,\n", "kitchen,Mill Street\n").replace("sealer,\n", "sealer,bench-crank-sealer\n")
    filled = filled.replace("\n1,,,,,", "\n1,9:05 AM,test can,,,good", 1)
    assert (
        run("import", a_sheet(tmp_path, filled), "--content", lay_bench(tmp_path / "bench")).stdout
        == "sheet-P04.csv: 1 new\n"
    )
    assert run("import", a_sheet(tmp_path, form)).exit_code == 1


def test_a_sheet_typed_in_anew_as_its_next_revision_takes_the_place_of_the_first(
    tmp_path: Path, run: Callable[..., Result]
) -> None:
    run("import", a_sheet(tmp_path))
    mended = SHEET.replace("line,time", "revision,2\nline,time").replace("sealed,1,12", "sealed,1,14")
    assert run("import", a_sheet(tmp_path, mended)).stdout == "sheet-P04.csv: 6 changed\n"
    assert "Cans sealed  1 to 14" in run("show", "B0001").stdout


THAT_DAY = ("--on", "2026-11-14")


def test_the_desk_holds_and_releases_and_a_release_needs_who_and_why(
    tmp_path: Path, run: Callable[..., Result]
) -> None:
    run("import", a_sheet(tmp_path))
    assert run("hold", "B0001", 1, 12, "--at", "17:00", *THAT_DAY).stdout == "17:00  desk-1  Cans held  1 to 12\n"
    for missing in (("--by", "AE"), ("--reason", "torn down")):
        assert run("release", "B0001", 1, 12, *missing).exit_code == 2
    done = run("release", "B0001", 1, 12, "--at", "17:01", *THAT_DAY, "--by", "AE", "--reason", "torn down")
    assert done.stdout == "17:01  desk-2  Cans released  1 to 12  torn down  by AE\n"
    assert run("discard", "B0001", 9, 8).exit_code == 1
    assert run("discard", "B0002", 8, 9).exit_code == 1


HOLD_FIRST = "to decide about other cans, hold them first: tinwright log hold B0001"


@pytest.mark.parametrize(
    ("cans", "said"),
    [
        ((1, 12), f"not held: 1 to 4; held: 5 to 12; {HOLD_FIRST} 1 4"),
        ((3, 20), f"not held: 3 to 4, 13 to 20; held: 5 to 12; {HOLD_FIRST} 3 20"),
        ((30, 30), f"not held: 30; held: 5 to 12; {HOLD_FIRST} 30 30"),
    ],
)
def test_cans_that_are_not_held_cannot_be_released_and_nothing_is_written(
    tmp_path: Path, run: Callable[..., Result], cans: tuple[int, int], said: str
) -> None:
    """Else a release written in advance would let go what a file that is imported later holds."""
    run("import", a_phone_file(tmp_path, [GOOD, *SEALED]))
    run("hold", "B0001", 5, 12, "--at", "17:00")
    before = run("show", "B0001").stdout
    refused = run("release", "B0001", *cans, "--at", "17:01", "--by", "AE", "--reason", "torn down")
    assert refused.exit_code == 1
    assert refused.stdout == ""
    (line,) = refused.stderr.splitlines()
    assert f"B0001 (2026-11-14, bench-crank-sealer): {said}" in line
    assert run("show", "B0001").stdout == before
    assert "desk-2" in run("release", "B0001", 5, 12, "--at", "17:01", "--by", "AE", "--reason", "torn down").stdout


SEALED: list[dict[str, Any]] = [
    {"id": "k7f3q2-2", "at": "10:00", "kind": "sealed", "first": 1, "last": 24},
    {"id": "k7f3q2-3", "at": "10:05", "kind": "visual-check", "result": "good", "can_number": 24},
]
RESET: list[dict[str, Any]] = [
    {"id": "k7f3q2-4", "at": "09:20", "kind": "sealed", "first": 1, "last": 15},
    {"id": "k7f3q2-5", "at": "09:21", "kind": "visual-check", "result": "bad", "can_number": 15},
]


def test_a_counter_or_a_clock_that_goes_back_is_told_and_asked_about(
    tmp_path: Path, run: Callable[..., Result]
) -> None:
    told = run("import", a_phone_file(tmp_path, [GOOD, *SEALED, *RESET])).stdout.splitlines()
    assert told == [
        "bench-log-2026-11-14-k7f3q2.json: 5 new",
        "  B0001 k7f3q2-4: the counter goes back, after can 24. Was it set back? Until you say otherwise this is a new "
        "run, cans B1 to B15. If it is a slip, strike or correct that line.",
        "  B0001 k7f3q2-4: the clock goes back, from 10:05 to 09:20. The order of the lines counts, not the time.",
    ]
    shown = run("show", "B0001").stdout
    assert "k7f3q2-2  Cans sealed  1 to 24" in shown
    assert "k7f3q2-4  Cans sealed  B1 to B15" in shown
    assert "k7f3q2-5  Visual check  can B15  bad" in shown


def test_a_bad_can_is_never_released_and_the_others_are_by_name(tmp_path: Path, run: Callable[..., Result]) -> None:
    run("import", a_phone_file(tmp_path, [GOOD, *SEALED, *RESET]))
    who = ("--by", "AE", "--reason", "opened", "--at", "09:10", "--on", "2026-11-15")
    refused = run("release", "B0001", "B1", "B15", *who)
    assert refused.exit_code == 1
    assert "found bad: B15; a can that was found bad is never released" in refused.stderr
    assert run("release", "B0001", "B1", "14", *who).exit_code == 2
    done = run("release", "B0001", "b1", "b14", *who)
    assert done.stdout == "2026-11-15 09:10  desk-1  Cans released  B1 to B14  opened  by AE\n"
    assert "2026-11-15 09:10  desk-1" in run("show", "B0001").stdout.splitlines()[-1]
    assert (
        run("release", "B0001", "1", "24", *who).stdout
        == "2026-11-15 09:10  desk-2  Cans released  1 to 24  opened  by AE\n"
    )


def test_cans_that_nobody_looked_at_can_be_released_too(tmp_path: Path, run: Callable[..., Result]) -> None:
    """Sealed before an adjustment and not looked at: a report lists them until somebody says why they may go."""
    sealed = {"id": "k7f3q2-2", "at": "09:10", "kind": "sealed", "first": 1, "last": 12}
    jam = {"id": "k7f3q2-3", "at": "09:40", "kind": "jam"}
    who = ("--by", "AE", "--reason", "three of them torn down")
    assert run("import", a_phone_file(tmp_path, [GOOD, sealed])).exit_code == 0
    assert run("release", "B0001", 1, 12, *who).exit_code == 1
    assert run("import", a_phone_file(tmp_path, [GOOD, sealed, jam])).exit_code == 0
    assert run("release", "B0001", 1, 12, *who).exit_code == 0
    assert run("release", "B0001", 1, 12, *who).exit_code == 1


def test_a_release_in_a_file_is_taken_in_whatever_it_is_about(tmp_path: Path, run: Callable[..., Result]) -> None:
    release = {
        "id": "k7f3q2-2",
        "at": "09:30",
        "kind": "release",
        "first": 1,
        "last": 12,
        "by": "AE",
        "reason": "opened",
    }
    assert run("import", a_phone_file(tmp_path, [GOOD, release])).stdout.endswith(": 2 new\n")


def test_the_export_is_one_table_that_no_spreadsheet_runs(tmp_path: Path, run: Callable[..., Result]) -> None:
    run("import", a_phone_file(tmp_path, [{**GOOD, "note": "=cmd|' /C calc'!A0"}], product="+1 beans"))
    rows = list(csv.DictReader(io.StringIO(run("export").stdout)))
    assert [(row["session"], row["id"], row["kind"], row["result"]) for row in rows] == [
        ("B0001", "k7f3q2-1", "test-can", "good")
    ]
    assert rows[0]["note"] == "'=cmd|' /C calc'!A0"
    assert rows[0]["product"] == "'+1 beans"
    out = tmp_path / "log.csv"
    assert run("export", "--output", out).exit_code == 0
    assert out.stat().st_mode & 0o077 == 0


def test_a_volunteer_of_the_register_may_stand_in_the_log(tmp_path: Path, run: Callable[..., Result]) -> None:
    with open_register(tmp_path / "register.db") as register:
        import datetime as dt

        register.add_volunteer("Ann Example", added_on=dt.date(2026, 5, 2))
    run("import", a_phone_file(tmp_path, [{**GOOD, "by": "v0001"}]))
    assert "by V0001" in run("show", "B0001").stdout


SECOND_SHEET = """\
sheet,P05
date,11/14/2026
kitchen,mill street
sealer,bench crank sealer
follows,P04
line,time,what,can no,to,result,defect,which,way,turns,who,readings,note,struck
1,2:05 PM,cans sealed,13,20
2,2:10 PM,counter set back
3,2:20 PM,cans sealed,B1,15
4,2:21 PM,visual check,B15,,bad,droop
5,2:22 PM,visual check,A14,,good
6,11/15/2026 9:05 AM,cans released,B13,14,,,,,,AE,,opened
"""


def test_a_sheet_follows_another_names_runs_and_tells_of_another_day(
    tmp_path: Path, run: Callable[..., Result]
) -> None:
    other = tmp_path / "sheet-P05.csv"
    other.write_text(SECOND_SHEET, encoding="utf-8")
    told = run("import", other, a_sheet(tmp_path), "--content", lay_bench(tmp_path / "bench"))
    assert told.stdout == "sheet-P05.csv: 6 new\nsheet-P04.csv: 6 new\n"
    shown = [line.strip() for line in run("show", "B0001").stdout.splitlines()]
    assert [line.split("  ")[1] for line in shown[1:]] == [f"P0{4 + n // 6}-{n % 6 + 1}" for n in range(12)]
    assert "14:20  P05-3  Cans sealed  B1 to B15" in shown
    assert "14:21  P05-4  Visual check  can B15  bad  droop" in shown
    assert "14:22  P05-5  Visual check  can 14  good" in shown
    assert "2026-11-15 09:05  P05-6  Cans released  B13 to B14  opened  by AE" in shown


@pytest.mark.parametrize(
    ("was", "now", "message"),
    [
        ("follows,P04", "follows,P05", "5:9: follows: expected the sheet before this one, such as P03, got 'P05'"),
        ("B1,15", "B1,C15", "can no: expected a can of run B, got 'C15'"),
        ("11/15/2026 9:05 AM", "11/15/2026 soon", "time: expected a time after the day, such as 1:05 PM, got 'soon'"),
        ("A14", "14", "can no: expected the letter of its run, A14 for the first or B14 for the second, got '14'"),
        ("B15", "15B", "can no: expected the number of a can, got '15B'"),
    ],
)
def test_what_is_wrong_with_runs_days_and_sheets_is_told(
    tmp_path: Path, run: Callable[..., Result], was: str, now: str, message: str
) -> None:
    refused = run(
        "import", a_sheet(tmp_path, SECOND_SHEET.replace(was, now)), "--content", lay_bench(tmp_path / "bench")
    )
    assert refused.exit_code == 1
    assert message.removeprefix("can no: ") in refused.stderr
