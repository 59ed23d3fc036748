"""Whole can: a filled can seen from the side and a little from above, with what can be wrong after it was closed."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, radians, sin
from typing import TYPE_CHECKING

from tinwright.figures.canvas import Canvas

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from tinwright.figures.canvas import Point

__all__ = ["WHOLE_CAN_FAULTS", "WholeCanFault", "draw_whole_can"]

_X, _TOP, _FOOT = 220.0, 130.0, 300.0
_RIM: Point = (132.0, 34.0)
_BODY: Point = (126.0, 32.0)
_PANEL: Point = (112.0, 25.0)
_SEAM = 15.0
_SUNK = 14.0


@dataclass(frozen=True)
class WholeCanFault:
    """How a fault of the whole can is drawn."""

    words: str
    """What is to be seen."""
    paint: Callable[[Canvas], None]
    """Draws the can with it."""


def draw_whole_can(feature: str) -> Canvas:
    """Draw a whole can with a fault, without words; `feature` is one of `WHOLE_CAN_FAULTS`."""
    canvas = Canvas()
    canvas.group()
    WHOLE_CAN_FAULTS[feature].paint(canvas)
    return canvas


def _arc(radii: Point, y: float, start: int = 0, end: int = 180) -> list[Point]:
    """Return points of an ellipse around the can's middle line; 0 is right, 90 the front, 180 left."""
    return [
        (_X + radii[0] * cos(radians(a)), y + radii[1] * sin(radians(a)))
        for a in range(start, end + 1, 5 if end >= start else -5)
    ]


def _dome(y: float, height: float) -> list[Point]:
    """Outline an end that bulges: up for a positive height, down for a negative one."""
    over = [(_X - _PANEL[0] * cos(radians(a)), y - height * sin(radians(a))) for a in range(0, 181, 5)]
    return [*over, *_arc(_PANEL, y)] if height > 0 else over


def _ring(y: float, height: float, size: float) -> list[Point]:
    """Return the front of a ring bead on a bulged end."""
    lift = height * (1 - size * size) ** 0.5
    return [(x, at - lift) for x, at in _arc((_PANEL[0] * size, _PANEL[1] * size), y, 10, 170)]


def _body(canvas: Canvas, *, waist: Callable[[float], float] = lambda _: 0.0) -> None:
    heights = [_TOP + (_FOOT - _TOP) * step / 24 for step in range(25)]
    right = [(_X + _BODY[0] - waist((y - _TOP) / (_FOOT - _TOP)), y) for y in heights]
    left = [(2 * _X - x, y) for x, y in reversed(right)]
    canvas.polygon([*right, *_arc(_BODY, _FOOT), *left], "body")


def _rim(canvas: Canvas, y: float) -> None:
    """Draw the front of a double seam."""
    canvas.polygon([*_arc(_RIM, y), *reversed(_arc(_RIM, y + _SEAM))], "lid")
    canvas.line(_arc(_RIM, y + 4, 5, 175), "thin")


def _top(canvas: Canvas, *, end: bool = True) -> None:
    canvas.ellipse((_X, _TOP), _RIM, "lid")
    canvas.ellipse((_X, _TOP + 2), (_RIM[0] - 10, _RIM[1] - 5), "dark")
    if end:
        canvas.ellipse((_X, _TOP + 7), (_PANEL[0] - 4, _PANEL[1] - 5), "lid")
        canvas.ellipse((_X, _TOP + 8), (66, 10), "thin")


def _can(canvas: Canvas, *, top_height: float = 0, foot_height: float = 0) -> None:
    """Draw a can whose ends stand out by a height, or lie flat in their rims."""
    if foot_height:
        canvas.polygon(_dome(_FOOT + _SEAM + 18, -foot_height), "lid")
    _body(canvas)
    _rim(canvas, _FOOT)
    _rim(canvas, _TOP)
    _top(canvas, end=not top_height)
    if top_height:
        canvas.polygon(_dome(_TOP + 4, top_height), "lid")
        canvas.lines([_ring(_TOP + 4, top_height, size) for size in (0.55, 0.85)], "thin")


