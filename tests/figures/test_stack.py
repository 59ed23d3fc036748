from __future__ import annotations

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from figures.drawing import SVG, read, texts_of
from tinwright.figures import stack_svg

SIZES = st.integers(1, 128).map(lambda value: value / 64)


def drawn(spacers: list[tuple[str, float]], can: float, seat: float) -> str:
    return stack_svg(spacers, can_height_in=can, seat_height_in=seat, title="t", description="d", id_prefix="x")


@given(st.lists(SIZES, min_size=1, max_size=8), SIZES)
@settings(max_examples=60)
def test_spacers_and_can_are_drawn_to_one_scale(sizes: list[float], can: float) -> None:
    root = read(drawn([(f"s{i}", size) for i, size in enumerate(sizes)], can, sum(sizes) + can))
    heights = [float(r.attrib["height"]) for r in root.iter(f"{SVG}rect") if r.get("class") == "tw-svg-paper"]
    (body,) = [float(r.attrib["height"]) for r in root.iter(f"{SVG}rect") if r.get("class") == "tw-svg-body"]
    scale = body / can
    assert heights == pytest.approx([size * scale for size in sizes], abs=0.02 + 0.01 * max(sizes) / can)


@given(st.lists(SIZES, min_size=1, max_size=8), SIZES)
@settings(max_examples=60)
def test_names_of_spacers_do_not_overlap(sizes: list[float], can: float) -> None:
    root = read(drawn([("spacer", size) for size in sizes], can, sum(sizes) + can))
    feet = sorted(
        float(text.attrib["y"]) for text in root.iter(f"{SVG}text") if "".join(text.itertext()).startswith("spacer")
    )
    assert all(low - high >= 18 for high, low in itertools.pairwise(feet))


@pytest.mark.parametrize(
    ("seat", "said"),
    [
        (4.6875, "fills the space exactly"),
        (4.75, "leaves a gap of 1/16 in"),
        (4.7, "leaves a gap of 0.013 in"),
        (4.5625, "too tall by 1/8 in"),
    ],
)
def test_it_says_whether_the_stack_fits(seat: float, said: str) -> None:
    assert said in texts_of(read(drawn([("thick spacer", 0.125)], 4.5625, seat)))


@pytest.mark.parametrize("lengths", [(0, 4.0), (4.0, -1), (float("nan"), 4.0)])
def test_lengths_are_above_zero(lengths: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="above 0"):
        drawn([], *lengths)


@pytest.mark.parametrize("name", ["ring", "thick ring", "very thick lower spacer of the base"])
def test_a_line_never_ends_within_a_size(name: str) -> None:
    root = read(
        stack_svg(
            [(name, 0.9375)],
            can_height_in=4.0,
            seat_height_in=4.9375,
            title="t",
            description="d",
            id_prefix="x",
        )
    )
    lines = [line.text for line in root.iter(f"{SVG}tspan")] + [text.text for text in root.iter(f"{SVG}text")]
    assert any(line and line.endswith("15/16 in") for line in lines)


def test_the_names_of_many_spacers_lie_within_the_drawing() -> None:
    spacers = [("long name of a spacer", 0.0625)] * 12
    root = read(stack_svg(spacers, can_height_in=4.0, seat_height_in=4.75, title="t", description="d", id_prefix="x"))
    _, top, _, height = map(float, root.attrib["viewBox"].split())
    feet = [float(text.attrib["y"]) for text in root.iter(f"{SVG}text")]
    assert min(feet) - 21 >= top - 0.01
    assert max(feet) < top + height
