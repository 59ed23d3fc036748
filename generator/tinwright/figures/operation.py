"""Operation: the two passes that make a double seam, and the rollers that make them."""

from __future__ import annotations

from math import cos, pi, sin
from typing import TYPE_CHECKING

from tinwright.figures.canvas import Canvas
from tinwright.figures.dimensions import GOOD_SEAM
from tinwright.figures.layers import good_layers
from tinwright.figures.open_faults import OPEN_FAULTS

if TYPE_CHECKING:
    from tinwright.figures.canvas import Point

__all__ = ["OPERATIONS", "operation_svg", "rollers_svg"]

OPERATIONS = ("first", "second")
"""Names of the operations."""

_SCALE = 1500.0
_FLOOR = 400.0


def operation_svg(operation: str, *, title: str, description: str, id_prefix: str) -> str:
    """Draw one operation in section: lid and body between chuck, roller and base plate.

    Args:
        operation: `first` or `second`.
        title: Name of the drawing.
        description: What it shows, in words.
        id_prefix: Start of the ids in it; different for every drawing on a page.

    Raises:
        ValueError: when the operation is not known.
    """
    if operation not in OPERATIONS:
        raise ValueError(f"expected an operation among {', '.join(OPERATIONS)}, got {operation!r}")
    first = operation == "first"
    layers = OPEN_FAULTS["unpressed"](GOOD_SEAM) if first else good_layers(GOOD_SEAM)
    canvas = Canvas()
    canvas.group()
    draw_tools(canvas, first=first)
    for metal in layers.metal:
        outline = metal.outline
        if metal.part == "body":
            outline = tuple((x, min(y, 0.21)) for x, y in outline)
        canvas.polygon(map(_place, outline), metal.part, hatch="body" if metal.part == "body" else None)
    _draw_foot(canvas)
    canvas.text(_place((-0.062, 0.035)), "chuck", size=17, strong=True)
    name = ("first", "roller") if first else ("second", "roller")
    canvas.text(_place((0.112, 0.035)), name, size=17, strong=True)
    canvas.arrow(_place((0.190, 0.068)), _place((0.114, 0.068)), size=14)
    canvas.text((-104, 216), "lid", size=16)
    canvas.pointer((58, 262), _place((0.0165, 0.165)))
    canvas.text((62, 268), "can body", size=16)
    canvas.text((-104, -98), f"{operation.capitalize()} operation", size=18, strong=True)
    words = ("curls lid and flange together", "presses the layers flat and tight")[not first]
    canvas.text((-104, -76), words, size=16)
    return canvas.picture((-112, -120, 440, 576)).svg(title=title, description=description, id_prefix=id_prefix)


def draw_tools(canvas: Canvas, *, first: bool, seam_right: float | None = None) -> None:
    """Draw the chuck and one of the rollers, in section.

    Args:
        canvas: What to draw on.
        first: Whether it is the first roller.
        seam_right: Outer edge of what the roller touches, in inches; left out, that of what the roller makes.
    """
    canvas.polygon(map(_place, _chuck()), "tool", hatch="tool")
    if first:
        layers = OPEN_FAULTS["unpressed"](GOOD_SEAM)
        lid = next(metal for metal in layers.metal if metal.part == "lid")
        groove = [p for p in lid.track.side(-0.0068) if p[0] > 0.046 and p[1] < 0.085]
        made = layers.right
    else:
        groove = [(0.047, -0.004), (0.0535, 0.006), (0.0562, 0.016), (0.0562, 0.100), (0.054, 0.110), (0.048, 0.118)]
        made = GOOD_SEAM.seam_thickness
    away = 0.0 if seam_right is None else seam_right - made
    _draw_roller(canvas, [(x + away, y) for x, y in groove])


def _place(point: Point) -> Point:
    return (point[0] * _SCALE, point[1] * _SCALE)


def _chuck() -> list[Point]:
    lip = [(-0.0125 + 0.0115 * cos(pi * a / 12), 0.112 + 0.0115 * sin(pi * a / 12)) for a in range(10)]
    return [(-0.2, -0.04), (-0.0006, -0.04), *lip, (-0.045, 0.090), (-0.2, 0.090)]


def _draw_roller(canvas: Canvas, groove: list[Point]) -> None:
    top, bottom = groove[0], groove[-1]
    face = [(0.22, -0.03), (top[0] + 0.006, -0.03), (top[0], top[1] - 0.006), *groove]
    under = [(bottom[0], bottom[1] + 0.010), (bottom[0] + 0.012, bottom[1] + 0.026), (0.22, bottom[1] + 0.026)]
    canvas.polygon(map(_place, [*face, *under]), "tool", hatch="tool")


def _draw_foot(canvas: Canvas) -> None:
    """Draw the break in the body and, below it, the base plate that carries the can."""
    x = 0.0165 * _SCALE
    for y in (306, 316):
        canvas.line([(x - 16, y + 4), (x - 5, y - 4), (x + 5, y + 4), (x + 16, y - 4)])
    canvas.polygon(
        [(x - 7.5, 320), (x + 7.5, 320), (x + 7.5, _FLOOR - 40), (x - 7.5, _FLOOR - 40)], "body", hatch="body"
    )
    canvas.rect((x - 17, _FLOOR - 46, 34, 46), "lid", round_by=12)
    canvas.line([(x - 17, _FLOOR - 20), (-150, _FLOOR - 20)])
    canvas.rect((-150, _FLOOR, 250, 26), "tool", hatch="tool")
    canvas.text((112, _FLOOR + 19), "base plate", size=17, strong=True)
    canvas.arrow((-60, _FLOOR + 52), (-60, _FLOOR + 28), size=12)
    canvas.text((-48, _FLOOR + 48), "lifts the can", size=16)


def rollers_svg(*, title: str, description: str, id_prefix: str) -> str:
    """Draw the profiles of both rollers side by side.

    Args:
        title: Name of the drawing.
        description: What it shows, in words.
        id_prefix: Start of the ids in it; different for every drawing on a page.
    """
    canvas = Canvas()
    canvas.group()
    draw_roller(canvas, (112, 110), first=True)
    draw_roller(canvas, (328, 110), first=False)
    canvas.text((112, 226), "First roller", size=18, strong=True, anchor="middle")
    canvas.text((112, 248), "deep, round groove", size=16, anchor="middle")
    canvas.text((328, 226), "Second roller", size=18, strong=True, anchor="middle")
    canvas.text((328, 248), "shallow, flat groove", size=16, anchor="middle")
    return canvas.picture((0, 0, 440, 262)).svg(title=title, description=description, id_prefix=id_prefix)


def draw_roller(canvas: Canvas, center: Point, *, first: bool, size: float = 1.0) -> None:
    """Draw a whole roller from the side, its axis upright."""
    if first:
        groove = [(66 - 27 * sin(pi * a / 12), -30 * cos(pi * a / 12)) for a in range(13)]
    else:
        groove = [(66, -30), (57, -24), (55, -16), (55, 16), (57, 24), (66, 30)]
    right = [(30, -66), (66, -66), (72, -58), (72, -36), *groove, (72, 36), (72, 58), (66, 66), (30, 66)]
    points = [*right, *((-x, y) for x, y in reversed(right))]
    cx, cy = center
    canvas.polygon([(cx + x * size, cy + y * size) for x, y in points], "tool", hatch="tool")
    canvas.rect((cx - 13 * size, cy - 84 * size, 26 * size, 168 * size), "paper")
    canvas.line(((cx, cy - 96 * size), (cx, cy + 96 * size)), "dash")