def _table(canvas: Canvas, y: float) -> None:
    canvas.line(((30, y), (410, y)))
    canvas.lines((((x, y), (x - 10, y + 10)) for x in range(44, 412, 22)), "thin")


def _sound(canvas: Canvas) -> None:
    _can(canvas)
    _table(canvas, _FOOT + _SEAM + _RIM[1])


def _swell(canvas: Canvas) -> None:
    _can(canvas, top_height=76, foot_height=44)
    for x in (150, 220, 290):
        canvas.arrow((x, _TOP - 20), (x, _TOP - 20 - (96 - abs(x - _X) * 0.35) + 44), "fault", size=16)
    _table(canvas, _FOOT + _SEAM + 62)


def _springer(canvas: Canvas) -> None:
    canvas.line(_dome(_FOOT + _SEAM + 18, -58), "dash")
    _can(canvas, top_height=66)
    canvas.polygon(_finger(_X + 18, _TOP - 52), "tool")
    canvas.line(((_X + 10, _TOP - 62), (_X + 26, _TOP - 62)), "thin")
    canvas.arrow((_X, _FOOT + 30), (_X, _FOOT + 88), "fault", size=16)


def _finger(x: float, y: float) -> list[Point]:
    """Outline a finger that presses straight down on a spot."""
    tip = [(x + 17 * cos(radians(a)), y - 16 + 16 * sin(radians(a))) for a in range(0, 181, 15)]
    return [(x + 17, 22), *tip, (x - 17, 22)]


def _flipper(canvas: Canvas) -> None:
    _can(canvas)
    canvas.line(_dome(_TOP + 4, 70)[:37], "dash")
    canvas.arrow((_X, _TOP + 6), (_X, _TOP - 62), "fault", size=16)
    y = _FOOT + _SEAM + _RIM[1]
    _table(canvas, y)
    for x in (-1, 1):
        canvas.lines(
            (
                ((_X + x * (112 + 18 * step), y - 12 - 6 * step), (_X + x * (132 + 26 * step), y - 22 - 12 * step))
                for step in (0, 1, 2)
            ),
            "fault",
        )


def _buckled(canvas: Canvas) -> None:
    _can(canvas)
    left, front, right, peak = (98, 132), (152, 158), (250, 142), (140, 52)
    canvas.polygon([left, peak, right, front], "lid")
    canvas.polygon([peak, front, right], "tool", hatch="tool")
    canvas.lines(((left, peak, right), (peak, front, (150, 174))), "fault")


def _end_misplaced(canvas: Canvas) -> None:
    """Draw a lid that lies aslant: high on the left, and on the right down in the can beside a bare flange."""
    _body(canvas)
    _rim(canvas, _FOOT)
    canvas.ellipse((_X, _TOP), _RIM, "body")
    inner = (_RIM[0] - 10, _RIM[1] - 5)
    canvas.ellipse((_X, _TOP + 2), inner, "dark")

    def aslant(radii: Point, up: float) -> list[Point]:
        points = []
        for degree in range(0, 360, 5):
            x, y = (
                radii[0] * cos(radians(degree)) - 8,
                radii[1] * sin(radians(degree)) + 0.3 * radii[0] * cos(radians(degree)),
            )
            front = inner[1] * (1 - min(1.0, (x / inner[0]) ** 2)) ** 0.5 + 2
            points.append((_X + x, _TOP + (min(y - up, front) if x > 0 else y - up)))
        return points

    canvas.polygon(aslant((122, 27), 0), "lid")
    canvas.polygon(aslant((122, 27), 9), "lid")
    canvas.polygon(aslant((92, 18), 7), "thin")
    bare = [*_arc(_RIM, _TOP, -70, 70), *reversed(_arc(inner, _TOP + 2, -70, 70))]
    canvas.polygon(bare, "extra")
    canvas.line([*_arc(_RIM, _TOP - 10, 180, 360)], "dash")


