from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tinwright.seaming import Reading, SeamReadings, find_questions, parse_percent, parse_reading


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        (".055", Fraction(55, 1000)),
        ("0.055", Fraction(55, 1000)),
        ("55 thou", Fraction(55, 1000)),
        ("55thou.", Fraction(55, 1000)),
        ("52.5 thousandths", Fraction(525, 10000)),
        ("0.055 in", Fraction(55, 1000)),
        ("0.055 in.", Fraction(55, 1000)),
        ('.055"', Fraction(55, 1000)),
        ("1.40 mm", Fraction(140, 2540)),
        ("1.4MM", Fraction(140, 2540)),
        ("1 mm", Fraction(10, 254)),
        ("1/8 in", Fraction(1, 8)),
        ("1 1/8 in", Fraction(9, 8)),
        ("5/64", Fraction(5, 64)),
        (" .118 ", Fraction(118, 1000)),
    ],
)
def test_entries_as_people_write_them(text: str, inches: Fraction) -> None:
    assert parse_reading(text).value == inches
    assert not parse_reading(text).question


@pytest.mark.parametrize(
    ("text", "suggestion"),
    [("55", Fraction(55, 1000)), ("118", Fraction(118, 1000)), ("0,055", Fraction(55, 1000)), ("1234", None)],
)
def test_what_is_not_clear_is_asked(text: str, suggestion: Fraction | None) -> None:
    entry = parse_reading(text)
    assert entry.value is None
    assert entry.question.endswith(("?", "Write a point."))
    assert entry.suggestion == suggestion


@pytest.mark.parametrize("text", ["", "x", "-.055", "1/0 in", "0.05.5", ".055 ft", "5%", "12345678901", "in", "1,2,3"])
def test_what_cannot_be_read_is_said_so(text: str) -> None:
    entry = parse_reading(text)
    assert entry.value is None
    assert entry.question


def test_zero_is_asked_about() -> None:
    assert "zero" in parse_reading("0.000").question


def test_a_sheet_in_millimeters() -> None:
    assert parse_reading("1.40", "mm").value == Fraction(140, 2540)
    assert parse_reading("2", "mm").value == Fraction(20, 254)
    assert parse_reading("55", "mm").value is None
    assert parse_reading(".055 in", "mm").value == Fraction(55, 1000)


@given(st.text())
def test_no_text_is_ever_an_error(text: str) -> None:
    for entry in (parse_reading(text), parse_percent(text)):
        assert (entry.value is None) == bool(entry.question)


@pytest.mark.parametrize(
    ("text", "value"), [("70", 70), ("70 %", 70), ("100", 100), ("0", 0), ("0.7", None), ("101", None), ("x", None)]
)
def test_ratings(text: str, value: int | None) -> None:
    assert parse_percent(text).value == value


def a_seam(method: str = "micrometer", plate: float | None = 0.010, **dimensions: list[float]) -> SeamReadings:
    readings = tuple(
        Reading(name.replace("_", "-"), str(place), value)
        for name, values in dimensions.items()
        for place, value in enumerate(values, 1)
    )
    return SeamReadings(method, readings, plate, plate)


def kinds(seam: SeamReadings) -> list[tuple[str, str]]:
    return [(question.kind, question.dimension) for question in find_questions(seam)]


def test_readings_are_never_averaged() -> None:
    found = a_seam(body_hook=[0.078, 0.074, 0.081]).extremes("body-hook")
    assert (found.least, found.least_at, found.greatest, found.greatest_at) == (0.074, "2", 0.081, "3")
    assert not hasattr(found, "mean")


def test_points_needed_depend_on_the_method() -> None:
    assert kinds(a_seam(body_hook=[0.078, 0.078])) == [("too-few-points", "body-hook")]
    assert kinds(a_seam("optical", body_hook=[0.078, 0.078])) == []
    assert kinds(a_seam(tightness=[70])) == []


def test_one_point_read_twice_is_one_point() -> None:
    seam = SeamReadings("optical", (Reading("body-hook", "1", 0.078), Reading("body-hook", "1", 0.079)), 0.01, 0.01)
    assert kinds(seam) == [("too-few-points", "body-hook")]


@pytest.mark.parametrize(
    ("seam", "expected"),
    [
        (a_seam(cover_hook=[0.125] * 3, seam_width=[0.120] * 3), ("hook-longer-than-seam", "cover-hook")),
        (a_seam(seam_thickness=[0.048] * 3), ("free-space-negative", "seam-thickness")),
        (a_seam(body_hook=[1.98, 0.078, 0.078]), ("millimeters", "body-hook")),
        (a_seam(seam_width=[0.030] * 3), ("width-too-small", "seam-width")),
        (a_seam(body_hook=[0.78] * 3), ("decimal-point", "body-hook")),
        (a_seam(body_hook=[0.0078] * 3), ("decimal-point", "body-hook")),
        (a_seam(body_hook=[0.078, 0.078, 0.024]), ("spread", "body-hook")),
        (a_seam(plate=None), ("plate-missing", "end-plate")),
        (a_seam(plate=0.1), ("plate-odd", "body-plate")),
    ],
)
def test_slips_are_caught_with_a_question(seam: SeamReadings, expected: tuple[str, str]) -> None:
    assert expected in kinds(seam)
    assert all(question.text.endswith("?") or "computed." in question.text for question in find_questions(seam))


def test_a_sound_seam_raises_no_question() -> None:
    sound = a_seam(
        countersink=[0.125] * 3,
        seam_width=[0.118] * 3,
        seam_thickness=[0.055] * 3,
        body_hook=[0.078] * 3,
        cover_hook=[0.076] * 3,
        tightness=[80],
    )
    assert kinds(sound) == []
