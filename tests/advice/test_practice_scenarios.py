"""Scenarios as the practice bench plays them: each can be won, shows something, and fits its sealer and can."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from bench_content import SHEET
from tinwright.advice.practice_scenarios import bench_scenario, play_knowing, scenario_problems
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
sealed: 6
reviewed: 2026-11-30
"""


def written(starter: Path, text: str) -> Path:
    (starter / "seam-specifications").mkdir(exist_ok=True)
    (starter / "seam-specifications" / "a-sheet.yml").write_text(SHEET, encoding="utf-8")
    (starter / "practice").mkdir(exist_ok=True)
    for file in (starter / "practice").iterdir():
        file.unlink()
    (starter / "practice" / "round-face.yml").write_text(text, encoding="utf-8")
    return starter


def problems_of(starter: Path, text: str) -> list[str]:
    kb = load(written(starter, text))
    return [str(problem) for problem in scenario_problems(kb, placed_scenarios(kb))]


def test_what_is_left_out_is_half_as_many_again_as_are_needed(starter: Path) -> None:
    kb = load(written(starter, SCENARIO))
    scenario = bench_scenario(kb, load_scenarios(kb)["round-face"])
    # one can to begin with, four eighths of a turn with a can each, and one good can more
    assert play_knowing(scenario).cans_spent == 6
    assert scenario.budget_cans == 9


def test_a_sound_scenario_is_won_by_who_knows_what_is_wrong(starter: Path) -> None:
    assert problems_of(starter, SCENARIO) == []
    kb = load(starter)
    played = play_knowing(bench_scenario(kb, load_scenarios(kb)["round-face"]))
    assert played.is_repaired
    assert [can.fate for can in played.cans[:6]] == ["held"] * 6


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("can: 307x409", "can: 401x411", "no seam specification of 401x411"),
        ("  - cause: second-roller-loose", "  - cause: second-roller-loose\n    amount: 1", "nothing shows"),
        ("  - cause: second-roller-loose", "  - cause: second-roller-loose\n    amount: -3", "from 1 to 12 steps"),
        ("sealed: 6", "cans: 3", "runs out of cans or minutes"),
        ("sealed: 6", "minutes: 20", "runs out of cans or minutes"),
    ],
)
def test_what_only_playing_tells_is_a_problem(starter: Path, old: str, new: str, said: str) -> None:
    found = problems_of(starter, SCENARIO.replace(old, new))
    assert len(found) == 1
    assert said in found[0]
