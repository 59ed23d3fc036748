"""What the programme's policy asks for at the bench, what of it is due now, and what was missed.

Four things are asked for, all counted by the counter of the sealer:

- A **row of test cans**, all good, one after the other, before the first can is filled and after whatever touches the
  setting: a set-up, an adjustment, another can size, another lot of lids, a failed check. A bad one or another change
  begins the row again. Then the very next can sealed is looked at.
- A **look at a can**: the very next one after a jam or a stop longer than the interval; otherwise after so many cans or
  so many minutes of work, whichever comes first. Pauses do not count as work.

A check that must be measured again is no look: the next one is due at once. So say the procedures `make-test-can` and
`mid-session-recheck`; the numbers are the programme's own, for none are published for hand sealers.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from tinwright.benchlog.checks import CHECKS, LOOKED_AT, NO_DISPOSITIONS, TORN_DOWN, outcome_of, reach_of, seconds
from tinwright.benchlog.checks_due import Due, Missed, Policy
from tinwright.benchlog.ranges import RUN
from tinwright.benchlog.writing import read_lines

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from tinwright.benchlog.events import Event
    from tinwright.benchlog.ranges import Range
    from tinwright.benchlog.writing import Line

__all__ = ["cans_before_end_check", "missed_checks", "what_is_due"]

_TOUCH = MappingProxyType({"set-up": "set-up", "adjustment": "adjustment", "can-change": "size", "lid-lot": "lid-lot"})
"""Kinds of event that touch the setting, and the reason each gives."""
_IN_A_PAUSE = frozenset({"pause", "heated", "cause", "hold", "release", "discard"})
"""What may happen while the sealer stands still; anything else ends a pause."""
_TEST_CAN_IS_ENOUGH = frozenset({"jam", "long-stop"})
"""Reasons to look at the next can that a test can settles, for it is the next can sealed."""


def what_is_due(
    events: Iterable[Event], policy: Policy, now: str, dispositions: Mapping[str, str] = NO_DISPOSITIONS
) -> list[Due]:
    """Return what is due in one session, the most urgent first; nothing once the day is closed.

    Args:
        events: All events of the session so far, in any order.
        policy: The programme's rules.
        now: Local time of day, as in `09:05`.
        dispositions: What the content says of the can, by id of the defect; see `checks.outcome_of`.

    >>> from tinwright.benchlog.checks_due import Policy
    >>> what_is_due([], Policy(test_cans=2, recheck_cans=24, recheck_minutes=30), "09:00")[0].test_cans
    2
    """
    bench = _read(events, policy, dispositions)
    return [] if bench.closed else bench.due(now)


def missed_checks(
    events: Iterable[Event], policy: Policy, dispositions: Mapping[str, str] = NO_DISPOSITIONS
) -> list[Missed]:
    """Return each check that the policy asked for in one session and that was not made, or made too late.

    A gap in which the interval passed three times is one entry with `times=3`. While the day is not closed, what may
    still be made in time is not missed.

    Args:
        events: All events of the session, in any order.
        policy: The programme's rules.
        dispositions: What the content says of the can, by id of the defect; see `checks.outcome_of`.
    """
    bench = _read(events, policy, dispositions)
    bench.give_up()
    return sorted(bench.missed, key=lambda missed: (seconds(missed.at), missed.cans))


def cans_before_end_check(
    events: Iterable[Event], policy: Policy, dispositions: Mapping[str, str] = NO_DISPOSITIONS
) -> Range | None:
    """Return the cans that the check at the end of the session is still to be made for; None when there are none.

    Args:
        events: All events of the session so far, in any order.
        policy: The programme's rules.
        dispositions: What the content says of the can, by id of the defect; see `checks.outcome_of`.
    """
    return _read(events, policy, dispositions).cans_at_the_end()


@dataclass(frozen=True)
class _Asked:
    """A check that is asked for and still to be made."""

    check: str
    reasons: tuple[str, ...]
    after: int
    """The last can sealed when it was asked for."""
    allowed: int
    """Cans that may be sealed before it."""
    can_number: int | None = None
    """The can to look at."""
    asked_by: Event | None = None
    overrun: str = ""
    """When the first can too many was sealed."""

    def left(self, counter: int) -> int:
        return self.after + self.allowed - counter


_ROW_AT_THE_START = _Asked("test-cans", ("start",), 0, 0)
_CAN_AT_THE_START = _Asked("next-can", ("start",), 0, 1, 1)


@dataclass
class _Interval:
    """Cans and minutes that may pass between two checks that reach so far."""

    check: str
    reach: int
    names: tuple[str, str]
    """Reasons for a limit of cans and of minutes."""
    cans: int
    """Most cans; 0 for no such limit."""
    minutes: int
    checked: int = 0
    """The last can that was looked at."""
    checked_at: int | None = None
    """Second of the day of that look, moved on by every pause since."""
    sealed: tuple[str, int] = ("", 0)
    """When the last can was sealed, and after how many seconds of work since the look."""

    def worked(self, until: int) -> int:
        return 0 if self.checked_at is None else max(0, until - self.checked_at)

    def missed(self, counter: int, worked: int) -> tuple[tuple[str, ...], int]:
        """Return why, and how often, a check is missing."""
        sealed = counter - self.checked
        by_cans = max(0, sealed - 1) // self.cans if self.cans else 0
        by_minutes = max(0, worked - 1) // (self.minutes * 60) if self.minutes and sealed > 1 else 0
        reasons = tuple(name for name, times in zip(self.names, (by_cans, by_minutes), strict=True) if times)
        return reasons, max(by_cans, by_minutes)


_TEARDOWN_AT_THE_START = _Asked("teardown", ("start",), 0, 0)


class _Bench:
    """The log read in order, as far as it has got. Cans are counted through all runs of the counter."""

    def __init__(self, policy: Policy, dispositions: Mapping[str, str]) -> None:
        self.policy = policy
        self.dispositions = dispositions
        self.counter = 0
        self.runs = [0]
        """How many cans were sealed before each run."""
        self.asked = [_ROW_AT_THE_START, _CAN_AT_THE_START]
        """What is still to be made: one row and one can torn down at most, and looks at cans."""
        self.row = 0
        """Good test cans in a row."""
        self.look = _Interval(
            "check", LOOKED_AT, ("interval-cans", "interval-minutes"), policy.recheck_cans, policy.recheck_minutes
        )
        self.intervals = [self.look]
        if policy.tears_down:
            self.asked.insert(1, _TEARDOWN_AT_THE_START)
            names = ("teardown-cans", "teardown-minutes")
            self.intervals.append(
                _Interval("teardown", TORN_DOWN, names, policy.teardown_cans, policy.teardown_minutes)
            )
        self.good_at_the_end = 0
        """The last can that a check found good which reaches as far as the one at the end."""
        self.paused_at: int | None = None
        self.closed = ""
        self.missed: list[Missed] = []
        self.clock = 0
        self.set_back = 0
        """Seconds by which the clock went back so far."""

    def read(self, line: Line) -> None:
        event = line.event
        now = self.clock if event.on else self._time(event.at)
        self._end_pause(event, now)
        self._count(line, now)
        can = self._place(line.can)
        outcome = outcome_of(event, self.dispositions)
        if outcome == "failed":
            self._failed(event, can, now)
        elif outcome == "good":
            self._good(event, can, now)
        elif event.kind in CHECKS:
            self._ask(_Asked("measure-again", ("measure-again",), self.counter, 0, can, event))
        elif event.kind in _TOUCH:
            at_start = event.kind == "set-up" and self.counter == 0
            self._ask_row("start" if at_start else _TOUCH[event.kind], event)
        elif event.kind == "jam":
            self._ask_next_can("jam", event)
        elif event.kind == "pause":
            self.paused_at = now if self.paused_at is None else self.paused_at
        elif event.kind == "close":
            self.closed = event.at
            self._report_end(event)

    def due(self, at: str) -> list[Due]:
        now = max(self.clock, seconds(at) + self.set_back)
        found = []
        for asked in self.asked:
            wanted = self.policy.test_cans - self.row if asked.check == "test-cans" else 0
            can = None if asked.can_number is None else self._can(asked.can_number)
            found.append(Due(asked.check, asked.reasons, asked.left(self.counter), None, wanted, can, asked.asked_by))
        open_checks = {asked.check for asked in self.asked}
        for each in self.intervals:
            if each.checked_at is None or each.check in open_checks:
                continue
            cans_left = each.cans - (self.counter - each.checked) if each.cans else None
            worked = each.worked(now if self.paused_at is None else min(now, self.paused_at))
            minutes_left = (each.minutes * 60 - worked) // 60 if each.minutes else None
            both = tuple(zip(each.names, (cans_left, minutes_left), strict=True))
            over = tuple(reason for reason, left in both if left is not None and left <= 0)
            asked_for = tuple(reason for reason, left in both if left is not None)
            found.append(Due(each.check, over or asked_for, cans_left, minutes_left))
        return sorted(found, key=lambda due: not due.is_now)

    def give_up(self) -> None:
        """Take whatever is too late by the end of the log as missed."""
        for asked in self.asked:
            begun = self.counter > asked.after or asked.check == "measure-again"
            self._report(replace(asked, overrun=asked.overrun or (self.closed if begun else "")), None)
        for each in self.intervals:
            self._report_interval(each, each.sealed[1], each.sealed[0], None)

    def cans_at_the_end(self) -> Range | None:
        if not self.policy.end_check or self.good_at_the_end >= self.counter:
            return None
        return self._can(self.good_at_the_end + 1), self._can(self.counter)

    def _time(self, at: str) -> int:
        """Return a time as seconds of the day; a clock that was set back stands still and then goes on."""
        now = seconds(at) + self.set_back
        if now < self.clock:
            self.set_back += self.clock - now
            now = self.clock
        self.clock = now
        return now

    def _place(self, can: int | None) -> int | None:
        """Return the how manieth can of the day it is."""
        if can is None:
            return None
        run, number = divmod(can, RUN)
        while run >= len(self.runs):
            self.runs.append(self.counter)
        return self.runs[run] + number

    def _can(self, place: int) -> int:
        run = max(run for run, before in enumerate(self.runs) if before < place or run == 0)
        return run * RUN + place - self.runs[run]

    def _end_pause(self, event: Event, now: int) -> None:
        if self.paused_at is None or event.kind in _IN_A_PAUSE:
            return
        length = max(0, now - self.paused_at)
        self.paused_at = None
        for each in self.intervals:
            if each.checked_at is not None:
                each.checked_at += length
        if length > self.policy.recheck_minutes * 60 and event.kind != "close":
            self._ask_next_can("long-stop", event)

    def _count(self, line: Line, now: int) -> None:
        shown = self._place(line.shown) or 0
        if shown <= self.counter:
            return
        self.counter = shown
        for each in self.intervals:
            each.sealed = (line.event.at, each.worked(now))
        self.asked = [
            replace(asked, overrun=line.event.at) if not asked.overrun and asked.left(shown) < 0 else asked
            for asked in self.asked
        ]

    def _good(self, event: Event, can: int | None, now: int) -> None:
        if event.kind == "test-can":
            self._good_test_can(event)
        self._settle(event, can, measured=event.kind == "measured-check")
        self._looked_at(self.counter if can is None else can, event, now)
        if reach_of(event) >= self.policy.end_check:
            self.good_at_the_end = max(self.good_at_the_end, self.counter if can is None else can)

    def _good_test_can(self, event: Event) -> None:
        self.row += 1
        if self.row >= self.policy.test_cans:
            self._made(event, [asked for asked in self.asked if asked.check == "test-cans"])

    def _failed(self, event: Event, can: int | None, now: int) -> None:
        if event.kind in CHECKS:
            if can is not None:
                self._settle(event, can, measured=True)
            self._made(event, [asked for asked in self.asked if asked.check == "measure-again"])
            self._looked_at(self.counter if can is None else can, event, now)
        self._ask_row("failed", event)

    def _settle(self, event: Event, can: int | None, *, measured: bool) -> None:
        """Take checks asked for as made by a look at `can`, or at a test can when that is None."""

        def is_settled(asked: _Asked) -> bool:
            if asked.check == "measure-again":
                return measured and (can is None or can >= (asked.can_number or 1))
            if asked.check == "teardown":
                return reach_of(event) >= TORN_DOWN and (can is None or can > asked.after)
            if can is None:
                return asked.check == "next-can" and _TEST_CAN_IS_ENOUGH.issuperset(asked.reasons)
            return asked.check == "next-can" and can > asked.after

        self._made(event, [asked for asked in self.asked if is_settled(asked)])

    def _looked_at(self, can: int, event: Event, now: int) -> None:
        for each in self.intervals:
            if reach_of(event) < each.reach or (can < self.counter and can <= each.checked):
                continue
            self._report_interval(each, each.worked(now), event.at, event)
            each.checked = max(each.checked, can)
            each.checked_at = now
            each.sealed = (event.at, 0)

    def _ask_row(self, reason: str, event: Event) -> None:
        self.row = 0
        self._ask(_Asked("test-cans", (reason,), self.counter, 0, None, event))
        if self.policy.tears_down:
            self._ask(_Asked("teardown", (reason,), self.counter, 0, None, event))
        self._ask_next_can(reason, event)

    def _ask_next_can(self, reason: str, event: Event) -> None:
        self._ask(_Asked("next-can", (reason,), self.counter, 1, self.counter + 1, event))

    def _ask(self, asked: _Asked) -> None:
        """Ask for a check, in one with what is asked for already if no can was sealed since."""
        for before in [before for before in self.asked if before.check == asked.check]:
            if before.after == asked.after:
                asked = replace(asked, reasons=tuple(dict.fromkeys([*before.reasons, *asked.reasons])))
                self.asked.remove(before)
            elif asked.check in {"test-cans", "teardown"}:
                self.asked.remove(before)
                self._report(before, None)
        self.asked.append(asked)

    def _made(self, event: Event, made: list[_Asked]) -> None:
        for asked in made:
            self.asked.remove(asked)
            self._report(asked, event)

    def _report(self, asked: _Asked, made: Event | None) -> None:
        first = min(asked.can_number or asked.after + 1, asked.after + 1)
        if asked.overrun and first <= self.counter:
            cans = (self._can(first), self._can(self.counter))
            self.missed.append(Missed(asked.check, asked.reasons, asked.overrun, cans, asked.asked_by, made))

    def _report_interval(self, each: _Interval, worked: int, at: str, made: Event | None) -> None:
        reasons, times = each.missed(self.counter, worked)
        if reasons and not (each.check == "teardown" and each.checked_at is None):
            cans = (self._can(each.checked + 1), self._can(self.counter))
            self.missed.append(Missed(each.check, reasons, at, cans, None, made, times))

    def _report_end(self, event: Event) -> None:
        cans = self.cans_at_the_end()
        if cans:
            self.missed.append(Missed("end-check", ("end",), event.at, cans, event))


def _read(events: Iterable[Event], policy: Policy, dispositions: Mapping[str, str]) -> _Bench:
    bench = _Bench(policy, dispositions)
    for line in read_lines(events):
        bench.read(line)
    return bench
