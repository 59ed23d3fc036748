"""`tinwright exam grade` and `rekey`: twelve sheets typed in, what is refused, and a key that was wrong."""

from __future__ import annotations

import csv
import json
import re
from typing import TYPE_CHECKING

import pytest

from examining.sat_exams import DAY, a_plain_exam, a_register, a_response, lay_down, run, typed
from tinwright.register import open_register

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from tinwright.examining.form import ExamForm

RIGHT = ("A", "B", "C", "D", "A", "B")
FORM, KEY = a_plain_exam(6, cut=4, critical=(2,))

NO_COMMAS = "expected commas between the cells, got semicolons: in the spreadsheet save it as CSV with commas"


@pytest.fixture
def key(tmp_path: Path) -> Path:
    return lay_down(tmp_path / "exams", FORM, KEY)


@pytest.fixture
def register(tmp_path: Path) -> Path:
    return a_register(tmp_path, 12)


def wrong_at(*numbers: int) -> list[str]:
    return ["D" if n in numbers and n != 4 else "A" if n in numbers else right for n, right in enumerate(RIGHT, 1)]


def the_file(folder: Path, end: str) -> Path:
    """Return the one file of a report with this end, the last that was written."""
    return max((file for file in folder.iterdir() if file.name.endswith(end)), key=lambda file: (len(file.name), file))


def test_twelve_typed_sheets_are_graded_recorded_and_told(tmp_path: Path, key: Path, register: Path) -> None:
    missed = {1: (), 2: (1,), 3: (1, 3), 4: (1, 3, 5), 5: (2,), 6: (2, 3, 4)}
    rows = [[f"V{n:04d}", *wrong_at(*missed.get(n, ()))] for n in range(1, 12)] + [["v0012", "a", "", "", "", "", ""]]
    done = run(
        "grade", key, typed(tmp_path / "sheets.csv", FORM, rows), "--report", tmp_path / "out", register=register
    )
    assert done.exit_code == 0, done.output
    lines = done.stdout.splitlines()
    assert len(lines) == 1 + 12 + 2
    # 5 of 6, 95 %: 0.4365 to 0.9699 (Wilson's formula worked by hand with z = 1.959964)
    assert re.fullmatch(r"V0002 +2026-11-26 +5 of 6 +44% to 97% +passed", lines[2])
    assert lines[4].endswith("not passed (fewer than 4 points)")
    assert re.search(r" 5 of 6 .* not passed \(What can hurt: 0 of 1 right, 1 needed; second try today\)$", lines[5])
    assert lines[6].endswith("not passed (fewer than 4 points; What can hurt: 0 of 1 right, 1 needed)")
    assert lines[13:] == [
        "12 sheets graded, 8 passed",
        "12 sittings recorded, 0 of them in place of an earlier one; 0 in the register already",
    ]
    with open_register(register) as books:
        sat = books.sittings()
        assert [(row.score, row.passed) for row in sat[:6]] == [
            ("6", True), ("5", True), ("4", True), ("3", False), ("5", False), ("3", False),
        ]  # fmt: skip
        assert (sat[3].exam, sat[3].form, sat[3].out_of) == ("volunteer", FORM.code, "6")
        assert sat[3].profile == {"first-roller": ["0", "3"], "second-roller": ["3", "3"]}
        assert [row.response for row in books.item_responses(sat[11].id)] == ["A", None, None, None, None, None]
    slips = the_file(tmp_path / "out", "slips.html").read_text(encoding="utf-8")
    assert slips.count("<section>") == 12
    assert "Person 3" in slips
    assert not any(item.text in slips or item.id in slips for item in FORM.items)
    with the_file(tmp_path / "out", "results.csv").open(encoding="utf-8", newline="") as file:
        assert [row["points"] for row in csv.DictReader(file)][:4] == ["6", "5", "4", "3"]


def test_the_slip_names_what_to_study_most_missed_topic_first(tmp_path: Path, key: Path) -> None:
    sheet = typed(tmp_path / "a.csv", FORM, [["V0001", *wrong_at(1, 3, 4)]])
    assert run("grade", key, sheet, "--no-record", "--report", tmp_path / "out").exit_code == 0
    slip = the_file(tmp_path / "out", "slips.html").read_text(encoding="utf-8").partition("What to study")[2]
    found = re.findall(r"<h3>(.*?)</h3>|<li>(.*?)</li>", slip)
    assert [a or b for a, b in found] == ["First roller", "Part 1", "Part 3", "Second roller", "Part 4"]


