"""`tinwright exam analyze`: published data through the whole path, a planted bad item, and too few people."""

from __future__ import annotations

import csv
import datetime as dt
import xml.etree.ElementTree as ET
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from click.testing import CliRunner

from examining.sat_exams import DAY, a_plain_exam, a_register, lay_down, run, typed
from tinwright.cli import main
from tinwright.quizzes.questions import letter_of
from tinwright.quizzes.simulation import rasch_chances, simulate_answers
from tinwright.register import open_register

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.examining.form import ExamForm, ExamKey

LSAT6 = """
00000:3 00001:6 00010:2 00011:11 00100:1 00101:1 00110:3 00111:4 01000:1 01001:8 01011:16 01101:3 01110:2 01111:15 10000:10
10001:29 10010:14 10011:81 10100:3 10101:28 10110:15 10111:80 11000:16 11001:56 11010:21 11011:173 11100:11 11101:61 11110:28
11111:298
"""
"""Section 6 of the Law School Admission Test, 1000 people by 5 items (Bock and Lieberman 1970), as pattern:count."""


def as_typed(right: bool, place: int, *, choices: int) -> str:
    return letter_of(place if right else (place + 1) % choices)


def sat(
    folder: Path,
    form: ExamForm,
    key: ExamKey,
    answers: list[list[str]],
    *,
    register: Path | None = None,
    day: str = DAY,
) -> Path:
    """Let people sit a form and record it, and return the register."""
    file = lay_down(folder / "exams", form, key)
    books = register or a_register(folder, len(answers))
    rows = [[f"V{number:04d}", *row] for number, row in enumerate(answers, 1)]
    done = run("grade", file, typed(folder / f"{form.form}.csv", form, rows, day=day), register=books, on=day)
    assert done.exit_code == 0, done.stderr
    return books


def simulated(
    people: int, key: ExamKey, *, seed: int = 5, turned: int | None = None, choices: int = 4
) -> list[list[str]]:
    """Answer as a Rasch cohort would; of item `turned` the key is wrong, and those who know take the letter after it."""
    spread = np.random.default_rng(seed)
    chances = rasch_chances(spread.normal(1.0, 1.2, people), np.linspace(-1, 1, len(key.items)))
    known = simulate_answers(chances, seed)
    sheets = []
    for row in known.tolist():
        sheet = []
        for number, (right, item) in enumerate(zip(row, key.items, strict=True), 1):
            told = not right if number == turned else right
            sheet.append(as_typed(told, item.key[0], choices=choices))
        sheets.append(sheet)
    return sheets


def numbers(file: Path) -> list[dict[str, str]]:
    with file.open(encoding="utf-8", newline="") as opened:
        return list(csv.DictReader(opened))


def test_lsat6_typed_in_and_analysed_gives_the_published_numbers(tmp_path: Path) -> None:
    """R packages psych (`alpha`) and psychometric (`item.exam`, `SE.Meas`) give these for the same data."""
    form, key = a_plain_exam(5, cut=4, choices=2)
    patterns = [(pattern, int(count)) for pattern, _, count in (part.partition(":") for part in LSAT6.split())]
    assert sum(count for _, count in patterns) == 1000
    answers = [
        [as_typed(right == "1", item.key[0], choices=2) for right, item in zip(pattern, key.items, strict=True)]
        for pattern, count in patterns
        for _ in range(count)
    ]
    register = sat(tmp_path, form, key, answers)
    table = tmp_path / "items.csv"
    done = run(
        "analyze", "--exam", "volunteer", "--forms", tmp_path / "exams", "--csv", table, register=register, on=None
    )
    assert done.exit_code == 0, done.stderr
    rows = numbers(table)
    assert [float(row["difficulty"]) for row in rows] == [0.924, 0.709, 0.553, 0.763, 0.870]
    assert [float(row["discrimination"]) for row in rows] == pytest.approx(
        [0.362010, 0.566772, 0.618440, 0.534418, 0.435366], abs=1.1e-6
    )
    assert [float(row["corrected"]) for row in rows] == pytest.approx(
        [0.112833, 0.153178, 0.172779, 0.144428, 0.121596], abs=1.1e-6
    )
    told = [line.strip() for line in done.stdout.splitlines()]
    # mean 3.819, SD 1.035041, alpha and KR-20 .2949972, SEM .8690664
    assert "mean and standard deviation: 3.82 and 1.04 points" in told
    assert "KR-20: 0.29" in told
    assert any(line.startswith("alpha: 0.29 (95 % interval 0.2") for line in told)
    assert "standard error of measurement: 0.87 points" in told


