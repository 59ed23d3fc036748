"""Individuals and moving-range chart. What the sealer does and what it ought to do are never drawn alike.

Limits of the specification are full lines with a dotted field beyond them; limits worked out from the cans are dashed
and belong to one stretch. What is out differs by shape, never by color alone.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import accumulate
from typing import TYPE_CHECKING

from tinwright.figures.canvas import Canvas
from tinwright.figures.lettering import text_width, wrap

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tinwright.figures.canvas import Picture, Point

__all__ = ["ChartNote", "PlottedCan", "PlottedLimits", "PlottedStretch", "SpecificationLines", "control_chart_svg"]

_HIGH, _LOW, _GAP = 250.0, 80.0, 40.0
_LEFT, _RIGHT = 74.0, 150.0
_NARROWEST, _STEP = 420.0, 17.0
_SMALL = 14.0


@dataclass(frozen=True)
class PlottedCan:
    """One can of the chart."""

    label: str
    """What stands below it: the number of the can."""
    value: float
    """What is plotted."""
    low: float
    """Lowest reading of that can."""
    high: float
    """Highest reading of that can."""
    moving_range: float | None = None
    """How far it is from the can before."""
    beyond: bool = False
    """Beyond a control limit: a full diamond."""
    run: bool = False
    """At the end of a run on one side: a full square."""
    jump: bool = False
    """Moving range above its limit: a full diamond in the lower panel."""


@dataclass(frozen=True)
class PlottedLimits:
    """Center lines and control limits of one stretch."""

    center: float
    """Center line."""
    lower: float
    """Lower control limit."""
    upper: float
    """Upper control limit."""
    range_center: float
    """Mean moving range."""
    range_upper: float
    """Upper limit of the moving range."""


@dataclass(frozen=True)
class PlottedStretch:
    """Cans between two changes; no line is drawn from one stretch to the next."""

    cans: tuple[PlottedCan, ...]
    """Its cans."""
    limits: PlottedLimits | None
    """None when there are too few cans."""


@dataclass(frozen=True)
class ChartNote:
    """Something that happened before a can: an upright line with a number, told below the chart."""

    before: int
    """Number of that can, from 0."""
    words: str
    """What happened."""


@dataclass(frozen=True)
class SpecificationLines:
    """Limits from the can supplier's sheet."""

    low: float | None = None
    """Least."""
    aim: float | None = None
    """Aim."""
    high: float | None = None
    """Greatest."""


def control_chart_svg(
    stretches: Sequence[PlottedStretch],
    *,
    notes: Sequence[ChartNote] = (),
    days: Sequence[ChartNote] = (),
    specification: SpecificationLines | None = None,
    places: int = 4,
    title: str,
    description: str,
    id_prefix: str,
) -> str:
    """Draw an individuals chart above a moving-range chart.

    Args:
        stretches: The cans, at least one, by stretch.
        notes: What happened between cans, in order.
        days: Where a day begins, and its date.
        specification: Limits of the specification, if there is one.
        places: Decimals of the numbers written.
        title: Name of the drawing.
        description: What it shows, in words.
        id_prefix: Start of the ids in it.

    Raises:
        ValueError: when there is no can.
    """
    if not any(stretch.cans for stretch in stretches):
        raise ValueError("expected at least one can, got none")
    picture = _Drawing(stretches, specification or SpecificationLines(), places).draw(notes, days)
    return picture.svg(title=title, description=description, id_prefix=id_prefix)


