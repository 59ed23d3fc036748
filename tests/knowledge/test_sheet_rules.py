"""A supplier's sheet is a safety record: nothing in it is left out, impossible, or changed without being seen."""

from __future__ import annotations

import datetime as dt
import re
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from tinwright.advice.advice import advise_on_sheet
from tinwright.advice.readings_file import read_sheet
from tinwright.advice.report import report_html
from tinwright.advice.spoken import seam_lines
from tinwright.cli import main
from tinwright.knowledge import find_problems, load
from tinwright.knowledge.review import to_calibrate, to_read
from tinwright.knowledge.sheet_rules import SheetState, digest_of_sheet, state_of_sheet
from tinwright.site import build_site

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    Content = Callable[[dict[str, str]], Path]

CAN = '- id: "307x409"\n  code: "307x409"\n  evidence: practice\n  reviewed: 2026-11-02\n'
SHEET = """\
title: Our supplier's sheet
supplier: A supplier
cans: ["307x409"]
end_plate: 0.010 in
body_plate: 0.009 in
limits:
  - {dimension: countersink, min: 0.120 in, aim: 0.125 in, max: 0.130 in}
  - {dimension: seam-width, min: 0.110 in, aim: 0.118 in, max: 0.125 in}
  - {dimension: seam-thickness, min: 0.049 in, aim: 0.053 in, max: 0.060 in}
  - {dimension: body-hook, min: 0.070 in, aim: 0.078 in, max: 0.086 in}
  - {dimension: cover-hook, min: 0.068 in, aim: 0.076 in, max: 0.084 in}
  - {dimension: overlap, min: 0.040 in, max: no limit}
overlap_percent_min: 45
butting_percent_min: 70
tightness_percent_min: no limit
evidence: practice
reviewed: 2026-11-02
"""
READ = """\
read_against_paper:
  digest: "{digest}"
  by:
    - {{who: A. E., day: 2026-11-02}}
    - {{who: B. K., day: 2026-11-02}}
"""
READINGS = """\
can,307x409
specification,ours
can no,point,countersink,seam width,seam thickness,body hook,cover hook,tightness,seen
1,1,.125,.118,.055,.078,.076,90,
1,2,.125,.118,.055,.078,.076,,
1,3,.125,.118,.055,.078,.076,,
"""


@pytest.fixture
def lay(content: Content) -> Callable[[str], Path]:
    """Lay down a content folder with the sheet `ours`."""
    return lambda text: content({"cans/a.yml": CAN, "seam-specifications/ours.yml": text})


def told(root: Path) -> list[str]:
    return [str(problem).removeprefix("content/seam-specifications/ours.yml:") for problem in find_problems(root)]


def confirmed(root: Path) -> str:
    """The sheet with the names of two people under the digest it has now."""
    return SHEET + READ.format(digest=digest_of_sheet(load(root).seam_specifications["ours"]))


def test_the_sheet_itself_is_sound(lay: Callable[[str], Path]) -> None:
    assert told(lay(SHEET)) == []


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        (", max: 0.060 in", "", r"the key 'max' is missing"),
        ("min: 0.049 in, ", "", r"the key 'min' is missing"),
        ("max: 0.060 in", "max: null", r"max: expected a length, or 'no limit' in words, got nothing"),
        ("overlap_percent_min: 45\n", "", r"the key 'overlap_percent_min' is missing"),
        ("tightness_percent_min: no limit\n", "", r"the key 'tightness_percent_min' is missing"),
        (
            "  - {dimension: body-hook, min: 0.070 in, aim: 0.078 in, max: 0.086 in}\n",
            "",
            r"expected both limits of every dimension, or 'no limit' in words, got no body-hook",
        ),
        ("dimension: cover-hook", "dimension: body-hook", r"'body-hook' is here twice"),
    ],
)
def test_what_is_left_out_is_told(lay: Callable[[str], Path], old: str, new: str, expected: str) -> None:
    assert old in SHEET
    assert re.search(expected, "\n".join(told(lay(SHEET.replace(old, new)))))


