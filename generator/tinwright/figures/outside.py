"""Outside view: the top of a can seen from above at a slant, with a detail laid flat and enlarged."""

from __future__ import annotations

from math import cos, pi, radians, sin, sqrt
from typing import TYPE_CHECKING

from tinwright.figures.canvas import Canvas, Picture
from tinwright.figures.face import SEAM_HEIGHT, Face
from tinwright.figures.outside_faults import OUTSIDE_FAULTS
from tinwright.figures.whole_can import WHOLE_CAN_FAULTS, draw_whole_can
from tinwright.remembering import remembered

if TYPE_CHECKING:
    from tinwright.figures.canvas import Point

__all__ = ["EXTENTS", "OUTSIDE_FEATURES", "draw_plain_can", "good_beside", "outside_svg"]

OUTSIDE_FEATURES = tuple(sorted({**OUTSIDE_FAULTS, **WHOLE_CAN_FAULTS}))
"""Names of what an outside view can show; `plain` is a good seam, `sound-can` a good can."""

EXTENTS = ("all-round", "one-place", "part-round", "side-seam")
"""How far round the can a fault can be drawn."""

_CENTER: Point = (220.0, 84.0)
_RIM: Point = (190.0, 46.0)
_INNER: Point = (176.0, 41.0)
_PANEL: Point = (166.0, 36.0)
_PANEL_DOWN = 25.0
_SEEN_WALL = 30.0
_BODY = 182.0
_FOOT = 214.0
_DETAIL = (20.0, 250.0, 400.0, 138.0)
_ENLARGED = 1.9
_SPANS = {"all-round": 400.0, "part-round": 78.0, "one-place": 26.0, "side-seam": 26.0}
_INNER_VIEWS = ("wall", "inside")
"""Seen from inside: on the far wall of the can."""
_SAID = {
    "all-round": "all around",
    "part-round": "part of the way around",
    "one-place": "in one place",
    "side-seam": "at the side seam",
}


def outside_svg(feature: str, *, extent: str, title: str, description: str, id_prefix: str, named: bool = True) -> str:
    """Draw the top of a can from outside.

    Args:
        feature: What it shows; one of `OUTSIDE_FEATURES`.
        extent: How far round it goes; one of `EXTENTS`. A drawing of the whole can is the same for all.
        title: Name of the drawing.
        description: What it shows, in words.
        id_prefix: Start of the ids in it; different for every drawing on a page.
        named: Whether the drawing says what it shows; a question leaves that out.

    Raises:
        ValueError: when the feature or the extent is not known.
    """
    return _picture(str(feature), str(extent), named=named).svg(
        title=title, description=description, id_prefix=id_prefix
    )


def good_beside(feature: str) -> str:
    """Return the feature that shows what is good, for a drawing beside this one.

    >>> good_beside("droop"), good_beside("swell")
    ('plain', 'sound-can')
    """
    if feature in WHOLE_CAN_FAULTS:
        return "sound-can"
    return "ridge" if OUTSIDE_FAULTS[feature].view == "inside" else "plain"


@remembered
def _picture(feature: str, extent: str, *, named: bool) -> Picture:
    unnamed = _drawn(feature, extent)
    if not named:
        return unnamed.picture((0, 20, 440, 378))
    canvas = unnamed.copy()
    left, top, _, height = _DETAIL
    words, under = _named(feature, extent)
    canvas.text((left, top + height + 24), words, size=18, strong=True)
    canvas.text((left, top + height + 46), under, size=16)
    return canvas.picture((0, 20, 440, 424))


def _named(feature: str, extent: str) -> tuple[str, str]:
    """Return what is seen, and where."""
    if feature in WHOLE_CAN_FAULTS:
        return WHOLE_CAN_FAULTS[feature].words, "a good can" if feature == "sound-can" else "the whole can, closed"
    fault = OUTSIDE_FAULTS[feature]
    where = {"wall": "seen from inside the lid", "inside": "inside the stripped body"}.get(fault.view, "")
    said = "" if feature == "plain" else _SAID[extent]
    return fault.words, ", ".join(filter(None, (said, where))) or "a good seam"


@remembered
def _drawn(feature: str, extent: str) -> Canvas:
    """Draw all but the words that tell what it is."""
    if feature not in OUTSIDE_FEATURES:
        raise ValueError(f"expected a feature among {', '.join(OUTSIDE_FEATURES)}, got {feature!r}")
    if extent not in EXTENTS:
        raise ValueError(f"expected an extent among {', '.join(EXTENTS)}, got {extent!r}")
    if feature in WHOLE_CAN_FAULTS:
        return draw_whole_can(feature)
    fault = OUTSIDE_FAULTS[feature]
    canvas = Canvas()
    at_seam = extent == "side-seam" or feature == "jump"
    canvas.group()
    _draw_can(canvas, fault.view, side_seam=at_seam)
    fault.paint(_bent(canvas, fault.view, extent))
    if fault.view == "seam":
        _draw_top(canvas)
    canvas.group()
    left, top, width, height = _DETAIL
    edge = _CENTER[1] + (_RIM[1] + SEAM_HEIGHT + 6 if fault.view not in _INNER_VIEWS else _SEEN_WALL - _INNER[1])
    canvas.line(((_CENTER[0] - 50, edge), (left, top)), "dash")
    canvas.line(((_CENTER[0] + 50, edge), (left + width, top)), "dash")
    canvas.rect(_DETAIL, "blank")
    flat = _flat(canvas, fault.view, extent)
    _draw_behind(canvas, fault.view, side_seam=at_seam)
    fault.paint(flat)
    canvas.rect(_DETAIL, "line")
    if fault.view != "curl":
        canvas.text((left + 8, top + height - 10), "flat of the lid" if fault.view == "wall" else "can body", size=15)
    return canvas


