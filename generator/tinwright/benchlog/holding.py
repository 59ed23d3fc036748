"""Which cans to hold when a check fails, which are still held, and which nobody looked at.

The rule in words is `HOW_TO_HOLD`, and nothing here may let go a can that those words do not. In short:

- A check clears only what it can see: a fault is held back to the last good check that reached far enough to find it
  (`checks.reach_of`, `checks.reach_needed`) and was written before it (`writing.Line.is_after`).
- What is sealed after it is held too, until such a check of a test can or of a can sealed later is good.
- A good check is overruled by a failed one that follows before another can is sealed and before anything is changed.
- A release takes a reason and a person, and lets go what was held when it was written; never a can that was found bad.

This holds at times more than it must, never less. Whoever decides is shown the good checks in between.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from tinwright.benchlog.checks import (
    CHANGES,
    NO_DISPOSITIONS,
    NO_REACHES,
    checked_can,
    outcome_of,
    reach_needed,
    reach_of,
)
from tinwright.benchlog.ranges import RUN, joined, shared, without
from tinwright.benchlog.writing import read_lines, sealed_cans

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from tinwright.benchlog.events import Event
    from tinwright.benchlog.ranges import Ranges
    from tinwright.benchlog.writing import Line

__all__ = [
    "HOW_TO_HOLD",
    "Held",
    "Hold",
    "Unchecked",
    "bad_cans",
    "cans_to_hold",
    "held_from_day_before",
    "still_held",
    "unchecked_before_change",
]

HOW_TO_HOLD = tuple(
    " ".join(part.split())
    for part in """
A check clears only what it can see. Some faults show when a seam is looked at and felt, some only when it is measured
outside, some only when it is torn down. Each wider check includes the narrower ones.

When a fault is found, hold every can after the last good check that could have found this fault, through the last can
sealed. If the fault is not named, only a torn-down can counts.

A good check of a can clears the cans through that can. A good test can clears every can sealed before it.

Hold what is sealed after the fault, too, until a test can or a can sealed later is found good by a check that could
have found this fault.

Take looks in one go as one look: if one is bad, those found good just before it count for nothing.

Take a reading that must be measured again as no check. It clears nothing.

Count by the counter of the sealer, not by the clock. Each sealer has its own count.

If the counter goes back, a new run begins. Write B before each number on its cans, then C. The cans of the first run
have no letter.

What comes first is what was written first, on the same phone or sheet. A line of another counts as earlier only if the
writer had it already: the phone had imported it, the sheet follows that sheet, the office had both.

