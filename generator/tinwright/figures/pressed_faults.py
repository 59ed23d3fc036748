"""Faults of a seam that was formed and pressed: its layers are all there, but something is wrong with them."""

from __future__ import annotations

from dataclasses import replace
from math import cos, exp, pi, sin
from typing import TYPE_CHECKING

from tinwright.figures.dimensions import GOOD_SEAM
from tinwright.figures.layers import Layers, Metal, good_layers, lid_from_panel, spacing
from tinwright.figures.track import Track

if TYPE_CHECKING:
    from collections.abc import Callable

    from tinwright.figures.canvas import Point
    from tinwright.figures.dimensions import SectionDimensions

__all__ = ["PRESSED_FAULTS"]


_SPUR = ((0.0145, 0.0042), (0.0075, -0.001), (0.0035, -0.0115), (0.0005, -0.011), (-0.0005, 0.012))
"""Metal forced over the top of the chuck's lip, in inches."""


def _fin(dims: SectionDimensions) -> Layers:
    layers = good_layers(dims)
    body, lid = layers.metal
    half = dims.seam_thickness / 2
    outline: list[Point] = []
    forced_up = False
    for x, y in lid.outline:
        if y >= half or x > half or (x - half) ** 2 + (y - half) ** 2 < (half - lid.thickness / 2) ** 2:
            outline.append((x, y))
        elif not forced_up:
            outline += _SPUR
            forced_up = True
    return replace(layers, metal=(body, replace(lid, shape=tuple(outline)))).calling(
        "sharp fin at the top, inner edge", (0.0018, -0.008)
    )


def _fractured_fin(dims: SectionDimensions) -> Layers:
    layers = _fin(dims)
    edge = ((-0.004, 0.0115), (0.0015, 0.0085), (0.004, 0.0105), (0.0085, 0.0065), (0.0105, 0.009), (0.016, 0.006))
    other = tuple((x + 0.0012, y + 0.0042) for x, y in reversed(edge))
    return replace(layers, gaps=((*edge, *other),), marks=(edge[1:-1], other[1:-1]), callouts=()).calling(
        "fin has cracked: the plate is open", (0.006, 0.0105)
    )


def _inclusion(dims: SectionDimensions) -> Layers:
    layers = good_layers(dims)
    body, lid = layers.metal
    high = 0.45 * dims.seam_width
    limit = dims.seam_thickness - lid.thickness

    def push(point: Point) -> Point:
        x, y = point
        return (x + (0.016 * exp(-(((y - high) / 0.017) ** 2)) if x > limit else 0), y)

    lump = tuple(
        (limit + 0.0068 + 0.0075 * cos(a) * (1 + 0.18 * sin(3 * a)), high + 0.017 * sin(a) * (1 + 0.12 * cos(4 * a)))
        for a in (pi * step / 14 for step in range(28))
    )
    return replace(layers, metal=(body, replace(lid, track=lid.track.bent(push))), matter=(lump,)).calling(
        "food or dirt caught in the seam", (limit + 0.006, high), "right"
    )


def _compound_out(dims: SectionDimensions) -> Layers:
    layers = good_layers(dims)
    plates = spacing(dims)
    wall = plates.lid + plates.gap + plates.body
    drip = Track((wall, dims.seam_width - 0.012), heading=80).through(
        (wall + 0.007, dims.seam_width - 0.001),
        (wall + 0.020, dims.seam_width + 0.0025),
        (wall + 0.026, dims.seam_width + 0.010),
        (wall + 0.013, dims.seam_width + 0.020),
        (wall + 0.001, dims.seam_width + 0.012),
    )
    return replace(layers, compound=(*layers.compound, (*drip.points, (wall, dims.seam_width + 0.010)))).calling(
        "compound forced out under the seam", (wall + 0.018, dims.seam_width + 0.010), "right-low"
    )


def _chuck_bump(dims: SectionDimensions) -> Layers:
    high = 0.42 * dims.seam_width

    def swell(point: Point) -> Point:
        x, y = point
        return (x - 0.013 * exp(-(((y - high) / 0.015) ** 2)) * max(0.0, 1 - x / dims.seam_thickness), y)

    layers = _moved(good_layers(dims), swell)
    return layers.calling("bump: a gap in the chuck left the metal loose here", (-0.011, high))