def test_a_key_that_is_wrong_is_pointed_out_first(tmp_path: Path) -> None:
    form, key = a_plain_exam(20, cut=14)
    register = sat(tmp_path, form, key, simulated(60, key, turned=7))
    report, table = tmp_path / "analysis.html", tmp_path / "items.csv"
    done = run(
        "analyze", "--exam", "volunteer", "--forms", tmp_path / "exams", "--report", report, "--csv", table,
        register=register, on=None,
    )  # fmt: skip
    assert done.exit_code == 0, done.stderr
    looked = [line for line in done.stdout.splitlines() if line.startswith("look at ")]
    assert looked[0] == f"look at q-07 ({form.code} 7):"
    assert "beats-the-key" in numbers(table)[6]["reasons"]
    assert "negative-discrimination" in numbers(table)[6]["reasons"]
    assert sum("negative-discrimination" in row["reasons"] for row in numbers(table)) <= 2
    page = report.read_text(encoding="utf-8")
    first = page.partition('<div class="look">')[2].partition('<div class="look">')[0]
    assert "Question 7?" in first
    # Item 7 has the key C; the letter after it is D.
    assert "The wrong answer D is chosen more often than the right one" in first
    drawings = [part.partition("</svg>")[0] + "</svg>" for part in page.split("<svg ")[1:]]
    for drawing in drawings:
        root = ET.fromstring("<svg " + drawing)  # noqa: S314 our own drawing
        named = (root.get("aria-labelledby") or "").split()
        assert [child.get("id") for child in root[:2]] == named
        assert all(child.text for child in root[:2])
    assert "<script" not in page


def test_after_the_key_is_corrected_the_item_is_not_pointed_out_any_more(tmp_path: Path) -> None:
    form, key = a_plain_exam(20, cut=14)
    register = sat(tmp_path, form, key, simulated(60, key, turned=7))
    file = tmp_path / "exams" / f"{form.code}.key.json"
    run("rekey", file, "--item", "7", "--right", "D", "--reason", "the key was wrong")
    before = run("analyze", "--exam", "volunteer", "--forms", tmp_path / "exams", register=register, on=None)
    assert "attention: 60 of them are graded with another key than the last one: grade them again" in before.stdout
    again = run("grade", file.with_name(f"{form.code}.key-2.json"), tmp_path / "A.csv", register=register)
    assert "60 of them in place of an earlier one" in again.stdout
    table = tmp_path / "items.csv"
    done = run(
        "analyze", "--exam", "volunteer", "--forms", tmp_path / "exams", "--csv", table, register=register, on=None
    )
    assert "attention" not in done.stdout
    assert not {"negative-discrimination", "beats-the-key"} & set(numbers(table)[6]["reasons"].split())


def test_an_item_that_was_dropped_is_not_pointed_out(tmp_path: Path) -> None:
    form, key = a_plain_exam(12, cut=8)
    register = sat(tmp_path, form, key, simulated(40, key, turned=7))
    file = tmp_path / "exams" / f"{form.code}.key.json"
    run("rekey", file, "--item", "7", "--drop", "--reason", "it can be read in two ways")
    run("grade", file.with_name(f"{form.code}.key-2.json"), tmp_path / "A.csv", register=register)
    table = tmp_path / "items.csv"
    run("analyze", "--exam", "volunteer", "--forms", tmp_path / "exams", "--csv", table, register=register, on=None)
    dropped = numbers(table)[6]
    assert (dropped["difficulty"], dropped["dropped"], dropped["reasons"]) == ("1.000000", "yes", "")


def test_for_too_few_people_no_number_is_printed_and_how_many_it_takes_is_said(tmp_path: Path) -> None:
    form, key = a_plain_exam(20, cut=14)
    register = sat(tmp_path, form, key, simulated(29, key))
    report, table = tmp_path / "analysis.html", tmp_path / "items.csv"
    done = run(
        "analyze", "--exam", "volunteer", "--forms", tmp_path / "exams", "--report", report, "--csv", table,
        register=register, on=None,
    )  # fmt: skip
    assert done.exit_code == 0
    told = [line for line in done.stdout.splitlines()[2:] if "the rule:" not in line]
    assert told[:2] == ["  numbers: none: needs 30 people, has 29", "items: needs 30 people, has 29"]
    assert told[2].startswith("so far, with few people: shares right of 20 items are drawn toward the judges' ratings")
    assert {row["difficulty"] for row in numbers(table)} == {""}
    page = report.read_text(encoding="utf-8")
    assert page.count("<svg") == 1, "the curve of the rule needs nobody"
    assert "it needs 30 people, has 29" in page


def test_six_people_who_all_have_an_item_wrong_are_enough_to_look_at_it(tmp_path: Path) -> None:
    """Rated 0.7, six of six wrong: the interval of Beta(7, 9) ends at 0.68 (scipy)."""
    form, key = a_plain_exam(20, cut=14)
    answers = [[letter_of((item.key[0] + (number == 7)) % 4) for number, item in enumerate(key.items, 1)]] * 6
    register = sat(tmp_path, form, key, answers)
    done = run("analyse", "--exam", "volunteer", "--forms", tmp_path / "exams", register=register, on=None)
    looked = [line for line in done.stdout.splitlines() if line.startswith("look at")]
    assert looked == [f"look at q-07 ({form.code} 7): 44% right (21% to 68%, 6 people), 70% expected"]


