"""Track: the middle line of a bent plate, and the plate drawn along it."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING, Self

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from tinwright.figures.canvas import Point

__all__ = ["Track"]

_STEP_DEGREES = 7.5
_DENSE = 0.003
"""Longest piece of a straight that is bent as one, in inches."""


class Track:
    """A line that starts somewhere, heads somewhere and goes on straight or in bends.

    Right is positive x, down is positive y; a heading of 0 degrees is to the right, 90 degrees is down. Lengths are in
    whatever unit the caller keeps to; the seam's are inches.

    >>> track = Track((0.0, 0.0), heading=0).forward(1).turn(1, 180)
    >>> [round(value, 6) for value in track.end]
    [1.0, 2.0]
    """

    def __init__(self, start: Point, *, heading: float) -> None:
        self._points: list[Point] = [start]
        self._headings: list[float] = [heading]

    @property
    def end(self) -> Point:
        """Where the line ends."""
        return self._points[-1]

    @property
    def heading(self) -> float:
        """Which way it goes at its end, in degrees."""
        return self._headings[-1]

    @property
    def headings(self) -> tuple[float, ...]:
        """Which way it goes at each of its points, in degrees."""
        return tuple(self._headings)

    @property
    def points(self) -> tuple[Point, ...]:
        """All its points."""
        return tuple(self._points)

    def forward(self, length: float) -> Self:
        """Go on straight; a length of nothing or less adds nothing."""
        if length > 0:
            x, y = self.end
            angle = math.radians(self.heading)
            self._add((x + length * math.cos(angle), y + length * math.sin(angle)), self.heading)
        return self

    def turn(self, radius: float, degrees: float) -> Self:
        """Go on in a bend of the given radius; positive degrees turn to the right."""
        (x, y), heading = self.end, self.heading
        side = math.copysign(1, degrees)
        angle = math.radians(heading)
        center = (x - side * radius * math.sin(angle), y + side * radius * math.cos(angle))
        steps = max(1, math.ceil(abs(degrees) / _STEP_DEGREES - 1e-9))
        for step in range(1, steps + 1):
            now = heading + degrees * step / steps
            angle = math.radians(now)
            self._add((center[0] + side * radius * math.sin(angle), center[1] - side * radius * math.cos(angle)), now)
        return self

    def through(self, *points: Point) -> Self:
        """Go on in a smooth curve through points (a centripetal Catmull-Rom curve)."""
        known = [self.end, *points]
        angle = math.radians(self.heading)
        reach = math.dist(known[0], known[1])
        before = (known[0][0] - reach * math.cos(angle), known[0][1] - reach * math.sin(angle))
        after = (2 * known[-1][0] - known[-2][0], 2 * known[-1][1] - known[-2][1])
        chain = [before, *known, after]
        for index in range(1, len(chain) - 2):
            piece = chain[index - 1 : index + 3]
            for step in range(1, 9):
                self._add(*_on_curve(piece, step / 8))
        return self

    def beside(self, distance: float) -> Track:
        """Return the line that runs at a distance to the right of this one."""
        new = Track(self._points[0], heading=0)
        new._points, new._headings = list(self.side(distance)), list(self._headings)
        return new

    def bent(self, move: Callable[[Point], Point]) -> Track:
        """Return the line with every point moved, its headings found anew; long straights are divided first."""
        dense = [self._points[0]]
        for here, there in itertools.pairwise(self._points):
            pieces = max(1, math.ceil(math.dist(here, there) / _DENSE))
            dense += [_between(here, there, piece / pieces) for piece in range(1, pieces + 1)]
        moved = [move(point) for point in dense]
        new = Track(moved[0], heading=0)
        new._points = moved
        new._headings = [
            math.degrees(
                math.atan2(
                    moved[min(i + 1, len(moved) - 1)][1] - moved[max(i - 1, 0)][1],
                    moved[min(i + 1, len(moved) - 1)][0] - moved[max(i - 1, 0)][0],
                )
            )
            for i in range(len(moved))
        ]
        return new

    def side(self, distance: float) -> tuple[Point, ...]:
        """Return the line at a distance to the right of this one (left when negative)."""
        return tuple(
            (x - distance * math.sin(math.radians(heading)), y + distance * math.cos(math.radians(heading)))
            for (x, y), heading in zip(self._points, self._headings, strict=True)
        )

    def ribbon(self, thickness: float) -> tuple[Point, ...]:
        """Return the outline of a plate that follows the line.

        The first half of the points is its right side from start to end, the second half its left side back again: the
        two points in the middle are the corners of the cut edge at the end.
        """
        return (*self.side(thickness / 2), *reversed(self.side(-thickness / 2)))

    def _add(self, point: Point, heading: float) -> None:
        self._points.append(point)
        self._headings.append(heading)


_SPANS = (((0, 1), (1, 2), (2, 3)), ((0, 2), (1, 3)), ((1, 2),))


def _on_curve(chain: Sequence[Point], at: float) -> tuple[Point, float]:
    """Find a point between the second and third of four, and the heading there (Barry and Goldman's pyramid)."""
    times = [0.0]
    for here, there in itertools.pairwise(chain):
        times.append(times[-1] + max(math.dist(here, there) ** 0.5, 1e-6))

    def place(now: float) -> Point:
        row = list(chain)
        for spans in _SPANS:
            row = [
                _between(row[i], row[i + 1], (now - times[first]) / (times[last] - times[first]))
                for i, (first, last) in enumerate(spans)
            ]
        return row[0]

    span = times[2] - times[1]
    now = times[1] + at * span
    ahead, behind = place(now + span * 1e-3), place(now - span * 1e-3)
    return place(now), math.degrees(math.atan2(ahead[1] - behind[1], ahead[0] - behind[0]))


def _between(here: Point, there: Point, share: float) -> Point:
    return (here[0] + (there[0] - here[0]) * share, here[1] + (there[1] - here[1]) * share)
