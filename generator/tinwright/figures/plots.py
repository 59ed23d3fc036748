"""Plots for the analysis of an examination: spread of scores, items, options. Readable in black and white."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.figures.canvas import Canvas
from tinwright.figures.lettering import wrap

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["BarOfOption", "ItemPoint", "item_plot_svg", "option_bars_svg", "scores_svg"]

_WIDTH, _HEIGHT = 520.0, 260.0
_SMALL = 14.0


@dataclass(frozen=True)
class ItemPoint:
    """An item in the plot of all items."""

    label: str
    """What is written beside it when it is marked."""
    difficulty: float
    """Share right."""
    discrimination: float
    """Correlation with the rest score."""
    marked: bool
    """Whether there is a reason to look at it."""


@dataclass(frozen=True)
class BarOfOption:
    """An option in the plot of options."""

    label: str
    """Its letter and its words."""
    share: float
    """Share of people who chose it."""
    keyed: bool
    """Whether it is right."""


def scores_svg(scores: Sequence[float], *, items: int, cut: int | None, title: str, id_prefix: str) -> str:
    """Draw how many people had how many points, and the cut; part credits are counted at the whole point below.

    Args:
        scores: points of each person.
        items: points there are.
        cut: fewest points that pass.
        title: name of the drawing.
        id_prefix: start of the ids in it.
    """
    counts = Counter(int(score + 1e-9) for score in scores)
    most = max(counts.values(), default=1)
    below = sum(number for points, number in counts.items() if cut is not None and points < cut)
    told = f"{len(scores)} people, from {min(counts, default=0)} to {max(counts, default=0)} of {items} points."
    if cut is not None:
        told += f" {below} are below the cut of {cut}, {len(scores) - below} reach it."
    canvas = Canvas(wide=True)
    lowest = max(0, min([*counts, items if cut is None else cut]) - 2)
    step = _WIDTH / (items - lowest + 1)
    for points, number in sorted(counts.items()):
        height = number / most * (_HEIGHT - 30)
        box = ((points - lowest) * step + step * 0.1, _HEIGHT - height, step * 0.8, height)
        passes = cut is None or points >= cut
        canvas.rect(box, "body" if passes else "paper", hatch=None if passes else "body")
        canvas.text((box[0] + box[2] / 2, box[1] - 4), str(number), size=_SMALL - 2, anchor="middle")
    canvas.line(((0, _HEIGHT), (_WIDTH, _HEIGHT)))
    every = max(1, math.ceil(26 / step))
    for points in range(lowest, items + 1):
        if (items - points) % every == 0:
            at = (points - lowest + 0.5) * step
            canvas.text((at, _HEIGHT + 18), str(points), size=_SMALL, anchor="middle")
    if cut is not None:
        at = (cut - lowest) * step
        canvas.line(((at, -8), (at, _HEIGHT)), "dash")
        side = "start" if at < _WIDTH / 2 else "end"
        canvas.text((at + (6 if side == "start" else -6), 4), f"cut: {cut}", size=_SMALL, anchor=side, strong=True)
    canvas.text((_WIDTH / 2, _HEIGHT + 40), "points", size=_SMALL, anchor="middle")
    return canvas.picture((-10, -22, _WIDTH + 20, _HEIGHT + 70)).svg(title=title, description=told, id_prefix=id_prefix)


def item_plot_svg(points: Sequence[ItemPoint], *, title: str, id_prefix: str) -> str:
    """Draw every item by the share right and by how well it tells those who know the rest from those who do not."""
    marked = [point.label for point in points if point.marked]
    told = f"{len(points)} items. " + (f"Marked to look at: {', '.join(marked)}." if marked else "None is marked.")
    canvas = Canvas(wide=True)
    low = min(-0.2, *(point.discrimination - 0.05 for point in points)) if points else -0.2
    high = max(0.6, *(point.discrimination + 0.05 for point in points)) if points else 0.6

    def at(point: ItemPoint) -> tuple[float, float]:
        return point.difficulty * _WIDTH, (high - point.discrimination) / (high - low) * _HEIGHT

    zero = high / (high - low) * _HEIGHT
    canvas.rect((0, 0, _WIDTH, _HEIGHT), "line")
    canvas.line(((0, zero), (_WIDTH, zero)), "dash")
    for tenth in range(int(low * 5) - 1, int(high * 5) + 2):
        value = tenth / 5
        if low <= value <= high:
            y = (high - value) / (high - low) * _HEIGHT
            canvas.line(((-5, y), (0, y)), "thin")
            sign = "\N{MINUS SIGN}" if value < 0 else ""
            canvas.text((-9, y + 5), f"{sign}{abs(value):.1f}", size=_SMALL - 1, anchor="end")
    for percent in range(0, 101, 20):
        x = percent / 100 * _WIDTH
        canvas.line(((x, _HEIGHT), (x, _HEIGHT + 5)), "thin")
        canvas.text((x, _HEIGHT + 19), f"{percent}%", size=_SMALL - 1, anchor="middle")
    for point in points:
        if not point.marked:
            canvas.circle(at(point), 4.5, "paper")
    taken: list[tuple[float, float]] = []
    for point in sorted((point for point in points if point.marked), key=at):
        x, y = at(point)
        canvas.polygon(((x, y - 7), (x + 7, y), (x, y + 7), (x - 7, y)), "solid")
        end = x > _WIDTH * 0.6
        row = y + 5
        # Labels that would lie on each other go one below the other.
        while any(abs(row - other) < _SMALL and abs(x - beside) < _WIDTH / 3 for beside, other in taken):
            row += _SMALL
        taken.append((x, row))
        canvas.text((x - 11 if end else x + 11, row), point.label, size=_SMALL - 1, anchor="end" if end else "start")
    canvas.text(
        (_WIDTH / 2, _HEIGHT + 42), "share right: hard on the left, easy on the right", size=_SMALL, anchor="middle"
    )
    canvas.text((-40, -12), "correlation with the other items", size=_SMALL)
    return canvas.picture((-52, -32, _WIDTH + 72, _HEIGHT + 86)).svg(title=title, description=told, id_prefix=id_prefix)


def option_bars_svg(bars: Sequence[BarOfOption], *, title: str, id_prefix: str) -> str:
    """Draw the share of people who chose each option; the right one is hatched and says so."""
    told = "; ".join(f"{bar.label}{' (right)' if bar.keyed else ''}: {bar.share:.0%}" for bar in bars)
    canvas = Canvas(wide=True)
    top, left, full = 0.0, 236.0, 220.0
    for bar in bars:
        lines = wrap(bar.label + (" (right)" if bar.keyed else ""), width=left - 12, size=_SMALL * 1.08)
        height = max(24.0, len(lines) * _SMALL * 1.15 + 8)
        canvas.text((0, top + 17), lines, size=_SMALL, strong=bar.keyed)
        box = (left, top + 4, max(bar.share * full, 1.0), 16.0)
        canvas.rect(box, "body" if bar.keyed else "paper", hatch="body" if bar.keyed else None)
        canvas.text((left + box[2] + 7, top + 17), f"{bar.share:.0%}", size=_SMALL)
        top += height
    canvas.line(((left, 0), (left, top)))
    return canvas.picture((-4, -4, left + full + 60, top + 8)).svg(
        title=title, description=f"{told}.", id_prefix=id_prefix
    )
