"""A chart of the bench log drawn, told in words, and as rows of a table."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.benchlog.charts import FEWEST_CANS, RUN_RULE, Chart, ChartPoint, Limits, Mark
from tinwright.benchlog.events import KINDS
from tinwright.figures.control_chart import (
    ChartNote,
    PlottedCan,
    PlottedLimits,
    PlottedStretch,
    SpecificationLines,
    control_chart_svg,
)
from tinwright.knowledge.plain_words import say_adjusted
from tinwright.seaming.wording import LABELS, inches_text, is_percent, percent_text

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tinwright.seaming.limits import Limit

__all__ = ["CHART_COLUMNS", "MOST_CANS", "chart_in_words", "chart_rows", "draw_chart"]

MOST_CANS = 60
"""Cans drawn at most, the last ones; words and rows have all."""

CHART_COLUMNS = ("Date", "Time", "Can", "Reading in the middle", "Lowest", "Highest", "Difference", "Sign")
"""Heads of the columns of `chart_rows`."""

_SIGNS: Mapping[str, str] = {
    "beyond-limits": "beyond a control limit",
    "run": f"{RUN_RULE.length} in a row on one side",
    "range-beyond-limit": "jump from the can before",
}


def draw_chart(chart: Chart, *, limit: Limit | None = None, where: str = "", id_prefix: str) -> str:
    """Draw the last cans of a chart as SVG.

    Args:
        chart: The chart, with its limits worked out from all of its cans.
        limit: What the specification says of this dimension, if there is one.
        where: Name of the sealer and the can, for the title.
        id_prefix: Start of the ids in the drawing.
    """
    points = chart.points
    skipped = max(0, len(points) - MOST_CANS)
    stretches, first = [], 0
    for stretch in chart.stretches:
        shown = stretch.points[max(0, skipped - first) :]
        stretches.append(PlottedStretch(tuple(map(_plotted, shown)), _lines(stretch.limits)))
        first += len(stretch.points)
    days = [
        ChartNote(number - skipped, point.session.date)
        for number, point in enumerate(points)
        if number == skipped or (number > skipped and point.session.date != points[number - 1].session.date)
    ]
    return control_chart_svg(
        stretches,
        notes=[ChartNote(mark.before - skipped, _told(mark)) for mark in chart.marks if mark.before >= skipped],
        days=days,
        specification=SpecificationLines(limit.low, limit.aim, limit.high) if limit else None,
        places=0 if is_percent(chart.dimension) else 4,
        title=f"{LABELS[chart.dimension]}{', ' if where else ''}{where}",
        description=chart_in_words(chart) + (f" Drawn are the last {MOST_CANS}." if skipped else ""),
        id_prefix=id_prefix,
    )


def chart_in_words(chart: Chart) -> str:
    """Say what a chart shows: how many cans, the limits of each stretch, and what is out."""
    count = len(chart.points)
    told = [f"{count} measured {'can' if count == 1 else 'cans'}."]
    for number, stretch in enumerate(chart.stretches, 1):
        name = f"Stretch {number}: " if len(chart.stretches) > 1 else ""
        if stretch.limits is None:
            told.append(f"{name}{len(stretch.points)} of the {FEWEST_CANS} cans it takes for control limits.")
            continue
        center, lower, upper = (
            _amount(chart, value) for value in (stretch.limits.center, stretch.limits.lower, stretch.limits.upper)
        )
        told.append(f"{name}{'center' if name else 'Center'} {center}, control limits {lower} to {upper}.")
    for sign, words in _SIGNS.items():
        cans = [_place(point) for point in chart.points if sign in point.signals]
        if cans:
            told.append(f"{words[0].upper()}{words[1:]}: {'; '.join(cans)}.")
    if any(stretch.limits for stretch in chart.stretches) and not any(point.signals for point in chart.points):
        told.append(f"No can is beyond a control limit, and there are not {RUN_RULE.words}.")
    return " ".join(told)


def chart_rows(chart: Chart) -> list[tuple[str, ...]]:
    """Return the chart as a table: a row for each can, with the columns of `CHART_COLUMNS`."""
    return [
        (
            point.session.date,
            point.event.at[:5],
            _can(point),
            _amount(chart, point.value),
            _amount(chart, point.low),
            _amount(chart, point.high),
            "" if point.moving_range is None else _amount(chart, point.moving_range),
            ", ".join(_SIGNS[sign] for sign in point.signals),
        )
        for point in chart.points
    ]


def _plotted(point: ChartPoint) -> PlottedCan:
    return PlottedCan(
        label=_can(point),
        value=point.value,
        low=point.low,
        high=point.high,
        moving_range=point.moving_range,
        beyond="beyond-limits" in point.signals,
        run="run" in point.signals,
        jump="range-beyond-limit" in point.signals,
    )


def _lines(limits: Limits | None) -> PlottedLimits | None:
    if limits is None:
        return None
    return PlottedLimits(limits.center, limits.lower, limits.upper, limits.range_center, limits.range_upper)


def _can(point: ChartPoint) -> str:
    return "T" if point.event.can_number is None else str(point.event.can_number)


def _place(point: ChartPoint) -> str:
    can = "test can" if point.event.can_number is None else f"can {point.event.can_number}"
    return f"{can}, {point.session.date} {point.event.at[:5]}"


def _told(mark: Mark) -> str:
    event = mark.event
    what = " ".join(
        part for part in (event.adjuster and say_adjusted(event.adjuster, event.direction), event.turns) if part
    )
    if event.turns:
        what += " turn"
    what = what or event.can or event.lid_lot
    return f"{KINDS[event.kind].label}, {mark.session.date} {event.at[:5]}{': ' if what else ''}{what}"


def _amount(chart: Chart, value: float) -> str:
    return percent_text(value) if is_percent(chart.dimension) else inches_text(value)
