"""Readings in an item: shown as written, and a key that the seam check does not agree with is told.

Whether a verdict is right is tested in `tests/seaming`; here an item is held against it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from tinwright.advice.item_readings import readings_problems, readings_rows
from tinwright.knowledge.models.item import NumberItem, OneAnswer

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models.item import Item

LIMITS = [
    {"dimension": "countersink", "min": "0.120 in", "max": "0.130 in"},
    {"dimension": "body-hook", "min": "0.070 in", "max": "0.086 in"},
    {"dimension": "cover-hook", "min": "0.068 in"},
]
GOOD = [
    {"countersink": "0.125 in", "body_hook": "0.078 in", "cover_hook": "0.076 in", "seam_width": "0.118 in"},
    {"countersink": "0.125 in", "body_hook": "0.077 in", "cover_hook": "0.075 in", "seam_width": "0.117 in"},
    {"countersink": "0.126 in", "body_hook": "0.078 in", "cover_hook": "0.077 in", "seam_width": "0.118 in"},
]
SHORT = [{**point, "body_hook": "0.090 in", "cover_hook": "0.060 in"} for point in GOOD]


def readings(points: list[dict[str, str]], verdict: str, **more: Any) -> dict[str, Any]:
    plates = {"end_plate": "0.010 in", "body_plate": "0.010 in"}
    return {"limits": LIMITS, **plates, "points": points, "verdict": verdict, **more}


def item(kind: type[Item], asks: str, **more: Any) -> Item:
    common = {
        "id": "x-read",
        "topic": "measuring",
        "use": "examination",
        "asks": asks,
        "difficulty": 0.6,
        "question": "What is the verdict on these readings?",
        "why": "The worst reading decides.",
        "teaches": ["procedure/tear-down-and-measure"],
        "reviewed": "2026-11-20",
    }
    return kind.model_validate(common | more)


def verdict_item(table: dict[str, Any], right: str) -> Item:
    texts = ("Accept", "Measure again", "Reject")
    options = [{"text": text, "right": text == right, "why": "Because."} for text in texts]
    return item(OneAnswer, "one-answer", readings=table, options=options)


@pytest.mark.parametrize(
    ("points", "verdict", "right"),
    [(GOOD, "accept", "Accept"), (SHORT, "reject", "Reject"), (GOOD[:2], "measure-again", "Measure again")],
)
def test_a_key_that_the_seam_check_agrees_with_is_no_problem(
    points: list[dict[str, str]], verdict: str, right: str, kb: KnowledgeBase
) -> None:
    assert list(readings_problems(verdict_item(readings(points, verdict), right), kb)) == []


def test_a_verdict_that_is_not_the_seam_checks_is_told_with_its_reasons(kb: KnowledgeBase) -> None:
    problems = list(readings_problems(verdict_item(readings(SHORT, "accept"), "Accept"), kb))
    assert len(problems) == 1
    assert "the seam check says reject, the item accept" in problems[0]
    assert "0.060 in is below the least allowed" in problems[0]


def test_an_option_with_another_verdict_than_the_readings_is_told(kb: KnowledgeBase) -> None:
    problems = list(readings_problems(verdict_item(readings(SHORT, "reject"), "Measure again"), kb))
    assert problems == ["the verdict is 'Reject', and the right option says another one"]


def test_the_cause_is_held_against_the_cause_finder(kb: KnowledgeBase) -> None:
    loose = verdict_item(readings(SHORT, "reject", cause="first-roller-loose"), "Reject")
    tight = verdict_item(readings(SHORT, "reject", cause="first-roller-tight"), "Reject")
    assert list(readings_problems(loose, kb)) == []
    assert list(readings_problems(tight, kb)) == [
        "the cause finder names first-roller-loose first, the item first-roller-tight"
    ]


@pytest.mark.parametrize(("answer", "is_right"), [(0.044, True), (0.054, False)])
def test_a_number_is_one_that_the_readings_give(answer: float, is_right: bool, kb: KnowledgeBase) -> None:
    # overlap by hand: the smallest hooks and the largest width, 0.075 + 0.077 + 0.010 - 0.118
    number = item(
        NumberItem,
        "number",
        readings=readings(GOOD, "accept"),
        unit="in",
        answer=answer,
        low=answer - 0.0001,
        high=answer + 0.0001,
        mistakes=[{"number": 0.2, "why": "A slip."}],
    )
    assert (list(readings_problems(number, kb)) == []) == is_right


def test_the_table_shows_what_was_written_and_no_verdict() -> None:
    table = verdict_item(readings(GOOD, "accept"), "Accept").readings
    assert table is not None
    assert readings_rows(table) == (
        ("In inches", "Least", "Most", "Point 1", "Point 2", "Point 3"),
        ("Countersink depth", "0.120", "0.130", "0.125", "0.125", "0.126"),
        ("Seam width", "", "", "0.118", "0.117", "0.118"),
        ("Body hook", "0.070", "0.086", "0.078", "0.077", "0.078"),
        ("Cover hook", "0.068", "", "0.076", "0.075", "0.077"),
        ("Lid plate 0.010, body plate 0.010",),
    )


def test_an_item_without_readings_has_nothing_to_be_held_against(kb: KnowledgeBase) -> None:
    options = [{"text": text, "right": text == "Stop", "why": "Because."} for text in ("Stop", "Go on", "Ask")]
    assert list(readings_problems(item(OneAnswer, "one-answer", options=options), kb)) == []
