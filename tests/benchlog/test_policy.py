"""What is due at the bench and what was missed."""

from __future__ import annotations

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule

from benchlog_days import KEY, a_day
from tinwright.benchlog import REASONS, Due, Event, Policy, missed_checks, what_is_due

POLICY = Policy(test_cans=2, recheck_cans=24, recheck_minutes=30)
STARTED = "09:00 T\n09:01 T\n09:05 V 1\n"


def due(text: str, now: str) -> list[tuple[str, tuple[str, ...], int]]:
    """What comes before another can is sealed."""
    return [(item.check, item.reasons, item.cans_left) for item in what_is_due(a_day(text), POLICY, now) if item.is_now]


def missed(text: str) -> list[tuple[str, tuple[str, ...], str, tuple[int, int]]]:
    return [(item.check, item.reasons, item.at, item.cans) for item in missed_checks(a_day(text), POLICY)]


def counts(text: str, now: str) -> tuple[int, int | None]:
    (interval,) = (item for item in what_is_due(a_day(text), POLICY, now) if item.check == "check")
    return interval.cans_left, interval.minutes_left


def test_a_row_of_test_cans_is_due_before_the_first_can_and_counts_down() -> None:
    def left(text: str) -> list[int]:
        return [item.test_cans for item in what_is_due(a_day(text), POLICY, "09:10") if item.check == "test-cans"]

    assert left("09:00 set-up") == [2]
    assert left("09:00 set-up\n09:05 T") == [1]
    assert left("09:00 set-up\n09:05 T\n09:06 T") == []
    assert left("09:00 set-up\n09:05 T\n09:06 T!") == [2]
    assert left("09:00 set-up\n09:05 T\n09:06 adjust\n09:07 T") == [1]


def test_then_the_first_can_is_looked_at() -> None:
    ready = "09:00 T\n09:01 T"
    assert due(ready, "09:02") == []
    assert due(f"{ready}\n09:05 sealed 1", "09:06") == [("next-can", ("start",), 0)]
    assert due(f"{ready}\n09:05 V 1", "09:06") == []
    (next_can,) = (item for item in what_is_due(a_day(ready), POLICY, "09:02") if item.check == "next-can")
    assert (next_can.can_number, next_can.cans_left) == (1, 1)


def test_cans_and_minutes_count_down_from_the_last_look() -> None:
    assert counts(STARTED, "09:05") == (24, 30)
    assert counts(f"{STARTED}09:10 sealed 2-11", "09:15:30") == (14, 19)
    assert due(f"{STARTED}09:30 sealed 2-25", "09:31") == [("check", ("interval-cans",), 0)]
    assert due(f"{STARTED}09:20 sealed 2-5", "09:35") == [("check", ("interval-minutes",), 20)]
    assert counts(f"{STARTED}09:20 sealed 2-30", "09:41") == (-5, -6)


TEARING = Policy(2, 24, 30, teardown_cans=10, teardown_minutes=60, end_check=3)
"""A can is torn down every ten cans or every hour, and one before the day is closed."""
TORN = "09:00 T\n09:01 D\n09:05 V 1\n"


def torn_due(text: str, now: str, policy: Policy = TEARING) -> list[tuple[str, ...]]:
    """Why a can is torn down before another is sealed."""
    return [item.reasons for item in what_is_due(a_day(text), policy, now) if item.is_now and item.check == "teardown"]


def test_a_teardown_is_due_by_cans_or_minutes_and_no_look_takes_its_place() -> None:
    assert torn_due(f"{TORN}09:20 sealed 2-9", "09:21") == []
    assert torn_due(f"{TORN}09:20 sealed 2-12", "09:21") == [("teardown-cans",)]
    assert torn_due(f"{TORN}09:20 sealed 2-12\n09:22 V 12", "09:23") == [("teardown-cans",)]
    assert torn_due(f"{TORN}09:20 sealed 2-12\n09:22 M 12", "09:23") == [("teardown-cans",)]
    assert torn_due(f"{TORN}09:20 sealed 2-12\n09:22 D", "09:23") == []
    assert torn_due(f"{TORN}09:20 sealed 2-5\n09:40 V 5\n10:01 sealed 6", "10:02") == [("teardown-minutes",)]
    assert torn_due(f"{TORN}09:20 sealed 2-12", "09:21", POLICY) == []


