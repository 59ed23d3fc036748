"""Defects per check, for the early warning."""

from __future__ import annotations

from benchlog_days import a_day
from tinwright.benchlog.early_warning import defects_per_check, walk


def found(text: str) -> list[tuple[str, int]]:
    return [(event.at, count) for event, count in defects_per_check(a_day(text))]


def test_each_check_counts_the_different_defects_found_at_it() -> None:
    assert found(
        "09:00 T\n09:10 V 4 knurl-print\n09:11 defect knurl-print\n09:12 defect vee\n09:20 V! 9\n09:30 V 12"
    ) == [
        ("09:00", 0),
        ("09:10", 2),
        ("09:20", 1),
        ("09:30", 0),
    ]


def test_a_defect_found_before_the_first_check_goes_to_it() -> None:
    assert found("08:50 defect vee\n09:00 T\n09:01 T") == [("09:00", 1), ("09:01", 0)]


def test_cosmetic_defects_that_pile_up_warn_though_every_check_was_good() -> None:
    day = a_day("09:00 T\n09:10 V 4 knurl-print\n09:20 V 9 knurl-print\n09:30 V 12 knurl-print\n09:40 V 15 knurl-print")
    assert [step.warns for step in walk(count for _, count in defects_per_check(day))] == [
        False,
        False,
        False,
        False,
        True,
    ]