def test_each_person_counts_once(tmp_path: Path) -> None:
    form, key = a_plain_exam(20, cut=14)
    register = sat(tmp_path, form, key, simulated(29, key))
    other, other_key = a_plain_exam(19, cut=14)
    with open_register(register, by="tester") as books:
        for number in range(1, 6):
            books.record_coaching(f"V{number:04d}", coached_on=dt.date(2026, 12, 1), coach="AE", about="all of it")
    again = [row[:19] for row in simulated(29, key)][:5]
    sat(tmp_path, other, other_key, again, register=register, day="2026-12-15")
    done = run("analyze", "--exam", "volunteer", register=register, on=None)
    assert done.stdout.startswith("volunteer: 29 people; 5 further sittings of the same people are left out")


def test_items_shared_by_two_forms_are_put_together_whatever_the_order_of_their_choices(tmp_path: Path) -> None:
    """An item whose wrong answer is chosen on both forms under two letters is counted as one option."""
    form, key = a_plain_exam(12, cut=8)
    turned = replace(
        form,
        form="B",
        items=tuple(replace(item, choices=tuple(reversed(item.choices))) for item in form.items),
    )
    turned_key = replace(
        key,
        form="B",
        form_digest=turned.digest,
        items=tuple(replace(item, key=(3 - item.key[0],)) for item in key.items),
    )
    answers = simulated(40, key)
    register = a_register(tmp_path, 40)
    for which, sheets, folk in ((form, answers[:20], 0), (turned, answers[20:], 20)):
        made = lay_down(tmp_path / "exams", which, key if which is form else turned_key)
        flip = {"A": "D", "B": "C", "C": "B", "D": "A"} if which is turned else {}
        rows = [[f"V{n + folk:04d}", *(flip.get(a, a) for a in row)] for n, row in enumerate(sheets, 1)]
        assert run("grade", made, typed(tmp_path / "s.csv", which, rows), register=register).exit_code == 0
    table = tmp_path / "items.csv"
    done = run(
        "analyze", "--exam", "volunteer", "--forms", tmp_path / "exams", "--csv", table, register=register, on=None
    )
    assert done.exit_code == 0, done.stderr
    found = numbers(table)
    assert {row["people"] for row in found} == {"40"}
    for place, row in enumerate(found):
        right = sum(sheet[place] == letter_of(key.items[place].key[0]) for sheet in answers)
        assert float(row["difficulty"]) == pytest.approx(right / 40, abs=1e-6)
        # Only the key and the letter after it are ever chosen, so two options are idle on both forms together.
        assert "rarely-chosen" in row["reasons"]
        assert "beats-the-key" not in row["reasons"] or right < 20


def test_answers_of_somebody_erased_still_count_for_the_items(tmp_path: Path) -> None:
    form, key = a_plain_exam(12, cut=8)
    register = sat(tmp_path, form, key, simulated(31, key))
    with open_register(register) as books:
        books.erase("V0001", dt.date(2026, 11, 30))
    table = tmp_path / "items.csv"
    done = run(
        "analyze", "--exam", "volunteer", "--forms", tmp_path / "exams", "--csv", table, register=register, on=None
    )
    assert done.exit_code == 0, done.stderr
    assert {row["people"] for row in numbers(table)} == {"31"}


def test_an_examination_that_nobody_sat_is_refused_with_the_nearest_name(tmp_path: Path) -> None:
    form, key = a_plain_exam(12, cut=8)
    register = sat(tmp_path, form, key, simulated(2, key))
    done = run("analyze", "--exam", "voluntear", register=register, on=None)
    assert (done.exit_code, done.stdout) == (1, "")
    assert done.stderr == "nobody sat the examination 'voluntear'; did you mean 'volunteer'?\n"
    empty = run("analyze", "--exam", "volunteer", "--forms", tmp_path / "nothing", register=register, on=None)
    assert empty.exit_code == 1
    assert "expected forms of the examination 'volunteer', found none" in empty.stderr


def test_the_spelling_it_had_first_still_works_and_is_not_shown(tmp_path: Path) -> None:
    form, key = a_plain_exam(20, cut=14)
    register = sat(tmp_path, form, key, simulated(60, key, turned=7))
    new, old = (
        run(name, "--exam", "volunteer", "--forms", tmp_path / "exams", register=register, on=None)
        for name in ("analyze", "analyse")
    )
    assert (old.exit_code, old.stdout) == (0, new.stdout)
    shown = CliRunner().invoke(main, ["exam", "--help"]).stdout
    assert "analyze" in shown
    assert "analyse" not in shown