# Five plates are pressed in a seam, seven at a side seam: 3 end plates and 2 (or 4) body plates (CFIA, Metal Can Defects,
# definition of the double seam); here 3 x 0.010 + 2 x 0.009 = 0.048 in and 0.066 in.
@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ("min: 0.049 in", "min: 0.047 in", "expected a least seam thickness above its five plates (0.048 in), got 0.047 in"),
        ("max: 0.060 in", "max: 0.077 in", "max: 0.077 in is thicker than seven plates and their compound, 0.0760 in"),
        ("max: 0.060 in", "max: 0.60 in", "max: 0.60 in is thicker than seven plates and their compound, 0.0760 in"),
        ("min: 0.049 in", "min: 0.049 mm", "expected a least seam thickness above its five plates (0.048 in), got 0.049 mm"),
        ("max: 0.125 in", "max: 3.175 in", "max: no seam-width measures 3.175 in"),
        ("max: 0.086 in", "max: 0.126 in", "max: a body-hook of 0.126 in is as long as the seam is wide, or longer (0.125 in)"),
        ("max: 0.084 in", "max: 0.125 in", "max: a cover-hook of 0.125 in is as long as the seam is wide, or longer (0.125 in)"),
        ("min: 0.120 in", "min: 0.109 in", "min: a countersink of 0.109 in is shallower than the curl of the lid rolled flat (0.110 in)"),
        ("min: 0.120 in", "min: 0.012 in", "min: no countersink measures 0.012 in"),
        ("max: no limit", "max: 0.085 in", "max: a overlap of 0.085 in is as long as the cover hook, or longer (0.084 in)"),
        ("end_plate: 0.010 in", "end_plate: 0.10 in", "end_plate: expected 0.004 in to 0.030 in, got 0.10 in"),
        ("overlap_percent_min: 45", "overlap_percent_min: 4.5", "expected 25 to 100 percent, or 'no limit' in words, got 4.5"),
        ("butting_percent_min: 70", "butting_percent_min: 700", "expected 25 to 100 percent, or 'no limit' in words, got 700"),
        ("butting_percent_min: 70", "butting_percent_min: true", "expected percent as a number, or 'no limit' in words, got True"),
        ("butting_percent_min: 70", 'butting_percent_min: "70"', "expected percent as a number, or 'no limit' in words, got '70'"),
    ],
)  # fmt: skip
def test_what_no_seam_can_measure_is_told(lay: Callable[[str], Path], old: str, new: str, expected: str) -> None:
    assert old in SHEET
    assert expected in "\n".join(told(lay(SHEET.replace(old, new))))


def test_a_sheet_read_by_one_person_twice_is_told(lay: Callable[[str], Path]) -> None:
    text = SHEET + READ.format(digest="0" * 16).replace("B. K.", "a. e.")
    assert told(lay(text)) == [
        "22:13: seam-specification ours: expected two people, got the same one twice",
    ]


def test_a_sheet_is_confirmed_by_two_people_for_the_numbers_it_has_and_no_others(lay: Callable[[str], Path]) -> None:
    root = lay(SHEET)
    assert state_of_sheet(load(root).seam_specifications["ours"]) is SheetState.UNREAD
    read = confirmed(root)
    assert state_of_sheet(load(lay(read)).seam_specifications["ours"]) is SheetState.READ
    for old, new in (
        ("max: 0.060 in", "max: 0.066 in"),
        ("max: 0.060 in", "max: no limit"),
        ("end_plate: 0.010 in", "end_plate: 0.0095 in"),
        ("overlap_percent_min: 45", "overlap_percent_min: 44"),
        ("butting_percent_min: 70", "butting_percent_min: no limit"),
        ("supplier: A supplier", "supplier: Another"),
    ):
        assert old in read
        kb = load(lay(read.replace(old, new)))
        assert state_of_sheet(kb.seam_specifications["ours"]) is SheetState.CHANGED, new
        assert [due.subject for due in to_read(kb)] == ["seam-specification ours"]
    for old, new in (("title: Our", "title: The"), ("reviewed: 2026-11-02\nread", "reviewed: 2026-11-03\nread")):
        assert old in read
        assert to_read(load(lay(read.replace(old, new)))) == []


def test_an_invented_sheet_has_no_paper(lay: Callable[[str], Path]) -> None:
    kb = load(lay(SHEET.replace("evidence: practice", "evidence: invented")))
    assert state_of_sheet(kb.seam_specifications["ours"]) is SheetState.INVENTED
    assert to_read(kb) == []


