"""From readings and signs to verdict, cause and correction, on the real content."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner, Result

from tinwright.advice.advice import advise_on_seam, advise_on_signs
from tinwright.advice.profiles import seen_defect
from tinwright.advice.readings_file import read_sheet
from tinwright.advice.report import report_html
from tinwright.cli import main
from tinwright.seaming import Signs

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase

ROOT = Path(__file__).parents[2]
EXAMPLE = ROOT / "docs" / "readings-example.csv"

# Directions of body hook, cover hook and countersink, and the cause behind them: Azaquar, dimensional seam defects, with the
# countersink telling two causes apart (derived, same source). Long and short against the supplier's sheet.
ROWS = {
    "first-roller-loose": {"body-hook": "longer", "cover-hook": "shorter", "countersink": "normal"},
    "first-roller-tight": {"body-hook": "shorter", "cover-hook": "longer", "countersink": "normal"},
    "base-pressure-high": {"body-hook": "longer", "cover-hook": "shorter", "countersink": "deeper"},
    "base-pressure-low": {"body-hook": "shorter", "cover-hook": "normal", "countersink": "normal"},
    "chuck-base-distance-small": {"body-hook": "longer", "cover-hook": "shorter", "countersink": "deeper"},
    "chuck-base-distance-large": {"body-hook": "shorter", "cover-hook": "normal", "countersink": "normal"},
    "first-roller-worn": {"body-hook": "normal", "cover-hook": "shorter", "countersink": "normal"},
}
PRESSED = {"base-pressure-high", "chuck-base-distance-small"}
SLACK = {"base-pressure-low", "chuck-base-distance-large"}
ALIKE = {
    # pressure and distance do the same to the seam: the table gives them one row each with the same readings
    "base-pressure-high": PRESSED,
    "chuck-base-distance-small": PRESSED,
    "base-pressure-low": SLACK,
    "chuck-base-distance-large": SLACK,
    "first-roller-worn": {"first-roller-worn", "lid-curl-not-formed"},
}


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, [*arguments, "--content", str(ROOT / "content")])


@pytest.mark.parametrize(("cause", "row"), ROWS.items())
def test_each_row_of_the_direction_table_leads_to_its_cause(cause: str, row: dict[str, str]) -> None:
    result = run("cause", "--json", *(part for name, word in row.items() for part in ("--dimension", f"{name}={word}")))
    assert result.exit_code == 0
    assert json.loads(result.stdout)["first"] in ALIKE.get(cause, {cause})


@pytest.mark.parametrize(("cause", "row"), ROWS.items())
def test_readings_on_a_sheet_lead_to_the_same_cause(tmp_path: Path, cause: str, row: dict[str, str]) -> None:
    values = {"longer": ".095", "deeper": ".145", "shorter": ".055", "normal": {"countersink": ".125"}}
    cells = []
    for name in ("countersink", "body-hook", "cover-hook"):
        value = values[row[name]]
        cells.append(value if isinstance(value, str) else value.get(name, ".077"))
    lines = "".join(f"1,{point},{cells[0]},.118,.055,{cells[1]},{cells[2]},\n" for point in (1, 2, 3))
    file = tmp_path / "r.csv"
    head = "specification,demo-307\nsealer,bench-crank-sealer\ncan no,point,countersink,seam width,seam thickness,body hook,cover hook,seen\n"
    file.write_text(head + lines)
    result = run("seam", str(file), "--json")
    assert result.exit_code == 0
    [can] = json.loads(result.stdout)["cans"]
    assert can["causes"]["first"] in ALIKE.get(cause, {cause})
    assert can["verdict"]["outcome"] == "reject"


def test_the_correction_names_roller_direction_and_turns_and_ends_with_an_empty_can(kb: KnowledgeBase) -> None:
    sheet = read_sheet(EXAMPLE, kb)
    advice = advise_on_seam(kb, sheet.cans[1], kb.seam_specifications["demo-307"], kb.sealers["bench-crank-sealer"])
    assert advice.verdict.outcome == "reject"
    assert advice.causes is not None
    correction = advice.causes.correction
    assert correction is not None
    assert (correction.adjuster, correction.direction) == ("first-roller", "tighten")
    # the record: 0.024 in for one turn, safe step 1/8 turn; the cover hook is 0.007 in short, more than one step
    assert correction.amount == "Move it 1/8 turn, no more."
    assert correction.how == kb.sealers["bench-crank-sealer"].adjusters[0].tighten
    assert any("second operation cannot fix the first" in note.lower() for note in correction.notes)
    assert "empty can" in correction.retest


def test_a_sealer_without_measured_travel_gets_a_direction_and_no_number_of_its_own(kb: KnowledgeBase) -> None:
    signs = Signs(directions={"seam-thickness": "larger", "tightness": "smaller"})
    advice = advise_on_signs(kb, signs, kb.sealers["bench-lever-sealer"], {"seam-thickness": 0.01})
    assert advice.first == "second-roller-loose"
    assert advice.correction is not None
    assert (advice.correction.adjuster, advice.correction.direction) == ("second-roller", "tighten")
    assert advice.correction.turns is None


def test_without_a_specification_there_are_values_and_no_verdict(kb: KnowledgeBase) -> None:
    advice = advise_on_seam(kb, read_sheet(EXAMPLE, kb).cans[0], None, None)
    assert advice.verdict.outcome == "no-limit"
    assert "No seam specification" in " ".join(advice.verdict.reasons)


def test_a_defect_a_scheme_calls_unacceptable_overrides_good_readings(kb: KnowledgeBase, tmp_path: Path) -> None:
    assert seen_defect(kb.defects["vee"]).disposition == "reject"
    file = tmp_path / "r.csv"
    text = EXAMPLE.read_text(encoding="utf-8")
    file.write_text(text.replace("1,1,.125,.118,.055,.078,.076,80,", "1,1,.125,.118,.055,.078,.076,80,vee"))
    result = run("seam", str(file))
    assert result.stdout.startswith("Can 1: REJECT. Do not use this can")


def test_bad_rows_end_with_1_and_the_rest_is_still_judged(tmp_path: Path) -> None:
    file = tmp_path / "r.csv"
    file.write_text(EXAMPLE.read_text(encoding="utf-8").replace("2,2,.126", "2,2,126"))
    result = run("seam", str(file))
    assert result.exit_code == 1
    assert "r.csv:16:5: countersink:" in result.stderr
    assert "Can 1: ACCEPT" in result.stdout
    assert "Can 2: REJECT" in result.stdout
    assert "Line 16: countersink:" in result.stdout


def test_the_report_is_one_page_with_the_can_first_both_drawings_and_no_request(kb: KnowledgeBase) -> None:
    sheet = read_sheet(EXAMPLE, kb)
    advices = [advise_on_seam(kb, can, kb.seam_specifications["demo-307"], None) for can in sheet.cans]
    page = BeautifulSoup(report_html(kb, advices, {"lot": "<script>alert(1)</script>"}), "html.parser")
    assert page.find("script") is None
    assert "<script>alert(1)</script>" in page.get_text()
    assert len(page.select("svg[role=img]")) == 4
    assert "OUT" in page.select("svg")[2].get_text()
    assert not page.select("[src], link")
    assert page.section.find(class_="verdict").get_text().startswith("ACCEPT")
    assert page.select("math")


def test_nothing_known_ends_in_a_safe_place() -> None:
    result = run("cause")
    assert result.exit_code == 0
    assert (
        "Stop. Seal no more. Hold every can sealed since the last good check that could have found this."
        in result.stdout
    )
    assert "When nobody can tell, throw the cans away." in result.stdout


def test_json_is_what_the_library_says(kb: KnowledgeBase) -> None:
    found = json.loads(run("seam", str(EXAMPLE), "--json").stdout)
    sheet = read_sheet(EXAMPLE, kb)
    advice = advise_on_seam(kb, sheet.cans[0], kb.seam_specifications["demo-307"], kb.sealers["bench-crank-sealer"])
    assert found["cans"][0]["verdict"]["outcome"] == advice.verdict.outcome
    assert [part["least"] for part in found["cans"][0]["verdict"]["parts"]] == [
        part.least for part in advice.verdict.parts
    ]
