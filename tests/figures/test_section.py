from __future__ import annotations

import itertools
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from figures.drawing import SVG, points_of, read, texts_of
from tinwright.figures import GOOD_SEAM, SectionDimensions, section_svg
from tinwright.figures.layers import good_layers

if TYPE_CHECKING:
    import xml.etree.ElementTree as ET

    from tinwright.figures.canvas import Point

EXACT = 2e-5
"""Inches: coordinates are rounded to two decimals of 1/2400 in."""


def inches(low: float, high: float) -> st.SearchStrategy[float]:
    return st.integers(round(low * 10_000), round(high * 10_000)).map(lambda value: value / 10_000)


DIMENSIONS = st.builds(
    SectionDimensions,
    body_hook=inches(0.020, 0.085),
    cover_hook=inches(0.020, 0.085),
    seam_width=inches(0.090, 0.150),
    seam_thickness=inches(0.050, 0.090),
    countersink=inches(0.090, 0.180),
    end_plate=inches(0.006, 0.010),
    body_plate=inches(0.006, 0.010),
)


def plates(dims: SectionDimensions) -> tuple[dict[str, list[Point]], ET.Element]:
    """Return the outlines of lid and body as they are in the drawing, in inches."""
    root = read(section_svg(dims, title="t", description="d", id_prefix="x"))
    scale = float(next(group for group in root.iter(f"{SVG}g") if "data-scale" in group.attrib).attrib["data-scale"])
    outlines = {
        shape.attrib["data-part"]: [(x / scale, y / scale) for x, y in points_of(shape)]
        for shape in root.iter(f"{SVG}polygon")
        if "data-part" in shape.attrib
    }
    return outlines, root


def tip(outline: list[Point]) -> Point:
    """Return the middle of the cut edge at the end of a plate: the two points in the middle of its outline."""
    (x0, y0), (x1, y1) = outline[len(outline) // 2 - 1 : len(outline) // 2 + 1]
    return ((x0 + x1) / 2, (y0 + y1) / 2)


@given(DIMENSIONS)
@settings(max_examples=80)
def test_the_drawing_measures_what_the_numbers_say(dims: SectionDimensions) -> None:
    outlines, _ = plates(dims)
    lid, body = outlines["lid"], outlines["body"]
    seam = [point for point in lid if point[0] > -EXACT]
    assert min(y for _, y in lid) == pytest.approx(0, abs=EXACT)
    assert max(x for x, _ in lid) == pytest.approx(dims.seam_thickness, abs=EXACT)
    half = [y for x, y in seam if x > dims.end_plate + dims.body_plate]
    assert max(half) == pytest.approx(dims.seam_width, abs=EXACT)
    crown = min(y for _, y in body)
    assert crown == pytest.approx(dims.end_plate, abs=EXACT)
    assert tip(body)[1] - crown == pytest.approx(dims.body_hook, abs=EXACT)
    assert max(half) - tip(lid)[1] == pytest.approx(dims.cover_hook, abs=EXACT)
    assert tip(body)[1] - tip(lid)[1] == pytest.approx(dims.overlap, abs=2 * EXACT)


@given(DIMENSIONS)
@settings(max_examples=40)
def test_the_countersink_is_the_depth_of_the_lids_upper_face(dims: SectionDimensions) -> None:
    lid = next(metal for metal in good_layers(dims).metal if metal.part == "lid")
    upper = [y for x, y in lid.track.side(-lid.thickness / 2) if x < 0]
    assert max(upper) == pytest.approx(dims.countersink, abs=EXACT)


@given(DIMENSIONS)
@settings(max_examples=40)
def test_free_space_is_shared_between_the_layers(dims: SectionDimensions) -> None:
    body, lid = good_layers(replace(dims, body_hook=0.08, cover_hook=0.07)).metal
    middles = sorted([lid.thickness / 2, body.track.points[0][0], lid.track.end[0], body.track.end[0]])
    order = [lid, body, lid, body]
    edges = [(x - metal.thickness / 2, x + metal.thickness / 2) for x, metal in zip(middles, order, strict=True)]
    edges.append((dims.seam_thickness - lid.thickness, dims.seam_thickness))
    gaps = [right[0] - left[1] for left, right in itertools.pairwise(edges)]
    assert gaps == pytest.approx([dims.free_space / 4] * 4, abs=1e-9)


def test_layers_from_the_inside_out_are_lid_body_lid_body_lid() -> None:
    body, lid = good_layers(GOOD_SEAM).metal
    height = 0.06
    crossings = sorted(
        (x0 + (x1 - x0) * (height - y0) / (y1 - y0), metal.part)
        for metal in (body, lid)
        for (x0, y0), (x1, y1) in zip(metal.track.points, metal.track.points[1:], strict=False)
        if min(y0, y1) <= height < max(y0, y1)
    )
    assert [part for _, part in crossings] == ["lid", "body", "lid", "body", "lid"]


def test_overlap_is_negative_when_hooks_do_not_meet() -> None:
    apart = replace(GOOD_SEAM, body_hook=0.05, cover_hook=0.05)
    assert apart.overlap == pytest.approx(-0.008)
    outlines, root = plates(apart)
    assert tip(outlines["body"])[1] < tip(outlines["lid"])[1]
    assert "No overlap −0.008 in" in texts_of(root)


def test_a_seam_thinner_than_its_plates_is_drawn_as_thin_as_it_is() -> None:
    outlines, _ = plates(replace(GOOD_SEAM, seam_thickness=0.045))
    assert max(x for x, _ in outlines["lid"]) == pytest.approx(0.045, abs=EXACT)


@pytest.mark.parametrize(
    "said",
    [
        "Body hook 0.078 in",
        "Cover hook 0.076 in",
        "Overlap 0.046 in",
        "Seam width 0.118 in",
        "Seam thickness 0.055 in",
        "Countersink 0.125 in",
        "inside the can",
        "outside",
    ],
)
def test_a_plain_section_says(said: str) -> None:
    assert said in texts_of(plates(GOOD_SEAM)[1])


def test_labels_can_be_left_out() -> None:
    root = read(section_svg(GOOD_SEAM, title="t", description="d", id_prefix="x", labels=False))
    assert texts_of(root) == ""


@pytest.mark.parametrize("name", ["body-hook", "cover-hook", "overlap", "seam-width", "seam_thickness", "countersink"])
def test_a_dimension_out_of_limits_gets_a_hatch_and_a_word(name: str) -> None:
    root = read(section_svg(GOOD_SEAM, title="t", description="d", id_prefix="x", out={name}))
    assert texts_of(root).count("OUT") == 1
    assert [shape.tag for shape in root.iter() if shape.get("fill") == "url(#x-out)"] == [f"{SVG}rect"]


@given(DIMENSIONS, st.sampled_from(["fin", "droop", "vee", "lap", "dented", "torn-flange", "clinched", "cut"]))
@settings(max_examples=40)
def test_any_seam_can_have_any_fault(dims: SectionDimensions, feature: str) -> None:
    assert read(section_svg(dims, title="t", description="d", id_prefix="x", feature=feature)).attrib["viewBox"]


@pytest.mark.parametrize("value", [0, -0.01, float("nan"), float("inf")])
def test_dimensions_are_numbers_above_zero(value: float) -> None:
    with pytest.raises(ValueError, match="body_hook"):
        replace(GOOD_SEAM, body_hook=value)
