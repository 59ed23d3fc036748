"""Bad beside good at the width of a thumb: one square, one arrow in it, and the same cut of the good one."""

from __future__ import annotations

from pathlib import Path

import pytest

from figures.drawing import SVG, points_of, read
from tinwright.advice.drawings import closeups_of
from tinwright.figures.whole_can import WHOLE_CAN_FAULTS
from tinwright.knowledge import load

KB = load(Path(__file__).parents[2] / "content")


@pytest.mark.parametrize("id_", KB.defects)
def test_the_bad_one_and_the_good_one_are_the_same_square(id_: str) -> None:
    bad, good = (read(drawing.svg) for drawing in closeups_of(KB.defects[id_]))
    assert bad.attrib["viewBox"] == good.attrib["viewBox"]
    _, _, width, height = map(float, bad.attrib["viewBox"].split())
    assert width == height
    drawn = [[(e.tag, e.get("points")) for e in one.iter() if e.get("points")] for one in (bad, good)]
    assert drawn[0] != drawn[1]


@pytest.mark.parametrize("id_", KB.defects)
def test_the_bad_one_alone_has_an_arrow_whole_in_view_and_no_words(id_: str) -> None:
    bad, good = (read(drawing.svg) for drawing in closeups_of(KB.defects[id_]))
    left, top, side, _ = map(float, bad.attrib["viewBox"].split())
    arrows = [e for e in bad.iter(f"{SVG}polygon") if e.get("class") == "tw-svg-mark"]
    figure = KB.defects[id_].figure
    if figure.outside is None or figure.outside.feature not in WHOLE_CAN_FAULTS:
        assert len(arrows) == 1
    assert arrows
    for x, y in (point for arrow in arrows for point in points_of(arrow)):
        assert left <= x <= left + side
        assert top <= y <= top + side
    assert [e for e in good.iter() if e.get("class") == "tw-svg-mark"] == []
    assert [e for one in (bad, good) for e in one.iter(f"{SVG}text")] == []
