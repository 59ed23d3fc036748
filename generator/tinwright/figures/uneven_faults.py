"""Faults that change around the can: it is cut through at 12 and at 6 o'clock, and the two sides differ."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tinwright.figures.dimensions import GOOD_SEAM
from tinwright.figures.layers import Callout, Layers, good_layers
from tinwright.figures.marking import marked

if TYPE_CHECKING:
    from tinwright.figures.canvas import Point
    from tinwright.figures.dimensions import SectionDimensions

__all__ = ["UNEVEN_FAULTS", "both_sides"]

_MIDDLE = -0.044
"""Where the middle of the can lies, in inches: its flat is drawn much too short."""


def both_sides(six: Layers) -> Layers:
    """Draw a side of the can at 6 o'clock and, mirrored on the left, a good one at 12 o'clock."""
    twelve = good_layers(GOOD_SEAM)

    def across(points: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple((2 * _MIDDLE - max(x, _MIDDLE), y) for x, y in points)

    def cut(points: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple((max(x, _MIDDLE), y) for x, y in points)

    metal = (
        *(replace(metal, shape=cut(metal.outline)) for metal in six.metal),
        *(replace(metal, shape=across(metal.outline)) for metal in twelve.metal),
    )
    compound = (*six.compound, *map(across, twelve.compound))
    return replace(six, metal=metal, compound=compound, left=2 * _MIDDLE - GOOD_SEAM.seam_thickness)


def _uneven(dims: SectionDimensions, *, part: str) -> Layers:
    layers = both_sides(marked(good_layers(dims), dims, GOOD_SEAM))
    tip = next(metal for metal in layers.metal if metal.part == part).track.end
    other = next(metal for metal in good_layers(GOOD_SEAM).metal if metal.part == part).track.end
    level = ((2 * _MIDDLE - other[0], other[1]), other)
    return replace(
        layers,
        lacks=tuple(map(_widened, layers.lacks)),
        marks=(level,),
        callouts=(
            Callout("6 o'clock: hook too short (outlined: what is missing)", tip, "right-low"),
            Callout("12 o'clock: right length", (2 * _MIDDLE - other[0], other[1])),
        ),
    )


def _widened(box: tuple[Point, ...]) -> tuple[Point, ...]:
    """Make a mark wider than the plate: two sides of a can leave little room for each."""
    middle = sum(x for x, _ in box) / len(box)
    return tuple((x + (0.004 if x > middle else -0.004), y) for x, y in box)


def _body_hook(dims: SectionDimensions) -> Layers:
    return _uneven(dims, part="body")


def _cover_hook(dims: SectionDimensions) -> Layers:
    return _uneven(dims, part="lid")


UNEVEN_FAULTS = {"uneven-body-hook": _body_hook, "uneven-cover-hook": _cover_hook}
"""From the name of a feature to the layers that show it."""
