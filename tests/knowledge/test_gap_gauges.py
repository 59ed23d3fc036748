"""No sealer's instruction for a gap gauge moves a roller farther past contact than the sealer's own safe step."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tinwright.knowledge import find_problems, load

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from tinwright.knowledge import KnowledgeBase

    Content = Callable[[dict[str, str]], Path]

PARTS = """\
- id: screw
  title: Screw
  does: {text: Moves the roller., evidence: memory}
  inspect: [{text: Look at it., evidence: practice}]
  reviewed: 2026-11-02
"""
SEALER = """\
title: Our sealer
drive: crank-cam
about: A sealer.
chucks: [{size: "307"}]
seat_height: 5 in
adjusters:
  - {adjuster: first-roller, part: screw, tighten: Turn it., loosen: Turn it back., safe_step: 1/8 turn}
  - {adjuster: second-roller, part: screw, tighten: Turn it., loosen: Turn it back.}
gauges:
  - {adjuster: first-roller, name: strip, use: Turn until it drags., after_contact: 1/16 turn, right_when: It slides.}
parts: [screw]
evidence: invented
reviewed: 2026-11-02
"""


def told(content: Content, sealer: str) -> list[str]:
    root = content({"parts/ours.yml": PARTS, "sealers/ours.yml": sealer})
    return [str(problem) for problem in find_problems(root)]


def test_a_step_within_the_safe_step_is_said_between_contact_and_the_last_try(content: Content) -> None:
    root = content({"parts/ours.yml": PARTS, "sealers/ours.yml": SEALER})
    assert find_problems(root) == []
    gauge = load(root).sealers["ours"].gauges[0]
    assert gauge.orders == "Turn until it drags. Turn the screw 1/16 turn more, the same way. It slides."


def test_a_gauge_that_is_set_at_contact_says_no_more(content: Content) -> None:
    root = content({"parts/ours.yml": PARTS, "sealers/ours.yml": SEALER.replace("after_contact: 1/16 turn, ", "")})
    assert load(root).sealers["ours"].gauges[0].orders == "Turn until it drags. It slides."


@pytest.mark.parametrize("amount", ["1/4 turn", "1/7 turn", "2 turns"])
def test_more_than_the_safe_step_is_a_problem(content: Content, amount: str) -> None:
    (line,) = told(content, SEALER.replace("1/16 turn", amount))
    assert line.startswith("content/sealers/ours.yml:10:")
    assert "expected after_contact of at most the safe step of the first roller, 1/8 turn" in line


def test_a_step_past_contact_needs_a_safe_step_to_be_checked_against(content: Content) -> None:
    (line,) = told(content, SEALER.replace("- {adjuster: first-roller, name", "- {adjuster: second-roller, name"))
    assert "'after_contact' needs a 'safe_step' of the second roller" in line


@pytest.mark.parametrize(
    "words",
    [
        "Turn until it drags, then one quarter turn more.",
        "Turn until it drags, then 1/4 turn more.",
        "Then give it half a turn.",
        "Then a full turn.",
    ],
)
def test_an_amount_of_turning_in_words_is_asked_for_as_a_figure(content: Content, words: str) -> None:
    (line,) = told(content, SEALER.replace("Turn until it drags.", f'"{words}"'))
    assert "an amount of turning belongs in 'after_contact', where it is checked" in line


def test_the_three_sealers_are_gauged_in_three_ways(kb: KnowledgeBase) -> None:
    """Each real sealer has gauges and instructions of its own: nobody may take one sealer's way for the way."""
    ways = {(gauge.adjuster, gauge.name, gauge.orders) for sealer in kb.sealers.values() for gauge in sealer.gauges}
    for picked in (1, 2):
        assert len({way[picked] for way in ways}) == len(ways)