def test_no_seam_is_accepted_by_a_sheet_that_was_changed_and_all_who_judge_say_so(
    lay: Callable[[str], Path], tmp_path: Path
) -> None:
    readings = tmp_path / "readings.csv"
    readings.write_text(READINGS, encoding="utf-8")
    read = confirmed(lay(SHEET))
    for text, outcome, said in (
        (read, "accept", ""),
        (read.replace("max: 0.060 in", "max: 0.066 in"), "measure-again", "was changed after two people had read it"),
        (SHEET, "measure-again", "Nobody is recorded to have read the seam specification against the paper"),
    ):
        root = lay(text)
        kb = load(root)
        sheet = read_sheet(readings, kb)
        (advice,) = advise_on_sheet(kb, sheet)
        assert advice.verdict.outcome == outcome
        assert said in advice.verdict.reasons[0] or not said
        command = CliRunner().invoke(main, ["seam", str(readings), "--content", str(root)])
        pages = {page.uri: page.text for page in build_site(kb).pages}
        for place in (
            "\n".join(seam_lines(kb, advice)),
            " ".join(command.stdout.split()),
            report_html(kb, [advice], sheet.settings, []),
            pages["seam-specifications/ours.md"],
        ):
            assert said in " ".join(place.split())
            assert ("against the paper" in place and "No seam is accepted" in " ".join(place.split())) == bool(said)


def test_a_rejected_seam_stays_rejected_by_a_sheet_nobody_read(lay: Callable[[str], Path], tmp_path: Path) -> None:
    readings = tmp_path / "readings.csv"
    readings.write_text(READINGS.replace(".055", ".080"), encoding="utf-8")
    kb = load(lay(SHEET))
    (advice,) = advise_on_sheet(kb, read_sheet(readings, kb))
    assert advice.verdict.outcome == "reject"


def test_the_command_shows_the_numbers_to_read_aloud_and_what_to_record(lay: Callable[[str], Path]) -> None:
    root = lay(SHEET)
    shown = CliRunner().invoke(main, ["sheet", "ours", "--content", str(root)])
    assert shown.exit_code == 0
    for line in (
        "  seam thickness: least 0.049 in, aim 0.053 in, greatest 0.060 in",
        "  overlap: least 0.040 in, aim none, greatest no limit",
        "  tightness: no limit",
        f"  digest: '{digest_of_sheet(load(root).seam_specifications['ours'])}'",
    ):
        assert line in shown.stdout.splitlines()
    lines = shown.stdout.splitlines()
    pasted = "\n".join(lines[lines.index("read_against_paper:") :])
    pasted = pasted.replace("FIRST", "A. E.").replace("SECOND", "B. K.").replace("YYYY-MM-DD", "2026-11-02")
    root = lay(f"{SHEET}{pasted}\n")
    assert told(root) == []
    assert to_read(load(root)) == []
    assert "Read against the paper as it stands" in CliRunner().invoke(main, ["sheet", "--content", str(root)]).stdout


def test_check_lists_what_is_to_be_read_and_calibrated_and_fails_for_it_only_when_strict(
    lay: Callable[[str], Path],
) -> None:
    root = lay(SHEET)
    file = root / "program.yml"
    file.write_text(
        file.read_text(encoding="utf-8")
        + "instruments:\n- {name: micrometer, measures: [body-hook], standard_uncertainty: 0.0005 in, "
        "calibrated: 2026-11-02, calibration_months: 6}\n- {name: gauge, measures: [countersink], "
        "standard_uncertainty: 0.001 in}\n",
        encoding="utf-8",
    )
    arguments = ["check", "--content", str(root), "--today", "2027-05-03"]
    result = CliRunner().invoke(main, arguments)
    assert result.exit_code == 0
    assert "seam-specification ours: nobody is recorded to have read it against the paper" in result.stdout
    assert "instrument micrometer: its calibration of 2026-11-02 ran out on 2027-05-02" in result.stdout
    assert "instrument gauge: no calibration is noted" in result.stdout
    assert CliRunner().invoke(main, [*arguments, "--strict"]).exit_code == 1


def test_a_calibration_runs_out_on_its_day_and_not_before(lay: Callable[[str], Path]) -> None:
    root = lay(SHEET)
    file = root / "program.yml"
    instrument = "{name: m, measures: [body-hook], standard_uncertainty: 0.0005 in, calibrated: 2026-11-02}"
    file.write_text(file.read_text(encoding="utf-8") + f"instruments: [{instrument}]\n", encoding="utf-8")
    kb = load(root)
    last = dt.date(2027, 11, 2)
    assert to_calibrate(kb, last) == []
    assert len(to_calibrate(kb, last + dt.timedelta(days=1))) == 1
