"""Control chart: what lies where, what is marked by shape, and that limits and specification differ."""

from __future__ import annotations

from dataclasses import replace

import pytest

from figures.drawing import SVG, points_of, read, texts_of
from tinwright.figures import (
    ChartNote,
    PlottedCan,
    PlottedLimits,
    PlottedStretch,
    SpecificationLines,
    control_chart_svg,
)

CAN = PlottedCan("4", 0.052, 0.051, 0.054)
LIMITS = PlottedLimits(0.052, 0.050, 0.054, 0.0008, 0.0026)
SPECIFICATION = SpecificationLines(0.049, 0.053, 0.058)


def a_chart(*cans: PlottedCan, limits: PlottedLimits | None = LIMITS, **options: object) -> str:
    stretches = options.pop("stretches", None) or [PlottedStretch(cans, limits)]
    return control_chart_svg(stretches, title="Seam thickness", description="Words.", id_prefix="x", **options)  # type: ignore[arg-type]


def levels(svg: str, paint: str) -> list[float]:
    """Heights of the level lines drawn with one paint that are as wide as the chart."""
    lines = [points_of(line) for line in read(svg).iter(f"{SVG}polyline") if line.get("class") == f"tw-svg-{paint}"]
    return [line[0][1] for line in lines if line[0][1] == line[-1][1] and line[-1][0] - line[0][0] > 100]


def test_limits_of_the_sealer_are_dashed_and_those_of_the_specification_full_with_a_field_beyond() -> None:
    svg = a_chart(CAN, CAN, specification=SPECIFICATION)
    full, dashed = levels(svg, "line"), levels(svg, "dash")
    assert len(full) == 2
    assert len(dashed) == 3
    assert full[0] < dashed[0] < dashed[1] < full[1]
    fields = [rect for rect in read(svg).iter(f"{SVG}rect") if rect.get("fill") == "url(#x-compound)"]
    assert float(fields[0].get("height", "0")) == pytest.approx(full[0], abs=0.02)
    assert "greatest 0.0580" in texts_of(read(svg))
    assert "control limit 0.0540" in texts_of(read(svg))


def test_without_limits_none_are_drawn() -> None:
    svg = a_chart(CAN, CAN, limits=None)
    assert levels(svg, "dash") == levels(svg, "line") == []
    assert "ontrol limit" not in texts_of(read(svg))


def test_a_higher_value_lies_higher_and_the_stroke_goes_from_lowest_to_highest() -> None:
    root = read(a_chart(CAN, replace(CAN, value=0.053)))
    first, second, *_ = [float(circle.get("cy", "0")) for circle in root.iter(f"{SVG}ellipse")]
    assert second < first
    strokes = [points_of(line) for line in root.iter(f"{SVG}polyline")]
    upright = [line for line in strokes if line[0][0] == line[1][0] and line[0][1] < first < line[1][1]]
    ((_, top), (_, bottom)) = upright[0]
    assert (first - top) == pytest.approx(2 * (bottom - first), abs=0.05)


@pytest.mark.parametrize(
    ("can", "shape", "words"),
    [
        (replace(CAN, beyond=True), "polygon", "Beyond a control limit"),
        (replace(CAN, run=True), "rect", "Too many in a row on one side of the center line"),
        (replace(CAN, moving_range=0.003, jump=True), "polygon", "Beyond a control limit"),
    ],
)
def test_what_is_out_differs_by_shape_and_stands_in_the_key(can: PlottedCan, shape: str, words: str) -> None:
    def solid(svg: str) -> int:
        return sum(each.get("class") == "tw-svg-solid" for each in read(svg).iter(f"{SVG}{shape}"))

    assert solid(a_chart(CAN, CAN)) == 0
    assert solid(a_chart(CAN, can)) == 2  # the can and its sample in the key
    assert words in texts_of(read(a_chart(CAN, can)))
    assert words not in texts_of(read(a_chart(CAN, CAN)))


def test_no_line_goes_from_one_stretch_to_the_next() -> None:
    # points in one straight line would be drawn as one
    lower = replace(CAN, value=CAN.value - 0.001)
    stretches = [PlottedStretch((CAN, lower), None), PlottedStretch((CAN, lower, CAN), None)]
    lines = [points_of(line) for line in read(a_chart(stretches=stretches)).iter(f"{SVG}polyline")]
    assert sorted(len(line) for line in lines if len(line) > 2) == [3]
    assert len([line for line in lines if len(line) == 2 and 0 < line[1][0] - line[0][0] < 100 and line[0][0] > 0]) == 1


def test_notes_are_numbered_lines_between_cans_and_told_below() -> None:
    notes = [ChartNote(1, "Adjustment: first roller"), ChartNote(1, "Jam"), ChartNote(2, "Jam again")]
    root = read(a_chart(CAN, CAN, CAN, notes=notes))
    words = texts_of(root)
    assert "1\N{EN DASH}2" in words
    assert "Adjustment: first roller" in words
    circles = [float(circle.get("cx", "0")) for circle in root.iter(f"{SVG}ellipse")]
    upright = [
        points_of(line)[0][0]
        for line in root.iter(f"{SVG}polyline")
        if points_of(line)[0][0] == points_of(line)[1][0] and line.get("class") == "tw-svg-dash"
    ]
    assert circles[0] < upright[0] < circles[1]


def test_every_number_below_fits_its_place() -> None:
    svg = a_chart(*[replace(CAN, label=str(1000 + number)) for number in range(60)])
    below = [text for text in read(svg).iter(f"{SVG}text") if (text.text or "").startswith("10")]
    assert 10 <= len(below) < 40


def test_one_can_alone_is_drawn_and_none_is_refused() -> None:
    assert "0.0520" in texts_of(read(a_chart(replace(CAN, low=0.052, high=0.052), limits=None)))
    with pytest.raises(ValueError, match="expected at least one can, got none"):
        a_chart(stretches=[PlottedStretch((), None)])
