"""A step's drawing says in words, too, what moves, and its arrows lie whole in view and point the way the words say."""

from __future__ import annotations

import pytest

from figures.drawing import SVG, points_of, read
from tinwright.advice.drawings import of_movement
from tinwright.figures import MOVES


@pytest.mark.parametrize("name", MOVES)
def test_its_arrows_are_whole_in_view_and_it_is_described(name: str) -> None:
    root = read(of_movement(name, "move").svg)
    left, top, width, height = map(float, root.attrib["viewBox"].split())
    heads = [e for e in root.iter(f"{SVG}polygon") if e.get("class") == "tw-svg-mark"]
    assert len(heads) == len(MOVES[name].arrows) > 0
    for x, y in (point for head in heads for point in points_of(head)):
        assert left <= x <= left + width
        assert top <= y <= top + height
    assert MOVES[name].said in str(root[1].text)


@pytest.mark.parametrize("name", [name for name in MOVES if name.split("-")[-1] in {"up", "down"}])
def test_up_points_up_and_down_points_down(name: str) -> None:
    ((_, start), (_, tip)) = MOVES[name].arrows[0]
    assert (tip > start) == name.endswith("down")


@pytest.mark.parametrize(
    ("roller", "side"), [("first-roller-in", 1), ("second-roller-in", -1), ("second-roller-out", 1)]
)
def test_a_roller_that_goes_in_goes_toward_the_chuck_in_the_middle(roller: str, side: int) -> None:
    ((start, _), (tip, _)) = MOVES[roller].arrows[0]
    assert (tip - start) * side > 0
