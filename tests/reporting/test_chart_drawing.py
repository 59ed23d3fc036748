"""A chart in words, as rows and as a drawing."""

from __future__ import annotations

from dataclasses import replace

from benchlog_days import KEY
from tinwright.benchlog import Event, MeasuredPoint, Session
from tinwright.benchlog.charts import Chart, charts_of
from tinwright.reporting.chart_drawing import CHART_COLUMNS, MOST_CANS, chart_in_words, chart_rows, draw_chart
from tinwright.seaming.limits import Limit

SESSION = Session(*KEY, can="307x409")


def a_chart(
    values: list[float], dimension: str = "seam-thickness", *, changes: dict[int, Event] | None = None
) -> Chart:
    events = []
    for number, value in enumerate(values):
        at = f"{9 + number // 30:02}:{number % 30 * 2:02}"
        if changes and number in changes:
            events.append(replace(changes[number], at=at))
        points = (MeasuredPoint(dimension, "1", value), MeasuredPoint(dimension, "2", value + 0.001))
        check = Event(f"a-{number}", KEY, f"{at}:30", "measured-check", result="accept", can_number=number or None)
        events.append(replace(check, readings=points))
    return charts_of([(SESSION, events)])[0]


ADJUSTED = Event("b-1", KEY, "09:00", "adjustment", adjuster="first-roller", direction="tighten", turns="1/8")


def test_too_few_cans_are_said_to_be_too_few() -> None:
    assert chart_in_words(a_chart([0.052] * 3)) == "3 measured cans. 3 of the 10 cans it takes for control limits."
    assert chart_in_words(a_chart([0.052])) == "1 measured can. 1 of the 10 cans it takes for control limits."


def test_a_steady_sealer_is_said_to_be_steady() -> None:
    words = chart_in_words(a_chart([0.052, 0.053] * 6))
    assert words == (
        "12 measured cans. Center 0.0525 in, control limits 0.0498 in to 0.0552 in. No can is beyond a control limit, "
        "and there are not 8 in a row on one side of the center line (Western Electric)."
    )


def test_what_is_out_is_named_with_its_can_and_time() -> None:
    words = chart_in_words(a_chart([0.052, 0.0525] * 10 + [0.058]))
    assert "Beyond a control limit: can 20, 2026-11-14 09:40." in words
    assert "Jump from the can before: can 20, 2026-11-14 09:40." in words


def test_the_table_has_every_can() -> None:
    rows = chart_rows(a_chart([0.052, 0.0525] * 10 + [0.058]))
    assert len(rows) == 21
    assert dict(zip(CHART_COLUMNS, rows[-1], strict=True)) == {
        "Date": "2026-11-14",
        "Time": "09:40",
        "Can": "20",
        "Reading in the middle": "0.058 in",
        "Lowest": "0.058 in",
        "Highest": "0.059 in",
        "Difference": "0.0055 in",
        "Sign": "beyond a control limit, jump from the can before",
    }
    assert rows[0][2] == "T"


def test_percents_are_written_as_percents() -> None:
    assert chart_rows(a_chart([80.0], "tightness"))[0][3] == "80%"


def test_the_drawing_tells_of_the_adjustment_and_has_the_words() -> None:
    chart = a_chart([0.052] * 6, changes={3: ADJUSTED})
    svg = draw_chart(
        chart, limit=Limit("seam-thickness", 0.049, 0.053, 0.058), where="bench crank sealer", id_prefix="c"
    )
    assert "Adjustment, 2026-11-14 09:06: tighten the first roller 1/8 turn" in svg
    assert f">{chart_in_words(chart)}<" in svg
    assert ">Seam thickness, bench crank sealer<" in svg


def test_of_very_many_cans_the_last_are_drawn() -> None:
    svg = draw_chart(a_chart([0.052, 0.053] * 50), id_prefix="c")
    assert svg.count("<ellipse") == 2 * MOST_CANS + 1  # two panels and the key
    assert f"Drawn are the last {MOST_CANS}." in svg
