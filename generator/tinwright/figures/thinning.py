"""Thinning: fewer points for the same line, so that pages stay small."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tinwright.figures.canvas import Point

__all__ = ["thinned"]


def thinned(points: Sequence[Point], tolerance: float) -> list[Point]:
    """Leave out the points that a line through the others passes within `tolerance`.

    By the algorithm of Ramer (Computer Graphics and Image Processing 1 (1972) 244-256) and of Douglas and Peucker
    (Cartographica 10 (1973) 112-122): of each stretch the point farthest from its chord is kept, until none is
    farther than the tolerance.

    Args:
        points: the line; its ends are always kept.
        tolerance: how far the line may move, in the units of the points.

    >>> thinned([(0, 0), (1, 0.01), (2, 0), (3, 5)], 0.1)
    [(0, 0), (2, 0), (3, 5)]
    """
    if len(points) < 3:
        return list(points)
    kept = {0, len(points) - 1}
    waiting = [(0, len(points) - 1)]
    while waiting:
        first, last = waiting.pop()
        (x0, y0), (x1, y1) = points[first], points[last]
        dx, dy = x1 - x0, y1 - y0
        length = hypot(dx, dy)
        if length > tolerance:  # away from the chord, times its length
            farthest = tolerance * length
            ways = [abs(dx * (y - y0) - dy * (x - x0)) for x, y in points[first + 1 : last]]
        else:  # from its end, as in a closed shape
            farthest = tolerance
            ways = [hypot(x - x0, y - y0) for x, y in points[first + 1 : last]]
        most = max(ways, default=0.0)
        place = first + 1 + ways.index(most) if most > farthest else 0
        if place:
            kept.add(place)
            waiting += [ends for ends in ((first, place), (place, last)) if ends[1] - ends[0] > 1]
    return [points[at] for at in sorted(kept)]