def draw_plain_can(canvas: Canvas) -> None:
    """Draw the top of a can with a side seam and a good double seam, in the slanted view, without words."""
    canvas.group()
    fault = OUTSIDE_FAULTS["plain"]
    _draw_can(canvas, fault.view, side_seam=True)
    fault.paint(_bent(canvas, fault.view, "all-round"))
    _draw_top(canvas)


def _stretches(extent: str, feature_reach: float) -> tuple[tuple[tuple[float, float], ...], tuple[float, ...]]:
    half = min(_SPANS[extent], feature_reach)
    if extent in {"one-place", "side-seam"}:
        return ((-half, half),), (0.0,)
    steps = int(half // 62)
    return ((-half, half),), tuple(62.0 * step for step in range(-steps, steps + 1))


def _bent(canvas: Canvas, view: str, extent: str) -> Face:
    """Return the face of the can in the slanted view."""
    (x0, y0), (rx, ry) = _CENTER, _INNER if view in _INNER_VIEWS else _RIM
    way = -1 if view in _INNER_VIEWS else 1

    def place(s: float, h: float) -> Point:
        angle = s / _RIM[0]
        return (x0 + rx * sin(angle), y0 + way * ry * cos(angle) + h)

    reach = pi / 2 * _RIM[0] * (0.86 if view in _INNER_VIEWS else 1)
    return Face(canvas, place, reach, *_stretches(extent, reach))


def _flat(canvas: Canvas, view: str, extent: str) -> Face:
    """Return the face laid flat in the detail."""
    left, top, width, _ = _DETAIL
    down = {"wall": 34, "inside": 44, "flange": 30, "curl": 34}.get(view, 24)

    def place(s: float, h: float) -> Point:
        return (left + width / 2 + s * _ENLARGED, top + down + h * _ENLARGED)

    reach = width / 2 / _ENLARGED
    spans, centers = _stretches(extent, _RIM[0])
    return Face(
        canvas,
        place,
        reach,
        tuple((max(start, -reach), min(end, reach)) for start, end in spans),
        tuple(center for center in centers if abs(center) < reach - 30),
    )


def _half_ring(radii: Point, down: float, *, front: bool) -> list[Point]:
    way = 1 if front else -1
    return [
        (_CENTER[0] + radii[0] * cos(radians(a)), _CENTER[1] + down + way * radii[1] * sin(radians(a)))
        for a in range(0, 181, 5)
    ]


def _draw_can(canvas: Canvas, view: str, *, side_seam: bool) -> None:
    x, y = _CENTER
    if view != "curl":
        foot = _half_ring((_BODY, 40), _FOOT - y - 30, front=True)
        canvas.polygon([(x - _BODY, y), *reversed(foot), (x + _BODY, y)], "body")
        if side_seam:
            canvas.line(((x - 7, y + _RIM[1]), (x - 7, _FOOT + 9)))
            canvas.line(((x + 7, y + _RIM[1]), (x + 7, _FOOT + 9)))
    if view == "wall":
        canvas.polygon([*_half_ring(_RIM, 0, front=False), *_half_ring(_RIM, SEAM_HEIGHT, front=True)[::-1]], "lid")
        _draw_top(canvas)
    elif view in {"flange", "inside"}:
        canvas.ellipse(_CENTER, _RIM, "body")
        canvas.ellipse(_CENTER, _INNER, "dark")
    elif view == "curl":
        canvas.ellipse(_CENTER, _RIM, "lid")
        canvas.ellipse((x, y + 2), _INNER, "thin")
        canvas.polygon(_sunk(), "lid")


def _sunk() -> list[Point]:
    """Outline what is seen of the lid's flat, which lies below the rim: its near edge is hidden by the rim."""
    seen: list[Point] = []
    for degree in range(0, 360, 5):
        x = _PANEL[0] * cos(radians(degree))
        y = _PANEL_DOWN + _PANEL[1] * sin(radians(degree))
        seen.append((_CENTER[0] + x, _CENTER[1] + min(y, _INNER[1] * sqrt(1 - (x / _INNER[0]) ** 2))))
    return seen


def _draw_top(canvas: Canvas) -> None:
    x, y = _CENTER
    canvas.ellipse(_CENTER, _RIM, "lid")
    canvas.ellipse(_CENTER, _INNER, "dark")
    canvas.polygon(_sunk(), "lid")
    canvas.ellipse((x, y + 20), (92, 14), "thin")


def _draw_behind(canvas: Canvas, view: str, *, side_seam: bool) -> None:
    left, top, width, height = _DETAIL
    if view == "wall":
        canvas.rect((left, top + 34 + 53, width, height - 34 - 53), "lid")
        return
    if view == "curl":
        return
    down = 0 if view == "inside" else 30
    canvas.rect((left, top + down, width, height - down), "body")
    if side_seam:
        for x in (-7, 7):
            middle = left + width / 2 + x * _ENLARGED
            canvas.line(((middle, top + 40), (middle, top + height)))
