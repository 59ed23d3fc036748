"""Face: a stretch of the seam as it is seen, with a way to put marks on it, bent round the can or laid flat."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from tinwright.figures.canvas import Canvas, Point

__all__ = ["SEAM_HEIGHT", "Face"]

SEAM_HEIGHT = 34.0
"""Height of the seam as drawn, in the units of a face."""


@dataclass(frozen=True)
class Face:
    """A stretch of seam on a canvas; places are given along it (zero is the front) and down from its top."""

    canvas: Canvas
    """What to draw on."""
    place: Callable[[float, float], Point]
    """From a place on the face to drawing units."""
    reach: float
    """How far the face goes to either side of the front."""
    spans: tuple[tuple[float, float], ...]
    """Stretches that a fault covers."""
    centers: tuple[float, ...]
    """Places where a fault that sits in one place is drawn."""

    def hump(self, along: float, half: float, *, shift: float = 0) -> float:
        """Return how much of a smooth swelling is found at a place: 1 at each center, 0 half a width away."""
        away = min((abs(along - center - shift) for center in self.centers), default=half)
        return 0.5 + 0.5 * cos(pi * away / half) if away < half else 0.0

    def along(self, start: float, end: float, step: float = 4.0) -> list[float]:
        """Return places from start to end, cut to the face."""
        start, end = max(start, -self.reach), min(end, self.reach)
        count = max(1, round((end - start) / step))
        return [start + (end - start) * i / count for i in range(count + 1)]

    def band(
        self,
        top: Callable[[float], float],
        bottom: Callable[[float], float],
        paint: str,
        *,
        hatch: str | None = None,
        span: tuple[float, float] | None = None,
    ) -> None:
        """Fill what lies between two profiles."""
        places = self.along(*(span or (-self.reach, self.reach)))
        upper = [self.place(s, top(s)) for s in places]
        lower = [self.place(s, bottom(s)) for s in reversed(places)]
        self.canvas.polygon([*upper, *lower], paint, hatch=hatch)

    def shape(self, points: Iterable[Point], paint: str, *, hatch: str | None = None) -> None:
        """Draw a closed shape."""
        self.canvas.polygon([self.place(*point) for point in points], paint, hatch=hatch)

    def line(self, points: Sequence[Point], paint: str = "line") -> None:
        """Draw a line through points."""
        self.canvas.line([self.place(*point) for point in points], paint)

    def lines(self, lines: Iterable[Sequence[Point]], paint: str = "line") -> None:
        """Draw many lines alike."""
        self.canvas.lines([[self.place(*point) for point in points] for points in lines], paint)

    def level(self, height: float, paint: str = "thin", span: tuple[float, float] | None = None) -> None:
        """Draw a line along the seam."""
        self.line([(s, height) for s in self.along(*(span or (-self.reach, self.reach)))], paint)