def _paneled(canvas: Canvas) -> None:
    _body(canvas, waist=lambda share: 34 * sin(pi * share) ** 2)
    for left, right in ((-78, -26), (-14, 44), (56, 90)):
        high, low = _TOP + 44, _FOOT + 8
        middle = (high + low) / 2
        lens: Iterable[Point] = (
            (_X + left, middle),
            (_X + left + 12, high + 16),
            (_X + right - 10, high + 8),
            (_X + right, middle),
            (_X + right - 10, low - 8),
            (_X + left + 12, low),
        )
        canvas.polygon(lens, "dark")
        canvas.line(((_X + left, high + 4), (_X + left, low - 2)), "fault")
    _rim(canvas, _FOOT)
    _rim(canvas, _TOP)
    _top(canvas)
    for side in (-1, 1):
        canvas.arrow((_X + side * 190, _TOP + 84), (_X + side * 106, _TOP + 84), "fault", size=16)


def _pinhole(canvas: Canvas) -> None:
    _can(canvas)
    for x, y, size in ((168, 232, 40), (286, 206, 24), (262, 286, 28)):
        canvas.polygon(_blot(x, y, size), "tool", hatch="matter")
    for x, y in ((128, 160), (150, 166), (176, 170)):
        canvas.polygon(_blot(x, y, 12), "tool", hatch="matter")
    canvas.circle((172, 236), 9, "solid")
    canvas.line(((172, 246), (170, 268), (174, 290), (172, 316)), "fault")
    canvas.polygon(_drop(172, 344), "solid")


def _blot(x: float, y: float, size: float) -> list[Point]:
    return [
        (x + size * cos(a) * (1 + 0.22 * sin(3 * a + x)), y + 0.8 * size * sin(a) * (1 + 0.2 * cos(4 * a + y)))
        for a in (pi * step / 16 for step in range(32))
    ]


def _drop(x: float, y: float, size: float = 11) -> list[Point]:
    """Outline a drop that hangs from a point above it."""
    return [
        (x, y - 2.2 * size),
        *((x + size * cos(radians(a)), y + size * sin(radians(a))) for a in range(-20, 201, 20)),
    ]


def _makers_end_leak(canvas: Canvas) -> None:
    _can(canvas)
    for start, end in ((98, 122), (60, 80)):
        wet = _arc(_RIM, _FOOT + _SEAM - 2, start, end)
        canvas.polygon([*wet, *((x, y + 14) for x, y in reversed(wet))], "solid")
    canvas.line(_arc((_RIM[0] + 4, _RIM[1] + 4), _FOOT + _SEAM - 4, 52, 128), "fault")
    for x, y in ((184, 380), (252, 376), (220, 386)):
        canvas.polygon(_drop(x, y), "solid")


def _side_seam_leak(canvas: Canvas) -> None:
    _body(canvas)
    for x in (-10, 10):
        canvas.line(((_X + x, _TOP + _RIM[1]), (_X + x, _FOOT + _RIM[1])))
    _rim(canvas, _FOOT)
    _rim(canvas, _TOP)
    _top(canvas)
    canvas.line(((_X + 8, 202), (_X + 2, 214), (_X + 8, 226), (_X + 2, 240)), "fault")
    canvas.polygon(
        [(_X + 2, 206), (_X + 12, 206), (_X + 18, 262), (_X + 14, 296), (_X + 2, 296), (_X - 4, 258)], "solid"
    )
    canvas.polygon(_drop(_X + 8, 340, 13), "solid")
    canvas.polygon(_drop(_X + 4, 382), "solid")


WHOLE_CAN_FAULTS: dict[str, WholeCanFault] = {
    "buckled-end": WholeCanFault("end bent up to a sharp peak", _buckled),
    "end-misplaced": WholeCanFault("lid lies aslant; flange bare on one side", _end_misplaced),
    "flipper": WholeCanFault("flat, but an end pops out when knocked", _flipper),
    "makers-end-leak": WholeCanFault("wet under the maker's end", _makers_end_leak),
    "paneled": WholeCanFault("body pulled in, in flat panels", _paneled),
    "pinhole": WholeCanFault("rust, and a hole no wider than a pin", _pinhole),
    "side-seam-leak": WholeCanFault("wet along the side seam", _side_seam_leak),
    "sound-can": WholeCanFault("both ends flat, dry, no rust", _sound),
    "springer": WholeCanFault("press one end in: the other pops out", _springer),
    "swell": WholeCanFault("both ends bulge", _swell),
}
"""From the name of a feature to how it is drawn; `sound-can` is a good can."""