def test_grading_again_changes_nothing(tmp_path: Path, key: Path, register: Path) -> None:
    sheet = typed(tmp_path / "a.csv", FORM, [["V0001", *RIGHT]])
    run("grade", key, sheet, register=register)
    again = run("grade", key, sheet, register=register)
    assert again.exit_code == 0
    assert "0 sittings recorded, 0 of them in place of an earlier one; 1 in the register already" in again.stdout


def test_the_same_sheet_from_paper_and_from_the_page_counts_once(tmp_path: Path, key: Path, register: Path) -> None:
    paper = typed(tmp_path / "a.csv", FORM, [["V0001", "a", "b", "", "", "", ""]])
    page = a_response(tmp_path / "a.json", FORM, "V0001", {"1": "A", "2": "B", "3": ""})
    done = run("grade", key, paper, page, register=register)
    assert done.exit_code == 0
    assert "1 sheet graded" in done.stdout
    assert done.stderr == f"{page}: the same as {paper}:3:1; counted once\n"


def damaged(file: Path, form: ExamForm) -> Path:
    a_response(file, form, "V0002", {"1": "A"})
    file.write_bytes(file.read_bytes()[:60])
    return file


def altered(file: Path, form: ExamForm) -> Path:
    a_response(file, form, "V0002", {"1": "A"})
    file.write_text(file.read_text(encoding="utf-8").replace('"1": "A"', '"1": "B"'), encoding="utf-8")
    return file


def of_another_exam(file: Path, form: ExamForm) -> Path:
    return a_response(file, form, "V0002", {"1": "A"}, exam="cooks")


def of_another_form(file: Path, form: ExamForm) -> Path:
    return a_response(file, form, "V0002", {"1": "A"}, form="B", form_digest="ab" * 32)


def of_another_making_of_the_form(file: Path, form: ExamForm) -> Path:
    return a_response(file, form, "V0002", {"1": "A"}, form_digest="ab" * 32)


def of_nobody(file: Path, form: ExamForm) -> Path:
    return a_response(file, form, "V0013", {"1": "A"})


def with_a_letter_too_far(file: Path, form: ExamForm) -> Path:
    return a_response(file, form, "V0002", {"5": "E"})


def with_a_question_too_many(file: Path, form: ExamForm) -> Path:
    return a_response(file, form, "V0002", {"7": "A"})


def from_the_future(file: Path, form: ExamForm) -> Path:
    return a_response(file, form, "V0002", {}, taken_on="2062-11-26")


def from_before_the_form(file: Path, form: ExamForm) -> Path:
    return a_response(file, form, "V0002", {}, taken_on="2026-11-24")


def a_key_file(file: Path, _form: ExamForm) -> Path:
    file.write_text(KEY.written(), encoding="utf-8")
    return file


def a_picture(file: Path, _form: ExamForm) -> Path:
    file.write_bytes(b"\x89PNG\r\n\x1a\n\xff")
    return file


def missing(file: Path, _form: ExamForm) -> Path:
    return file


REFUSED = {
    damaged: "expected the JSON of a responses file, got something else or a damaged file",
    altered: "it was changed after it was written: its digest does not fit what is in it",
    of_another_exam: "expected the examination volunteer, got 'cooks'",
    of_another_form: f"expected answers to form {FORM.code}, got those to B-ababab",
    of_another_making_of_the_form: f"expected answers to form {FORM.code}, got those to A-ababab",
    of_nobody: "person: 'V0013' is not in the register; did you mean V0003?",
    with_a_letter_too_far: "question 5: expected letters from A to D, got 'E'",
    with_a_question_too_many: "answers: expected questions 1 to 6, got '7'",
    from_the_future: "taken_on: 2062-11-26 is in the future",
    from_before_the_form: "taken_on: 2026-11-24 is before the form was made, on 2026-11-25",
    a_key_file: """expected a file with "tinwright": "responses", got 'key'""",
    a_picture: "expected text in UTF-8, got something else: a damaged file, or no text file",
    missing: "cannot be read: No such file or directory",
}


