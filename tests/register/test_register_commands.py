"""`tinwright register`: what the educator types, reads and is refused."""

from __future__ import annotations

import csv
import datetime as dt
import json
import stat
from typing import TYPE_CHECKING

import pytest
from click import Context
from click.testing import CliRunner, Result

from register_entries import MAY, a_ready_volunteer, a_sitting
from tinwright.cli import main
from tinwright.register import open_register

if TYPE_CHECKING:
    from pathlib import Path

ALL_DONE = ["--step", "assemble=done", "--step", "set-rollers=done", "--step", "test-can=done", "--step", "judge=done"]


def run(*arguments: str, place: str | None = None, keys: str | None = None) -> Result:
    environment = {"TINWRIGHT_REGISTER": place} if place else {}
    return CliRunner().invoke(main, ["register", *arguments], input=keys, env=environment)


def refused(result: Result) -> str:
    """Return the one line on standard error of a command that was refused."""
    assert result.exit_code == 1
    assert result.stdout == ""
    assert len(result.stderr.splitlines()) == 1
    return result.stderr.strip()


def test_a_year_with_a_volunteer(place: str) -> None:
    added = run(
        "add",
        "Ann Example",
        "--email",
        "ann@example.org",
        "--kitchen",
        "Mill Street",
        "--on",
        "2026-05-02",
        place=place,
    )
    assert (added.exit_code, added.stdout) == (0, "V0001\n")
    assert run("list", place=place).stdout == "V0001  Ann Example  Mill Street  no certificate in force\n1 volunteer\n"
    with open_register(place) as register:
        a_sitting(register, "V0001")
    typed = run("practical", "V0001", "--drive", "motor", "--examiner", "BE", *ALL_DONE, "--step", "correct-fault=done",
                "--on", "2026-05-02", place=place)  # fmt: skip
    assert typed.stdout == "Ann Example: P0001  2026-05-02  practical check on motor: passed\n"
    assert run("show", "V0001", "--on", "2026-05-02", place=place).stdout.splitlines() == [
        "V0001  Ann Example  ann@example.org  Mill Street  added on 2026-05-02",
        "  no certificate in force on 2026-05-02",
        "  S0001  2026-05-02  examination supervisor, form A: 26.5 of 30, passed",
        "  P0001  2026-05-02  practical check on motor: passed",
        "  nothing is missing for a certificate",
    ]
    with open_register(place) as register:
        certificate = register.issue_certificate("V0001", issued_on=MAY, years=2)
    assert run("list", "--on", "2027-01-01", place=place).stdout.startswith(
        "V0001  Ann Example  Mill Street  motor until 2028-05-02\n"
    )
    assert run("due", "--on", "2028-04-01", place=place).stdout == (
        "V0001  Ann Example  ann@example.org  Mill Street  ends on 2028-05-02 (motor)\n1 certificate due, 0 in doubt\n"
    )
    assert "ended on 2028-05-02" in run("due", "--on", "2028-06-01", place=place).stdout
    assert run("due", "--on", "2028-06-01", "--lapsed", "7", place=place).stdout == "0 certificates due, 0 in doubt\n"
    revoked = run("revoke", certificate.id, "--reason", "left", "--on", "2027-01-01", place=place)
    assert revoked.stdout == f"{certificate.id} revoked on 2027-01-01; 1 certificate revoked in all\n"
    assert "revoked on 2027-01-01: left" in run("show", "V0001", place=place).stdout
    assert run("erase", "V0001", "--yes", "--on", "2028-01-01", place=place).stdout.startswith("V0001 is erased.")
    assert run("list", place=place).stdout == "0 volunteers\n"


def test_today_is_taken_when_no_day_is_given(sqlite_place: str) -> None:
    before = dt.datetime.now(tz=dt.UTC).astimezone().date()
    run("add", "Ann Example", place=sqlite_place)
    after = dt.datetime.now(tz=dt.UTC).astimezone().date()
    with open_register(sqlite_place) as register:
        assert before <= register.volunteer("V0001").added_on <= after


