"""Individuals and moving-range charts of a sealer: does it still do what it did?

One value stands for each measured can: the reading in the middle of its points. It is a reading that was really taken,
and neither the crossover nor one slip moves it. The lowest and the highest reading of the can are kept beside it. A
chart gives no verdict on a can: that goes by the worst reading and the specification (`seaming.judge`).

After a set-up, an adjustment or a change of can size the sealer is another process. So limits come from the cans of one
stretch between two such changes, no range is taken across a change, and no limits are given for fewer than ten cans. A
jam or a new lot of lids is marked but begins no stretch: whether it moved the seam is what the chart is to show.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections import defaultdict
from dataclasses import dataclass, field, replace
from itertools import pairwise
from statistics import fmean, median_low
from typing import TYPE_CHECKING

from tinwright.benchlog.writing import in_order

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tinwright.benchlog.events import Event, Session

__all__ = [
    "D2",
    "D3",
    "FEWEST_CANS",
    "RUN_RULE",
    "Chart",
    "ChartPoint",
    "Limits",
    "Mark",
    "RunRule",
    "Stretch",
    "charts_of",
    "limits_of",
]

D2 = 2 / math.sqrt(math.pi)
"""Mean of the range of two standard normal values: E|x - y|, where x - y is normal with variance 2."""
D3 = math.sqrt(2 - D2**2)
"""Standard deviation of that range: E(x - y)^2 is 2."""
FEWEST_CANS = 10
"""Fewer cans give limits that say nothing (design section 5: no control limits from a handful of cans)."""
_CLOSE = 1e-9
"""Inches or percent: far below any reading, far above the rounding of a mean."""
_BEGIN_A_STRETCH = frozenset({"set-up", "adjustment", "can-change"})
_MARKED = _BEGIN_A_STRETCH | {"jam", "lid-lot"}


@dataclass(frozen=True)
class RunRule:
    """A rule about runs: its name belongs to its length, for others of a like name count otherwise."""

    name: str
    """Who gave it."""
    length: int
    """Cans in a row on one side of the center line."""

    @property
    def words(self) -> str:
        """The rule in words."""
        return f"{self.length} in a row on one side of the center line ({self.name})"


RUN_RULE = RunRule("Western Electric", 8)
"""Western Electric, Statistical Quality Control Handbook: 8 on one side. (Nelson 1984 asks for 9.)"""


@dataclass(frozen=True)
class Limits:
    """Center lines and three-sigma limits of one stretch."""

    center: float
    """Mean of the values."""
    lower: float
    """Center less 3 sigma, where sigma is the mean moving range over d2."""
    upper: float
    """Center and 3 sigma."""
    range_center: float
    """Mean moving range."""
    range_upper: float
    """Upper limit of the moving range; its lower limit is 0."""


@dataclass(frozen=True)
class ChartPoint:
    """One measured can."""

    session: Session
    """When and where."""
    event: Event
    """The measured check."""
    value: float
    """The reading in the middle; of an even number, the lower of the two in the middle."""
    low: float
    """Its lowest reading."""
    high: float
    """Its highest reading."""
    moving_range: float | None = None
    """How far it is from the can before it in the same stretch."""
    signals: tuple[str, ...] = ()
    """`beyond-limits`, `run` or `range-beyond-limit`."""


@dataclass(frozen=True)
class Stretch:
    """Cans between two changes of the sealer."""

    points: tuple[ChartPoint, ...]
    """Its cans in order."""
    limits: Limits | None
    """None below `FEWEST_CANS`."""


@dataclass(frozen=True)
class Mark:
    """Something that happened between two points."""

    before: int
    """Number, from 0, of the point it stands before, counted over all stretches."""
    session: Session
    """When and where."""
    event: Event
    """What happened."""


@dataclass(frozen=True)
class Chart:
    """One dimension of one can on one sealer, over any number of sessions."""

    sealer: str
    """Id of the sealer."""
    can: str
    """Id of the can."""
    dimension: str
    """One of `seaming.DIMENSIONS`."""
    stretches: tuple[Stretch, ...]
    """The cans, by stretch."""
    marks: tuple[Mark, ...]
    """Changes, jams and new lots of lids, in order."""

    @property
    def points(self) -> tuple[ChartPoint, ...]:
        """All cans in order."""
        return tuple(point for stretch in self.stretches for point in stretch.points)


def limits_of(values: Sequence[float]) -> Limits:
    """Return the limits of an individuals and moving-range chart, from however few values.

    Args:
        values: At least two, in the order in which they came about; in any one unit.

    Returns:
        Center plus and minus 3 MR/d2, and (1 + 3 d3/d2) MR for the range, where MR is the mean moving range of two
        (NIST/SEMATECH e-Handbook 6.3.2.2).

    Raises:
        ValueError: when there are fewer than two values.

    >>> limits = limits_of([1.0, 2.0, 1.0])
    >>> round(limits.lower, 3), round(limits.upper, 3), round(limits.range_upper, 3)
    (-1.325, 3.992, 3.267)
    """
    if len(values) < 2:
        raise ValueError(f"expected at least two values, got {len(values)}")
    mean_range = fmean(abs(after - before) for before, after in pairwise(values))
    center, reach = fmean(values), 3 * mean_range / D2
    return Limits(center, center - reach, center + reach, mean_range, mean_range * (1 + 3 * D3 / D2))


def charts_of(sessions: Iterable[tuple[Session, Iterable[Event]]]) -> list[Chart]:
    """Return a chart for each sealer, can and dimension that was measured, in that order.

    Args:
        sessions: Sessions with their events, in any order.
    """
    found: dict[tuple[str, str], _CanOnSealer] = defaultdict(_CanOnSealer)
    last_can: dict[str, str] = {}
    for session, events in sorted(sessions, key=lambda item: item[0].key):
        sealer, can = session.sealer, session.can
        if last_can.get(sealer, can) != can:
            found[sealer, can].begin_a_stretch()
        for event in in_order(event for event in events if not event.struck):
            if event.kind in {"set-up", "can-change"}:
                can = event.can
            found[sealer, can].read(session, event)
        last_can[sealer] = can
    return [
        on_sealer.chart(sealer, can, dimension)
        for (sealer, can), on_sealer in sorted(found.items())
        for dimension in sorted(on_sealer.measured)
    ]


@dataclass
class _CanOnSealer:
    """What was measured of one can on one sealer, and what happened meanwhile; the place counts what was kept."""

    measured: dict[str, list[tuple[int, ChartPoint]]] = field(default_factory=lambda: defaultdict(list))
    """Dimension: its cans with their places."""
    happened: list[tuple[int, Session, Event]] = field(default_factory=list)
    begun: list[int] = field(default_factory=list)
    place: int = 0

    def begin_a_stretch(self) -> None:
        self.place += 1
        self.begun.append(self.place)

    def read(self, session: Session, event: Event) -> None:
        self.place += 1
        if event.kind in _BEGIN_A_STRETCH:
            self.begun.append(self.place)
        if event.kind in _MARKED:
            self.happened.append((self.place, session, event))
        for dimension in dict.fromkeys(reading.dimension for reading in event.readings):
            values = [reading.value for reading in event.readings if reading.dimension == dimension]
            point = ChartPoint(session, event, median_low(values), min(values), max(values))
            self.measured[dimension].append((self.place, point))

    def chart(self, sealer: str, can: str, dimension: str) -> Chart:
        places = [place for place, _ in self.measured[dimension]]
        points = [point for _, point in self.measured[dimension]]
        begun = sorted({0, len(points), *(bisect_left(places, place) for place in self.begun)})
        marks = [
            Mark(bisect_left(places, place), session, event)
            for place, session, event in self.happened
            if place < places[-1]
        ]
        stretches = tuple(_stretch(points[first:end]) for first, end in pairwise(begun))
        return Chart(sealer, can, dimension, stretches, tuple(marks))


def _stretch(points: Sequence[ChartPoint]) -> Stretch:
    values = [point.value for point in points]
    ranges = [None, *(abs(after - before) for before, after in pairwise(values))]
    limits = limits_of(values) if len(values) >= FEWEST_CANS else None
    runs = _runs(values, limits.center) if limits else [0] * len(values)
    judged = [
        replace(point, moving_range=gap, signals=_signals(point.value, gap, run, limits) if limits else ())
        for point, gap, run in zip(points, ranges, runs, strict=True)
    ]
    return Stretch(tuple(judged), limits)


def _runs(values: Sequence[float], center: float) -> list[int]:
    """Count, for each value, how many in a row up to it lie on its side; one on the center line ends a run."""
    found: list[int] = []
    side = length = 0
    for value in values:
        here = 0 if abs(value - center) <= _CLOSE else 1 if value > center else -1
        length = length + 1 if here == side else 1
        side = here
        found.append(length if here else 0)
    return found


def _signals(value: float, gap: float | None, run: int, limits: Limits) -> tuple[str, ...]:
    found = []
    if value < limits.lower - _CLOSE or value > limits.upper + _CLOSE:
        found.append("beyond-limits")
    if run >= RUN_RULE.length:
        found.append("run")
    if gap is not None and gap > limits.range_upper + _CLOSE:
        found.append("range-beyond-limit")
    return tuple(found)