class _Drawing:
    def __init__(self, stretches: Sequence[PlottedStretch], specification: SpecificationLines, places: int) -> None:
        self.canvas = Canvas(wide=True)
        self.stretches = [stretch for stretch in stretches if stretch.cans]
        self.starts = [0, *accumulate(len(stretch.cans) for stretch in self.stretches)]
        self.cans = [can for stretch in self.stretches for can in stretch.cans]
        self.limits = [stretch.limits for stretch in self.stretches if stretch.limits]
        self.specification = specification
        self.places = places
        self.step = max(_STEP, _NARROWEST / len(self.cans))
        self.width = self.step * len(self.cans)
        lines = [line for line in (specification.low, specification.aim, specification.high) if line is not None]
        self.right = _RIGHT if lines else _LEFT / 2
        values = [value for can in self.cans for value in (can.low, can.high)] + lines
        values += [line for limits in self.limits for line in (limits.lower, limits.upper)]
        reach = (max(values) - min(values)) or abs(values[0]) or 1.0
        self.least, self.most = min(values) - reach * 0.08, max(values) + reach * 0.08
        gaps = [can.moving_range or 0 for can in self.cans] + [limits.range_upper for limits in self.limits]
        self.widest = max(gaps) * 1.15 or reach

    def draw(self, notes: Sequence[ChartNote], days: Sequence[ChartNote]) -> Picture:
        self._specification()
        self._frame()
        self._notes(notes)
        for start, stretch in zip(self.starts, self.stretches, strict=False):
            self._stretch(start, stretch)
        self._labels(days)
        foot = self._told([note.words for note in notes])
        return self.canvas.picture((-_LEFT, -34, _LEFT + self.width + self.right, foot + 40))

    def _x(self, number: float) -> float:
        return (number + 0.5) * self.step

    def _y(self, value: float) -> float:
        return (self.most - value) / (self.most - self.least) * _HIGH

    def _y_range(self, gap: float) -> float:
        return _HIGH + _GAP + (1 - gap / self.widest) * _LOW

    def _specification(self) -> None:
        low, high = self.specification.low, self.specification.high
        for limit, edge in ((high, 0.0), (low, _HIGH)):
            if limit is not None:
                y = self._y(limit)
                self.canvas.rect((0, min(y, edge), self.width, abs(y - edge)), "blank", hatch="compound")
                self.canvas.line(((0, y), (self.width, y)))
        named = (("greatest", high), ("aim", self.specification.aim), ("least", low))
        last = -math.inf
        for name, line in named:
            if line is not None:
                y = max(self._y(line), last + _SMALL)
                last = y
                self.canvas.line(((self.width, self._y(line)), (self.width + 10, y)), "thin")
                self.canvas.text((self.width + 14, y + 5), f"{name} {self._written(line)}", size=_SMALL, strong=True)

    def _frame(self) -> None:
        self.canvas.rect((0, 0, self.width, _HIGH), "thin")
        self.canvas.rect((0, _HIGH + _GAP, self.width, _LOW), "thin")
        for value in _ticks(self.least, self.most, 6):
            y = self._y(value)
            self.canvas.line(((-5, y), (0, y)), "thin")
            self.canvas.text((-9, y + 5), self._written(value), size=_SMALL, anchor="end")
        for value in _ticks(0, self.widest, 3):
            y = self._y_range(value)
            self.canvas.line(((-5, y), (0, y)), "thin")
            self.canvas.text((-9, y + 5), self._written(value), size=_SMALL, anchor="end")
        self.canvas.text((0, _HIGH + _GAP - 8), "Difference from the can before", size=_SMALL)

    def _notes(self, notes: Sequence[ChartNote]) -> None:
        numbers: dict[int, list[int]] = {}
        for number, note in enumerate(notes, 1):
            numbers.setdefault(note.before, []).append(number)
        for before, here in numbers.items():
            x = before * self.step
            self.canvas.line(((x, -4), (x, _HIGH)), "dash")
            self.canvas.line(((x, _HIGH + _GAP), (x, _HIGH + _GAP + _LOW)), "dash")
            words = str(here[0]) if len(here) == 1 else f"{here[0]}\N{EN DASH}{here[-1]}"
            self.canvas.text((x, -10), words, size=_SMALL, anchor="middle", strong=True)

    def _stretch(self, start: int, stretch: PlottedStretch) -> None:
        left, right = start * self.step, (start + len(stretch.cans)) * self.step
        if stretch.limits:
            limits = stretch.limits
            for y, paint in (
                (self._y(limits.upper), "dash"),
                (self._y(limits.center), "thin"),
                (self._y(limits.lower), "dash"),
                (self._y_range(limits.range_upper), "dash"),
                (self._y_range(limits.range_center), "thin"),
            ):
                self.canvas.line(((left, y), (right, y)), paint)
            for line, above, below in ((limits.upper, -5, 15), (limits.lower, 15, -5)):
                y = self._y(line)
                beside = [spec for spec in (self.specification.high, self.specification.low) if spec is not None]
                clear = all(abs(self._y(spec) - y - above + 5) > _SMALL / 2 for spec in beside)
                at = (left + 4, y + (above if clear else below))
                self.canvas.text(at, f"control limit {self._written(line)}", size=_SMALL - 1)
        numbered = list(enumerate(stretch.cans, start))
        self.canvas.line([(self._x(number), self._y(can.value)) for number, can in numbered], "thin")
        for number, can in numbered:
            x = self._x(number)
            self.canvas.line(((x, self._y(can.high)), (x, self._y(can.low))), "thin")
            self._mark((x, self._y(can.value)), diamond=can.beyond, square=can.run)
        ranges = [
            (self._x(number), self._y_range(can.moving_range), can.jump)
            for number, can in numbered
            if can.moving_range is not None
        ]
        if ranges:
            self.canvas.line([(x, y) for x, y, _ in ranges], "thin")
        for x, y, jump in ranges:
            self._mark((x, y), diamond=jump, square=False, small=True)

    def _mark(self, at: Point, *, diamond: bool, square: bool, small: bool = False) -> None:
        x, y = at
        if diamond:
            self.canvas.polygon(((x, y - 8), (x + 8, y), (x, y + 8), (x - 8, y)), "solid")
        elif square:
            self.canvas.rect((x - 5, y - 5, 10, 10), "solid")
        else:
            self.canvas.circle(at, 3 if small else 4.2, "paper")

    def _labels(self, days: Sequence[ChartNote]) -> None:
        foot = _HIGH + _GAP + _LOW
        widest = max(text_width(can.label, size=_SMALL) for can in self.cans)
        every = math.ceil((widest + 4) / self.step)
        for number in range(0, len(self.cans), every):
            self.canvas.text((self._x(number), foot + 17), self.cans[number].label, size=_SMALL, anchor="middle")
        free = -math.inf
        for day in days:
            x = day.before * self.step
            self.canvas.line(((x, foot), (x, foot + 40)), "thin")
            if x >= free:
                self.canvas.text((x + 5, foot + 36), day.words, size=_SMALL, strong=True)
                free = x + 12 + text_width(day.words, size=_SMALL)

    def _told(self, notes: Sequence[str]) -> float:
        """Write the key and the notes below the chart; return where they end."""
        y = _HIGH + _GAP + _LOW + 64
        width = self.width + self.right - 10
        for sample, words in self._key():
            if sample in {"diamond", "square"}:
                self._mark((-54, y - 5), diamond=sample == "diamond", square=sample == "square")
            elif sample == "dots":
                self.canvas.rect((-68, y - 12, 28, 13), "blank", hatch="compound")
                self.canvas.line(((-68, y + 1), (-40, y + 1)))
            elif sample == "range":
                self.canvas.line(((-54, y - 13), (-54, y + 3)), "thin")
                self._mark((-54, y - 5), diamond=False, square=False)
            else:
                self.canvas.line(((-68, y - 5), (-40, y - 5)), sample)
            y = self._lines(words, y, width)
        for number, words in enumerate(notes, 1):
            self.canvas.text((-54, y), str(number), size=_SMALL, anchor="middle", strong=True)
            y = self._lines(words, y, width)
        return y

    def _lines(self, words: str, y: float, width: float) -> float:
        lines = wrap(words, width=width, size=_SMALL)
        self.canvas.text((-30, y), lines, size=_SMALL)
        return y + len(lines) * _SMALL * 1.15 + 5

    def _key(self) -> Iterator[tuple[str, str]]:
        yield "range", "One can: the reading in the middle; the stroke goes from its lowest to its highest"
        if self.specification.low is not None or self.specification.high is not None:
            yield "dots", "Limit of the specification, and what lies beyond it"
        if self.limits:
            yield "dash", "Control limits: what this sealer does by itself between two changes"
        if any(can.beyond or can.jump for can in self.cans):
            yield "diamond", "Beyond a control limit"
        if any(can.run and not can.beyond for can in self.cans):
            yield "square", "Too many in a row on one side of the center line"

    def _written(self, value: float) -> str:
        return f"{value:.{self.places}f}"


def _ticks(least: float, most: float, about: int) -> list[float]:
    """Return round values between two, about so many."""
    raw = (most - least) / about
    size = 10 ** math.floor(math.log10(raw))
    step = next(size * factor for factor in (1, 2, 5, 10) if size * factor >= raw)
    return [step * number for number in range(math.ceil(least / step), math.floor(most / step) + 1)]