@pytest.mark.parametrize("spoilt", REFUSED, ids=lambda spoilt: spoilt.__name__)
def test_a_spoilt_response_file_is_refused_with_its_reason_and_nothing_is_recorded(
    tmp_path: Path, key: Path, register: Path, spoilt: Callable[[Path, ExamForm], Path]
) -> None:
    sound = typed(tmp_path / "a.csv", FORM, [["V0001", *RIGHT]])
    file = spoilt(tmp_path / "b.json", FORM)
    done = run("grade", key, sound, file, "--report", tmp_path / "out", register=register)
    assert (done.exit_code, done.stdout) == (1, "")
    told = done.stderr.splitlines()
    assert len(told) == 2
    reason = told[0].removeprefix(f"{file}: ")
    # The nearest spelling may be any that is one letter off.
    assert reason.partition("; did")[0] == REFUSED[spoilt].partition("; did")[0]
    assert ("did you mean" in reason) == (spoilt is of_nobody)
    assert not (tmp_path / "out").exists()
    with open_register(register) as books:
        assert books.sittings() == []
    partly = run("grade", key, sound, file, "--skip-refused", register=register)
    assert partly.exit_code == 0
    assert "1 sheet graded, 1 passed, 1 refused" in partly.stdout


CSV_REFUSED = {
    f"form,B-ababab\nperson,taken_on,1,2,3,4,5,6\nV0001,{DAY},A,B,C,D,A,B\n": (
        f":1:6: expected answers to form {FORM.code}, got those to 'B-ababab'"
    ),
    f"person,taken_on,1\nV0001,{DAY},A\n": f":1:1: expected the line form,{FORM.code} first, got 'person'",
    f"form;{FORM.code}\nperson;taken_on;1\nV0001;{DAY};A\n": f":1:1: {NO_COMMAS}",
    f"form,{FORM.code}\nperson;taken_on;1\nV0001;{DAY};A\n": f":2:1: {NO_COMMAS}",
    f"form,{FORM.code}\nperson,taken_on,1,2,4\n": ":2:21: expected the heading 3, got '4'",
    f"form,{FORM.code}\nperson,taken_on,1,2,3,4,5,6,7\n": (
        ":2:29: expected 6 questions, got the heading '7' beyond them"
    ),
    f"form,{FORM.code}\nperson,taken_on,1,2,3,4,5,6\nV0001,{DAY},A,B,C,X,A,B\n": (
        ":3:24: question 4: expected letters from A to D, got 'X'"
    ),
    f"form,{FORM.code}\nperson,taken_on,1,2,3,4,5,6\nV0001,{DAY},A,B C,C,D,A,B\n": (
        ":3:20: question 2: expected one letter, got 2: type the one that is not struck out; when two stand, leave it "
        "empty, since neither counts"
    ),
    f"form,{FORM.code}\nperson,taken_on,1,2,3,4,5,6\nV0001,yesterday,A\n": (
        ":3:7: taken_on: expected a day such as 2026-11-02, got 'yesterday'"
    ),
    f"form,{FORM.code}\nperson,taken_on,1,2,3,4,5,6\n,{DAY},A\n": (
        ":3:1: person: expected a register id such as V0001, got ''"
    ),
    f"form,{FORM.code}\nperson,taken_on,1,2,3,4,5,6\nV0001,{DAY},A,B,C,D,A,B,C\n": (
        ":3:30: expected 6 answers, got another: 'C'"
    ),
    f'form,{FORM.code}\nperson,taken_on,1,2,3,4,5,6\nV0001,"{"x" * 200_000}\n': (
        f":3:7: taken_on: expected a day such as 2026-11-02, got '\"{'x' * 38}"
    ),
    "": f":1:1: expected the line form,{FORM.code}, got an empty file",
}


@pytest.mark.parametrize(("text", "told"), CSV_REFUSED.items(), ids=range(len(CSV_REFUSED)))
def test_a_typed_file_is_refused_at_its_place(tmp_path: Path, key: Path, register: Path, text: str, told: str) -> None:
    file = tmp_path / "a.csv"
    file.write_text(text, encoding="utf-8")
    done = run("grade", key, file, register=register)
    assert (done.exit_code, done.stdout) == (1, "")
    assert done.stderr.splitlines()[0] == f"{file}{told}"


