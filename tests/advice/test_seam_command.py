"""`tinwright seam`: what a sheet of readings leads to, on the terminal, as JSON and as a report."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner, Result

from tinwright.advice.advice import advise_on_sheet, advise_on_signs, signs_from
from tinwright.advice.readings_file import read_sheet
from tinwright.advice.report import report_html
from tinwright.cli import main

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase

ROOT = Path(__file__).parents[2]
EXAMPLE = ROOT / "docs" / "readings-example.csv"
TEXT = EXAMPLE.read_text(encoding="utf-8")
FIRST = "1,1,.125,.118,.055,.078,.076,80,"


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, [*arguments, "--content", str(ROOT / "content")])


def judged(tmp_path: Path, text: str, *arguments: str) -> Result:
    file = tmp_path / "r.csv"
    file.write_text(text, encoding="utf-8")
    return run("seam", str(file), *arguments)


def test_the_can_comes_first_then_why_then_every_dimension_against_its_limits() -> None:
    lines = run("seam", str(EXAMPLE)).stdout.splitlines()
    at = lines.index(
        "Can 2: REJECT. Do not use this can, and do not taste it. Stop. Hold every can sealed "
        "since the last good check that could have found this."
    )
    assert lines[at + 1] == "  Body hook 0.089 in is above the most allowed, 0.086 in."
    assert "  Body hook: 0.088 to 0.089 in; limits 0.070 to 0.086 in: reject" in lines[at:]
    assert "It is invented: never judge a real can by it." in "\n".join(lines)


def test_the_correction_stops_the_sealer_before_anything_is_turned_and_ends_with_an_empty_can() -> None:
    said = run("seam", str(EXAMPLE)).stdout.split("Correction, if it is: First roller set too loose:\n")[1].splitlines()
    order = [
        "Tighten the first roller.",
        "Stop the sealer before you adjust it",
        "On the bench crank sealer: Loosen the lock nut.",
        "Move it 1/8 turn, no more.",
        "The second operation cannot fix the first",
        "Then seal an empty can",
    ]
    places = [next(at for at, line in enumerate(said) if line.strip().startswith(start)) for start in order]
    assert places == sorted(places)


@pytest.mark.parametrize(
    "bad",
    [
        f"{FIRST}Drooop",
        FIRST.replace(".076", "76"),
        f"{FIRST}\n,4,.125,.118,.055,.060,.076,,",
        f'{FIRST}\n1,4,.125,.118,.055,.060,".076,,',
        f"{FIRST},.060",
    ],
    ids=["unknown defect", "unreadable cell", "line of no can", "open quote", "cell beyond the headings"],
)
def test_a_can_with_something_unread_is_never_accepted(tmp_path: Path, bad: str) -> None:
    fourth = "1,4,.125,.118,.055,.078,.076,,"  # three good points are left when one is lost
    result = judged(tmp_path, TEXT.replace(FIRST, f"{bad}\n{fourth}\n1,5{fourth[3:]}"))
    assert result.exit_code == 1
    assert result.stdout.startswith("Can 1: MEASURE AGAIN. Set this can aside.")
    assert "Put that right before you accept this can." in result.stdout


def test_what_is_unread_on_one_can_does_not_hold_back_another(tmp_path: Path) -> None:
    result = judged(tmp_path, TEXT.replace("2,2,.126", "2,2,x"))
    assert result.exit_code == 1
    assert "Can 1: ACCEPT" in result.stdout


def test_limits_for_other_cans_judge_nothing(tmp_path: Path) -> None:
    result = run("seam", str(EXAMPLE), "--specification", "demo-401")
    assert result.exit_code == 1
    assert "2:5: expected a can that 'demo-401' is for (401x206, 401x411), got '307x409'" in result.stderr
    assert result.stdout.startswith("Can 1: NO LIMIT TO JUDGE BY. No verdict")
    assert "accept" not in judged(tmp_path, TEXT.replace("307x409", "303x406")).stdout.lower().replace("you accept", "")


def test_plates_are_those_of_the_specification_judged_by(tmp_path: Path) -> None:
    bare = "\n".join(
        line for line in TEXT.splitlines() if not line.startswith(("can,", "specification", "end", "body"))
    )
    [first, _] = json.loads(judged(tmp_path, bare, "--specification", "demo-401", "--json").stdout)["cans"]
    assert first["readings"]["seam"]["end_plate_in"] == 0.011
    assert first["specification"] == "demo-401"


def test_a_specification_or_sealer_that_is_not_there_is_misuse() -> None:
    for option, word in (("--specification", "demo-370"), ("--sealer", "motor-saler")):
        result = run("seam", str(EXAMPLE), option, word)
        assert result.exit_code == 2
        assert f"is called '{word}'; did you mean" in result.stderr


def test_a_slip_gets_a_question_and_comes_before_any_correction(tmp_path: Path) -> None:
    result = judged(tmp_path, TEXT.replace("2,1,.125,.119,.056,.088", "2,1,.125,.119,.056,2.24"))
    assert (
        "Question: Body hook, point 1: 2.240 in is far too much. Was it read in millimeters (0.0882 in)?"
        in result.stdout
    )
    assert "Answer the questions first: a slip changes all that follows." in result.stdout


def test_every_defect_seen_brings_what_to_do_with_the_can(tmp_path: Path, kb: KnowledgeBase) -> None:
    result = judged(tmp_path, TEXT.replace(FIRST, f"{FIRST}Spur"))  # another trade name of the vee
    assert "Vee: do not use this can, whatever it measures." in result.stdout
    assert kb.defects["vee"].can_action.steps[0].text in result.stdout


def test_no_rating_in_percent_becomes_travel_of_a_roller(kb: KnowledgeBase) -> None:
    signs = signs_from(kb, (), {"seam-thickness": "larger", "tightness": "smaller"})
    out_by = {"seam-thickness": 0.001, "tightness": 30.0}
    advice = advise_on_signs(kb, signs, kb.sealers["bench-crank-sealer"], out_by)
    assert advice.first == "second-roller-loose"
    assert advice.correction is not None
    # 0.001 in at 0.020 in for one turn is a twentieth of a turn; 30 percent is no length
    assert advice.correction.amount == "Move it a little, less than 1/8 turn."


def test_json_is_the_library_result_whole(kb: KnowledgeBase) -> None:
    found = json.loads(run("seam", str(EXAMPLE), "--json").stdout)
    advices = advise_on_sheet(kb, read_sheet(EXAMPLE, kb))
    told = [{**asdict(advice), "specification": "demo-307"} for advice in advices]
    assert found["cans"] == json.loads(json.dumps(told, default=str))
    assert found["problems"] == []


def test_the_blank_form_is_what_it_prints() -> None:
    result = CliRunner().invoke(main, ["seam", "--blank"])
    assert result.exit_code == 0
    assert "\ncan no,point,countersink,seam width,seam thickness,body hook,cover hook,overlap,tightness,seen\n" in (
        result.stdout
    )


def test_a_report_that_cannot_be_written_is_told_in_one_line(tmp_path: Path) -> None:
    result = run("seam", str(EXAMPLE), "--report", str(tmp_path / "no-such-folder" / "r.html"))
    assert result.exit_code == 1
    assert result.stderr.count("\n") == 1
    assert "cannot be written" in result.stderr


HOSTILE = "<img src=x onerror=alert(1)>\"'&"


def test_hostile_text_stays_text_in_the_report(tmp_path: Path) -> None:
    quoted = '"' + HOSTILE.replace('"', '""') + '"'
    report = tmp_path / "r.html"
    text = (
        TEXT.replace("lot,2026-11-A", f"lot,{quoted}")
        .replace("\n1,", f"\n{quoted},")
        .replace("\n2,2,.126", f"\n2,2,{quoted}")
    )
    assert judged(tmp_path, text, "--report", str(report)).exit_code == 1
    page = BeautifulSoup(report.read_text(encoding="utf-8"), "html.parser")
    assert not page.select("img, script")
    assert page.h2.get_text() == f"Can {HOSTILE}"
    assert page.select("svg title")[0].get_text().startswith(f"Can {HOSTILE}")
    assert HOSTILE in page.select("h1 + p")[0].get_text()


def test_no_control_character_reaches_the_terminal(tmp_path: Path) -> None:
    result = judged(tmp_path, TEXT.replace("\n1,", "\n\x1b[2J1,").replace("2,2,.126", "2,2,\x1b]0;x\x07"))
    assert result.exit_code == 1
    assert not {"\x1b", "\x07"} & set(result.output)


def test_a_reading_of_yards_is_not_drawn_and_the_report_says_what_was_not_read(
    kb: KnowledgeBase, tmp_path: Path
) -> None:
    file = tmp_path / "r.csv"
    file.write_text(TEXT.replace("2,1,.125", "2,1,9999.5").replace("2,2,.126", "2,2,x"), encoding="utf-8")
    sheet = read_sheet(file, kb)
    page = BeautifulSoup(report_html(kb, advise_on_sheet(kb, sheet), sheet.settings, sheet.problems), "html.parser")
    first, second = page.select("main > section")
    assert len(first.select("svg")) == 2
    assert len(second.select("svg")) == 1
    assert "No drawing" in second.get_text()
    assert "Line 16, column 5: countersink: This cannot be read" in page.get_text()


def test_formulas_stand_in_the_report_with_the_numbers_put_in(kb: KnowledgeBase) -> None:
    sheet = read_sheet(EXAMPLE, kb)
    page = BeautifulSoup(report_html(kb, advise_on_sheet(kb, sheet), sheet.settings), "html.parser")
    text = page.select("main > section")[1].get_text()
    # CH + BH + Te - W of the shortest hooks and the widest seam
    assert "O = 0.061 + 0.088 + 0.010 − 0.119; variant A; 21 CFR 113.60(a)(1)(iii)" in text
    assert len(page.select("main > section:nth-of-type(2) math")) == 5


def in_millimeters(text: str) -> str:
    """The same sheet, its lengths written in millimeters."""
    lines = []
    for line in text.splitlines():
        cells = line.split(",")
        if cells[0] in {"end plate", "body plate"} or cells[0].isdigit():
            cells = [f"{float(cell) * 25.4:.2f}" if cell.startswith(".") else cell for cell in cells]
        lines.append(",".join(cells).replace("unit,in", "unit,mm"))
    return "\n".join(lines)


def test_a_metric_sheet_is_answered_in_millimeters_on_terminal_and_report(tmp_path: Path) -> None:
    report = tmp_path / "r.html"
    result = judged(tmp_path, in_millimeters(TEXT), "--report", str(report))
    assert result.exit_code == 0
    assert " in;" not in result.stdout
    assert " in\n" not in result.stdout
    assert "  Body hook: 2.24 to 2.26 mm; limits 1.778 to 2.184 mm: reject" in result.stdout.splitlines()
    page = BeautifulSoup(report.read_text(encoding="utf-8"), "html.parser")
    bad = page.select("main > section")[1]
    assert "1.778 to 2.184 mm" in bad.get_text()
    assert not [text for text in bad.select("svg text") if text.get_text().rstrip(" OUT").endswith(" in")]
    assert "2.26 mm" in bad.select("svg")[0].get_text()
    # CH + BH + Te - W of the shortest hooks and the widest seam, in millimeters
    assert "O = 1.55 + 2.24 + 0.25 − 3.02" in bad.get_text()


def test_inch_numbers_on_a_metric_sheet_ask_for_the_unit_once(tmp_path: Path) -> None:
    result = judged(tmp_path, TEXT.replace("unit,in", "unit,mm"))
    asked = [line for line in result.stdout.splitlines() if line.startswith("  Question:")]
    assert len(asked) == 2  # one for each of the two cans
    assert all("Were they read in inches? Then set the unit to inches." in line for line in asked)
    assert result.stdout.count("MEASURE AGAIN") == 2
    # nothing is concluded from readings in the wrong unit
    assert "Likely causes:" not in result.stdout
    assert "What is out is called" not in result.stdout


def test_the_unit_most_readings_were_written_in_is_the_unit_of_the_answer(tmp_path: Path) -> None:
    written = in_millimeters(TEXT).replace("unit,mm", "unit,in").splitlines()
    rows = [
        ",".join(f"{cell} mm" if "." in cell else cell for cell in line.split(","))
        if line[0].isdigit() or line.startswith(("end plate", "body plate"))
        else line
        for line in written
    ]
    result = judged(tmp_path, "\n".join(rows))
    assert "  Body hook: 2.24 to 2.26 mm; limits 1.778 to 2.184 mm: reject" in result.stdout.splitlines()


@pytest.mark.parametrize("plate", [".022", ".040", ".012"])
def test_a_plate_that_is_not_the_specifications_is_asked_about_and_nothing_is_accepted(
    tmp_path: Path, plate: str
) -> None:
    result = judged(tmp_path, TEXT.replace("end plate,.010", f"end plate,{plate}"))
    assert result.stdout.startswith("Can 1: MEASURE AGAIN.")
    assert "  Question: The end plate is given as 0.0" in result.stdout
