"""Golden readings: what the shipped records say where a wrong word could hurt someone or let a bad can go."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from demo_site import ROOT
from tinwright.advice.readings_file import POINT_NAMES
from tinwright.knowledge.models.trouble import Disposition

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.knowledge import KnowledgeBase

WRITTEN = ("content", "quizzes", "tests/kitchen/content")


def texts() -> Iterator[tuple[str, str]]:
    """Every file of records and pages, as one line of words each."""
    for folder in WRITTEN:
        for file in sorted((ROOT / folder).rglob("*")):
            if file.suffix in {".yml", ".md"}:
                yield file.relative_to(ROOT).as_posix(), " ".join(file.read_text(encoding="utf-8").split()).lower()


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (r"cut-?proof", "no glove is proof against cuts: it resists them"),
        (r"loose gloves", "near what turns, tight gloves are no safer"),
        (r"quarter turn more", "an amount past contact belongs to a sealer's record"),
        (r"the (thicker|thinner) wire", "two wires are one machine's gauges, not every machine's"),
        (r"use it first|use the can first", "a can with a seam defect is not let go"),
        (r"use the same limit for cans", "24 hours are for jars"),
    ],
)
def test_words_that_mislead_stand_nowhere(words: str, why: str) -> None:
    asked = {"quizzes/practice/defects.yml"}  # as a wrong answer
    assert [file for file, text in texts() if re.search(words, text) and file not in asked] == [], why


def test_no_defect_of_a_seam_lets_its_can_go(kb: KnowledgeBase) -> None:
    assert [id_ for id_, d in kb.defects.items() if d.can_action.disposition is Disposition.COSMETIC] == []


def test_a_new_chuck_is_followed_by_roller_height_before_the_rollers(kb: KnowledgeBase) -> None:
    orders = [
        (cause.id, statement.text)
        for cause in kb.causes.values()
        for statement in cause.correction.do
        if "set-first-roller" in statement.text and "set-second-roller" in statement.text
        if cause.adjuster == "chuck"
    ]
    assert orders
    for id_, text in orders:
        assert 0 <= text.find("set-roller-height") < text.index("set-first-roller"), id_


def test_each_way_of_sealing_places_a_hot_can_by_the_one_rule(kb: KnowledgeBase) -> None:
    for procedure in kb.procedures.values():
        if not procedure.id.startswith("seal-"):
            continue
        (placing,) = (
            step for step in procedure.steps if "on the base plate" in step.do or "of the base plate" in step.do
        )
        assert "tongs" in placing.do
        assert {"hot-cans", "loose-clothing"} <= set(placing.cautions)
        assert "gloves and mitts" in procedure.steps[0].do


def test_the_worst_looking_place_is_measured_in_addition(kb: KnowledgeBase) -> None:
    """Readings are most useful where a fault shows: CFIA, Metal Can Defects, chapter 4, 4.1.2(a)."""
    steps = " ".join(step.do for step in kb.procedures["tear-down-and-measure"].steps)
    assert "one more point where the seam looks or feels worst" in steps
    assert POINT_NAMES[-1] == "where it looks or feels worst"


def test_the_bubble_test_says_what_to_do_for_each_place(kb: KnowledgeBase) -> None:
    steps = [step.do for step in kb.procedures["water-bubble-test"].steps]
    for place in ("All around", "One spot", "At the side seam", "At the end the maker closed, or from the body"):
        (step,) = (step for step in steps if step.startswith(place))
        turns = "nearer" in step
        assert turns == (place == "All around"), "only bubbles all around point to the setting"
