"""Second tries and retakes through the register: another form, the wait, how many, coaching; and entries made void."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from examining.sat_exams import DAY, a_plain_exam, a_register, lay_down, run, typed
from register_entries import a_practical
from tinwright.examining.form import FirstTry
from tinwright.quizzes.questions import letter_of
from tinwright.register import open_register

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.examining.form import ExamForm, ExamKey

LATER = "2026-12-15"


def right_sheet(key: ExamKey, *, wrong: tuple[int, ...] = ()) -> list[str]:
    """Return right answers but to some questions, counted from 1."""
    return [letter_of((item.key[0] + (number in wrong)) % 4) for number, item in enumerate(key.items, 1)]


def a_pair() -> tuple[ExamForm, ExamKey, ExamForm, ExamKey]:
    """Make a form with three critical questions, two of them to be right, and its second try."""
    form, key = a_plain_exam(6, cut=4, critical=(1, 2, 3))
    key = replace(key, areas=(replace(key.areas[0], right=2),))
    again, again_key = a_plain_exam(3, cut=0, critical=(1, 2, 3))
    again = replace(again, form="A2", items=tuple(replace(item, id=f"s-{item.id}") for item in again.items))
    own = tuple(replace(item, id=f"s-{item.id}") for item in again_key.items)
    area = replace(again_key.areas[0], items=tuple(item.id for item in own), right=2)
    first = FirstTry(form.code, key.cut, key.areas)
    again_key = replace(
        again_key, form="A2", form_digest=again.digest, items=own, areas=(area,), cut=0, second_try_of=(first,)
    )
    return form, key, again, again_key


def coach(register: Path, person: str = "V0001", day: str = DAY) -> None:
    with open_register(register, by="tester") as books:
        books.record_coaching(person, coached_on=dt.date.fromisoformat(day), coach="AE", about="what can hurt")


def first_day(folder: Path, *, wrong: tuple[int, ...] = (1, 2)) -> tuple[Path, Path, ExamForm, ExamKey]:
    """Let V0001 sit the form and miss the area; return register, key of the second try, and the second try."""
    form, key, again, again_key = a_pair()
    register = a_register(folder, 2)
    done = run(
        "grade",
        lay_down(folder / "exams", form, key),
        typed(folder / "a.csv", form, [["V0001", *right_sheet(key, wrong=wrong)]]),
        register=register,
    )
    assert done.exit_code == 0, done.stderr
    return register, lay_down(folder / "exams", again, again_key), again, again_key


def test_a_second_try_on_the_same_day_after_coaching_repairs_the_area(tmp_path: Path) -> None:
    register, key_file, again, key = first_day(tmp_path)
    sheet = typed(tmp_path / "b.csv", again, [["V0001", *right_sheet(key, wrong=(3,))]])
    refused = run("grade", key_file, sheet, register=register)
    assert (refused.exit_code, "no coaching is noted on 2026-11-26" in refused.stderr) == (1, True)
    coach(register)
    done = run("grade", key_file, sheet, register=register)
    assert done.exit_code == 0, done.stderr
    assert "1 sheet graded, 1 passed" in done.stdout
    with open_register(register) as books:
        first, second = books.sittings("V0001")
        assert (first.passed, second.passed, second.second_of) == (False, True, first.id)
        missing = books.missing_for_certificate("V0001", dt.date.fromisoformat(DAY))
    assert missing == ["the practical check: none was observed by 2026-11-26"]


def test_a_second_try_that_misses_the_area_again_does_not_pass(tmp_path: Path) -> None:
    register, key_file, again, key = first_day(tmp_path)
    coach(register)
    done = run(
        "grade", key_file, typed(tmp_path / "b.csv", again, [["V0001", *right_sheet(key, wrong=(1, 3))]]),
        register=register,
    )  # fmt: skip
    assert "1 sheet graded, 0 passed" in done.stdout


@pytest.mark.parametrize(
    ("wrong", "person", "day", "said"),
    [
        ((), "V0001", DAY, "there is nothing to repair"),
        ((1, 2, 4), "V0001", DAY, "has 3 points of form A-"),
        ((1, 2), "V0002", DAY, "has no sitting of form A-"),
        ((1, 2), "V0001", "2026-11-27", "has no sitting of form A-"),
    ],
)
def test_a_second_try_repairs_nothing_else(
    tmp_path: Path, wrong: tuple[int, ...], person: str, day: str, said: str
) -> None:
    register, key_file, again, key = first_day(tmp_path, wrong=wrong)
    coach(register, person, day)
    sheet = typed(tmp_path / "b.csv", again, [[person, *right_sheet(key)]], day=day)
    refused = run("grade", key_file, sheet, register=register, on=day)
    assert (refused.exit_code, said in refused.stderr) == (1, True), refused.stderr
    nowhere = run("grade", key_file, sheet, "--no-record", on=day)
    assert "a second try is graded with the register" in nowhere.stderr


def test_a_first_sitting_graded_anew_asks_for_the_second_try_to_be_graded_again(tmp_path: Path) -> None:
    register, key_file, again, key = first_day(tmp_path)
    coach(register)
    sheet = typed(tmp_path / "b.csv", again, [["V0001", *right_sheet(key)]])
    assert run("grade", key_file, sheet, register=register).exit_code == 0
    exams = tmp_path / "exams"
    first_key = next(file for file in exams.iterdir() if file.name.startswith("A-") and ".key." in file.name)
    run("rekey", first_key, "--item", "6", "--drop", "--reason", "two answers")
    corrected = first_key.with_name(first_key.name.replace(".key.", ".key-2."))
    assert run("grade", corrected, tmp_path / "a.csv", register=register).exit_code == 0
    day = dt.date.fromisoformat(DAY)
    with open_register(register) as books:
        assert "was not passed" in books.missing_for_certificate("V0001", day)[0]
    assert "in place of an earlier one" in run("grade", key_file, sheet, register=register).stdout
    with open_register(register) as books:
        assert books.missing_for_certificate("V0001", day) == ["the practical check: none was observed by 2026-11-26"]


def sits_again(folder: Path, register: Path, *, day: str, letter: str = "B", items: int = 7) -> str:
    """Let V0001 sit another form wrongly, and return what is said."""
    form, key = a_plain_exam(items, cut=5)
    form = replace(form, form=letter)
    key = replace(key, form=letter, form_digest=form.digest)
    sheet = typed(folder / f"{letter}{items}.csv", form, [["V0001", *["A"] * items]], day=day)
    done = run("grade", lay_down(folder / "exams", form, key), sheet, register=register, on=day)
    return done.stderr if done.exit_code else "recorded"


def test_another_sitting_needs_another_form_the_wait_and_coaching(tmp_path: Path) -> None:
    register, _, _, _ = first_day(tmp_path)
    assert "the next sitting can be on 2026-12-10 or later" in sits_again(tmp_path, register, day="2026-12-09")
    assert "no coaching is noted since" in sits_again(tmp_path, register, day=LATER)
    coach(register, day="2026-12-01")
    form, key, _, _ = a_pair()
    same = typed(tmp_path / "again.csv", form, [["V0001", *right_sheet(key)]], day=LATER)
    refused = run("grade", tmp_path / "exams" / f"{form.code}.key.json", same, register=register, on=LATER)
    assert "another form is needed" in refused.stderr
    assert sits_again(tmp_path, register, day=LATER) == "recorded"


def test_the_sittings_of_a_year_are_counted_and_a_void_one_is_not(tmp_path: Path) -> None:
    register, _, _, _ = first_day(tmp_path)
    coach(register, day="2026-12-01")
    assert sits_again(tmp_path, register, day=LATER) == "recorded"
    coach(register, day="2027-01-10")
    third = sits_again(tmp_path, register, day="2027-01-15", letter="C", items=8)
    assert "has had 2 sitting(s) in 12 months" in third
    with open_register(register, by="tester") as books:
        assert books.void("s0002", dt.date(2027, 1, 15), "the sheet of V0002") == ["S0002"]
    assert sits_again(tmp_path, register, day="2027-01-15", letter="C", items=8) == "recorded"


def test_after_the_months_are_over_the_count_begins_again(tmp_path: Path) -> None:
    register, _, _, _ = first_day(tmp_path)
    coach(register, day="2026-12-01")
    assert sits_again(tmp_path, register, day=LATER) == "recorded"
    coach(register, day="2027-11-28")
    assert sits_again(tmp_path, register, day="2027-11-29", letter="C", items=8) == "recorded"


def test_nobody_is_certified_who_fails_a_step_of_the_practical_check(tmp_path: Path) -> None:
    """Whatever the points on paper: each of the five steps is needed."""
    form, key, _, _ = a_pair()
    register = a_register(tmp_path, 1)
    sheet = typed(tmp_path / "a.csv", form, [["V0001", *right_sheet(key)]])
    assert run("grade", lay_down(tmp_path / "exams", form, key), sheet, register=register).exit_code == 0
    day = dt.date.fromisoformat(DAY)
    steps = ("assemble", "set-rollers", "test-can", "judge", "correct-fault")
    with open_register(register, by="tester") as books:
        for missed in steps:
            marks = {step: "not-done" if step == missed else "done" for step in steps}
            a_practical(books, "V0001", observed_on=day, steps=marks, passed=False)
            assert "was not passed" in books.missing_for_certificate("V0001", day)[0]
        a_practical(books, "V0001", observed_on=day)
        assert books.missing_for_certificate("V0001", day) == []


def test_what_was_allowed_to_somebody_stands_in_the_register(tmp_path: Path) -> None:
    form, key, _, _ = a_pair()
    register = a_register(tmp_path, 1)
    sheet = typed(tmp_path / "a.csv", form, [["V0001", *right_sheet(key)]])
    file = lay_down(tmp_path / "exams", form, key)
    strange = run("grade", file, sheet, "--allowed", "V0009=more time", register=register)
    assert "no sheet is of V0009" in strange.stderr
    assert run("grade", file, sheet, "--allowed", "V0001=30 minutes more", register=register).exit_code == 0
    with open_register(register) as books:
        assert books.sittings("V0001")[0].allowed == "30 minutes more"
