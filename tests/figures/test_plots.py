"""Plots of an examination: what is drawn is what was counted."""

from __future__ import annotations

import pytest

from figures.drawing import read
from tinwright.figures import BarOfOption, ItemPoint, item_plot_svg, option_bars_svg, scores_svg

SVG = "{http://www.w3.org/2000/svg}"


def rects(svg: str, paint: str) -> list[dict[str, float]]:
    found = [each for each in read(svg).iter(f"{SVG}rect") if each.get("class") == f"tw-svg-{paint}"]
    return [{name: float(each.get(name, "0")) for name in ("x", "y", "width", "height")} for each in found]


def test_bars_of_scores_are_as_high_as_their_counts_and_hatched_below_the_cut() -> None:
    svg = scores_svg([3, 5, 5, 5, 8.5, 8.999999999999], items=10, cut=6, title="Points", id_prefix="p")
    below, above = rects(svg, "paper"), rects(svg, "body")
    assert len(below) == 2
    assert below[1]["height"] == pytest.approx(3 * below[0]["height"], abs=0.02)
    # 8.999999999999 is 9 but for rounding.
    assert [bar["height"] for bar in above] == pytest.approx([below[0]["height"]] * 2, abs=0.02)
    assert above[1]["x"] - above[0]["x"] == pytest.approx((below[1]["x"] - below[0]["x"]) / 2, abs=0.02)
    said = read(svg).findtext(f"{SVG}desc")
    assert said == "6 people, from 3 to 9 of 10 points. 4 are below the cut of 6, 2 reach it."


def test_a_marked_item_is_a_diamond_with_its_name_and_lower_when_it_turns_people_round() -> None:
    points = [ItemPoint("good", 0.5, 0.4, marked=False), ItemPoint("bad <1>", 0.25, -0.3, marked=True)]
    svg = item_plot_svg(points, title="Items", id_prefix="i")
    root = read(svg)
    (circle,) = root.iter(f"{SVG}ellipse")
    (diamond,) = root.iter(f"{SVG}polygon")
    corners = [tuple(map(float, corner.split(","))) for corner in (diamond.get("points") or "").split()]
    x, y = (sum(corner[axis] for corner in corners) / 4 for axis in (0, 1))
    assert float(circle.get("cx", "0")) == pytest.approx(2 * x, abs=0.02)
    assert float(circle.get("cy", "0")) < y
    assert root.findtext(f"{SVG}desc") == "2 items. Marked to look at: bad <1>."
    words = ["".join(each.itertext()) for each in root.iter(f"{SVG}text")]
    assert "bad <1>" in words
    assert "good" not in words


def test_bars_of_options_are_as_long_as_their_shares_and_the_right_one_says_so() -> None:
    bars = [BarOfOption("A First", 0.25, keyed=False), BarOfOption("B Second", 0.75, keyed=True)]
    svg = option_bars_svg(bars, title="Options", id_prefix="o")
    (wrong,), (right,) = rects(svg, "paper"), rects(svg, "body")
    assert right["width"] == pytest.approx(3 * wrong["width"], abs=0.02)
    assert read(svg).findtext(f"{SVG}desc") == "A First: 25%; B Second (right): 75%."
    assert any("(right)" in "".join(each.itertext()) for each in read(svg).iter(f"{SVG}text"))


def test_plots_of_nothing_are_still_drawings() -> None:
    for svg in (
        scores_svg([], items=5, cut=None, title="t", id_prefix="a"),
        item_plot_svg([], title="t", id_prefix="b"),
        option_bars_svg([], title="t", id_prefix="c"),
    ):
        assert read(svg).get("role") == "img"
