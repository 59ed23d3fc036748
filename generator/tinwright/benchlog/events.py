"""What can happen at the bench, and what has to be written down of it.

A session is one sealer in one kitchen on one day; a sealing day is all sessions of one kitchen on one date. Cans are
counted on each sealer from 1 each day, in the order in which they are sealed; test cans are not counted. A counter that
goes back begins a new run (`benchlog.writing`).
"""

from __future__ import annotations

import re
from dataclasses import dataclass, fields
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["KINDS", "RESULTS", "Event", "Kind", "MeasuredPoint", "Session", "problems_of"]

RESULTS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "test-can": ("good", "bad"),
        "visual-check": ("good", "bad"),
        "measured-check": ("accept", "measure-again", "reject"),
    }
)
"""What a check can come to, by the kind of event."""

_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")
_TIME = re.compile(r"([01]\d|2[0-3]):[0-5]\d(:[0-5]\d)?")
_RUN = re.compile(r"[A-Z]{1,2}")
_AFTER = re.compile(r"[A-Za-z0-9]{1,40}-[0-9]{1,9}( [A-Za-z0-9]{1,40}-[0-9]{1,9})*")


@dataclass(frozen=True)
class Session:
    """One sealer in one kitchen on one day."""

    date: str
    """Day, as in `2026-11-28`."""
    kitchen: str
    """Name of the kitchen, as in the programme."""
    sealer: str
    """Id of the sealer."""
    can: str = ""
    """Id of the can it began with."""
    lid_lot: str = ""
    """Lot of the lids it began with, as printed on the box."""
    supervisor: str = ""
    """Who supervises: an id of the register, or initials."""
    product: str = ""
    """What is canned, in free words."""

    @property
    def key(self) -> tuple[str, str, str]:
        """Date, kitchen and sealer: what makes two pieces of paper or telephones tell of the same session."""
        return (self.date, self.kitchen, self.sealer)


@dataclass(frozen=True)
class MeasuredPoint:
    """One reading of a measured check."""

    dimension: str
    """One of `seaming.DIMENSIONS`."""
    point: str
    """Where round the can: `1`, `2`, `3`."""
    value: float
    """Inches, or percent for tightness."""


@dataclass(frozen=True)
class Event:
    """One line of the log. Which entries belong to which kind stands in `KINDS`."""

    id: str
    """Given where it is written and never given again: `k7f3-12` by a telephone, `P04-3` for line 3 of sheet P04."""
    session: tuple[str, str, str]
    """`Session.key` of the session it belongs to."""
    at: str
    """Local time of day when it was written, `09:05` or `09:05:20`; it orders nothing."""
    kind: str
    """A key of `KINDS`."""
    revision: int = 1
    """Counts up each time it is changed where it was written."""
    struck: bool = False
    """Whether it was struck out: kept, shown struck, and counted nowhere."""
    by: str = ""
    """Who: an id of the register, or initials."""
    can_number: int | None = None
    """The counter of the sealer at that moment: number of the last can sealed; for a check, of the can checked."""
    first: int | None = None
    """First can of a range."""
    last: int | None = None
    """Last can of a range."""
    result: str = ""
    """What a check came to, as in `RESULTS`."""
    can: str = ""
    """Id of a can."""
    lid_lot: str = ""
    """Lot of the lids, as printed on the box."""
    defect: str = ""
    """Id of a defect."""
    cause: str = ""
    """Id of a cause."""
    adjuster: str = ""
    """What was adjusted, as in `seaming.signs.ADJUSTERS`."""
    direction: str = ""
    """Which way: `tighten`, `loosen`, `raise`, `lower`, `replace`, `refit`, `clean`, `sort-out` or `redo`."""
    turns: str = ""
    """How far, as in `1/8`; empty when it is not a matter of turns."""
    method: str = ""
    """`micrometer` or `optical`."""
    specification: str = ""
    """Id of the seam specification it was judged by."""
    readings: tuple[MeasuredPoint, ...] = ()
    """The readings of a measured check."""
    torn_down: bool = False
    """Whether the can was torn down."""
    reason: str = ""
    """Why cans were held, released or discarded."""
    note: str = ""
    """Anything else, in free words."""
    run: str = ""
    """Letter of the run its can numbers belong to: A for the first; empty for the run that was going on."""
    on: str = ""
    """Day on which it was written, when that is not the day of the session."""
    after: str = ""
    """What others had written before it, as far as was known: the last line of each, as in `P04-20 m2k9xx-14`."""


