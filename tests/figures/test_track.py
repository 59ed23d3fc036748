from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tinwright.figures.lettering import text_width, wrap
from tinwright.figures.track import Track


def test_a_bend_ends_where_a_circle_does() -> None:
    assert Track((0, 0), heading=-90).forward(2).turn(1, 90).end == pytest.approx((1, -3))


def test_a_ribbon_is_as_wide_as_its_plate() -> None:
    track = Track((0, 0), heading=0).forward(3).turn(2, -180).forward(1)
    for right, left in zip(track.side(0.25), track.side(-0.25), strict=True):
        assert math.dist(right, left) == pytest.approx(0.5)


def test_a_curve_goes_through_its_points() -> None:
    points = [(1.0, 0.5), (2.0, 2.0), (2.5, 1.0)]
    track = Track((0, 0), heading=0).through(*points)
    assert all(min(math.dist(point, known) for known in track.points) < 1e-9 for point in points)


def test_bending_keeps_the_ends() -> None:
    track = Track((0, 0), heading=0).forward(0.02).bent(lambda point: (point[0], point[1] + 1))
    assert track.points[0] == (0, 1)
    assert track.end == pytest.approx((0.02, 1))
    assert track.heading == pytest.approx(0)


@given(st.text(max_size=120), st.floats(40, 300))
def test_wrapped_lines_fit_and_lose_no_letter(text: str, width: float) -> None:
    lines = wrap(text, width=width, size=15)
    assert all(text_width(line, size=15) <= width for line in lines)
    assert "".join("".join(lines).split()) == "".join(text.split())