def _chuck_lifted(dims: SectionDimensions) -> Layers:
    layers = good_layers(dims)
    body, lid = layers.metal
    step = 0.60 * dims.seam_width

    def ease(point: Point) -> Point:
        x, y = point
        share = min(1.0, max(0.0, (y - step) / 0.006))
        return (x - 0.008 * share * share * (3 - 2 * share) if x < lid.thickness else x, y)

    track = lid.track.bent(lambda point: ease(point) if point[1] < dims.countersink else (point[0] - 0.008, point[1]))
    chuck = ((-0.05, step - 0.004), (-0.0015, step - 0.004), (-0.0015, -0.012), (-0.05, -0.012))
    return replace(layers, metal=(body, replace(lid, track=track)), ghosts=(chuck,)).calling(
        "step: the chuck sat here, not down in the lid", (-0.006, step + 0.003), "left-low"
    )


def _fracture(dims: SectionDimensions) -> Layers:
    layers = good_layers(dims)
    plates = spacing(dims)
    x = dims.seam_thickness - plates.lid * 1.5 - plates.gap
    y = dims.seam_width
    edge = ((x, y - 0.013), (x + 0.003, y - 0.0085), (x + 0.0015, y - 0.005), (x + 0.005, y + 0.003))
    other = tuple((px + 0.0048, py) for px, py in reversed(edge))
    return replace(layers, gaps=((*edge, *other),), marks=(edge, other)).calling(
        "crack through the bottom of the seam", (x + 0.005, y - 0.004), "right-low"
    )


def _droop(dims: SectionDimensions) -> Layers:
    drop = 0.026
    longer = replace(dims, seam_width=dims.seam_width + drop, cover_hook=max(0.02, dims.cover_hook - drop))
    line = ((0.018, dims.seam_width), (dims.seam_thickness + 0.018, dims.seam_width))
    return replace(good_layers(longer), ghosts=(line,)).calling(
        "smooth bulge below the seam line (dashed)", (0.045, dims.seam_width + 0.020), "right-low"
    )


def _vee(dims: SectionDimensions) -> Layers:
    layers = good_layers(dims)
    plates = spacing(dims)
    lid, arch = plates.lid, (dims.seam_thickness - plates.lid) / 2
    track = lid_from_panel(dims, lid)
    track.forward(track.end[1] - lid / 2 - arch).turn(arch, 180).forward(0.45 * dims.seam_width)
    left = lid + plates.gap + plates.body
    point = (left + lid * 1.62, dims.seam_width + 0.022)
    track.through(((track.end[0] + point[0]) / 2 + 0.002, 0.93 * dims.seam_width), point)
    outline = list(track.ribbon(lid))
    middle = len(outline) // 2
    tip = [
        (left + 0.0075, dims.seam_width + 0.034),
        (left + 0.001, dims.seam_width + 0.008),
        (left + 0.009, dims.seam_width + 0.007),
    ]
    outline[middle - 1 : middle + 1] = [tip[2], tip[1], tip[0]]
    line = ((0.018, dims.seam_width), (dims.seam_thickness + 0.018, dims.seam_width))
    metal = (layers.metal[0], Metal("lid", track, lid, tuple(outline)))
    return replace(layers, metal=metal, ghosts=(line,), compound=()).calling(
        "sharp point below the seam; almost no cover hook", (left + 0.010, dims.seam_width + 0.020), "right-low"
    )


def _dented(dims: SectionDimensions) -> Layers:
    def push(point: Point) -> Point:
        x, y = point
        return (x - 0.020 * exp(-(((y - 0.40 * dims.seam_width) / 0.034) ** 2)), y)

    good, edge = good_layers(dims), dims.seam_thickness
    ghost = ((edge, 0.25 * dims.seam_width), (edge, 0.85 * dims.seam_width))
    return replace(_moved(good, push), ghosts=(ghost,)).calling(
        "seam knocked in; dashed: where it should be", (edge - 0.020, 0.42 * dims.seam_width), "right"
    )


