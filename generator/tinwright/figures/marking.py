"""Marking: what of a seam is missing and what is too much, beside a good one."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tinwright.figures.canvas import Point
    from tinwright.figures.dimensions import SectionDimensions
    from tinwright.figures.layers import Layers, Metal

__all__ = ["marked"]


def marked(layers: Layers, dims: SectionDimensions, good: SectionDimensions) -> Layers:
    """Mark each hook, the thickness and the countersink where they differ from those of a good seam.

    Args:
        layers: The seam as `good_layers` draws it.
        dims: What it measures, in inches.
        good: What a good one measures.
    """
    body, lid = layers.metal
    found: list[tuple[float, tuple[Point, ...]]] = []
    if dims.body_hook != good.body_hook:
        more = dims.body_hook - good.body_hook
        found.append((more, _end_of(body, dims.end_plate + dims.body_hook, dims.end_plate + good.body_hook)))
    if dims.cover_hook != good.cover_hook:
        more = dims.cover_hook - good.cover_hook
        tip, good_tip = dims.seam_width - dims.cover_hook, dims.seam_width - good.cover_hook
        found.append((more, _end_of(lid, tip, good_tip)))
    if dims.seam_thickness < good.seam_thickness:
        edge = (dims.seam_thickness, good.seam_thickness + 0.001)
        found.append((-1, _box(edge, (0.3 * dims.seam_width, 0.8 * dims.seam_width))))
    elif dims.seam_thickness > good.seam_thickness:
        layers = replace(layers, compound=(), slack=layers.compound)
    if dims.countersink != good.countersink:
        x, tick = -0.0155, 0.006
        bar = ((x, good.countersink), (x, dims.countersink))
        ends = tuple(((x - tick, y), (x + tick, y)) for y in (good.countersink, dims.countersink))
        layers = replace(layers, marks=(*layers.marks, bar, *ends))
    return replace(
        layers,
        lacks=tuple(shape for more, shape in found if more < 0),
        extras=tuple(shape for more, shape in found if more > 0),
    )


def _end_of(metal: Metal, tip: float, other: float) -> tuple[Point, ...]:
    x, half = metal.track.end[0], metal.thickness / 2
    return _box((x - half, x + half), (tip, other))


def _box(across: Point, down: Point) -> tuple[Point, ...]:
    (left, right), (top, bottom) = across, down
    return ((left, top), (right, top), (right, bottom), (left, bottom))
