"""Lists of people: taken in with duplicates asked about, written out, signed, reminded; kitchens checked."""

from __future__ import annotations

import csv
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner, Result
from pypdf import PdfReader

from register_entries import MAY, a_ready_volunteer
from tinwright.cli import main
from tinwright.register import open_register

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

KITCHENS = "kitchens:\n  - name: Mill Street\n  - name: Fairground\n"

NO_COMMAS = "expected commas between the cells, got semicolons: in the spreadsheet save it as CSV with commas"


def run(*arguments: str, place: Path, keys: str = "") -> Result:
    return CliRunner().invoke(main, ["register", *arguments, "--register", str(place)], input=keys)


@pytest.fixture
def programme(content: Callable[[dict[str, str]], Path]) -> str:
    """A content folder with two kitchens."""
    from conftest import PROGRAMME

    before, _, after = PROGRAMME.partition("kitchens:")
    rest = after[after.index("\npolicy:") :] if "\npolicy:" in after else after
    return str(content({"program.yml": f"{before}{KITCHENS.rstrip()}{rest}"}))


def a_list(folder: Path, *rows: str, head: str = "name,email,kitchen") -> str:
    file = folder / "class.csv"
    file.write_text("\n".join([head, *rows]) + "\n", encoding="utf-8")
    return str(file)


def test_a_class_of_twelve_is_taken_in_and_written_out_again(tmp_path: Path, programme: str) -> None:
    place = tmp_path / "register.db"
    rows = [f"Person {number},p{number}@example.org,Mill Street" for number in range(1, 13)]
    done = run("import", a_list(tmp_path, *rows), "--content", programme, "--on", "2026-05-02", place=place)
    assert done.exit_code == 0, done.stderr
    assert done.stdout.splitlines()[-1] == "12 added, 0 updated, 0 skipped"
    out = tmp_path / "out.csv"
    assert run("list", "--csv", str(out), place=place).exit_code == 0
    with out.open(encoding="utf-8", newline="") as file:
        listed = list(csv.DictReader(file))
    assert [row["id"] for row in listed] == [f"V{number:04d}" for number in range(1, 13)]
    again = tmp_path / "again.db"
    assert run("import", str(out), "--content", programme, "--on", "2026-05-02", place=again).exit_code == 0
    with open_register(place) as one, open_register(again) as other:
        assert one.volunteers() == other.volunteers()


def test_somebody_who_may_be_there_is_asked_about(tmp_path: Path, programme: str) -> None:
    place = tmp_path / "register.db"
    with open_register(place) as register:
        register.add_volunteer("Ann Example", email="ann@example.org", added_on=MAY)
        register.add_volunteer("Bob Example", added_on=MAY)
    file = a_list(
        tmp_path, "ann  example,,Fairground", "A. Example,ANN@example.org,", "Bob Example,bob@example.org,Mill Street",
        "Cy Example,,", "Cy Example,cy@example.org,",
    )  # fmt: skip
    done = run("import", file, "--content", programme, place=place, keys="update\nskip\nadd\nskip\n")
    assert done.exit_code == 0, done.stderr
    assert "may be in the register: V0001 Ann Example, ann@example.org, Fairground" in done.stdout
    assert done.stdout.splitlines()[-1] == "2 added, 1 updated, 2 skipped"
    with open_register(place) as register:
        people = [(row.name, row.email, row.kitchen) for row in register.volunteers()]
    assert people == [
        ("Ann Example", "ann@example.org", "Fairground"),
        ("Bob Example", None, None),
        ("Bob Example", "bob@example.org", "Mill Street"),
        ("Cy Example", None, None),
    ]


def test_headings_may_come_in_any_order_and_others_are_passed_over(tmp_path: Path, programme: str) -> None:
    place = tmp_path / "register.db"
    file = a_list(tmp_path, "555,ann@example.org,Ann Example", head="Phone,E-Mail,Full name")
    assert run("import", file, "--content", programme, place=place).exit_code == 0
    with open_register(place) as register:
        assert [(row.name, row.email) for row in register.volunteers()] == [("Ann Example", "ann@example.org")]


@pytest.mark.parametrize(
    ("rows", "head", "said"),
    [
        (["Ann Example,,Mil Street"], "name,email,kitchen", ":2:14: no kitchen is called 'Mil Street'; did you mean"),
        ([",ann@example.org,"], "name,email,kitchen", ":2:1: name: expected a name, got nothing"),
        (["Ann"], "name;email;kitchen", f":1:1: {NO_COMMAS}"),
        (["Ann"], "E-Mail;Name", f":1:1: {NO_COMMAS}"),
        (["Ann"], "first,last", ":1:1: expected the headings name,email,kitchen, got first,last"),
    ],
)
def test_a_list_with_a_fault_adds_nobody(tmp_path: Path, programme: str, rows: list[str], head: str, said: str) -> None:
    place = tmp_path / "register.db"
    done = run(
        "import", a_list(tmp_path, "Bob Example,,", *rows, head=head).strip(), "--content", programme, place=place
    )
    assert done.exit_code == 1
    assert said.replace(":2:", ":3:") in done.stderr
    with open_register(place) as register:
        assert register.volunteers() == []


def test_a_kitchen_that_the_programme_does_not_have_is_refused(tmp_path: Path, programme: str) -> None:
    place = tmp_path / "register.db"
    wrong = run("add", "Ann Example", "--kitchen", "Mil Street", "--content", programme, place=place)
    assert (wrong.exit_code, "no kitchen is called 'Mil Street'; did you mean" in wrong.stderr) == (1, True)
    assert run("add", "Ann Example", "--kitchen", "Mill Street", "--content", programme, place=place).exit_code == 0
    moved = run("correct", "V0001", "--kitchen", "Fareground", "--content", programme, place=place)
    assert (moved.exit_code, "known: Mill Street, Fairground" in moved.stderr) == (1, True)


def test_a_sign_in_sheet_has_a_line_for_each_volunteer(tmp_path: Path, programme: str) -> None:
    place, sheet = tmp_path / "register.db", tmp_path / "sign-in.pdf"
    with open_register(place) as register:
        for name, kitchen in (("Ann Example", "Mill Street"), ("Bob Example", "Fairground")):
            register.add_volunteer(name, kitchen=kitchen, added_on=MAY)
    given = ("--content", programme, "--on", "2026-05-02")
    assert run("sign-in", str(sheet), "--kitchen", "Mill Street", *given, place=place).exit_code == 0
    text = PdfReader(sheet).pages[0].extract_text()
    assert "Ann Example" in text
    assert "Bob Example" not in text
    assert "V0009" in run("sign-in", str(sheet), "--person", "V0009", *given, place=place).stderr


def test_reminders_are_a_list_that_a_mail_program_takes(tmp_path: Path) -> None:
    place, file = tmp_path / "register.db", tmp_path / "reminders.csv"
    with open_register(place) as register:
        for name in ("Ann Example", "Bob Example"):
            id_ = a_ready_volunteer(register, name)
            register.issue_certificate(id_, issued_on=MAY, years=1)
        register.correct_volunteer("V0002", email="")
    done = run("reminders", str(file), "--on", "2027-04-02", place=place)
    assert done.stdout.splitlines() == [
        "no e-mail: V0002  Bob Example  Mill Street",
        f"1 reminder in {file}; it holds personal data",
    ]
    assert file.read_text(encoding="utf-8") == (
        "Name,Email,Kitchen,Ends on,Drives,Days left\n"
        "Ann Example,ann@example.org,Mill Street,2027-05-02,hand-lever,30\n"
    )
