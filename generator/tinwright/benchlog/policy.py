"""What the programme's policy asks for at the bench, what of it is due now, and what was missed.

Two things are asked for, and both are counted by the counter of the sealer:

- A **row of test cans**, all good, one after the other, before the first can is filled and after whatever touches the
  setting: a set-up, an adjustment, another can size, another lot of lids, a failed check. A bad one or another change
  begins the row again. Then the very next can sealed is looked at.
- A **look at a can**: the very next one after a jam or a stop longer than the interval; otherwise after so many cans or
  so many minutes of work, whichever comes first. Pauses do not count as work.

A check that must be measured again is no look: the next one is due at once. So say the procedures `make-test-can` and
`mid-session-recheck`; the numbers are the programme's own, for none are published for hand sealers.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from tinwright.benchlog.checks import CHECKS, NO_DISPOSITIONS, cans_shown, checked_can, outcome_of, seconds
from tinwright.benchlog.checks_due import Due, Missed, Policy
from tinwright.benchlog.events import in_order

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from tinwright.benchlog.events import Event

__all__ = ["missed_checks", "what_is_due"]

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
    return [] if bench.closed else bench.due(seconds(now))


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
class _Bench:
    """The log read in order, as far as it has got."""

    policy: Policy
    dispositions: Mapping[str, str]
    counter: int = 0
    asked: list[_Asked] = field(default_factory=lambda: [_ROW_AT_THE_START, _CAN_AT_THE_START])
    """What is still to be made: one row at most, and looks at cans."""
    row: int = 0
    """Good test cans in a row."""
    checked: int = 0
    """The last can that was looked at."""
    checked_at: int | None = None
    """Second of the day of that look, moved on by every pause since."""
    sealed: tuple[str, int] = ("", 0)
    """When the last can was sealed, and after how many seconds of work since the look."""
    paused_at: int | None = None
    closed: str = ""
    missed: list[Missed] = field(default_factory=list)

    def read(self, event: Event) -> None:
        self._end_pause(event)
        self._count(event)
        outcome = outcome_of(event, self.dispositions)
        if outcome == "failed":
            self._failed(event)
        elif outcome == "good":
            self._good(event)
        elif event.kind in CHECKS:
            again = _Asked("measure-again", ("measure-again",), self.counter, 0, checked_can(event), event)
            self._ask(again)
        elif event.kind in _TOUCH:
            at_start = event.kind == "set-up" and self.counter == 0
            self._ask_row("start" if at_start else _TOUCH[event.kind], event)
        elif event.kind == "jam":
            self._ask_next_can("jam", event)
        elif event.kind == "pause":
            self.paused_at = seconds(event.at) if self.paused_at is None else self.paused_at
        elif event.kind == "close":
            self.closed = event.at

    def due(self, now: int) -> list[Due]:
        found = []
        for asked in self.asked:
            wanted = self.policy.test_cans - self.row if asked.check == "test-cans" else 0
            left = asked.left(self.counter)
            found.append(Due(asked.check, asked.reasons, left, None, wanted, asked.can_number, asked.asked_by))
        if self.checked_at is not None:
            cans_left = self.policy.recheck_cans - (self.counter - self.checked)
            worked = self._worked(now if self.paused_at is None else min(now, self.paused_at))
            minutes_left = (self.policy.recheck_minutes * 60 - worked) // 60
            both = (("interval-cans", cans_left), ("interval-minutes", minutes_left))
            over = tuple(reason for reason, left in both if left <= 0)
            found.append(Due("check", over or ("interval-cans", "interval-minutes"), cans_left, minutes_left))
        return sorted(found, key=lambda due: not due.is_now)

    def give_up(self) -> None:
        """Take whatever is too late by the end of the log as missed."""
        for asked in self.asked:
            begun = self.counter > asked.after or asked.check == "measure-again"
            self._report(replace(asked, overrun=asked.overrun or (self.closed if begun else "")), None)
        self._report_interval(self.sealed[1], self.sealed[0], None)

    def _end_pause(self, event: Event) -> None:
        if self.paused_at is None or event.kind in _IN_A_PAUSE:
            return
        length = max(0, seconds(event.at) - self.paused_at)
        self.paused_at = None
        if self.checked_at is not None:
            self.checked_at += length
        if length > self.policy.recheck_minutes * 60 and event.kind != "close":
            self._ask_next_can("long-stop", event)

    def _count(self, event: Event) -> None:
        shown = cans_shown(event)
        if shown <= self.counter:
            return
        self.counter = shown
        self.sealed = (event.at, self._worked(seconds(event.at)))
        self.asked = [
            replace(asked, overrun=event.at) if not asked.overrun and asked.left(shown) < 0 else asked
            for asked in self.asked
        ]

    def _worked(self, until: int) -> int:
        return 0 if self.checked_at is None else max(0, until - self.checked_at)

    def _good(self, event: Event) -> None:
        can = checked_can(event)
        if event.kind == "test-can":
            self._good_test_can(event)
        self._settle(event, can, measured=event.kind == "measured-check")
        self._looked_at(self.counter if can is None else can, event)

    def _good_test_can(self, event: Event) -> None:
        self.row += 1
        if self.row >= self.policy.test_cans:
            self._made(event, [asked for asked in self.asked if asked.check == "test-cans"])

    def _failed(self, event: Event) -> None:
        if event.kind in CHECKS:
            can = checked_can(event)
            if can is not None:
                self._settle(event, can, measured=True)
            self._made(event, [asked for asked in self.asked if asked.check == "measure-again"])
            self._looked_at(self.counter if can is None else can, event)
        self._ask_row("failed", event)

    def _settle(self, event: Event, can: int | None, *, measured: bool) -> None:
        """Take looks asked for as made by a look at `can`, or at a test can when that is None."""

        def is_settled(asked: _Asked) -> bool:
            if asked.check == "measure-again":
                return measured and (can is None or can >= (asked.can_number or 1))
            if can is None:
                return asked.check == "next-can" and _TEST_CAN_IS_ENOUGH.issuperset(asked.reasons)
            return asked.check == "next-can" and can > asked.after

        self._made(event, [asked for asked in self.asked if is_settled(asked)])

    def _looked_at(self, can: int, event: Event) -> None:
        if can < self.counter and can <= self.checked:
            return
        self._report_interval(self._worked(seconds(event.at)), event.at, event)
        self.checked = max(self.checked, can)
        self.checked_at = seconds(event.at)
        self.sealed = (event.at, 0)

    def _ask_row(self, reason: str, event: Event) -> None:
        self.row = 0
        self._ask(_Asked("test-cans", (reason,), self.counter, 0, None, event))
        self._ask_next_can(reason, event)

    def _ask_next_can(self, reason: str, event: Event) -> None:
        self._ask(_Asked("next-can", (reason,), self.counter, 1, self.counter + 1, event))

    def _ask(self, asked: _Asked) -> None:
        """Ask for a check, in one with what is asked for already if no can was sealed since."""
        for before in [before for before in self.asked if before.check == asked.check]:
            if before.after == asked.after:
                asked = replace(asked, reasons=tuple(dict.fromkeys([*before.reasons, *asked.reasons])))
                self.asked.remove(before)
            elif asked.check == "test-cans":
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
            cans = (first, self.counter)
            self.missed.append(Missed(asked.check, asked.reasons, asked.overrun, cans, asked.asked_by, made))

    def _report_interval(self, worked: int, at: str, made: Event | None) -> None:
        sealed = self.counter - self.checked
        by_cans = max(0, sealed - 1) // self.policy.recheck_cans
        by_minutes = max(0, worked - 1) // (self.policy.recheck_minutes * 60) if sealed > 1 else 0
        both = (("interval-cans", by_cans), ("interval-minutes", by_minutes))
        reasons = tuple(reason for reason, times in both if times)
        if reasons:
            cans = (self.checked + 1, self.counter)
            self.missed.append(Missed("check", reasons, at, cans, None, made, max(by_cans, by_minutes)))


def _read(events: Iterable[Event], policy: Policy, dispositions: Mapping[str, str]) -> _Bench:
    bench = _Bench(policy, dispositions)
    for event in in_order(event for event in events if not event.struck):
        bench.read(event)
    return bench
