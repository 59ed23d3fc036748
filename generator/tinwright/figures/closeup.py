"""Close-up: a square cut from a drawing around its fault, with the good outline dashed and an arrow at the fault.

For the first screen of a phone, where a good and a bad one stand side by side and are as wide as a thumb is long. No
words are in it: at that size they could not be read.
"""

from __future__ import annotations

from math import cos, radians, sin
from typing import TYPE_CHECKING

from tinwright.figures.canvas import Canvas, Picture
from tinwright.figures.dimensions import GOOD_SEAM
from tinwright.figures.face import SEAM_HEIGHT, Face
from tinwright.figures.hook import draw_hook_face
from tinwright.figures.outside import good_beside
from tinwright.figures.outside_faults import OUTSIDE_FAULTS
from tinwright.figures.section import draw_good_beside, draw_section_layers, good_outlines
from tinwright.figures.uneven_faults import UNEVEN_FAULTS
from tinwright.figures.whole_can import WHOLE_CAN_FAULTS, draw_whole_can
from tinwright.remembering import remembered

if TYPE_CHECKING:
    from tinwright.figures.canvas import Point
    from tinwright.figures.dimensions import SectionDimensions

__all__ = ["hook_closeup_svg", "outside_closeup_svg", "section_closeup_svg"]

_Box = tuple[float, float, float, float]

_UNIT = 1.9
"""Drawing units in one unit of a face, as in the detail of the whole drawing."""
_SPANS = {"all-round": 400.0, "part-round": 40.0, "one-place": 26.0, "side-seam": 26.0}
_H = SEAM_HEIGHT
_HALVES = {"curl": 34.0, "inside": 44.0}
"""Half of the width that is cut out, in units of a face, where it is not the usual."""
_GOOD_LEVELS = {"inside": (), "seam": (0.0, _H), "wall": (-5.0,), "flange": (0.0, 8.0), "curl": (0.0, 18.0)}
"""Where the edges of a good one run, by how it is looked at."""
_SEAM_FAULTS: dict[str, tuple[Point, float]] = {
    "abrasion": ((14, 26), 50),
    "bent-curl": ((2, 20), 90),
    "bent-flange": ((0, 26), 90),
    "bubbles": ((17, 44), 20),
    "bump-inside": ((0, 24), 90),
    "chuck-print": ((4, 20), 90),
    "clinched": ((6, 18), 60),
    "compound-out": ((20, 44), 70),
    "curl-below": ((4, 50), 90),
    "cut": ((2, 22), 70),
    "dent": ((0, 10), -90),
    "fin": ((4, -10), -60),
    "flange-below": ((4, 48), 90),
    "fracture": ((4, 36), 80),
    "fractured-fin": ((-3, 13), 90),
    "inclusion": ((2, 48), 80),
    "jump": ((26, 40), 80),
    "knurl-print": ((4, 25), 90),
    "no-ridge": ((8, 21), 90),
    "rounded": ((6, 20), 60),
    "thick-part": ((-40, 30), 60),
    "torn-flange": ((15, 50), 20),
    "wrinkled-curl": ((-2, 23), 90),
}
"""Where on a face the tip of the arrow is and from where it comes, in degrees: 0 from the right, 90 from below.

Others hang below the seam in the middle."""
_BELOW: tuple[Point, float] = ((0, _H + 17), 90)
_CAN_FAULTS: dict[str, tuple[Point, float]] = {
    "buckled-end": ((206, 104), -20),
    "end-misplaced": ((336, 116), -70),
    "makers-end-leak": ((158, 350), 170),
    "pinhole": ((164, 240), 160),
    "side-seam-leak": ((236, 232), -10),
}
"""The same on a whole can, where the fault has no arrows of its own."""
_SECTION_SIDE = 336.0
_HOOK_FAULTS: dict[str, tuple[Point, float]] = {
    "juncture-droop": ((220, 112), -90),
    "pleat": ((236, 96), -30),
    "pucker": ((220, 104), -90),
    "uneven": ((380, 116), -90),
    "wrinkles": ((220, 124), 90),
}


def outside_closeup_svg(feature: str, *, extent: str, shown: str, title: str, description: str, id_prefix: str) -> str:
    """Draw the fault from outside, close up.

    Args:
        feature: What the defect shows; one of `OUTSIDE_FEATURES`. Gives what is cut out.
        extent: How far round it goes; one of `EXTENTS`.
        shown: What is drawn: the feature, or the good one beside it.
        title: Name of the drawing.
        description: What it shows, in words.
        id_prefix: Start of the ids in it; different for every drawing on a page.
    """
    picture = _can(feature, shown) if feature in WHOLE_CAN_FAULTS else _face(feature, extent, shown)
    return picture.svg(title=title, description=description, id_prefix=id_prefix)


def section_closeup_svg(
    dims: SectionDimensions,
    *,
    title: str,
    description: str,
    id_prefix: str,
    feature: str | None = None,
    good: bool = False,
) -> str:
    """Draw a seam cut through, close up: with an arrow at what differs from the good seam, or the good seam itself.

    Args:
        dims: What the bad seam measures, in inches.
        title: Name of the drawing.
        description: What it shows, in words.
        id_prefix: Start of the ids in it; different for every drawing on a page.
        feature: What else the bad seam shows; one of `SECTION_FEATURES`.
        good: Whether the good seam is drawn, cut out like the bad one.
    """
    return _section(dims, feature, good=good).svg(title=title, description=description, id_prefix=id_prefix)


def hook_closeup_svg(feature: str, *, title: str, description: str, id_prefix: str, good: bool = False) -> str:
    """Draw a stripped cover hook, close up, with an arrow at its fault, or the good hook cut out alike."""
    return _hook(feature, good=good).svg(title=title, description=description, id_prefix=id_prefix)