def test_the_day_is_closed_only_after_the_check_the_program_asks_for() -> None:
    def missed_at_the_end(text: str) -> list[str]:
        found = missed_checks(a_day(text), TEARING)
        return [item.check for item in found if item.check == "end-check"]

    sealed = f"{TORN}09:20 sealed 2-9\n09:25 V 9\n"
    assert missed_at_the_end(f"{sealed}09:30 close") == ["end-check"]
    assert missed_at_the_end(f"{sealed}09:27 D\n09:30 close") == []


def test_a_pause_does_not_count_as_work() -> None:
    assert counts(f"{STARTED}09:15 pause", "10:30") == (24, 20)
    assert counts(f"{STARTED}09:15 pause\n09:25 resume", "09:30") == (24, 15)


def test_whatever_is_done_at_the_sealer_ends_a_pause() -> None:
    assert counts(f"{STARTED}09:15 pause\n09:20 heated 1-1", "09:30") == (24, 20)
    assert counts(f"{STARTED}09:15 pause\n09:25 sealed 2-3", "09:30") == (22, 15)


@pytest.mark.parametrize(
    ("word", "reason"), [("adjust", "adjustment"), ("size", "size"), ("lids", "lid-lot"), ("set-up", "set-up")]
)
def test_whatever_touches_the_setting_asks_for_the_row_and_the_next_can(word: str, reason: str) -> None:
    changed = f"{STARTED}09:10 sealed 2-9\n09:11 {word}"
    assert due(changed, "09:12") == [("test-cans", (reason,), 0)]
    assert due(f"{changed}\n09:13 T\n09:14 T\n09:15 sealed 10", "09:16") == [("next-can", (reason,), 0)]
    assert due(f"{changed}\n09:13 T\n09:14 T\n09:15 V 10", "09:16") == []


def test_changes_with_no_can_between_ask_for_one_row() -> None:
    assert due(f"{STARTED}09:10 V! 2\n09:11 adjust\n09:12 size\n09:13 set-up", "09:14") == [
        ("test-cans", ("failed", "adjustment", "size", "set-up"), 0)
    ]


def test_after_a_jam_the_very_next_can_is_looked_at_full_or_empty() -> None:
    jam = f"{STARTED}09:10 sealed 2-9\n09:11 jam"
    assert due(jam, "09:12") == []
    assert due(f"{jam}\n09:12 sealed 10", "09:12") == [("next-can", ("jam",), 0)]
    assert due(f"{jam}\n09:12 V 10", "09:12") == []
    assert due(f"{jam}\n09:12 T\n09:13 sealed 10-11", "09:13") == []
    assert due(f"{jam}\n09:12 V 9\n09:13 sealed 10", "09:13") == [("next-can", ("jam",), 0)]


def test_a_long_stop_asks_for_the_next_can() -> None:
    assert due(f"{STARTED}09:10 pause\n09:40 resume\n09:41 sealed 2", "09:41") == []
    assert due(f"{STARTED}09:10 pause\n09:40:01 resume\n09:41 sealed 2", "09:41") == [("next-can", ("long-stop",), 0)]


def test_a_failed_check_stops_the_sealer_until_the_row_is_good() -> None:
    assert due(f"{STARTED}09:10 V! 2", "09:11") == [("test-cans", ("failed",), 0)]
    assert due(f"{STARTED}09:10 sealed 2-5\n09:11 defect vee", "09:11") == [("test-cans", ("failed",), 0)]


