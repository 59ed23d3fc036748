"""Which cans to hold: worked days. Random days are held against the words of the rule in `test_the_rule_in_words.py`."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchlog_days import a_day
from tinwright import benchlog
from tinwright.benchlog import (
    Event,
    Held,
    Hold,
    MeasuredPoint,
    Unchecked,
    clock_went_back,
    counter_went_back,
    read_lines,
)
from tinwright.benchlog.checks import outcome_of
from tinwright.benchlog.ranges import cans_in_words, count
from tinwright.benchlog.writing import sealed_cans

DISPOSITIONS = {"knurl-print": "cosmetic", "vee": "reject", "mushroomed-flange": "discard-part", "pleat": "reject"}
REACHES = {"knurl-print": 1, "vee": 1, "mushroomed-flange": 1, "pleat": 3, "deep": 2}
KNOWN = (DISPOSITIONS, REACHES)


def cans_to_hold(day: list[Event]) -> list[Hold]:
    return benchlog.cans_to_hold(day, *KNOWN)


def still_held(day: list[Event]) -> Held:
    return benchlog.still_held(day, *KNOWN)


def unchecked_before_change(day: list[Event]) -> list[Unchecked]:
    return benchlog.unchecked_before_change(day, *KNOWN)


def held_from_day_before(before: list[Event], day: list[Event]) -> Hold | None:
    return benchlog.held_from_day_before(before, day, *KNOWN)


def held(text: str) -> list[tuple[str, tuple[tuple[int, int], ...]]]:
    return [(hold.event.at, hold.cans) for hold in cans_to_hold(a_day(text))]


def cans_held(*days: list[Event]) -> str:
    """What is still held of one session that several wrote."""
    return cans_in_words(still_held([event for day in days for event in day]).cans)


def test_a_look_clears_no_can_of_a_fault_that_shows_only_when_it_is_torn_down() -> None:
    day = "09:00 D\n09:20 sealed 1-20\n09:21 V 20\n09:40 sealed 21-40\n09:41 V 40\n10:00 sealed 41-46\n10:20 D!"
    assert cans_held(a_day(day)) == "1 to 46"
    assert cans_held(a_day(f"{day} pleat")) == "1 to 46"
    assert cans_held(a_day(f"{day} vee")) == "41 to 46"


@pytest.mark.parametrize(
    ("fault", "expected"), [("vee", "37 to 46"), ("deep", "25 to 46"), ("pleat", "13 to 46"), ("", "13 to 46")]
)
def test_a_fault_is_held_back_to_the_last_check_that_could_have_found_it(fault: str, expected: str) -> None:
    day = f"09:00 sealed 1-12\n09:01 D\n09:20 M 24\n09:40 V 36\n10:00 sealed 37-46\n10:20 V! 46 {fault}"
    assert cans_held(a_day(day)) == expected


def test_hooks_are_read_only_in_a_seam_that_was_cut_open() -> None:
    day = a_day("09:20 M 24\n10:00 sealed 25-46\n10:20 V! 46 pleat")
    for dimension, expected in (("seam-thickness", "1 to 46"), ("body-hook", "25 to 46")):
        measured = replace(day[0], readings=(MeasuredPoint(dimension, "1", 0.078),))
        assert cans_held([measured, *day[1:]]) == expected


def test_the_sealer_is_good_again_only_by_a_check_that_could_have_found_the_fault() -> None:
    day = "09:00 D\n09:20 V! 12 pleat\n09:30 adjust\n09:40 T\n09:50 sealed 13-20\n09:51 V 20\n"
    assert cans_held(a_day(day)) == "1 to 20"
    assert cans_held(a_day(f"{day}10:00 D\n10:10 sealed 21-30")) == "1 to 20"


def test_a_counter_that_goes_back_begins_a_new_run() -> None:
    day = "09:00 T\n09:20 V 12\n09:40 sealed 13-20\n10:00 sealed 1-15\n10:20 V! 15 vee"
    assert cans_held(a_day(day)) == "13 to 20, B1 to B15"
    assert count(sealed_cans(read_lines(a_day(day)))) == 35
    assert [line.event.at for line in counter_went_back(a_day(day))] == ["10:00"]
    assert cans_held(a_day(day.replace("10:00 sealed 1-15", "09:50 new-run\n10:00 sealed 1-15"))) == cans_held(
        a_day(day)
    )
    assert counter_went_back(a_day(day.replace("10:00 sealed", "09:50 new-run\n10:00 sealed"))) == []


def test_cans_of_the_run_before_are_named_with_its_letter() -> None:
    day = "09:20 V 12\n09:40 sealed 13-20\n10:00 sealed 1-4\n10:10 V B4\n10:15 sealed 5-15\n"
    assert cans_held(a_day(f"{day}10:20 V! A17 vee")) == "13 to 20, B1 to B15"
    assert cans_held(a_day(f"{day}10:20 V! 7 vee")) == "B5 to B15"
    assert cans_held(a_day(f"{day}10:20 V! 7 vee\n10:30 T\n10:40 release B5-15")) == "B7"
    assert cans_held(a_day(f"{day}10:20 V! 7 vee\n10:30 T\n10:40 release A5-15")) == "B5 to B15"


def test_cans_written_after_the_look_at_them_are_no_new_run() -> None:
    assert counter_went_back(a_day("09:20 V 12\n09:21 sealed 1-12\n09:40 V 20\n09:41 sealed 13-20")) == []
    assert [line.run for line in counter_went_back(a_day("09:20 V 12\n09:21 sealed 1-8"))] == [1]


def test_the_clock_orders_nothing() -> None:
    """The clock set back one hour at 10:00: the lines stay where they stand."""
    day = "09:00 T\n09:20 V 12\n09:40 sealed 13-24\n09:00 sealed 25-30\n09:01 V! 30 vee"
    assert cans_held(a_day(day)) == "13 to 30"
    assert [(above.at, event.at) for above, event in clock_went_back(a_day(day))] == [("09:40", "09:00")]


def test_a_bad_can_is_never_released_whoever_says_so() -> None:
    day = "09:20 V 12\n09:41 V! 17 vee\n09:45 defect 14-15 vee\n09:50 T\n11:00 release 13-17"
    assert cans_held(a_day(day)) == "14 to 15, 17"
    assert cans_held(a_day(f"{day}\n11:30 discard 14-17")) == ""
    assert cans_held(a_day("09:20 V 12\n09:30 release 13-17\n09:41 V! 17 vee\n09:50 T\n10:00 release 1-17")) == "17"


def test_between_two_phones_only_what_was_imported_comes_first() -> None:
    """One seals, the other checks; neither has the file of the other, so neither clears what the other found."""
    sealing = a_day("09:10 sealed 1-20\n09:30 V 20\n09:40 sealed 21-40\n10:30 V 40", "a")
    assert cans_held(sealing, a_day("10:00 V! 30 vee", "b")) == "1 to 40"
    assert cans_held(sealing, a_day("10:00 V! 30 vee after=a-2", "b")) == "21 to 40"
    assert cans_held(sealing, a_day("10:00 V! 30 vee after=a-2\n10:10 T", "b")) == "21 to 40"
    known = a_day("10:00 V! 30 vee after=a-3\n10:10 T", "b")
    assert cans_held(sealing, known, a_day("10:20 sealed 41-50 after=b-2", "c")) == "21 to 40"


def test_a_release_lets_go_only_what_its_writer_knew_of() -> None:
    day = a_day("09:20 V 12\n09:41 V! 17 vee\n09:50 T", "a")
    other = a_day("09:45 defect 13 vee\n09:50 T", "b")
    release = a_day("08:00 release 1-17 after=a-3", "desk")
    assert cans_held(day, release) == "17"
    assert cans_held(day, other, release) == "1 to 17"
    assert cans_held(day, other, a_day("08:00 release 1-17 after=a-3 after=b-2", "desk")) == "13, 17"


def test_two_lines_that_claim_to_come_after_each_other_stop_nothing() -> None:
    odd = [*a_day("09:00 T after=b-1", "a"), *a_day("09:00 V! 3 vee after=a-1", "b")]
    assert cans_held(odd) == cans_held(odd[::-1])


def test_a_failed_check_holds_every_can_since_the_last_good_check() -> None:
    (hold,) = cans_to_hold(
        a_day("09:00 T\n09:20 V 12\n09:40 sealed 13-17\n09:41 V! 17 vee\n09:50 adjust\n09:55 T\n10:20 V 30")
    )
    assert hold.cans == ((13, 17),)
    assert hold.since is not None
    assert (hold.since.at, hold.until and hold.until.at) == ("09:20", "09:55")


def test_with_no_good_check_every_can_of_the_day_is_held() -> None:
    assert held("09:20 sealed 1-12\n09:41 V! 9 vee") == [("09:41", ((1, 12),))]


def test_a_bad_test_can_before_the_first_can_holds_none() -> None:
    assert held("09:00 T! vee\n09:05 adjust\n09:10 T\n09:30 V 12") == [("09:00", ())]


def test_a_bad_test_can_holds_what_was_sealed_before_it() -> None:
    assert held("09:00 T\n09:20 V 12\n09:40 sealed 13-20\n09:41 T! vee") == [("09:41", ((13, 20),))]


def test_measure_again_clears_nothing_and_holds_nothing() -> None:
    assert held("09:20 V 12\n09:40 M? 17") == []
    assert held("09:20 V 12\n09:40 M? 17\n09:45 V! 18 vee") == [("09:45", ((13, 18),))]


def test_the_bad_can_itself_is_never_cleared_by_an_earlier_look_at_it() -> None:
    assert held("09:20 V 12\n09:40 V 17\n09:45 sealed 18-20\n09:50 M! 17 vee") == [("09:50", ((13, 20),))]


def test_an_old_can_found_bad_holds_from_the_check_before_it_to_the_last_can() -> None:
    (hold,) = cans_to_hold(a_day("09:20 V 12\n09:40 V 24\n10:00 V 36\n10:05 sealed 37-38\n10:06 V! 20 vee"))
    assert hold.cans == ((13, 38),)
    assert [event.at for event in hold.looked_at] == ["09:40", "10:00"]


def test_looks_in_one_go_are_one_look_and_it_failed() -> None:
    assert held("09:20 V 12\n09:40 sealed 13-24\n09:41 V 22\n09:42 V 23\n09:43 V! 24 vee") == [("09:43", ((13, 24),))]
    assert held("09:20 V 12\n09:40 sealed 13-24\n09:41 T\n09:43 T! vee") == [("09:43", ((13, 24),))]


def test_a_bad_test_can_after_an_adjustment_does_not_overrule_the_check_before_it() -> None:
    assert held("09:20 V 12\n09:40 V 24\n09:41 adjust\n09:43 T! vee") == [("09:43", ())]


def test_cans_sealed_after_a_failure_are_held_until_a_later_can_is_good() -> None:
    text = "09:20 V 12\n09:40 V! 17 vee\n09:45 sealed 18-20\n09:46 V 17\n09:47 sealed 21-22\n09:50 V 23\n09:55 sealed 24-30"
    assert held(text) == [("09:40", ((13, 23),))]


def test_a_defect_found_holds_unless_the_content_calls_it_cosmetic() -> None:
    assert held("09:20 V 12\n09:40 sealed 13-17\n09:41 defect knurl-print") == []
    assert held("09:20 V 12\n09:40 sealed 13-17\n09:41 defect vee") == [("09:41", ((13, 17),))]
    assert held("09:20 V 12\n09:40 sealed 13-17\n09:41 defect 5-6 vee") == [("09:41", ((1, 17),))]


def test_a_defect_nobody_has_heard_of_holds_back_to_a_can_torn_down() -> None:
    assert held("09:00 sealed 1-9\n09:01 D\n09:20 V 12\n09:41 sealed 13-17\n09:42 defect unheard-of") == [
        ("09:42", ((10, 17),))
    ]


def test_a_bad_empty_can_holds_nothing_until_a_sealed_can_is_named() -> None:
    assert held("09:20 V 12\n09:40 sealed 13-17\n09:41 defect mushroomed-flange") == []
    assert held("09:20 V 12\n09:40 sealed 13-17\n09:41 defect 14 mushroomed-flange") == [("09:41", ((13, 17),))]


def test_a_check_called_good_that_names_a_bad_defect_has_failed() -> None:
    (event,) = a_day("09:20 V 12 vee")
    assert outcome_of(event, DISPOSITIONS) == "failed"


def test_a_struck_check_counts_nowhere() -> None:
    day = a_day("09:20 V 12\n09:30 V 15\n09:41 V! 17 vee")
    assert [hold.cans for hold in cans_to_hold([day[0], replace(day[1], struck=True), day[2]])] == [((13, 17),)]
    assert cans_to_hold([*day[:2], replace(day[2], struck=True)]) == []


def test_cans_that_were_in_the_canner_are_told_apart() -> None:
    day = a_day("09:20 V 12\n09:30 heated 1-15\n09:41 V! 17 vee")
    assert [hold.heated for hold in cans_to_hold(day)] == [((13, 15),)]
    assert still_held(day).not_heated == ((16, 17),)
    assert still_held(day).heated == ((13, 15),)


def test_a_release_needs_a_reason_and_a_person() -> None:
    day = a_day("09:20 V 12\n09:41 V! 17 vee\n11:00 release 13-15")
    assert still_held(day).cans == ((16, 17),)
    assert still_held([*day[:2], replace(day[2], reason="")]).cans == ((13, 17),)
    assert still_held([*day[:2], replace(day[2], by="")]).cans == ((13, 17),)


def test_released_cans_are_held_again_by_a_later_failure_but_discarded_ones_are_gone() -> None:
    day = "09:20 V 12\n09:41 V! 17 vee\n09:50 release 13-15\n09:51 discard 16-17\n09:55 V! 14 vee"
    assert still_held(a_day(day)).cans == ((13, 15),)


def test_a_release_before_the_failure_is_none() -> None:
    assert still_held(a_day("09:20 V 12\n09:30 release 13-17\n09:41 V! 17 vee")).cans == ((13, 17),)


def test_cans_held_by_order_are_held() -> None:
    day = a_day("09:20 V 12\n09:30 hold 3-4\n09:41 V! 17 vee")
    assert [hold.cans for hold in cans_to_hold(day)] == [((3, 4),), ((13, 17),)]
    assert still_held(day).cans == ((3, 4), (13, 17))


def test_cans_nobody_looked_at_before_a_change_are_listed() -> None:
    day = a_day(
        "09:20 V 12\n09:40 sealed 13-17\n09:41 adjust\n09:45 T\n09:46 adjust\n10:10 V 30\n10:20 sealed 31-33\n10:21 close"
    )
    found = unchecked_before_change(day)
    assert [(item.change.at, item.cans, item.since and item.since.at) for item in found] == [
        ("09:41", ((13, 17),), "09:20"),
        ("10:21", ((31, 33),), "10:10"),
    ]


def test_what_is_held_released_discarded_or_looked_at_afterwards_is_not_listed_as_unchecked() -> None:
    before = "09:20 V 12\n09:40 sealed 13-20\n09:41 jam"
    assert [item.cans for item in unchecked_before_change(a_day(f"{before}\n09:50 V 17"))] == [((18, 20),)]
    assert [item.cans for item in unchecked_before_change(a_day(f"{before}\n09:50 discard 13-14"))] == [((15, 20),)]
    assert unchecked_before_change(a_day(f"{before}\n09:50 V! 21 vee")) == []


def test_a_failure_before_the_first_good_check_reaches_back_to_the_day_before() -> None:
    before = a_day("09:00 T\n09:20 V 12\n09:40 sealed 13-20\n09:45 heated 13-14\n09:50 close")
    hold = held_from_day_before(before, a_day("09:00 T! vee"))
    assert hold is not None
    assert hold.since is not None
    assert (hold.cans, hold.heated, hold.since.at) == (((13, 20),), ((13, 14),), "09:20")
    assert held_from_day_before(before, a_day("09:00 T\n09:30 V! 9 vee")) is None
    assert held_from_day_before(before, a_day("09:00 T")) is None


def test_a_slip_of_the_pen_costs_nothing() -> None:
    assert still_held(a_day("09:20 V 12\n09:41 hold 1-900000000")).cans == ((1, 900000000),)