Release a can only with a reason and a name. A release lets go what was held when it was written. A can that was found
bad is never released.
""".strip().split("\n\n")
)
"""The rule in words, for readers and for whoever tests it."""


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
    """The last good check that could have found it; None when it reaches back to the first can of the day."""
    until: Event | None = None
    """The good check that ended it; None while the sealer is not known to be good again."""
    looked_at: tuple[Event, ...] = ()
    """Good checks of cans among them: they release nothing, but help whoever decides."""
    reach: int = 0
    """How far a check must reach to find the fault; 0 for an order."""


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


def cans_to_hold(
    events: Iterable[Event],
    dispositions: Mapping[str, str] = NO_DISPOSITIONS,
    reaches: Mapping[str, int] = NO_REACHES,
) -> list[Hold]:
    """Return what to hold for each failure and each order to hold, in the order of the log, released or not.

    Args:
        events: All events of one session, in any order.
        dispositions: What the content says of the can, by id of the defect; see `checks.outcome_of`.
        reaches: How far a check must reach to find a defect, by its id; see `checks.reach_needed`.

    >>> from tinwright.benchlog.events import Event
    >>> key = ("2026-11-28", "Mill Street", "bench-crank-sealer")
    >>> day = [Event("a-1", key, "09:31", "visual-check", can_number=12, result="good"),
    ...        Event("a-2", key, "09:55", "sealed", first=13, last=17),
    ...        Event("a-3", key, "09:56", "visual-check", can_number=17, result="bad", defect="vee")]
    >>> [(hold.event.id, hold.since.id, hold.cans) for hold in cans_to_hold(day, reaches={"vee": 1})]
    [('a-3', 'a-1', ((13, 17),))]
    >>> [hold.cans for hold in cans_to_hold(day)]  # a look cannot be known to find it
    [((1, 17),)]
    """
    return _Log(events, dispositions, reaches).holds


def still_held(
    events: Iterable[Event],
    dispositions: Mapping[str, str] = NO_DISPOSITIONS,
    reaches: Mapping[str, int] = NO_REACHES,
) -> Held:
    """Return the cans of one session that are held and neither released nor discarded.

    A release counts for what was held when it was written, and only with a reason and a person: what fails later is
    held again, and so is a can found bad, whenever that was. Discarded cans are gone for good.
    """
    log = _Log(events, dispositions, reaches)
    held = without(log.held, log.discarded)
    return Held(without(held, log.heated), shared(held, log.heated))


def bad_cans(events: Iterable[Event], dispositions: Mapping[str, str] = NO_DISPOSITIONS) -> Ranges:
    """Return the cans that were found bad: by a check, or as having a defect that holds cans."""
    return _Log(events, dispositions, NO_REACHES).bad


def unchecked_before_change(
    events: Iterable[Event],
    dispositions: Mapping[str, str] = NO_DISPOSITIONS,
    reaches: Mapping[str, int] = NO_REACHES,
) -> list[Unchecked]:
    """Return the cans sealed before a change of the sealer, or before the close, and after the last good check.

    A good check after the change speaks for the new setting only. Cans that are to be held, or were released with a
    reason or discarded, are left out; so are cans up to one that was looked at afterwards and found good.
    """
    return _Log(events, dispositions, reaches).unchecked()


def held_from_day_before(
    day_before: Iterable[Event],
    day: Iterable[Event],
    dispositions: Mapping[str, str] = NO_DISPOSITIONS,
    reaches: Mapping[str, int] = NO_REACHES,
) -> Hold | None:
    """Return the cans of the sealer's last session that the failures of this one reach back to.

    Numbers begin at 1 each day, so `cans_to_hold` stops at the first can. When no good check of the day before a
    failure could have found it, the cans after the last such check of the session before are held as well.

    Args:
        day_before: Events of the last session of the same sealer, on whatever day it was.
        day: Events of this session.
        dispositions: What the content says of the can, by id of the defect.
        reaches: How far a check must reach to find a defect, by its id.
    """
    failed = [hold for hold in cans_to_hold(day, dispositions, reaches) if hold.reach and hold.since is None]
    if not failed:
        return None
    widest = max(failed, key=lambda hold: hold.reach)
    log = _Log(day_before, dispositions, reaches)
    good = log.last_good([good for good in log.goods if good.reach >= widest.reach])
    cans = without(log.sealed_after(good), log.discarded)
    return (
        Hold(widest.event, cans, shared(cans, log.heated), good.line.event if good else None, reach=widest.reach)
        if cans
        else None
    )


@dataclass(frozen=True)
class _Good:
    """A good check that stands."""

    line: Line
    clears: int
    """The can it clears up to."""
    reach: int


class _Log:
    """The log of one session, read in the order of writing."""

    def __init__(self, events: Iterable[Event], dispositions: Mapping[str, str], reaches: Mapping[str, int]) -> None:
        self.lines = read_lines(events)
        self.sealed = sealed_cans(self.lines)
        outcomes = [(line, outcome_of(line.event, dispositions)) for line in self.lines]
        self.failed = [line for line, outcome in outcomes if outcome == "failed"]
        self.changes = [line for line in self.lines if line.event.kind in CHANGES or line.event.kind == "close"]
        good = [line for line, outcome in outcomes if outcome == "good" and not self._is_overruled(line)]
        self.goods = [_Good(line, line.count if line.can is None else line.can, reach_of(line.event)) for line in good]
        self.heated, self.discarded = self._of_kind("heated"), self._of_kind("discard")
        self.bad = joined(
            line.cans if line.cans and line.event.kind == "defect" else (line.can, line.can)
            for line in self.failed
            if line.can is not None and line.can % RUN
        )
        self._reaches = reaches

    @cached_property
    def holds(self) -> list[Hold]:
        """What is to be held, in the order of the log."""
        return [hold for _, hold in self._reasons]

    @cached_property
    def held(self) -> Ranges:
        """The cans that are held and not released."""
        releases = [line for line in self.lines if line.event.kind == "release" and line.event.reason and line.event.by]
        parts = []
        for reason, hold in self._reasons:
            later = [release for release in releases if release.is_after(reason)]
            parts.append(without(hold.cans, joined(*(self._let_go(release, hold) for release in later))))
        return joined(*parts, self.bad)

    @staticmethod
    def last_good(goods: Sequence[_Good]) -> _Good | None:
        """Return the one that clears the most cans, of several the last."""
        found: _Good | None = None
        for good in goods:
            if found is None or good.clears >= found.clears:
                found = good
        return found

    def sealed_after(self, good: _Good | None, last: int | None = None) -> Ranges:
        """Return the cans sealed after those that a check clears."""
        first = good.clears + 1 if good else 0
        return shared(self.sealed, [(first, self.sealed[-1][1] if last is None else last)]) if self.sealed else ()

    def unchecked(self) -> list[Unchecked]:
        """Return the cans that nobody looked at before each change."""
        released = [line for line in self.lines if line.event.kind == "release" and line.event.reason and line.event.by]
        settled = joined(
            [line.cans for line in released if line.cans], self.discarded, *(hold.cans for hold in self.holds)
        )
        places = {id(line): place for place, line in enumerate(self.lines)}
        found, known_before = [], 0
        for change in self.changes:
            place = places[id(change)]
            good = self.last_good([good for good in self.goods if places[id(good.line)] < place])
            last = max(line.shown for line in self.lines[: place + 1])
            known = max(good.clears if good else 0, known_before)
            known_before = max(last, known_before)
            looked_at = [
                good.clears for good in self.goods if checked_can(good.line.event) and known < good.clears <= last
            ]
            cans = without(shared(self.sealed, [(max([known, *looked_at]) + 1, last)]), settled)
            if cans:
                found.append(Unchecked(change.event, cans, good.line.event if good else None))
        return found

    @cached_property
    def _reasons(self) -> list[tuple[Line, Hold]]:
        failed = {id(line) for line in self.failed}
        found = []
        for line in self.lines:
            if id(line) in failed:
                found.append((line, self._hold_of(line)))
            elif line.event.kind == "hold" and line.cans:
                cans = joined([line.cans])
                found.append((line, Hold(line.event, cans, shared(cans, self.heated))))
        return found

    def _hold_of(self, failed: Line) -> Hold:
        needed = reach_needed(failed.event, self._reaches)
        goods = [good for good in self.goods if good.reach >= needed]
        since = self.last_good(
            [good for good in goods if failed.is_after(good.line) and (failed.can is None or good.clears < failed.can)]
        )
        perhaps_before = self._perhaps_sealed_before(failed)
        until = min(
            (
                good
                for good in goods
                if good.line.is_after(failed) and (good.line.can is None or good.line.can > perhaps_before)
            ),
            key=lambda good: self._perhaps_sealed_before(good.line),
            default=None,
        )
        cans = self.sealed_after(since, self._perhaps_sealed_before(until.line) if until else None)
        looked_at = [good.line.event for good in self.goods if shared(cans, [(good.line.can or 0, good.line.can or 0)])]
        return Hold(
            failed.event,
            cans,
            shared(cans, self.heated),
            since.line.event if since else None,
            until.line.event if until else None,
            tuple(looked_at),
            needed,
        )

    def _perhaps_sealed_before(self, line: Line) -> int:
        """Return the last can that the log does not show to be sealed after a line."""
        return max(other.shown for other in self.lines if not other.is_after(line))

    def _is_overruled(self, good: Line) -> bool:
        return any(
            failed.is_after(good)
            and failed.count <= good.count
            and not any(change.is_after(good) and failed.is_after(change) for change in self.changes)
            for failed in self.failed
        )

    def _let_go(self, release: Line, hold: Hold) -> Ranges:
        """Return the cans that a release lets go: of an order all it names, of a failure those sealed by then."""
        cans = [release.cans] if release.cans else []
        if not hold.reach:
            return joined(cans)
        return shared(cans, sealed_cans([line for line in self.lines if line is release or release.is_after(line)]))

    def _of_kind(self, kind: str) -> Ranges:
        return joined([line.cans for line in self.lines if line.event.kind == kind and line.cans])
