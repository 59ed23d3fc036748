"""A line's points are written all at once, as each coordinate would be by itself."""

from __future__ import annotations

from hypothesis import example, given
from hypothesis import strategies as st

from tinwright.figures.canvas import _written, number

COORDINATE = st.floats(-2000, 2000) | st.integers(-200_000, 200_000).map(lambda hundredths: hundredths / 100)


@given(st.lists(st.tuples(COORDINATE, COORDINATE), min_size=1, max_size=8))
@example([(-0.001, 0.0), (10.0, 100.5), (-10.0, 1.05), (0.004, -0.005)])
def test_the_points_of_a_line_are_written_as_single_coordinates_are(points: list[tuple[float, float]]) -> None:
    assert _written(tuple(points), 0) == " ".join(f"{number(x)},{number(y)}" for x, y in points)
