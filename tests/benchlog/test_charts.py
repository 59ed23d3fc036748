"""Charts of a sealer: what is plotted, where a stretch begins, what is marked."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchlog_days import KEY
from tinwright.benchlog import Event, MeasuredPoint, Session
from tinwright.benchlog.charts import FEWEST_CANS, RUN_RULE, Chart, charts_of, limits_of

SESSION = Session(*KEY, can="307x409")
STEADY = [0.051, 0.052, 0.051, 0.053, 0.052, 0.051, 0.052, 0.053, 0.051, 0.052]


def a_check(number: int, *readings: float, dimension: str = "seam-thickness") -> Event:
    points = tuple(MeasuredPoint(dimension, str(place), value) for place, value in enumerate(readings, 1))
    at = f"{9 + number // 60:02}:{number % 60:02}"
    return Event(f"a-{number}", KEY, at, "measured-check", result="accept", can_number=number, readings=points)


def an_event(number: int, kind: str, **entries: str) -> Event:
    return Event(f"a-{number}", KEY, f"{9 + number // 60:02}:{number % 60:02}", kind, **entries)  # type: ignore[arg-type]


def the_chart(*events: Event) -> Chart:
    (chart,) = charts_of([(SESSION, events)])
    return chart


def test_a_can_is_plotted_by_the_reading_in_the_middle() -> None:
    (point,) = the_chart(a_check(1, 0.050, 0.058, 0.052)).points
    assert (point.value, point.low, point.high) == (0.052, 0.050, 0.058)
    (point,) = the_chart(a_check(1, 0.050, 0.058, 0.052, 0.053)).points
    assert point.value == 0.052


def test_no_limits_below_ten_cans() -> None:
    checks = [a_check(number, value) for number, value in enumerate(STEADY)]
    assert FEWEST_CANS == 10
    assert the_chart(*checks[:9]).stretches[0].limits is None
    assert the_chart(*checks).stretches[0].limits == limits_of(STEADY)


@pytest.mark.parametrize("kind", ["adjustment", "set-up"])
def test_an_adjustment_begins_a_stretch_and_no_range_reaches_across_it(kind: str) -> None:
    change = an_event(6, kind, can="307x409") if kind == "set-up" else an_event(6, kind)
    chart = the_chart(*[a_check(number, 0.05) for number in range(1, 6)], change, a_check(7, 0.06), a_check(8, 0.06))
    assert [len(stretch.points) for stretch in chart.stretches] == [5, 2]
    assert [point.moving_range for point in chart.stretches[1].points] == [None, 0]
    assert [(mark.before, mark.event.kind) for mark in chart.marks] == [(5, kind)]


def test_a_jam_is_marked_but_begins_no_stretch() -> None:
    chart = the_chart(a_check(1, 0.05), an_event(2, "jam"), a_check(3, 0.05), an_event(4, "lid-lot"))
    assert len(chart.stretches) == 1
    assert [(mark.before, mark.event.kind) for mark in chart.marks] == [(1, "jam")]


def test_each_can_size_has_its_chart() -> None:
    events = [
        a_check(1, 0.05),
        an_event(2, "can-change", can="401x411"),
        a_check(3, 0.06),
        an_event(4, "can-change", can="307x409"),
        a_check(5, 0.05),
    ]
    charts = charts_of([(SESSION, events)])
    assert [(chart.can, len(chart.points)) for chart in charts] == [("307x409", 2), ("401x411", 1)]
    assert [len(stretch.points) for stretch in charts[0].stretches] == [1, 1]


def test_a_chart_goes_on_over_sessions_until_another_can_was_sealed_between() -> None:
    later = replace(SESSION, date="2026-11-21")
    other = replace(SESSION, date="2026-11-18", can="401x411")
    days = [(later, [a_check(1, 0.05)]), (SESSION, [a_check(1, 0.05)])]
    assert [len(stretch.points) for stretch in charts_of(days)[0].stretches] == [2]
    assert [point.session.date for point in charts_of(days)[0].points] == ["2026-11-14", "2026-11-21"]
    assert [len(stretch.points) for stretch in charts_of([*days, (other, [a_check(1, 0.05)])])[0].stretches] == [1, 1]


def test_sealers_are_never_mixed() -> None:
    other = replace(SESSION, sealer="bench-lever-sealer")
    assert [chart.sealer for chart in charts_of([(SESSION, [a_check(1, 0.05)]), (other, [a_check(1, 0.05)])])] == [
        "bench-crank-sealer",
        "bench-lever-sealer",
    ]


def test_a_struck_measurement_is_not_plotted() -> None:
    assert charts_of([(SESSION, [replace(a_check(1, 0.05), struck=True)])]) == []


def test_a_can_beyond_three_sigma_is_marked() -> None:
    chart = the_chart(*[a_check(number, value) for number, value in enumerate([*STEADY, *STEADY, 0.060])])
    assert [point.signals for point in chart.points][-1] == ("beyond-limits", "range-beyond-limit")
    assert not any(point.signals for point in chart.points[:-1])


def test_the_eighth_on_one_side_is_marked_and_the_seventh_is_not() -> None:
    assert (RUN_RULE.name, RUN_RULE.length) == ("Western Electric", 8)
    values = [0.050, 0.054, 0.050, 0.054] + [0.0515, 0.0505] * 4 + [0.060, 0.044, 0.060]
    chart = the_chart(*[a_check(number, value) for number, value in enumerate(values)])
    limits = chart.stretches[0].limits
    assert limits is not None
    assert 0.0515 < limits.center < 0.054
    assert [number for number, point in enumerate(chart.points) if "run" in point.signals] == [11]


def test_a_value_on_the_center_line_ends_a_run() -> None:
    values = [1.0] * 7 + [0.0] + [1.0] * 5 + [-1.0] * 12 + [0.0]
    values[-1] = -sum(values)  # so that the center is 0
    chart = the_chart(*[a_check(number, value) for number, value in enumerate(values)])
    first = next(number for number, point in enumerate(chart.points) if "run" in point.signals)
    assert first == 20


def test_readings_all_alike_give_no_signal() -> None:
    # The mean of twelve times 0.048 is not 0.048 in binary fractions.
    chart = the_chart(*[a_check(number, 0.048) for number in range(12)])
    assert not any(point.signals for point in chart.points)