def test_two_unlike_sheets_of_one_person_are_both_refused(tmp_path: Path, key: Path, register: Path) -> None:
    file = typed(tmp_path / "a.csv", FORM, [["V0001", *RIGHT], ["V0002", *RIGHT], ["V0001", *wrong_at(1)]])
    done = run("grade", key, file, "--skip-refused", register=register)
    told = done.stderr.splitlines()
    assert [line.partition(": ")[0] for line in told] == [f"{file}:3:1", f"{file}:5:1"]
    assert f"V0001 has two sheets of form {FORM.code} with other answers or another day" in told[0]
    assert "1 sheet graded, 1 passed, 2 refused" in done.stdout


def test_a_file_saved_by_a_spreadsheet_is_read(tmp_path: Path, key: Path, register: Path) -> None:
    text = f'form,{FORM.code},,,,,,\r\n"person","taken_on",1,2,3,4,5,6\r\n# note\r\nV0001,11/26/2026,A,"B",C,D,A,B\r\n,,,,,,,\r\n'
    file = tmp_path / "a.csv"
    file.write_bytes(b"\xef\xbb\xbf" + text.encode())
    done = run("grade", key, file, register=register)
    assert done.exit_code == 0, done.stderr
    assert "6 of 6" in done.stdout


def test_a_corrected_key_grades_anew_beside_the_old_result(tmp_path: Path, key: Path, register: Path) -> None:
    sheet = typed(tmp_path / "a.csv", FORM, [["V0001", *wrong_at(1, 3, 5)], ["V0002", *RIGHT]])
    before = key.read_bytes()
    run("grade", key, sheet, register=register)
    made = run("rekey", key, "--item", "3", "--right", "D", "--reason", "C and D were swapped")
    assert made.exit_code == 0, made.stderr
    corrected = key.with_name(f"{FORM.code}.key-2.json")
    held = json.loads(corrected.read_text(encoding="utf-8"))
    assert held["revision"] == 2
    assert held["corrections"] == [
        {
            "revision": 2, "item": "q-03", "what": "other-answer", "was": {"key": [2]}, "now": {"key": [3]},
            "reason": "C and D were swapped", "on": DAY,
        }
    ]  # fmt: skip
    assert key.read_bytes() == before
    done = run("grade", corrected, sheet, "--report", tmp_path / "out", register=register)
    assert "2 sittings recorded, 2 of them in place of an earlier one" in done.stdout
    with open_register(register) as books:
        sat = books.sittings("V0001")
        assert [(row.score, row.passed, row.supersedes) for row in sat] == [("3", False, None), ("4", True, "S0001")]
        assert sat[0].digest == sat[1].digest
        assert sat[0].graded_with != sat[1].graded_with
        assert [row.score for row in books.sittings("V0002")] == ["6", "5"]
    assert "Graded with revision 2 of the key." in the_file(tmp_path / "out", "slips.html").read_text(encoding="utf-8")
    first = the_file(tmp_path / "out", "results.csv").read_bytes()
    run("grade", corrected, sheet, "--report", tmp_path / "out", register=register)
    assert the_file(tmp_path / "out", "results.csv").read_bytes() == first


def test_a_dropped_item_is_right_for_everybody_and_critical_no_more(tmp_path: Path, key: Path) -> None:
    sheet = typed(tmp_path / "a.csv", FORM, [["V0001", *wrong_at(2, 3)], ["V0002", "", "", "", "", "", ""]])
    assert run("rekey", key, "--item", "q-02", "--drop", "--reason", "two answers are right").exit_code == 0
    done = run("grade", key.with_name(f"{FORM.code}.key-2.json"), sheet, "--no-record").stdout.splitlines()
    assert re.search(r"5 of 6 .* passed$", done[1])
    assert re.search(r"1 of 6 .* not passed \(fewer than 4 points\)$", done[2])


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (("--item", "q-30", "--right", "A"), "form A: no item is called 'q-30'"),
        (("--item", "7", "--right", "A"), "form A: no item is called '7'"),
        (("--item", "1", "--right", "A"), "q-01: that is the answer in the key already"),
        (("--item", "1", "--right", "E"), "q-01: expected letters from A to D, got 'E'"),
        (("--item", "1", "--right", ""), "q-01: expected the right answer, got nothing"),
    ],
)
def test_a_correction_that_does_not_fit_is_refused(key: Path, options: tuple[str, ...], told: str) -> None:
    done = run("rekey", key, *options, "--reason", "a slip")
    assert done.exit_code == 1
    assert done.stderr.startswith(told)
    assert len(list(key.parent.iterdir())) == 2