@remembered
def _face(feature: str, extent: str, shown: str) -> Picture:
    view = OUTSIDE_FAULTS[feature].view
    half = _HALVES.get(view, 56.0 if extent == "part-round" or feature == "jump" else 44.0)
    top = -half * (0.8 if view != "seam" else 0.32 if half < 50 else 0.6)
    box = (-half * _UNIT, top * _UNIT, 2 * half * _UNIT, 2 * half * _UNIT)
    canvas = Canvas()
    canvas.group()
    _draw_behind(canvas, view, box, at_seam=extent == "side-seam" or feature == "jump")
    span = _SPANS[extent]
    steps = range(-3, 4) if span > 62 else range(1)
    face = Face(
        canvas,
        lambda s, h: (s * _UNIT, h * _UNIT),
        half + 8,
        ((-min(span, half + 8), min(span, half + 8)),),
        tuple(62.0 * step for step in steps),
    )
    if shown == feature:
        OUTSIDE_FAULTS[feature].paint(face)
        for level in _GOOD_LEVELS[view]:
            face.level(level, "dash")
        at, angle = _SEAM_FAULTS.get(feature, _BELOW)
        if feature != "plain":
            _arrow(canvas, (at[0] * _UNIT, at[1] * _UNIT), angle, box)
    elif view == "inside":
        OUTSIDE_FAULTS[good_beside(feature)].paint(face)
    elif view == "wall":
        face.band(lambda _: 0, lambda _: _H - 6, "lid")
        face.level(-5)
    elif view in {"flange", "curl"}:
        low, high = _GOOD_LEVELS[view]
        face.band(
            lambda _: low,
            lambda _: high,
            "body" if view == "flange" else "lid",
            hatch="body" if view == "flange" else None,
        )
    else:
        OUTSIDE_FAULTS[shown].paint(face)
    return canvas.picture(box)


def _draw_behind(canvas: Canvas, view: str, box: _Box, *, at_seam: bool) -> None:
    left, top, side, _ = box
    canvas.rect((left - 2, top - 2, side + 4, side + 4), "blank")
    if view == "curl":
        return
    if view == "inside":
        canvas.rect((left - 2, top - 2, side + 4, side + 4), "body")
        return
    down = (_H - 6 if view == "wall" else 0) * _UNIT
    canvas.rect((left - 2, down, side + 4, top + side - down + 2), "lid" if view == "wall" else "body")
    if at_seam:
        for x in (-7, 7):
            canvas.line(((x * _UNIT, down), (x * _UNIT, top + side)))


@remembered
def _can(feature: str, shown: str) -> Picture:
    box = (36.0, 20.0, 368.0, 368.0) if feature != "side-seam-leak" else (36.0, 36.0, 368.0, 368.0)
    canvas = draw_whole_can(shown)
    if shown == feature and feature in _CAN_FAULTS:
        _arrow(canvas, *_CAN_FAULTS[feature], box)
    return canvas.picture(box)


@remembered
def _section(dims: SectionDimensions, feature: str | None, *, good: bool) -> Picture:
    canvas = Canvas()
    (x, y), angle = draw_section_layers(Canvas() if good else canvas, dims, feature, beside=GOOD_SEAM)
    if good:
        draw_good_beside(canvas, feature)
    elif feature is None:
        canvas.group()
        for outline in good_outlines(GOOD_SEAM):
            canvas.polygon(outline, "dash")
    box = _section_box(dims, feature, (x, y), angle)
    if not good:
        _arrow(canvas, (x, y), angle, box)
    return canvas.picture(box)


def _section_box(dims: SectionDimensions, feature: str | None, tip: Point, angle: float) -> _Box:
    """Cut out both sides of a can, the countersink, or else the seam and the whole arrow."""
    if feature in UNEVEN_FAULTS:
        return (-348.0, -112.0, 556.0, 556.0)
    if feature is None and dims.countersink != GOOD_SEAM.countersink:
        return (-150.0, 130.0, _SECTION_SIDE, _SECTION_SIDE)
    top = min(-28.0, tip[1] - 80.0 if angle < 0 else tip[1])
    side = max(_SECTION_SIDE, (tip[1] - top + 8) / (1 - 0.24 * sin(radians(max(angle, 0.0)))))
    return (72.0 - side / 2, top, side, side)


@remembered
def _hook(feature: str, *, good: bool) -> Picture:
    canvas = Canvas()
    canvas.group()
    draw_hook_face(canvas, None if good else feature)
    box = (20.0, -76.0, 400.0, 400.0) if feature == "uneven" else (120.0, 16.0, 200.0, 200.0)
    if not good:
        _arrow(canvas, *_HOOK_FAULTS[feature], box)
    return canvas.picture(box)


def _arrow(canvas: Canvas, tip: Point, angle: float, box: _Box) -> None:
    """Draw a broad arrow, as large in every close-up: its shape tells it from the lines of the drawing."""
    side = box[2]
    head, wing, neck, tail = 0.10 * side, 0.075 * side, 0.028 * side, 0.21 * side
    ux, uy = cos(radians(angle)), sin(radians(angle))

    def at(along: float, across: float) -> Point:
        return (tip[0] + ux * along - uy * across, tip[1] + uy * along + ux * across)

    gap = 0.012 * side
    canvas.polygon(
        [
            at(gap, 0),
            at(gap + head, wing),
            at(gap + head, neck),
            at(gap + tail, neck),
            at(gap + tail, -neck),
            at(gap + head, -neck),
            at(gap + head, -wing),
        ],
        "mark",
    )