def test_json_says_what_the_lines_say(sqlite_place: str) -> None:
    with open_register(sqlite_place) as register:
        id_ = a_ready_volunteer(register, "Zoë Example")
        certificate = register.issue_certificate(id_, issued_on=MAY, years=2)
        a_sitting(register, id_, graded_with="key 2", passed=False)
    listed = json.loads(run("list", "--json", "--on", "2026-06-01", place=sqlite_place).stdout)
    assert [(row["id"], row["name"], row["certificate"]["id"]) for row in listed] == [
        (id_, "Zoë Example", certificate.id)
    ]
    shown = json.loads(run("show", id_, "--json", place=sqlite_place).stdout)
    assert [row["supersedes"] for row in shown["sittings"]] == [None, "S0001"]
    assert (shown["certificates"][0]["valid_until"], shown["practicals"][0]["drive"]) == ("2028-05-02", "hand-lever")
    assert "was not passed" in shown["missing"][0]
    due = json.loads(run("due", "--json", "--on", "2028-04-01", place=sqlite_place).stdout)
    assert [row["id"] for row in due["due"]] == [row["id"] for row in due["in_doubt"]] == [certificate.id]
    told = run("due", "--on", "2026-06-01", place=sqlite_place).stdout
    assert f"V0001  Zoë Example  in doubt: graded again, the examination is not passed ({certificate.id})" in told


def test_a_check_with_a_step_not_done_is_not_passed(sqlite_place: str) -> None:
    run("add", "Ann Example", place=sqlite_place)
    common = ("practical", "V0001", "--drive", "hand-lever", "--examiner", "BE", "--on", "2026-05-02", *ALL_DONE)
    typed = run(*common, "--step", "correct-fault=not-done", place=sqlite_place)
    assert typed.stdout == "Ann Example: P0001  2026-05-02  practical check on hand-lever: not passed (correct-fault)\n"
    failed = run(*common, "--step", "correct-fault=done", "--failed", place=sqlite_place)
    assert failed.stdout == "Ann Example: P0002  2026-05-02  practical check on hand-lever: not passed\n"


def test_steps_left_out_are_asked_for_in_the_order_of_the_checklist(sqlite_place: str) -> None:
    run("add", "Ann Example", place=sqlite_place)
    asked = run("practical", "V0001", "--drive", "motor", "--examiner", "BE", "--step", "judge=done", place=sqlite_place,
                keys="done\ndone\nperhaps\ndone\nnot-done\n")  # fmt: skip
    assert asked.exit_code == 0
    with open_register(sqlite_place) as register:
        check = register.practicals()[0]
    assert list(check.steps.items()) == [
        ("assemble", "done"),
        ("set-rollers", "done"),
        ("test-can", "done"),
        ("judge", "done"),
        ("correct-fault", "not-done"),
    ]
    assert not check.passed


@pytest.mark.parametrize(
    ("step", "message"),
    [
        ("juge=done", "no step is called 'juge'; did you mean 'judge'?"),
        ("judge=yes", "judge: expected done or not-done, got 'yes'"),
        ("judge", "judge: expected done or not-done, got ''"),
    ],
)
def test_a_step_that_there_is_not_is_misuse(sqlite_place: str, step: str, message: str) -> None:
    run("add", "Ann Example", place=sqlite_place)
    result = run("practical", "V0001", "--drive", "motor", "--examiner", "BE", "--step", step, place=sqlite_place)
    assert result.exit_code == 2
    assert message in result.stderr


def test_somebody_of_the_same_name_is_added_only_when_meant(sqlite_place: str) -> None:
    run("add", "Ann Example", place=sqlite_place)
    again = run("add", "ann  example", place=sqlite_place)
    assert refused(again) == "V0001 has that name already; say --another when this is somebody else"
    assert run("add", "Ann Example", "--another", place=sqlite_place).stdout == "V0002\n"


def test_a_name_is_corrected(sqlite_place: str) -> None:
    run("add", "An Exmaple", "--kitchen", "Mill Street", place=sqlite_place)
    corrected = run("correct", "V0001", "--name", "Ann Example", "--kitchen", "", place=sqlite_place)
    assert corrected.stdout == "V0001  Ann Example  -  -\n"
    assert run("correct", "V0001", place=sqlite_place).exit_code == 2