def test_a_correction_needs_one_of_answer_and_drop(key: Path) -> None:
    assert run("rekey", key, "--item", "1", "--reason", "a slip").exit_code == 2
    assert run("rekey", key, "--item", "1", "--drop", "--right", "A", "--reason", "a slip").exit_code == 2


def test_a_sheet_typed_wrong_is_replaced_only_when_said(tmp_path: Path, key: Path, register: Path) -> None:
    run("grade", key, typed(tmp_path / "a.csv", FORM, [["V0001", *wrong_at(1)]]), register=register)
    better = typed(tmp_path / "b.csv", FORM, [["V0002", *RIGHT], ["V0001", *RIGHT]])
    refused = run("grade", key, better, register=register)
    assert refused.exit_code == 1
    assert refused.stderr.startswith("nothing is recorded: V0001: V0001 already has a sitting")
    with open_register(register) as books:
        assert len(books.sittings()) == 1
    assert run("grade", key, better, "--retyped", register=register).exit_code == 0
    with open_register(register) as books:
        assert [row.score for row in books.sittings("V0001")] == ["5", "6"]


def test_a_changed_key_and_a_lost_form_are_refused(tmp_path: Path, key: Path) -> None:
    sheet = typed(tmp_path / "a.csv", FORM, [["V0001", *RIGHT]])
    text = key.read_text(encoding="utf-8")
    key.write_text(text.replace('"cut": 4', '"cut": 1'), encoding="utf-8")
    assert "it was changed after it was written" in run("grade", key, sheet, "--no-record").stderr
    key.write_text(text, encoding="utf-8")
    (key.parent / f"{FORM.code}.form.json").unlink()
    lost = run("grade", key, sheet, "--no-record")
    assert lost.exit_code == 1
    assert "cannot be read: No such file" in lost.stderr


def test_results_never_go_under_the_site(tmp_path: Path, key: Path, register: Path) -> None:
    sheet = typed(tmp_path / "a.csv", FORM, [["V0001", *RIGHT]])
    done = run("grade", key, sheet, "--report", tmp_path / "site" / "out", register=register)
    assert done.exit_code == 1
    assert "private records must not lie in" in done.stderr
    with open_register(register) as books:
        assert books.sittings() == []


def test_results_have_the_form_and_the_day_in_their_names_and_never_take_the_place_of_others(tmp_path: Path) -> None:
    form, key = a_plain_exam(6, cut=4)
    file, out = lay_down(tmp_path / "exams", form, key), tmp_path / "out"
    good = ["ABCD"[item.key[0]] for item in key.items]
    for person in ("V0001", "V0002", "V0001"):
        sheet = typed(tmp_path / "answers.csv", form, [[person, *good]])
        assert run("grade", file, sheet, "--no-record", "--report", out).exit_code == 0
    stem = f"volunteer-{form.code}-{DAY}"
    assert sorted(path.name for path in out.iterdir()) == sorted(
        [f"{stem}-slips.html", f"{stem}-results.csv", f"{stem}-2-slips.html", f"{stem}-2-results.csv"]
    )


def test_two_marks_on_a_question_with_one_answer_are_refused_with_what_to_type(tmp_path: Path) -> None:
    form, key = a_plain_exam(6, cut=4)
    sheet = typed(tmp_path / "answers.csv", form, [["V0001", "A C", "B", "C", "D", "A", "B"]])
    done = run("grade", lay_down(tmp_path / "exams", form, key), sheet, "--no-record")
    assert (
        "question 1: expected one letter, got 2: type the one that is not struck out; when two stand, leave it empty"
        in (done.stderr)
    )