@dataclass(frozen=True)
class Kind:
    """One kind of event."""

    label: str
    """What pages and sheets call it."""
    needs: tuple[str, ...] = ()
    """Entries it cannot be without."""
    may: tuple[str, ...] = ()
    """Entries it may have besides; any may have `by`, `can_number`, `note`, `run`, `on` and `after`."""


KINDS: Mapping[str, Kind] = MappingProxyType(
    {
        "set-up": Kind("Set-up done", ("can",)),
        "test-can": Kind("Test can", ("result",), ("defect", "torn_down")),
        "visual-check": Kind("Visual check", ("result", "can_number"), ("defect",)),
        "measured-check": Kind(
            "Measured check", ("result",), ("can_number", "defect", "method", "specification", "readings", "torn_down")
        ),
        "sealed": Kind("Cans sealed", ("first", "last")),
        "heated": Kind("Cans put in the canner", ("first", "last")),
        "adjustment": Kind("Adjustment", ("adjuster", "direction"), ("turns", "cause")),
        "new-run": Kind("Counter set back"),
        "jam": Kind("Jam"),
        "can-change": Kind("Can size changed", ("can",)),
        "lid-lot": Kind("New lot of lids", ("lid_lot",)),
        "pause": Kind("Pause"),
        "resume": Kind("Work goes on"),
        "defect": Kind("Defect found", ("defect",), ("first", "last")),
        "cause": Kind("Cause confirmed", ("cause", "defect")),
        "hold": Kind("Cans held", ("first", "last"), ("reason",)),
        "release": Kind("Cans released", ("first", "last", "reason", "by")),
        "discard": Kind("Cans discarded", ("first", "last"), ("reason",)),
        "close": Kind("Day closed"),
    }
)
"""Kind: its label and its entries."""

_ALWAYS = ("id", "session", "at", "kind", "revision", "struck", "by", "can_number", "note", "run", "on", "after")
_BLANK = {entry.name: entry.default for entry in fields(Event) if entry.name not in {"id", "session", "at", "kind"}}


def problems_of(event: Event) -> list[tuple[str, str]]:
    """Return what is wrong with an event by itself: the entry, and what was expected and what came.

    >>> problems_of(Event("a-1", ("2026-11-28", "Mill Street", "s"), "9:05", "test-can"))
    [('at', "expected a time such as 09:05, got '9:05'"), ('result', 'expected good or bad, got nothing')]
    """
    found = []
    if not _DAY.fullmatch(event.session[0]):
        found.append(("date", f"expected a date such as 2026-11-28, got {event.session[0][:40]!r}"))
    if not _TIME.fullmatch(event.at):
        found.append(("at", f"expected a time such as 09:05, got {event.at[:40]!r}"))
    for entry, form, example in (("run", _RUN, "B"), ("on", _DAY, "2026-11-28"), ("after", _AFTER, "P04-20")):
        text = getattr(event, entry)
        if text and not form.fullmatch(text):
            found.append((entry, f"expected {entry} as in {example}, got {text[:40]!r}"))
    kind = KINDS.get(event.kind)
    if kind is None:
        return [*found, ("kind", f"expected one of {', '.join(KINDS)}, got {event.kind[:40]!r}")]
    missing = [entry for entry in kind.needs if entry != "result" and getattr(event, entry) in {None, ""}]
    found += [(entry, f"expected one for {kind.label.lower()}, got nothing") for entry in missing]
    allowed = {*_ALWAYS, *kind.needs, *kind.may}
    for entry, blank in _BLANK.items():
        if entry not in allowed and getattr(event, entry) != blank:
            found.append((entry, f"expected nothing for {kind.label.lower()}, got {str(getattr(event, entry))[:40]!r}"))
    results = RESULTS.get(event.kind)
    if results and event.result not in results:
        got = repr(event.result[:40]) if event.result else "nothing"
        found.append(("result", f"expected {' or '.join(results)}, got {got}"))
    return [*found, *_number_problems(event)]


def _number_problems(event: Event) -> list[tuple[str, str]]:
    found = []
    for entry in ("first", "last"):
        number = getattr(event, entry)
        if number is not None and number < 1:
            found.append((entry, f"expected a can number from 1, got {number}"))
    if event.can_number is not None and event.can_number < 0:
        found.append(("can_number", f"expected the number of a can, got {event.can_number}"))
    if event.first is not None and event.last is not None and event.first > event.last:
        found.append(("last", f"expected {event.first} or more, got {event.last}"))
    return found
