"""Scenarios of the practice bench: read, checked and linked; those for examinations stay apart."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tinwright.errors import ContentError
from tinwright.knowledge import load
from tinwright.knowledge.scenarios import load_scenarios, placed_scenarios

if TYPE_CHECKING:
    from pathlib import Path

SCENARIO = """title: A round face
use: practice
grade: 1
story: The face of the seam feels round under my thumb.
sealer: our-sealer
can: 307x409
faults:
  - cause: second-roller-loose
reviewed: 2026-11-30
"""


def problems_of(starter: Path, text: str, *, name: str = "round-face.yml", apart: bool = False) -> list[str]:
    folder = starter.parent / "kept" if apart else starter / "practice"
    folder.mkdir(exist_ok=True)
    for file in folder.iterdir():
        file.unlink()
    (folder / name).write_text(text, encoding="utf-8")
    try:
        load_scenarios(load(starter), examination=folder if apart else None)
    except ContentError as error:
        return [str(problem) for problem in error.problems]
    return []


def test_a_sound_scenario_is_read(starter: Path) -> None:
    assert problems_of(starter, SCENARIO) == []
    assert load_scenarios(load(starter))["round-face"].faults[0].cause == "second-roller-loose"


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        ("second-roller-loose", "second-roller-lose", 8, "'second-roller-loose'"),
        ("our-sealer", "our-seeler", 5, "'our-sealer'"),
        ("grade: 1", "grade: 4", 3, "grade"),
        ("grade: 1", "grade: 3", 1, "grade 3 has 2 faults"),
        ("use: practice", "use: examination", 2, "expected practice in this folder"),
        ("The face", "Second roller set too loose! The face", 8, "says it"),
        ("grade: 1", "grade: 1\nhint: none", 4, "hint"),
    ],
)
def test_a_fault_is_told_with_its_line(starter: Path, old: str, new: str, line: int, said: str) -> None:
    found = problems_of(starter, SCENARIO.replace(old, new))
    assert len(found) == 1
    assert f"content/practice/round-face.yml:{line}:" in found[0]
    assert said in found[0]


def test_a_name_that_gives_the_cause_away_is_refused(starter: Path) -> None:
    assert "gives the answer away" in problems_of(starter, SCENARIO, name="second-roller-loose.yml")[0]


def test_scenarios_for_examinations_lie_in_a_folder_of_their_own(starter: Path) -> None:
    kept = SCENARIO.replace("use: practice", "use: examination")
    assert problems_of(starter, kept, apart=True) == []
    assert placed_scenarios(load(starter)) == {}
    assert "expected examination" in problems_of(starter, SCENARIO, apart=True)[0]
