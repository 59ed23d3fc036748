"""The curve of a pass rule: how likely somebody passes by how much they know. Readable in black and white."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.figures.canvas import Canvas

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["CurveMark", "CurvePoint", "pass_curve_svg"]

_WIDTH, _HEIGHT = 500.0, 260.0
_SMALL = 14.0
_LINES = (
    ("at_once", "thin", "at once"),
    ("same_day", "line", "second try too"),
    ("all_sittings", "dash", "all sittings"),
)


@dataclass(frozen=True)
class CurvePoint:
    """A point of the three curves."""

    share: float
    """Share of the points that somebody earns on average."""
    at_once: float
    """Chance to pass with the first answers."""
    same_day: float
    """With the second try of the same day."""
    all_sittings: float
    """In all sittings allowed."""


@dataclass(frozen=True)
class CurveMark:
    """Somebody whose place on the curves is marked."""

    share: float
    """Share of the points they earn on average."""
    label: str
    """Who it is."""


def pass_curve_svg(points: Sequence[CurvePoint], marks: Sequence[CurveMark], *, title: str, id_prefix: str) -> str:
    """Draw the chance to pass by the share of the points that somebody earns.

    Args:
        points: at least two, by their share.
        marks: who is marked, by their share.
        title: name of the drawing.
        id_prefix: start of the ids in it.
    """
    low, high = points[0].share, points[-1].share

    def x_of(share: float) -> float:
        return (share - low) / (high - low) * _WIDTH

    told = "; ".join(
        f"{point.share:.0%} of the points: {point.at_once:.0%} at once, {point.same_day:.0%} with the second try, "
        f"{point.all_sittings:.0%} in all sittings"
        for point in points[::5]
    )
    canvas = Canvas(wide=True)
    canvas.rect((0, 0, _WIDTH, _HEIGHT), "thin")
    for percent in range(0, 101, 25):
        y = _HEIGHT * (1 - percent / 100)
        canvas.line(((-5, y), (0, y)), "thin")
        canvas.text((-9, y + 5), f"{percent}%", size=_SMALL - 1, anchor="end")
    for percent in range(round(low * 100), round(high * 100) + 1, 10):
        canvas.line(((x_of(percent / 100), _HEIGHT), (x_of(percent / 100), _HEIGHT + 5)), "thin")
        canvas.text((x_of(percent / 100), _HEIGHT + 19), f"{percent}%", size=_SMALL - 1, anchor="middle")
    for mark in marks:
        x = x_of(mark.share)
        canvas.line(((x, -6), (x, _HEIGHT)), "thin")
        canvas.text((x, -11), mark.label, size=_SMALL - 1, anchor="middle")
    for name, paint, _ in _LINES:
        canvas.line([(x_of(point.share), _HEIGHT * (1 - getattr(point, name))) for point in points], paint)
    for row, (_, paint, label) in enumerate(_LINES):
        y = 22.0 + row * 20
        canvas.line(((12, y), (44, y)), paint)
        canvas.text((50, y + 5), label, size=_SMALL - 1)
    canvas.text((_WIDTH / 2, _HEIGHT + 42), "share of the points earned on average", size=_SMALL, anchor="middle")
    canvas.text((-40, -32), "pass", size=_SMALL)
    return canvas.picture((-52, -50, _WIDTH + 84, _HEIGHT + 104)).svg(
        title=title, description=f"{told}.", id_prefix=id_prefix
    )
