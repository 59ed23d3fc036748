"""Stack: the spacers under a can, between base and chuck, to scale."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import TYPE_CHECKING

from tinwright.figures.canvas import Canvas
from tinwright.figures.lettering import text_width, wrap

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["stack_svg"]

_HEIGHT = 400.0
_LEFT, _WIDTH = 60.0, 150.0
_FLOOR = 470.0
_LETTERS = 21.0
"""Height of the letters: 13 pixels on a phone of 320, more than 8 points in the 2.4 inches of a set-up card."""
_ROOM = 196.0
"""Width of the words beside the stack."""


def stack_svg(
    spacers: Sequence[tuple[str, float]],
    *,
    can_height_in: float,
    seat_height_in: float,
    title: str,
    description: str,
    id_prefix: str,
) -> str:
    """Draw what stands between the seat of the base and the chuck.

    Args:
        spacers: Name and thickness (inches) of each spacer, the lowest first.
        can_height_in: Height of the can, in inches.
        seat_height_in: From the seat of the base up to the chuck, in inches.
        title: Name of the drawing.
        description: What it shows, in words.
        id_prefix: Start of the ids in it; different for every drawing on a page.

    Raises:
        ValueError: when a length is not above zero.
    """
    for length in (can_height_in, seat_height_in, *(size for _, size in spacers)):
        if not (math.isfinite(length) and length > 0):
            raise ValueError(f"expected lengths above 0 in, got {length}")
    canvas = Canvas()
    canvas.group()
    stack = sum(size for _, size in spacers)
    scale = _HEIGHT / max(seat_height_in, stack + can_height_in)
    right, level = _LEFT + _WIDTH, _FLOOR
    canvas.rect((_LEFT - 24, _FLOOR, _WIDTH + 48, 24), "tool", hatch="tool")
    foot = _FLOOR + 24
    canvas.text((_LEFT - 24, foot + 1.25 * _LETTERS), "seat of the base", size=_LETTERS)
    rows: list[tuple[float, tuple[str, ...]]] = []
    for name, size in spacers:
        level -= size * scale
        canvas.rect((_LEFT + 8, level, _WIDTH - 16, size * scale), "paper")
        rows.append((level + size * scale / 2, _label(name, size)))
    top = level - can_height_in * scale
    canvas.rect((_LEFT + 4, top, _WIDTH - 8, can_height_in * scale), "body")
    for seam in (top, level - 9):
        canvas.rect((_LEFT, seam, _WIDTH, 9), "lid")
    rows.append(((top + level) / 2, ("can:", _mixed(can_height_in))))
    topmost = _draw_rows(canvas, rows, right)
    chuck = _FLOOR - seat_height_in * scale
    canvas.polygon(
        [(_LEFT - 24, chuck - 30), (right + 24, chuck - 30), (right + 24, chuck), (_LEFT - 24, chuck)],
        "tool",
        hatch="tool",
    )
    canvas.text((_LEFT - 24, chuck - 38), "chuck", size=_LETTERS)
    x = _LEFT - 36
    middle = (chuck + _FLOOR) / 2
    canvas.arrow((x, middle), (x, chuck))
    canvas.arrow((x, middle), (x, _FLOOR))
    gap = seat_height_in - stack - can_height_in
    verdict = _verdict(gap)
    canvas.text((_LEFT - 24, foot + 2.75 * _LETTERS), f"seat to chuck: {_mixed(seat_height_in)}", size=_LETTERS)
    canvas.text((_LEFT - 24, foot + 4.25 * _LETTERS), verdict, size=_LETTERS + 1, strong=True)
    lowest = max(foot + 5 * _LETTERS, max((y for y, _ in rows), default=0))
    high = min(chuck - 44 - _LETTERS, top - 20, topmost - 4, _FLOOR - _HEIGHT - 44 - _LETTERS)
    return canvas.picture((0, high, 440, lowest - high)).svg(title=title, description=description, id_prefix=id_prefix)


def _verdict(gap: float) -> str:
    if abs(gap) < 0.0005:
        return "fills the space exactly"
    return f"leaves a gap of {_mixed(gap)}" if gap > 0 else f"too tall by {_mixed(-gap)}"


def _label(name: str, size: float) -> tuple[str, ...]:
    """Return the name and the size of a spacer in one line, or the size below: no line break falls into it."""
    whole = f"{name}: {_mixed(size)}"
    if text_width(whole, size=_LETTERS) <= _ROOM:
        return (whole,)
    return (*wrap(f"{name}:", width=_ROOM, size=_LETTERS), _mixed(size))


def _draw_rows(canvas: Canvas, rows: Sequence[tuple[float, tuple[str, ...]]], right: float) -> float:
    """Write the names beside what they stand for, moved apart (upward) so that no two overlap; return their top."""
    below = _FLOOR + 14.0
    for middle, lines in rows:
        height = 1.15 * _LETTERS * len(lines) + 5
        foot = min(middle + height / 2, below)
        canvas.line(((right - 6, middle), (right + 14, foot - height / 2), (right + 20, foot - height / 2)), "thin")
        canvas.text((right + 25, foot - height + _LETTERS - 1), lines, size=_LETTERS)
        below = foot - height
    return below


def _mixed(inches: float) -> str:
    """Write inches as a mixed fraction when they are whole 64ths, else to three decimals.

    >>> _mixed(2.171875), _mixed(0.055)
    ('2 11/64 in', '0.055 in')
    """
    exact = Fraction(inches).limit_denominator(64)
    if 64 % exact.denominator or abs(float(exact) - inches) > 1e-6:
        return f"{inches:.3f} in"
    whole, rest = divmod(exact, 1)
    return f"{' '.join(filter(None, (str(whole) if whole else '', str(rest) if rest else '')))} in"
