"""Practice exercises on paper: the key says what is found before anything is changed; the sheet gives nothing away."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from bench_content import SHEET
from tinwright.knowledge import load
from tinwright.knowledge.models.practice import PracticeScenario
from tinwright.paper import Press
from tinwright.paper.practice_exercise import exercise_of

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.knowledge import KnowledgeBase


@pytest.fixture
def kb(starter: Path) -> KnowledgeBase:
    (starter / "seam-specifications").mkdir(exist_ok=True)
    (starter / "seam-specifications" / "a-sheet.yml").write_text(SHEET, encoding="utf-8")
    return load(starter)


def loose_second_roller() -> PracticeScenario:
    return PracticeScenario.model_validate(
        {
            "id": "round-face",
            "title": "A round face",
            "use": "practice",
            "grade": 1,
            "story": "The face of the seam feels round.",
            "sealer": "our-sealer",
            "can": "307x409",
            "faults": [{"cause": "second-roller-loose", "amount": 4}],
            "reviewed": "2026-11-30",
        }
    )


def test_the_key_says_what_the_first_can_and_the_gauges_show(kb: KnowledgeBase) -> None:
    key = exercise_of(kb, loose_second_roller())
    assert kb.defects["loose-seam"].title in key.seen
    assert dict(key.feels) == {"base-pressure": "drags", "first-roller": "drags", "second-roller": "loose"}
    thickness = dict(key.readings)["seam-thickness"].split(", ")
    assert all(float(value) > 0.060 for value in thickness)


def test_the_sheet_of_the_learner_does_not_name_the_cause(kb: KnowledgeBase) -> None:
    press, record = Press(kb), loose_second_roller()
    values = {"exercises": [exercise_of(kb, record)], "lines": range(1, 4), "rubric": []}
    cause = kb.causes["second-roller-loose"].title
    assert cause not in press.html("practice-exercises.html.j2", title="Exercises", **values)
    assert cause in press.html("practice-key.html.j2", title="Key", **values)