def test_a_measurement_to_be_repeated_is_no_look_and_is_due_again_at_once() -> None:
    again = f"{STARTED}09:10 M? 5"
    assert due(again, "09:11") == [("measure-again", ("measure-again",), 0)]
    assert counts(again, "09:15") == (20, 20)
    assert due(f"{again}\n09:12 V 5", "09:13") == [("measure-again", ("measure-again",), 0)]
    assert due(f"{again}\n09:12 M 5", "09:13") == []
    assert due(f"{again}\n09:12 M! 5", "09:13") == [("test-cans", ("failed",), 0)]


def test_nothing_is_due_when_the_day_is_closed() -> None:
    assert what_is_due(a_day("09:00 T\n09:30 close"), POLICY, "12:00") == []


def test_an_old_can_looked_at_counts_for_no_more_than_it_is() -> None:
    assert counts(f"{STARTED}09:10 sealed 2-20\n09:15 V 10", "09:15") == (14, 30)
    assert counts(f"{STARTED}09:10 sealed 2-20\n09:15 V 20\n09:30 V 10", "09:30") == (24, 15)


def test_a_day_by_the_rules_misses_nothing() -> None:
    assert (
        missed(
            f"{STARTED}09:30 V 25\n09:31 jam\n09:35 V 26\n09:50 V! 30\n09:55 adjust\n09:58 T\n09:59 T\n10:02 V 31\n10:20 V 55\n10:21 close"
        )
        == []
    )


def test_test_cans_not_made_are_missed_with_every_can_sealed_without_them() -> None:
    assert missed("09:05 V 1\n09:20 V 8\n09:25 close") == [("test-cans", ("start",), "09:05", (1, 8))]
    assert missed("09:00 T\n09:05 V 1\n09:20 V 8\n09:25 close") == [("test-cans", ("start",), "09:05", (1, 8))]
    (late,) = missed_checks(a_day("09:05 V 1\n09:20 T\n09:21 T\n09:22 V 2"), POLICY)
    assert (late.cans, late.made and late.made.at) == ((1, 1), "09:21")


def test_a_next_can_that_was_let_by_is_missed() -> None:
    assert missed(f"{STARTED}09:11 jam\n09:12 sealed 2\n09:13 sealed 3-6\n09:14 V 6\n09:15 close") == [
        ("next-can", ("jam",), "09:13", (2, 6))
    ]
    assert missed(f"{STARTED}09:11 jam\n09:12 sealed 2") == []
    assert missed(f"{STARTED}09:11 jam\n09:12 sealed 2\n09:15 close") == [("next-can", ("jam",), "09:15", (2, 2))]


def test_a_can_passed_over_by_a_second_jam_is_missed_too() -> None:
    assert missed(f"{STARTED}09:11 jam\n09:12 sealed 2\n09:13 jam\n09:14 V 3\n09:15 close") == [
        ("next-can", ("jam",), "09:14", (2, 3))
    ]


def test_the_interval_is_missed_by_cans_by_minutes_or_both() -> None:
    assert missed(f"{STARTED}09:20 V 26") == [("check", ("interval-cans",), "09:20", (2, 26))]
    assert missed(f"{STARTED}09:35 V 9\n09:40 close") == []
    assert missed(f"{STARTED}09:35:01 V 9") == [("check", ("interval-minutes",), "09:35:01", (2, 9))]
    assert missed(f"{STARTED}09:15 pause\n09:25 resume\n09:45 V 9") == []
    (gap,) = missed_checks(a_day(f"{STARTED}10:00 sealed 2-74\n10:01 close"), POLICY)
    assert (gap.reasons, gap.at, gap.cans, gap.times, gap.made) == (
        ("interval-cans", "interval-minutes"),
        "10:00",
        (2, 74),
        3,
        None,
    )


def test_time_after_the_last_can_is_no_gap() -> None:
    assert missed(f"{STARTED}09:20 sealed 2-9\n11:00 close") == []
    assert missed(f"{STARTED}09:40 sealed 2-9\n09:50 pause\n11:00 close") == [
        ("check", ("interval-minutes",), "09:40", (2, 9))
    ]


