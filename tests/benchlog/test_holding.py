"""Which cans to hold: worked days, and random days against one flag per can."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule

from benchlog_days import KEY, a_day
from tinwright.benchlog import (
    Event,
    cans_to_hold,
    held_from_day_before,
    still_held,
    unchecked_before_change,
)
from tinwright.benchlog.checks import outcome_of

DISPOSITIONS = {"knurl-print": "cosmetic", "vee": "reject", "mushroomed-flange": "discard-part"}


def held(text: str) -> list[tuple[str, tuple[tuple[int, int], ...]]]:
    return [(hold.event.at, hold.cans) for hold in cans_to_hold(a_day(text), DISPOSITIONS)]


def test_a_failed_check_holds_every_can_since_the_last_good_check() -> None:
    (hold,) = cans_to_hold(
        a_day("09:00 T\n09:20 V 12\n09:40 sealed 13-17\n09:41 V! 17\n09:50 adjust\n09:55 T\n10:20 V 30")
    )
    assert hold.cans == ((13, 17),)
    assert hold.since is not None
    assert (hold.since.at, hold.until and hold.until.at) == ("09:20", "09:55")


def test_with_no_good_check_every_can_of_the_day_is_held() -> None:
    assert held("09:20 sealed 1-12\n09:41 V! 9") == [("09:41", ((1, 12),))]


def test_a_bad_test_can_before_the_first_can_holds_none() -> None:
    assert held("09:00 T!\n09:05 adjust\n09:10 T\n09:30 V 12") == [("09:00", ())]


def test_a_bad_test_can_holds_what_was_sealed_before_it() -> None:
    assert held("09:00 T\n09:20 V 12\n09:40 sealed 13-20\n09:41 T!") == [("09:41", ((13, 20),))]


def test_measure_again_vouches_for_nothing_and_holds_nothing() -> None:
    assert held("09:20 V 12\n09:40 M? 17") == []
    assert held("09:20 V 12\n09:40 M? 17\n09:45 V! 18") == [("09:45", ((13, 18),))]


def test_the_bad_can_itself_is_never_vouched_for_by_an_earlier_look_at_it() -> None:
    assert held("09:20 V 12\n09:40 V 17\n09:45 sealed 18-20\n09:50 M! 17") == [("09:50", ((13, 20),))]


def test_an_old_can_found_bad_holds_from_the_check_before_it_to_the_last_can() -> None:
    (hold,) = cans_to_hold(a_day("09:20 V 12\n09:40 V 24\n10:00 V 36\n10:05 sealed 37-38\n10:06 V! 20"))
    assert hold.cans == ((13, 38),)
    assert [event.at for event in hold.looked_at] == ["09:40", "10:00"]


def test_looks_in_one_go_are_one_look_and_it_failed() -> None:
    assert held("09:20 V 12\n09:40 sealed 13-24\n09:41 V 22\n09:42 V 23\n09:43 V! 24") == [("09:43", ((13, 24),))]
    assert held("09:20 V 12\n09:40 sealed 13-24\n09:41 T\n09:43 T!") == [("09:43", ((13, 24),))]


def test_a_bad_test_can_after_an_adjustment_does_not_overrule_the_check_before_it() -> None:
    assert held("09:20 V 12\n09:40 V 24\n09:41 adjust\n09:43 T!") == [("09:43", ())]


def test_cans_sealed_after_a_failure_are_held_until_a_later_can_is_good() -> None:
    text = "09:20 V 12\n09:40 V! 17\n09:45 sealed 18-20\n09:46 V 17\n09:47 sealed 21-22\n09:50 V 23\n09:55 sealed 24-30"
    assert held(text) == [("09:40", ((13, 23),))]


def test_a_defect_found_holds_unless_the_content_calls_it_cosmetic() -> None:
    assert held("09:20 V 12\n09:40 sealed 13-17\n09:41 defect knurl-print") == []
    assert held("09:20 V 12\n09:40 sealed 13-17\n09:41 defect vee") == [("09:41", ((13, 17),))]
    assert held("09:20 V 12\n09:40 sealed 13-17\n09:41 defect 5-6 vee") == [("09:41", ((1, 17),))]


def test_a_defect_nobody_has_heard_of_holds() -> None:
    assert [hold.cans for hold in cans_to_hold(a_day("09:20 V 12\n09:41 sealed 13-17\n09:42 defect knurl-print"))] == [
        ((13, 17),)
    ]


def test_a_bad_empty_can_holds_nothing_until_a_sealed_can_is_named() -> None:
    assert held("09:20 V 12\n09:40 sealed 13-17\n09:41 defect mushroomed-flange") == []
    assert held("09:20 V 12\n09:40 sealed 13-17\n09:41 defect 14 mushroomed-flange") == [("09:41", ((13, 17),))]


def test_a_check_called_good_that_names_a_bad_defect_has_failed() -> None:
    (event,) = a_day("09:20 V 12 vee")
    assert outcome_of(event, DISPOSITIONS) == "failed"


def test_a_struck_check_counts_nowhere() -> None:
    day = a_day("09:20 V 12\n09:30 V 15\n09:41 V! 17")
    assert [hold.cans for hold in cans_to_hold([day[0], replace(day[1], struck=True), day[2]])] == [((13, 17),)]
    assert cans_to_hold([*day[:2], replace(day[2], struck=True)]) == []


def test_cans_that_were_in_the_canner_are_told_apart() -> None:
    day = a_day("09:20 V 12\n09:30 heated 1-15\n09:41 V! 17")
    assert [hold.heated for hold in cans_to_hold(day)] == [((13, 15),)]
    assert still_held(day).not_heated == ((16, 17),)
    assert still_held(day).heated == ((13, 15),)


def test_a_release_needs_a_reason_and_a_person() -> None:
    day = a_day("09:20 V 12\n09:41 V! 17\n11:00 release 13-15")
    assert still_held(day).cans == ((16, 17),)
    assert still_held([*day[:2], replace(day[2], reason="")]).cans == ((13, 17),)
    assert still_held([*day[:2], replace(day[2], by="")]).cans == ((13, 17),)


def test_released_cans_are_held_again_by_a_later_failure_but_discarded_ones_are_gone() -> None:
    day = "09:20 V 12\n09:41 V! 17\n09:50 release 13-15\n09:51 discard 16-17\n09:55 V! 14"
    assert still_held(a_day(day)).cans == ((13, 15),)


def test_a_release_before_the_failure_is_none() -> None:
    assert still_held(a_day("09:20 V 12\n09:30 release 13-17\n09:41 V! 17")).cans == ((13, 17),)


def test_cans_held_by_order_are_held() -> None:
    day = a_day("09:20 V 12\n09:30 hold 3-4\n09:41 V! 17")
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
    assert unchecked_before_change(a_day(f"{before}\n09:50 V! 21")) == []


def test_a_failure_before_the_first_good_check_reaches_back_to_the_day_before() -> None:
    before = a_day("09:00 T\n09:20 V 12\n09:40 sealed 13-20\n09:45 heated 13-14\n09:50 close")
    hold = held_from_day_before(before, a_day("09:00 T!"))
    assert hold is not None
    assert hold.since is not None
    assert (hold.cans, hold.heated, hold.since.at) == (((13, 20),), ((13, 14),), "09:20")
    assert held_from_day_before(before, a_day("09:00 T\n09:30 V! 9")) is None
    assert held_from_day_before(before, a_day("09:00 T")) is None


def test_a_slip_of_the_pen_costs_nothing() -> None:
    assert still_held(a_day("09:20 V 12\n09:41 hold 1-900000000")).cans == ((1, 900000000),)


LAST = 40
"""More cans than a random day seals."""


class ADay(RuleBasedStateMachine):
    """Write a random day; say of each can by itself, and the slow way, whether it is held."""

    def __init__(self) -> None:
        super().__init__()
        self.log: list[Event] = []
        self.counter = 0

    def write(self, kind: str, **entries: object) -> None:
        number = len(self.log) + 1
        at = f"{9 + number // 60:02}:{number % 60:02}"
        self.log.append(Event(f"a-{number}", KEY, at, kind, **entries))  # type: ignore[arg-type]

    @rule(cans=st.integers(1, 4))
    def seal(self, cans: int) -> None:
        if self.counter + cans <= LAST:
            self.write("sealed", first=self.counter + 1, last=self.counter + cans)
            self.counter += cans

    @rule(result=st.sampled_from(["good", "bad"]), numbered=st.booleans())
    def test_can(self, result: str, *, numbered: bool) -> None:
        self.write("test-can", result=result, can_number=self.counter if numbered else None)

    @rule(back=st.integers(0, 3), result=st.sampled_from(["good", "good", "bad"]))
    def look(self, back: int, result: str) -> None:
        if self.counter - back > 0:
            self.write("visual-check", result=result, can_number=self.counter - back)

    @rule(result=st.sampled_from(["accept", "measure-again", "reject"]), numbered=st.booleans())
    def measure(self, result: str, *, numbered: bool) -> None:
        self.write("measured-check", result=result, can_number=(self.counter or None) if numbered else None)

    @rule(kind=st.sampled_from(["adjustment", "jam", "can-change", "lid-lot", "close"]))
    def change(self, kind: str) -> None:
        self.write(kind)

    @rule(
        kind=st.sampled_from(["heated", "hold", "release", "discard"]),
        first=st.integers(1, LAST),
        more=st.integers(0, 9),
    )
    def deal_with_cans(self, kind: str, first: int, more: int) -> None:
        if first <= self.counter:
            who = {"reason": "Looked at", "by": "AE"} if kind == "release" else {}
            self.write(kind, first=first, last=min(first + more, self.counter), **who)

    @rule(defect=st.sampled_from(["vee", "knurl-print"]), back=st.integers(0, 6), named=st.booleans())
    def find_a_defect(self, defect: str, back: int, *, named: bool) -> None:
        can = self.counter - back
        if can > 0:
            self.write("defect", defect=defect, first=can if named else None, last=can if named else None)

    @rule(data=st.data())
    def strike(self, data: st.DataObject) -> None:
        unsealed = [number for number, event in enumerate(self.log) if event.kind != "sealed"]
        if unsealed:
            number = data.draw(st.sampled_from(unsealed))
            self.log[number] = replace(self.log[number], struck=True)

    @invariant()
    def held_cans_are_those_that_carry_a_flag(self) -> None:
        found = still_held(self.log, DISPOSITIONS)
        assert {can for first, last in found.cans for can in range(first, last + 1)} == flagged(self.log)

    @invariant()
    def no_can_is_both_to_be_held_and_unchecked(self) -> None:
        to_hold = {can for hold in cans_to_hold(self.log, DISPOSITIONS) for can in in_ranges(hold.cans)}
        unchecked = [can for item in unchecked_before_change(self.log, DISPOSITIONS) for can in in_ranges(item.cans)]
        assert not to_hold & set(unchecked)
        assert len(unchecked) == len(set(unchecked))
        assert flagged(self.log) <= to_hold


def in_ranges(ranges: tuple[tuple[int, int], ...]) -> list[int]:
    return [can for first, last in ranges for can in range(first, last + 1)]


def flagged(log: list[Event]) -> set[int]:
    """One flag per can, straight from the rule, with every question asked anew of the whole log."""
    lines = [event for event in log if not event.struck]
    counters = [
        max(
            [
                0,
                *[
                    max(e.last or 0 if e.kind in {"sealed", "heated", "defect"} else 0, e.can_number or 0)
                    for e in lines[: n + 1]
                ],
            ]
        )
        for n in range(len(lines))
    ]

    def result(n: int) -> str:
        event = lines[n]
        if event.kind == "defect":
            return "bad" if event.defect == "vee" else ""
        return {"good": "good", "accept": "good", "bad": "bad", "reject": "bad"}.get(event.result, "")

    def can_of(n: int) -> int | None:
        event = lines[n]
        if event.kind == "defect":
            return event.first
        return None if event.kind == "test-can" else event.can_number

    def overruled(n: int, seen: int) -> bool:
        for later in range(n + 1, seen + 1):
            if counters[later] > counters[n] or lines[later].kind in {"adjustment", "jam", "can-change", "close"}:
                return False
            if result(later) == "bad":
                return True
        return False

    flags: set[int] = set()
    gone: set[int] = set()
    for n, event in enumerate(lines):
        for earlier in range(n):  # whatever is sealed on a sealer that failed and is not good again
            again = any(
                result(k) == "good" and (can_of(k) is None or (can_of(k) or 0) > counters[earlier])
                for k in range(earlier, n)
            )
            if result(earlier) == "bad" and not again:
                flags |= set(range(counters[n - 1] + 1, counters[n] + 1))
        if result(n) == "bad":
            bad = can_of(n)
            vouched = [
                counters[k] if can_of(k) is None else can_of(k) or 0
                for k in range(n)
                if result(k) == "good" and not overruled(k, n)
            ]
            known = max([0, *[number for number in vouched if (number < bad if bad else number <= counters[n])]])
            flags |= set(range(known + 1, counters[n] + 1))
        cans = set(range(event.first or 1, (event.last or 0) + 1))
        if event.kind == "hold":
            flags |= cans
        if event.kind == "release":
            flags -= cans
        if event.kind == "discard":
            gone |= cans
    return flags - gone


TestADay = ADay.TestCase
TestADay.settings = settings(max_examples=60, stateful_step_count=30, deadline=None)
