"""Dimensions of a double seam, and the lines that show them in a section."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

from tinwright.measures import MM_PER_INCH

if TYPE_CHECKING:
    from collections.abc import Callable, Collection

    from tinwright.figures.canvas import Canvas, Point

__all__ = ["GOOD_SEAM", "SectionDimensions", "draw_dimensions"]


@dataclass(frozen=True)
class SectionDimensions:
    """What a seam measures, in inches.

    Raises:
        ValueError: when a dimension is not a number above zero.

    >>> round(GOOD_SEAM.overlap, 3)
    0.046
    """

    body_hook: float
    """Length of the body hook."""
    cover_hook: float
    """Length of the cover hook."""
    seam_width: float
    """Top to bottom of the seam (also called its length or height)."""
    seam_thickness: float
    """Across the layers."""
    countersink: float
    """Top of the seam down to the lowest point of the lid beside it."""
    end_plate: float
    """Thickness of the lid's plate."""
    body_plate: float
    """Thickness of the can body's plate."""

    def __post_init__(self) -> None:
        for field in fields(self):
            value = getattr(self, field.name)
            if not (math.isfinite(value) and value > 0):
                raise ValueError(f"expected {field.name} above 0 in, got {value}")

    @property
    def overlap(self) -> float:
        """How far the hooks lock; below zero when they do not meet (21 CFR 113.60(a)(1)(iii): CH + BH + T - W)."""
        return self.cover_hook + self.body_hook + self.end_plate - self.seam_width

    @property
    def free_space(self) -> float:
        """Thickness that is not metal: S - (3 end plates + 2 body plates)."""
        return self.seam_thickness - 3 * self.end_plate - 2 * self.body_plate


GOOD_SEAM = SectionDimensions(0.078, 0.076, 0.118, 0.055, 0.125, 0.010, 0.010)
"""A seam to compare with: 0.010 in plates, hooks that lock by 0.046 in. For drawing only, not a limit."""

_LETTERS = 16.0
_ROW = 18.5


def draw_dimensions(
    canvas: Canvas,
    dims: SectionDimensions,
    place: Callable[[Point], Point],
    *,
    right_in: float,
    shown: Collection[str],
    out: Collection[str] = frozenset(),
    unit: str = "in",
) -> None:
    """Draw dimension lines with names and values; those out of limits get a hatched bar and the word "out".

    Args:
        canvas: What to draw on.
        dims: The dimensions.
        place: From inches to drawing units.
        right_in: Right edge of all that is drawn of the seam, in inches.
        shown: Names of the dimensions to show, as in `Dimension`: `body-hook`, `overlap` ...
        out: Names of those out of limits.
        unit: What the values are written in, `in` or `mm`.
    """
    right = place((right_in, 0))[0]
    top, bottom = place((0, 0))[1], place((0, dims.seam_width))[1]
    hook_top = place((0, dims.end_plate))[1]
    body_tip = place((0, dims.end_plate + dims.body_hook))[1]
    cover_tip = place((0, dims.seam_width - dims.cover_hook))[1]

    def upright(name: str, x: float, ends: Point, label: Point, *, value: float, anchor: str = "start") -> None:
        if name in shown:
            _bar(canvas, (x, ends[0]), (x, ends[1]), out=name in out, dashed=value < 0)
            _label(canvas, name, label, value=value, unit=unit, anchor=anchor, out=name in out)

    outermost = right + 158
    for name, y, reach in (
        ("seam-width", top, outermost + 8),
        ("seam-width", bottom, outermost + 8),
        ("body-hook", hook_top, right + 26),
        ("body-hook", body_tip, right + 26),
        ("cover-hook", cover_tip, right + 40),
        ("cover-hook", bottom, right + 40),
        ("overlap", body_tip, right + 60),
        ("overlap", cover_tip, right + 60),
    ):
        if name in shown:
            canvas.line(((right + 4, y), (reach, y)), "thin")
    high, low = hook_top + 18, bottom - 10 - _ROW * (2 if "cover-hook" in out else 1)
    middle = min(max((cover_tip + body_tip) / 2 - 4, high + 3 * _ROW), low - 3 * _ROW)
    upright("body-hook", right + 18, (hook_top, body_tip), (right + 28, high), value=dims.body_hook)
    upright("overlap", right + 52, (cover_tip, body_tip), (right + 62, middle), value=dims.overlap)
    upright("cover-hook", right + 34, (cover_tip, bottom), (right + 44, low), value=dims.cover_hook)
    upright("seam-width", outermost, (top, bottom), (outermost + 8, bottom + 22), value=dims.seam_width, anchor="end")
    if "seam-thickness" in shown:
        left, end = place((0, 0))[0], place((dims.seam_thickness, 0))[0]
        for x in (left, end):
            canvas.line(((x, top - 3), (x, top - 28)), "thin")
        _bar(canvas, (left, top - 22), (end, top - 22), out="seam-thickness" in out)
        _label(
            canvas,
            "seam-thickness",
            (end + 12, top - 30 - _ROW),
            value=dims.seam_thickness,
            unit=unit,
            out="seam-thickness" in out,
        )
    if "countersink" in shown:
        x, floor = place((-0.012, 0))[0], place((0, dims.countersink))[1]
        for y, reach in ((top, place((0.02, 0))[0]), (floor, place((-0.008, 0))[0])):
            canvas.line(((x - 8, y), (reach, y)), "thin")
        _bar(canvas, (x, top), (x, floor), out="countersink" in out)
        _label(
            canvas,
            "countersink",
            (x - 10, top + 40),
            value=dims.countersink,
            unit=unit,
            anchor="end",
            out="countersink" in out,
        )


_NAMES = {
    "body-hook": "Body hook",
    "cover-hook": "Cover hook",
    "overlap": "Overlap",
    "seam-width": "Seam width",
    "seam-thickness": "Seam thickness",
    "countersink": "Countersink",
}


def _written(value: float, unit: str) -> str:
    """Write a dimension in inches to three decimals, or in millimeters to two.

    >>> _written(0.0458, "in"), _written(-0.012, "in"), _written(0.055, "mm")
    ('0.046 in', '−0.012 in', '1.40 mm')
    """
    text = f"{abs(value):.3f}" if unit == "in" else f"{abs(value) * MM_PER_INCH:.2f}"
    return f"{'−' if value < 0 and float(text) else ''}{text} {unit}"


def _label(canvas: Canvas, name: str, at: Point, *, value: float, unit: str, out: bool, anchor: str = "start") -> None:
    wide = name == "seam-thickness"
    said = _NAMES[name] if name != "overlap" or value >= 0 else "No overlap"
    written = _written(value, unit)
    lines = (said, f"{written}: OUT") if wide else (said, written, "OUT")
    canvas.text(at, lines if out else (said, written), size=_LETTERS, anchor=anchor, strong=out)


def _bar(canvas: Canvas, start: Point, end: Point, *, out: bool, dashed: bool = False) -> None:
    if out:
        (x0, x1), (y0, y1) = sorted((start[0], end[0])), sorted((start[1], end[1]))
        flat = y0 == y1
        box = (x0, y0 - 5, x1 - x0, 10) if flat else (x0 - 5, y0, 10, y1 - y0)
        canvas.rect(box, "fault", hatch="out")
    elif dashed or abs(start[0] - end[0]) + abs(start[1] - end[1]) < 22:
        canvas.line((start, end), "dash" if dashed else "line")
    else:
        middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        canvas.arrow(middle, start)
        canvas.arrow(middle, end)
