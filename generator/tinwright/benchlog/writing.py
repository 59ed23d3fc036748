"""The order in which a day was written, and the run of the counter that each line belongs to.

A line comes after another when the same phone or sheet wrote it later, or when whoever wrote it had the other before
them (`Event.after`): a phone that took in another's file, a sheet that goes on with another, the office. Nothing else
tells what came first, least of all the clock. Where the log does not tell, `is_after` says no both ways.

A counter that goes back begins a new run. The cans of the first run are called by their numbers, those of the second
B1, B2 and so on. A can is one whole number here, its run times `RUN` and its number, so that cans stand in order.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from tinwright.benchlog.checks import cans_shown, checked_can
from tinwright.benchlog.ranges import RUN, joined, run_named, run_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from tinwright.benchlog.events import Event
    from tinwright.benchlog.ranges import Range, Ranges

__all__ = ["Line", "clock_went_back", "counter_went_back", "in_order", "last_written", "read_lines", "sealed_cans"]


@dataclass(frozen=True)
class Line:
    """An event that counts, in its place."""

    event: Event
    """What was written."""
    run: int
    """The run its can numbers belong to: 0 for the first."""
    begins_run: bool
    """Whether the counter goes back here."""
    cans: Range | None
    """The range of cans it is about."""
    can: int | None
    """The can that a check or a found defect is about; None for a test can or an unknown one."""
    shown: int
    """The last can that must be sealed for it to be true; 0 when it shows none."""
    count: int
    """The last can sealed as far as whoever wrote it knew."""
    before: int
    """The same before this line."""
    knows: Mapping[str, int]
    """Of each phone or sheet the last line it comes after, itself among them."""

    def is_after(self, other: Line) -> bool:
        """Tell whether the log shows that it was written after another line."""
        source, number = _written(other.event.id)
        return other is not self and self.knows.get(source, -1) >= number


def in_order(events: Iterable[Event]) -> list[Event]:
    """Sort the events of one session in the order of writing.

    The lines of one phone or sheet stay in the order of their numbers, whatever their clock says, and come after what
    they were written after. Only lines of which nothing tells what came first are put side by side by the clock.

    >>> from tinwright.benchlog.events import Event
    >>> key = ("2026-11-14", "Mill Street", "s")
    >>> day = [Event("b-1", key, "09:30", "jam"), Event("a-1", key, "10:00", "jam"), Event("a-2", key, "09:05", "jam")]
    >>> [event.id for event in in_order(day)]
    ['b-1', 'a-1', 'a-2']
    """
    waiting: dict[str, list[Event]] = defaultdict(list)
    for event in sorted(events, key=lambda each: (*_written(each.id), each.id), reverse=True):
        waiting[_written(event.id)[0]].append(event)
    found = []
    while waiting:
        heads = [(source, queue[-1]) for source, queue in sorted(waiting.items())]
        ready = [(_with_seconds(event.at), source) for source, event in heads if _is_ready(event, source, waiting)]
        # Lines that claim to come after each other are somebody's slip; then the name alone decides.
        source = min(ready)[1] if ready else heads[0][0]
        found.append(waiting[source].pop())
        if not waiting[source]:
            del waiting[source]
    return found


def read_lines(events: Iterable[Event]) -> list[Line]:
    """Return the lines of a session that count, in the order of writing; struck ones count for the order alone."""
    numbers: dict[str, list[int]] = defaultdict(list)
    knowledge: dict[str, list[dict[str, int]]] = defaultdict(list)
    counts: dict[str, list[tuple[int, int]]] = defaultdict(list)
    """Of each source, after each of its lines, the last can shown and the last can written as sealed."""
    found = []
    for event in in_order(events):
        source, number = _written(event.id)
        knows = dict(knowledge[source][-1]) if knowledge[source] else {}
        for other, last in _after(event):
            place = bisect_right(numbers[other], last)
            if place and other != source:
                for name, known in knowledge[other][place - 1].items():
                    knows[name] = max(knows.get(name, -1), known)
        knows[source] = number
        past = [counts[name][place - 1] for name, last in knows.items() if (place := bisect_right(numbers[name], last))]
        before, sealed = max((shown for shown, _ in past), default=0), max((last for _, last in past), default=0)
        line = _line(event, before, sealed, knows)
        own = counts[source][-1] if counts[source] else (0, 0)
        if not event.struck:
            found.append(line)
            own = (max(own[0], line.shown), max(own[1], line.shown if event.kind == "sealed" else 0))
        numbers[source].append(number)
        knowledge[source].append(knows)
        counts[source].append(own)
    return found


def sealed_cans(lines: Iterable[Line]) -> Ranges:
    """Return all cans sealed, run by run, each run up to its last can shown."""
    lasts: dict[int, int] = {}
    for line in lines:
        run = run_of(line.shown)
        lasts[run] = max(lasts.get(run, 0), line.shown)
    return joined([(run * RUN + 1, last) for run, last in lasts.items()])


def counter_went_back(events: Iterable[Event]) -> list[Line]:
    """Return the lines at which the counter goes back although nobody wrote that it was set back: to be asked about."""
    return [
        line for line in read_lines(events) if line.begins_run and line.event.kind == "sealed" and not line.event.run
    ]


def clock_went_back(events: Iterable[Event]) -> list[tuple[Event, Event]]:
    """Return each line whose time is before that of the line above it on the same phone or sheet, with that line.

    Only lines of one day are compared: one written on another day has a clock of its own.
    """
    by_source: dict[tuple[str, str], list[Event]] = defaultdict(list)
    for event in in_order(events):
        if not event.struck:
            by_source[_written(event.id)[0], event.on].append(event)
    return [
        (above, event)
        for written in by_source.values()
        for above, event in pairwise(written)
        if _with_seconds(event.at) < _with_seconds(above.at)
    ]


def last_written(events: Iterable[Event], *, but: str = "") -> str:
    """Return what whoever writes now comes after, as `Event.after`: the last line of each phone and sheet.

    Args:
        events: all there is of the session, struck ones among them.
        but: the source that writes; its own lines need not be named.
    """
    lasts: dict[str, int] = {}
    for event in events:
        source, number = _written(event.id)
        lasts[source] = max(lasts.get(source, 0), number)
    return " ".join(f"{source}-{number}" for source, number in sorted(lasts.items()) if source != but)


def _line(event: Event, before: int, sealed: int, knows: Mapping[str, int]) -> Line:
    run, begins = _run(event, before, sealed)
    base = run * RUN
    first, last = event.first or event.last, event.last or event.first
    number, highest = checked_can(event), cans_shown(event)
    shown = base + highest if highest or event.kind == "new-run" else 0
    return Line(
        event,
        run,
        begins,
        None if first is None or last is None else (base + first, base + last),
        None if number is None else base + number,
        shown,
        max(before, shown),
        before,
        knows,
    )


def _run(event: Event, before: int, sealed: int) -> tuple[int, bool]:
    """Return the run of a line, and whether it begins it.

    Args:
        event: what was written.
        before: the last can known to be sealed.
        sealed: the last can that was written down as sealed.
    """
    now = run_of(before)
    if event.run:
        named = run_named(event.run)
        return named, named > now
    if event.kind == "new-run":
        return now + 1, True
    if event.kind != "sealed":
        return now, False
    first, last = now * RUN + (event.first or 1), now * RUN + (event.last or 0)
    is_written_late = first > sealed and last >= before  # the cans up to one that was looked at already
    goes_back = first <= before and not is_written_late
    return now + goes_back, goes_back


def _is_ready(event: Event, source: str, waiting: Mapping[str, Sequence[Event]]) -> bool:
    return all(
        other == source or other not in waiting or _written(waiting[other][-1].id)[1] > last
        for other, last in _after(event)
    )


def _after(event: Event) -> list[tuple[str, int]]:
    return [_written(id_) for id_ in event.after.split()] if event.after else []


def _written(id_: str) -> tuple[str, int]:
    """Return who wrote it, and as which line.

    >>> _written("k7f3q2-12")
    ('k7f3q2', 12)
    """
    source, _, number = id_.rpartition("-")
    return (source, int(number)) if number.isdecimal() else (id_, 0)


def _with_seconds(at: str) -> str:
    return at if len(at) > 5 else f"{at}:00"