def test_everything_goes_into_files_that_only_their_owner_may_read(sqlite_place: str, tmp_path: Path) -> None:
    with open_register(sqlite_place) as register:
        a_ready_volunteer(register, "=1+1")
        everything = register.export()
    assert json.loads(run("export", place=sqlite_place).stdout) == everything
    file, folder = tmp_path / "all.json", tmp_path / "tables"
    assert run("export", "--output", str(file), place=sqlite_place).exit_code == 0
    assert json.loads(file.read_text(encoding="utf-8")) == everything
    assert run("export", "--csv", str(folder), place=sqlite_place).exit_code == 0
    with (folder / "volunteer.csv").open(encoding="utf-8", newline="") as rows:
        assert [row["name"] for row in csv.DictReader(rows)] == ["'=1+1"]
    assert {stat.S_IMODE(path.stat().st_mode) for path in (file, *folder.iterdir())} == {0o600}
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700


def test_nothing_is_exported_into_the_site(sqlite_place: str, tmp_path: Path) -> None:
    run("add", "Ann Example", place=sqlite_place)
    site = tmp_path / "site"
    site.mkdir()
    for arguments in (("--output", str(site / "all.json")), ("--csv", str(site / "tables"))):
        assert "private records must not lie in the folder" in refused(run("export", *arguments, place=sqlite_place))
    assert list(site.iterdir()) == []
    assert run("export", "--output", "a", "--csv", "b", place=sqlite_place).exit_code == 2


def test_erasing_asks_first_and_tells_whom(sqlite_place: str) -> None:
    run("add", "Ann Example", place=sqlite_place)
    declined = run("erase", "v0001", place=sqlite_place, keys="n\n")
    assert declined.exit_code == 1
    assert "Erase V0001, Ann Example? It cannot be undone [y/N]" in declined.stdout
    assert "Ann Example" in run("list", place=sqlite_place).stdout
    assert run("erase", "v0001", place=sqlite_place, keys="y\n").exit_code == 0
    assert run("list", place=sqlite_place).stdout == "0 volunteers\n"
    # again, to clear what another program kept from being cleared
    assert run("erase", "V0001", place=sqlite_place).exit_code == 0
    assert refused(run("show", "V0001", place=sqlite_place)).startswith("volunteer V0001 was erased on ")


@pytest.mark.parametrize(
    "arguments",
    [
        ("show", "V0009"),
        ("correct", "V0009", "--name", "Ann"),
        ("erase", "V0009", "--yes"),
        ("practical", "V0009", "--drive", "motor", "--examiner", "BE"),
    ],
)
def test_nobody_of_that_id_is_one_plain_line(sqlite_place: str, arguments: tuple[str, ...]) -> None:
    run("add", "Ann Example", place=sqlite_place)
    assert refused(run(*arguments, place=sqlite_place)) == "no volunteer has the id 'V0009'"


def test_looking_makes_no_register(tmp_path: Path) -> None:
    place = tmp_path / "register.db"
    for arguments in (("list",), ("due",), ("export",), ("show", "V0001")):
        assert refused(run(*arguments, place=str(place))) == (
            f"{place}: there is no register; adding the first volunteer makes one"
        )
    assert not place.exists()


def test_without_a_place_the_register_lies_in_the_users_own_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("TINWRIGHT_REGISTER", raising=False)
    monkeypatch.setattr("click.get_app_dir", lambda name: str(tmp_path / "own" / name))
    assert "there is no register" in refused(run("list"))
    assert list(tmp_path.iterdir()) == []
    assert run("add", "Ann Example").stdout == "V0001\n"
    assert (tmp_path / "own" / "tinwright" / "register.db").is_file()
    assert stat.S_IMODE((tmp_path / "own" / "tinwright").stat().st_mode) == 0o700
    assert "Ann Example" in run("list").stdout


def test_every_command_has_help_and_an_example() -> None:
    group = main.get_command(Context(main), "register")
    for name in group.commands:  # type: ignore[attr-defined]
        told = run(name, "--help")
        assert told.exit_code == 0
        assert f"Example: tinwright register {name}" in " ".join(told.stdout.split())


def test_marks_count_whatever_their_capitals(sqlite_place: str) -> None:
    run("add", "Ann Example", place=sqlite_place)
    marks = [word for step in ("assemble", "set-rollers", "test-can", "judge") for word in ("--step", f"{step}=Done")]
    typed = run("practical", "V0001", "--drive", "motor", "--examiner", "BE", *marks, "--step", "correct-fault=NOT DONE",
                "--on", "2026-05-02", place=sqlite_place)  # fmt: skip
    assert typed.stdout == "Ann Example: P0001  2026-05-02  practical check on motor: not passed (correct-fault)\n"
