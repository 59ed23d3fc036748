"""Lines with fewer points: the same to the eye."""

from __future__ import annotations

from itertools import pairwise
from math import cos, hypot, pi, sin

from hypothesis import given
from hypothesis import strategies as st

from tinwright.figures.thinning import thinned

PLACES = st.floats(-500, 500)


def away_from(point: tuple[float, float], line: list[tuple[float, float]]) -> float:
    """The shortest way from a point to a line of straight pieces."""
    ways = []
    for (x0, y0), (x1, y1) in pairwise(line):
        dx, dy = x1 - x0, y1 - y0
        length = dx * dx + dy * dy
        at = max(0.0, min(1.0, ((point[0] - x0) * dx + (point[1] - y0) * dy) / length)) if length else 0.0
        ways.append(hypot(point[0] - x0 - at * dx, point[1] - y0 - at * dy))
    return min(ways)


def test_a_straight_line_keeps_its_ends() -> None:
    assert thinned([(x / 10, 2 * x / 10) for x in range(100)], 0.1) == [(0, 0), (9.9, 19.8)]


def test_a_circle_stays_one() -> None:
    circle = [(100 * cos(a * pi / 180), 100 * sin(a * pi / 180)) for a in range(361)]
    few = thinned(circle, 0.12)
    assert len(few) < 120
    assert max(away_from(point, few) for point in circle) <= 0.12 + 1e-9


@given(st.lists(st.tuples(PLACES, PLACES), min_size=2, max_size=40))
def test_ends_stay_and_what_is_kept_was_there(points: list[tuple[float, float]]) -> None:
    few = thinned(points, 0.5)
    assert (few[0], few[-1]) == (points[0], points[-1])
    rest = iter(points)
    assert all(any(point == other for other in rest) for point in few)
