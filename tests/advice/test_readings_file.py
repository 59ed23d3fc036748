"""A file of seam readings: what is sound is read, what is not is told with its place, and the rest still counts."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench_content import lay_bench
from tinwright.advice.readings_file import BLANK_FORM, read_sheet
from tinwright.knowledge import load

if TYPE_CHECKING:
    from tinwright.advice.readings_file import ReadingsSheet

with tempfile.TemporaryDirectory() as _folder:
    KB = load(lay_bench(Path(_folder)))

SHEET = """\
# a note
can,307x409
specification,demo-307
sealer,bench-crank-sealer
unit,in
can no,point,countersink,seam width,seam thickness,body hook,cover hook,tightness,seen
1,1,.125,.118,55 thou,.078,1.93 mm,80,
1,2,.124,.117,.056,.077,.075,,Droop; sharp-seam
"""


def sheet(text: str | bytes) -> ReadingsSheet:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "r.csv"
        file.write_bytes(text if isinstance(text, bytes) else text.encode("utf-8", "surrogatepass"))
        return read_sheet(file, KB)


def test_readings_are_kept_point_by_point_in_inches() -> None:
    found = sheet(SHEET)
    assert found.problems == []
    [can] = found.cans
    read = {(r.dimension, r.point): r.value for r in can.seam.readings}
    assert read["seam-thickness", "1"] == 0.055
    assert read["cover-hook", "1"] == pytest.approx(1.93 / 25.4)
    assert read["body-hook", "2"] == 0.077
    assert can.defects == ("droop", "sharp-seam")


def test_plates_come_from_the_sheet_or_else_from_the_specification() -> None:
    assert sheet(SHEET).cans[0].seam.end_plate_in == 0.010
    assert sheet(SHEET.replace("unit,in", "unit,in\nend plate,.009")).cans[0].seam.end_plate_in == 0.009
    assert sheet(SHEET.replace("specification,demo-307\n", "")).cans[0].seam.end_plate_in is None


@pytest.mark.parametrize(
    ("good", "bad", "problem"),
    [
        ("bench-crank-sealer", "bench-crank-saler", "r.csv:4:8: no sealer is called 'bench-crank-saler'; did you mean 'bench-crank-sealer'?"),
        ("unit,in", "unit,cm", "r.csv:5:6: expected in or mm, got 'cm'"),
        ("unit,in", "unti,in", "r.csv:5:1: expected one of can, specification, sealer, method, unit, end plate, body plate, lot, date, got 'unti'; did you mean 'unit'?"),
        (".117,.056", ".117,56", "r.csv:8:15: seam thickness: Is this 56 thousandths of an inch (.056)? Got '56'."),
        (".117,.056", ".117,x", "r.csv:8:15: seam thickness: This cannot be read as a measurement. Write it like .055, 55 thou or 1.40 mm. Got 'x'."),
        ("Droop;", "Drop;", "r.csv:8:31: seen: no defect is called 'Drop'; did you mean 'droop'?"),
        ("body hook,", "bodyhook,", "r.csv:6:52: unknown or doubled heading 'bodyhook'; did you mean 'body hook'?"),
        ("unit,in", "unit,in\nunit,mm", "r.csv:6:1: expected 'unit' once, got it again"),
        ("307x409", "401x411", "r.csv:2:5: expected a can that 'demo-307' is for (307x409), got '401x411': nothing is judged by it"),
        ("1,2,.124", "lot,7\n1,2,.124", "r.csv:8:1: expected the number of the can in the first cell, got 'lot': settings and headings stand once, above all readings"),
        ("1,1,.125", ",1,.125", "r.csv:7:1: expected the number of the can in the first cell, got nothing"),
    ],
)  # fmt: skip
def test_a_bad_cell_is_told_with_line_and_column_and_the_rest_still_counts(good: str, bad: str, problem: str) -> None:
    found = sheet(SHEET.replace(good, bad, 1))
    assert problem in [str(each) for each in found.problems]
    assert found.cans
    assert found.cans[0].seam.readings


def test_the_blank_form_reads_as_a_form_without_readings() -> None:
    found = sheet(BLANK_FORM)
    assert [problem.message for problem in found.problems] == []
    assert [can.seam.readings for can in found.cans] == [()]


def test_a_file_without_headings_or_without_text_is_told() -> None:
    assert "expected a line of headings" in sheet("can,307x409\n").problems[0].message
    assert "expected a line of headings" in sheet("").problems[0].message


def test_a_sheet_saved_by_a_spreadsheet_reads_the_same() -> None:
    saved = SHEET.replace("# a note", '"# a note, with a comma"').replace("unit,in", "unit,in,,,,,,,")
    found = sheet(b"\xef\xbb\xbf" + saved.replace("\n", "\r\n").encode())
    assert found.problems == []
    assert found.cans == sheet(SHEET).cans


def test_bytes_of_another_encoding_are_told_with_their_place_and_the_rest_still_counts() -> None:
    found = sheet(SHEET.encode().replace(b"Droop;", b"Dro\xe9p;"))
    assert str(found.problems[0]).startswith("r.csv:8:34: expected UTF-8 text, got ")
    assert len(found.cans[0].seam.readings) == 11
    assert found.cans[0].unread


def test_a_sheet_that_is_too_long_is_told_and_not_read() -> None:
    found = sheet(SHEET + "# note\n" * 300_000)
    assert "expected at most 2,000,000 bytes" in found.problems[0].message
    assert found.cans == ()


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    assert "cannot be read" in read_sheet(tmp_path / "none.csv", KB).problems[0].message
    assert "expected a file, got a folder" in read_sheet(tmp_path, KB).problems[0].message


@given(st.binary(max_size=300), st.booleans())
@settings(max_examples=300, deadline=None)
def test_any_bytes_give_readings_or_problems_and_never_raise(raw: bytes, after: bool) -> None:
    found = sheet(SHEET.encode() + raw if after else raw)
    assert all(str(problem).isprintable() for problem in found.problems)


@given(st.text(max_size=300))
@settings(max_examples=200, deadline=None)
def test_any_text_gives_readings_or_problems_and_never_raises(text: str) -> None:
    found = sheet(SHEET + text)
    assert all("\n" not in str(problem) for problem in found.problems)


@given(st.lists(st.sampled_from(["1", ",", '"', ".055", "\n", "droop", ";", "can no", "#", " ", "55"]), max_size=40))
@settings(max_examples=300, deadline=None)
def test_any_mix_of_cells_never_raises(parts: list[str]) -> None:
    sheet("".join(parts))
    sheet(SHEET + "".join(parts))


@pytest.mark.parametrize(("letter", "name"), [(";", "semicolons"), ("\t", "tabs")])
def test_cells_apart_by_something_else_than_commas_are_told_once_with_the_cure(letter: str, name: str) -> None:
    found = sheet(SHEET.replace(",", letter))
    assert [str(problem) for problem in found.problems] == [
        f"r.csv:6:1: expected commas between the cells, got {name}: in the spreadsheet save it as CSV with commas, "
        "and numbers with a decimal point"
    ]
    assert found.cans == ()