def _cut(dims: SectionDimensions) -> Layers:
    layers = good_layers(dims)
    outer, high = dims.seam_thickness, 0.48 * dims.seam_width
    inner = outer - layers.metal[1].thickness - 0.0006
    above = (
        (inner, high - 0.004),
        (inner + 0.004, high - 0.008),
        (inner + 0.006, high - 0.006),
        (outer + 0.003, high - 0.013),
    )
    below = (
        (outer + 0.003, high + 0.011),
        (inner + 0.006, high + 0.007),
        (inner + 0.004, high + 0.008),
        (inner, high + 0.003),
    )
    return replace(layers, gaps=((*above, *below),), marks=(above[:-1], below[1:])).calling(
        "outer plate cut through", (outer - 0.004, high), "right"
    )


def _lap(dims: SectionDimensions) -> Layers:
    plate = dims.body_plate
    thick = replace(dims, seam_thickness=dims.seam_thickness + 2 * plate, body_plate=2 * plate)
    layers = good_layers(thick)
    body, lid = layers.metal
    each = body.thickness / 2
    pair = tuple(Metal("body", body.track.beside(side * each / 2), each) for side in (-1, 1))
    return replace(layers, metal=(*pair, lid)).calling(
        "side seam: the body is double, so seven layers", (body.track.end[0], 0.30 * dims.seam_width), "right"
    )


def _beside_good(layers: Layers, good: float, actual: float, x: float) -> Layers:
    """Add a dashed line where the edge of a good seam lies, and a bar from there to where it lies here."""
    left, right, tick = min(x, 0) - 0.012, max(x, 0.06) + 0.004, 0.004
    bar = ((x, good), (x, actual))
    ends = tuple(((x - tick, y), (x + tick, y)) for y in (good, actual))
    return replace(layers, ghosts=(((left, good), (right, good)),), marks=(bar, *ends))


def _wide(dims: SectionDimensions) -> Layers:
    beside, good = dims.seam_thickness + 0.005, GOOD_SEAM.seam_width
    return _beside_good(good_layers(dims), good, dims.seam_width, beside).calling(
        "seam too wide: it ends below the dashed line of a good seam", (beside, dims.seam_width), "right-low"
    )


def _narrow(dims: SectionDimensions) -> Layers:
    beside, good = dims.seam_thickness + 0.005, GOOD_SEAM.seam_width
    return _beside_good(good_layers(dims), good, dims.seam_width, beside).calling(
        "seam too narrow: it ends above the dashed line of a good seam", (beside, dims.seam_width), "right-low"
    )


def _shallow(dims: SectionDimensions) -> Layers:
    beside = -0.026
    return _beside_good(good_layers(dims), GOOD_SEAM.countersink, dims.countersink, beside).calling(
        "lid too high; dashed: where a good one lies", (beside, dims.countersink)
    )


def _butting(dims: SectionDimensions) -> Layers:
    layers = good_layers(dims)
    plates = spacing(dims)
    x, y = layers.metal[0].track.end
    fold = dims.seam_width - plates.lid - plates.gap
    half = plates.body / 2
    room = ((x - half, y), (x + half, y), (x + half, fold), (x - half, fold))
    return replace(layers, compound=(), matter=(), gaps=(room,), marks=((*room, room[0]),)).calling(
        "empty room: the body hook ends far above the fold", (x, (y + fold) / 2), "right-low"
    )


def _moved(layers: Layers, move: Callable[[Point], Point]) -> Layers:
    return replace(
        layers,
        metal=tuple(replace(metal, track=metal.track.bent(move)) for metal in layers.metal),
        compound=tuple(tuple(map(move, shape)) for shape in layers.compound),
    )


PRESSED_FAULTS = {
    "butting": _butting,
    "chuck-bump": _chuck_bump,
    "chuck-lifted": _chuck_lifted,
    "compound-out": _compound_out,
    "cut": _cut,
    "dented": _dented,
    "droop": _droop,
    "fin": _fin,
    "fracture": _fracture,
    "fractured-fin": _fractured_fin,
    "inclusion": _inclusion,
    "lap": _lap,
    "narrow": _narrow,
    "shallow": _shallow,
    "vee": _vee,
    "wide": _wide,
}
"""From the name of a feature to the layers that show it."""