def test_a_measurement_never_repeated_is_missed_at_the_close() -> None:
    assert missed(f"{STARTED}09:10 M? 5\n09:20 close") == [("measure-again", ("measure-again",), "09:20", (5, 5))]
    assert missed(f"{STARTED}09:10 M? 5\n09:20 sealed 6-7") == [("measure-again", ("measure-again",), "09:20", (5, 7))]


def test_struck_lines_ask_for_nothing() -> None:
    from dataclasses import replace

    day = a_day(f"{STARTED}09:10 jam\n09:12 sealed 2-5")
    assert [item.reasons for item in missed_checks(day, POLICY)] == [("jam",)]
    assert missed_checks([*day[:3], replace(day[3], struck=True), day[4]], POLICY) == []


class AnHonestBench(RuleBasedStateMachine):
    """Whoever does what is due before sealing another can misses nothing; whoever does not, misses something."""

    def __init__(self) -> None:
        super().__init__()
        self.policy = Policy(test_cans=2, recheck_cans=5, recheck_minutes=10)
        self.log: list[Event] = []
        self.clock = 9 * 3600
        self.counter = 0
        self.slips = 0

    def write(self, kind: str, **entries: object) -> None:
        self.clock += 20
        self.log.append(Event(f"a-{len(self.log) + 1}", KEY, self.now(), kind, **entries))  # type: ignore[arg-type]

    def now(self) -> str:
        return f"{self.clock // 3600:02}:{self.clock // 60 % 60:02}:{self.clock % 60:02}"

    def due_now(self) -> list[Due]:
        self.clock += 40  # sealing a can takes a minute
        found = [item for item in what_is_due(self.log, self.policy, self.now()) if item.is_now]
        self.clock -= 40
        return found

    def do_what_is_due(self) -> None:
        while found := self.due_now():
            if found[0].check == "test-cans":
                self.write("test-can", result="good", can_number=self.counter)
            elif found[0].check == "measure-again":
                self.write("measured-check", result="accept", can_number=found[0].can_number)
            elif self.counter == 0:
                self.write("test-can", result="good", can_number=0)
            else:
                self.write("visual-check", result="good", can_number=self.counter)

    @rule()
    def seal_with_care(self) -> None:
        self.do_what_is_due()
        self.counter += 1
        self.write("sealed", first=self.counter, last=self.counter)

    @rule(kind=st.sampled_from(["jam", "adjustment", "can-change", "lid-lot", "set-up"]))
    def change(self, kind: str) -> None:
        self.do_what_is_due()
        self.write(kind)

    @rule(minutes=st.integers(1, 25))
    def rest(self, minutes: int) -> None:
        self.write("pause")
        self.clock += minutes * 60
        self.write("resume")

    @rule(result=st.sampled_from(["accept", "measure-again", "reject"]))
    def measure(self, result: str) -> None:
        if self.counter:
            self.write("measured-check", result=result, can_number=self.counter)

    @rule(skip=st.integers(0, 9))
    def seal_a_can_without_looking(self, skip: int) -> None:
        if skip == 9:
            self.slips += any(item.check == "test-cans" for item in self.due_now())
            self.counter += 1
            self.write("sealed", first=self.counter, last=self.counter)
            self.counter += 1
            self.write("sealed", first=self.counter, last=self.counter)
            self.skipped = True

    @invariant()
    def missed_is_what_was_not_done(self) -> None:
        found = missed_checks(self.log, self.policy)
        if not getattr(self, "skipped", False):
            assert found == []
        assert sum(item.check == "test-cans" for item in found) >= bool(self.slips)
        assert all(1 <= item.cans[0] <= item.cans[1] <= self.counter for item in found)
        assert all(reason in REASONS for item in found for reason in item.reasons)


TestAnHonestBench = AnHonestBench.TestCase
TestAnHonestBench.settings = settings(max_examples=40, stateful_step_count=40, deadline=None)
