"""Which cans to hold when a check fails, which are still held, and which nobody vouches for.

The rule, by the counter of the sealer and never by the clock:

- A good check vouches for every can up to the one looked at; a good test can for every can sealed before it.
- A failed check holds every can after the last good check before the bad can, as far as the last can sealed. Cans
  sealed after it are held too, until a test can or a can sealed later is found good.
- A good check is overruled by a failed one that follows before another can is sealed and before anything is changed:
  looks in one go are one look, and it failed.
- A look back at a can already held releases nothing. Releasing takes a reason and a person.

This holds at times more than it must, never less. Whoever decides is shown the good checks in between.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from tinwright.benchlog.checks import CHANGES, NO_DISPOSITIONS, cans_shown, checked_can, outcome_of
from tinwright.benchlog.events import in_order
from tinwright.benchlog.ranges import joined, shared, without

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from tinwright.benchlog.events import Event
    from tinwright.benchlog.ranges import Ranges

__all__ = ["Held", "Hold", "Unchecked", "cans_to_hold", "held_from_day_before", "still_held", "unchecked_before_change"]


@dataclass(frozen=True)
class Hold:
    """Cans to hold, and why."""

    event: Event
    """The failed check, the defect found, or the order to hold cans."""
    cans: Ranges
    """The cans; empty when none was sealed since the last good check."""
    heated: Ranges
    """Those of them that have been in the canner."""
    since: Event | None = None
    """The last good check it reaches back to; None when it reaches back to the first can of the day."""
    until: Event | None = None
    """The good check that ended it; None while the sealer is not known to be good again."""
    looked_at: tuple[Event, ...] = ()
    """Good checks of cans among them: they release nothing, but help whoever decides."""


@dataclass(frozen=True)
class Held:
    """Cans still held: neither released nor discarded."""

    not_heated: Ranges
    """Those that have not been in the canner."""
    heated: Ranges
    """Those that have."""

    @property
    def cans(self) -> Ranges:
        """All of them."""
        return joined(self.not_heated, self.heated)


@dataclass(frozen=True)
class Unchecked:
    """Cans that nobody looked at before the sealer was changed or the day was closed."""

    change: Event
    """What was changed, or the close of the day."""
    cans: Ranges
    """The cans."""
    since: Event | None
    """The last good check before them."""


def cans_to_hold(events: Iterable[Event], dispositions: Mapping[str, str] = NO_DISPOSITIONS) -> list[Hold]:
    """Return what to hold for each failure and each order to hold, in the order of the log, released or not.

    Args:
        events: All events of one session, in any order.
        dispositions: What the content says of the can, by id of the defect; see `checks.outcome_of`.

    >>> from tinwright.benchlog.events import Event
    >>> key = ("2026-11-28", "Mill Street", "bench-crank-sealer")
    >>> day = [Event("a-1", key, "09:31", "visual-check", can_number=12, result="good"),
    ...        Event("a-2", key, "09:55", "sealed", first=13, last=17),
    ...        Event("a-3", key, "09:56", "visual-check", can_number=17, result="bad")]
    >>> [(hold.event.id, hold.since.id, hold.cans) for hold in cans_to_hold(day)]
    [('a-3', 'a-1', ((13, 17),))]
    """
    return _walk(events, dispositions).holds()


def still_held(events: Iterable[Event], dispositions: Mapping[str, str] = NO_DISPOSITIONS) -> Held:
    """Return the cans of one session that are held and neither released nor discarded.

    A release counts for what was held when it was written, and only with a reason and a person: what fails later is
    held again. Discarded cans are gone for good.
    """
    walk = _walk(events, dispositions)
    held = without(walk.held, walk.discarded)
    return Held(without(held, walk.heated), shared(held, walk.heated))


def unchecked_before_change(
    events: Iterable[Event], dispositions: Mapping[str, str] = NO_DISPOSITIONS
) -> list[Unchecked]:
    """Return the cans sealed before a change of the sealer, or before the close, and after the last good check.

    A good check after the change speaks for the new setting only. Cans that are to be held, or were released with a
    reason or discarded, are left out; so are cans up to one that was looked at afterwards and found good.
    """
    return _walk(events, dispositions).unchecked()


def held_from_day_before(
    day_before: Iterable[Event], day: Iterable[Event], dispositions: Mapping[str, str] = NO_DISPOSITIONS
) -> Hold | None:
    """Return the cans of the sealer's last session that the first failure of this one reaches back to.

    Numbers begin at 1 each day, so `cans_to_hold` stops at the first can. When a failure comes before any good check
    of the day, the cans after the last good check of the session before are held as well.

    Args:
        day_before: Events of the last session of the same sealer, on whatever day it was.
        day: Events of this session.
        dispositions: What the content says of the can, by id of the defect.
    """
    failed = next((hold for hold in cans_to_hold(day, dispositions) if hold.event.kind != "hold"), None)
    if failed is None or failed.since is not None:
        return None
    walk = _walk(day_before, dispositions)
    number, since = walk.last_good(walk.counter)
    cans = without([(number + 1, walk.counter)], walk.discarded)
    return Hold(failed.event, cans, shared(cans, walk.heated), since) if cans else None


@dataclass
class _Failure:
    event: Event
    first: int
    counter: int
    since: Event | None
    until: Event | None = None
    last: int = 0


@dataclass
class _Walk:
    """The log read in order, as far as it has got."""

    dispositions: Mapping[str, str]
    counter: int = 0
    goods: list[tuple[int, Event]] = field(default_factory=list)
    """Good checks that stand: the can each vouches up to."""
    in_one_go: int = 0
    """How many of them lie before the last can was sealed or the last change was made."""
    reasons: list[_Failure | Event] = field(default_factory=list)
    """Failures and orders to hold."""
    changes: list[tuple[Event, int, int, Event | None]] = field(default_factory=list)
    """Change, last can known good or belonging to an earlier change, last can sealed, last good check."""
    held: Ranges = ()
    heated: Ranges = ()
    released: Ranges = ()
    discarded: Ranges = ()

    def read(self, event: Event) -> None:
        shown = cans_shown(event)
        if shown > self.counter:
            if any(failure.until is None for failure in self._failures()):
                self.held = joined(self.held, [(self.counter + 1, shown)])
            self.counter = shown
            self.in_one_go = len(self.goods)
        cans = [(event.first or 1, event.last or 0)]
        outcome = outcome_of(event, self.dispositions)
        if outcome == "failed":
            self._fail(event)
        elif outcome == "good":
            self._vouch(event)
        elif event.kind in CHANGES or event.kind == "close":
            self._change(event)
        elif event.kind == "heated":
            self.heated = joined(self.heated, cans)
        elif event.kind == "hold":
            self.reasons.append(event)
            self.held = joined(self.held, cans)
        elif event.kind == "release" and event.reason and event.by:
            self.released = joined(self.released, cans)
            self.held = without(self.held, cans)
        elif event.kind == "discard":
            self.discarded = joined(self.discarded, cans)

    def last_good(self, before: int) -> tuple[int, Event | None]:
        """Return the highest can up to `before` that a good check vouches for, and that check."""
        found: tuple[int, Event | None] = (0, None)
        for number, event in self.goods:
            if found[0] <= number <= before:
                found = (number, event)
        return found

    def holds(self) -> list[Hold]:
        return [self._hold_of(reason) for reason in self.reasons]

    def unchecked(self) -> list[Unchecked]:
        settled = joined(self.released, self.discarded, *(hold.cans for hold in self.holds()))
        found = []
        for change, known, last, since in self.changes:
            looked_at = [number for number, event in self.goods if checked_can(event) and known < number <= last]
            cans = without([(max([known, *looked_at]) + 1, last)], settled)
            if cans:
                found.append(Unchecked(change, cans, since))
        return found

    def _failures(self) -> list[_Failure]:
        return [reason for reason in self.reasons if isinstance(reason, _Failure)]

    def _hold_of(self, reason: _Failure | Event) -> Hold:
        if not isinstance(reason, _Failure):
            cans = joined([(reason.first or 1, reason.last or 0)])
            return Hold(reason, cans, shared(cans, self.heated))
        last = self.counter if reason.until is None else reason.last
        cans = joined([(reason.first, last)])
        within = [event for _, event in self.goods if reason.first <= (checked_can(event) or 0) <= last]
        return Hold(reason.event, cans, shared(cans, self.heated), reason.since, reason.until, tuple(within))

    def _fail(self, event: Event) -> None:
        del self.goods[self.in_one_go :]
        bad = checked_can(event)
        number, since = self.last_good(self.counter if bad is None else bad - 1)
        self.reasons.append(_Failure(event, number + 1, self.counter, since))
        self.held = joined(self.held, [(number + 1, self.counter)])

    def _vouch(self, event: Event) -> None:
        can = checked_can(event)
        self.goods.append((self.counter if can is None else can, event))
        for failure in self._failures():
            if failure.until is None and (can is None or can > failure.counter):
                failure.until, failure.last = event, self.counter

    def _change(self, event: Event) -> None:
        number, since = self.last_good(self.counter)
        known = max(number, self.changes[-1][2] if self.changes else 0)
        self.changes.append((event, known, self.counter, since))
        self.in_one_go = len(self.goods)


def _walk(events: Iterable[Event], dispositions: Mapping[str, str]) -> _Walk:
    walk = _Walk(dispositions)
    ordered: Sequence[Event] = in_order(event for event in events if not event.struck)
    for event in ordered:
        walk.read(event)
    return walk
