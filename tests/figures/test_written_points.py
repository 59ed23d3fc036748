"""A line's points are written all at once, as each coordinate would be by itself."""

from __future__ import annotations

from hypothesis import example, given
from hypothesis import strategies as st

from figures.drawing import SVG, read
from tinwright.figures.canvas import Canvas, _written, number
from tinwright.figures.thinning import thinned

COORDINATE = st.floats(-2000, 2000) | st.integers(-200_000, 200_000).map(lambda hundredths: hundredths / 100)


@given(st.lists(st.tuples(COORDINATE, COORDINATE), min_size=1, max_size=8))
@example([(-0.001, 0.0), (10.0, 100.5), (-10.0, 1.05), (0.004, -0.005)])
def test_the_points_of_a_line_are_written_as_single_coordinates_are(points: list[tuple[float, float]]) -> None:
    assert _written(tuple(points), 0) == " ".join(f"{number(x)},{number(y)}" for x, y in points)


@given(st.lists(st.tuples(COORDINATE, COORDINATE), min_size=3, max_size=8))
def test_the_points_of_a_curve_are_written_to_a_tenth(points: list[tuple[float, float]]) -> None:
    written = [tuple(map(float, point.split(","))) for point in _written(tuple(points), 1e-9).split(" ")]
    for (x, y), (x0, y0) in zip(written, thinned(points, 1e-9), strict=True):
        assert abs(x - x0) <= 0.051
        assert abs(y - y0) <= 0.051


def test_many_lines_alike_are_one_element() -> None:
    canvas = Canvas()
    canvas.lines([[(0, 0), (4, 18.25)], [(5, 0), (9, 18)]], "thin")
    svg = canvas.picture((0, 0, 20, 20)).svg(title="A", description="B", id_prefix="a")
    [path] = read(svg).iter(f"{SVG}path")
    assert path.attrib["d"] == "M0,0 4,18.25M5,0 9,18"
