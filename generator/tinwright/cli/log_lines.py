"""The bench log in lines of text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.benchlog import KINDS, clock_went_back, counter_went_back, read_lines
from tinwright.benchlog.ranges import RUN, can_name, cans_in_words, run_named
from tinwright.knowledge.plain_words import say_adjusted

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from tinwright.benchlog import Event, Session
    from tinwright.logbook import Dispute, LoggedSession, TakenIn

__all__ = ["dispute_lines", "event_line", "runs_of", "session_line", "taken_in_line", "went_back_lines"]

_SHOWN = 6
"""Digits of a version that are shown."""


def session_line(row: LoggedSession) -> str:
    """Tell a session in one line."""
    events = f"{len(row.events)} event{'' if len(row.events) == 1 else 's'}"
    disputes = f", {len(row.open_disputes)} to decide" if row.open_disputes else ""
    return f"{row.id}  {row.session.date}  {row.session.kitchen}, {row.session.sealer}: {events}{disputes}"


def runs_of(row: LoggedSession) -> dict[str, int]:
    """Return the run of the counter that each line of a session belongs to, by its id."""
    return {line.event.id: line.run for line in read_lines(row.events)}


def went_back_lines(row: LoggedSession, ids: Collection[str]) -> Iterator[str]:
    """Say of some lines of a session where the counter or the clock goes back, and what is made of it.

    Args:
        row: the session.
        ids: the lines that are meant.
    """
    for line in counter_went_back(row.events):
        if line.event.id in ids and line.cans:
            cans = cans_in_words([line.cans])
            yield (
                f"{row.id} {line.event.id}: the counter goes back, after can {can_name(line.before)}. Was it set back? "
                f"Until you say otherwise this is a new run, cans {cans}. If it is a slip, strike or correct that line."
            )
    for above, event in clock_went_back(row.events):
        if event.id in ids:
            yield (
                f"{row.id} {event.id}: the clock goes back, from {above.at[:5]} to {event.at[:5]}. "
                "The order of the lines counts, not the time."
            )


def event_line(event: Event, run: int | None = None) -> str:
    """Tell an event in one line, a struck one as such.

    Args:
        event: the event.
        run: the run of the counter its cans belong to, where it is known.
    """
    base = RUN * ((run_named(event.run) if event.run else 0) if run is None else run)
    cans = cans_in_words([(base + event.first, base + (event.last or event.first))]) if event.first is not None else ""
    adjusted = say_adjusted(event.adjuster, event.direction) if event.adjuster else ""
    about = [event.can, event.lid_lot, adjusted, event.turns, event.cause, event.defect]
    readings = ", ".join(f"{point.dimension} {point.value:g}" for point in event.readings)
    words = [
        KINDS[event.kind].label if event.kind in KINDS else event.kind,
        cans or (f"can {can_name(base + event.can_number)}" if event.can_number is not None else ""),
        event.result,
        *about,
        readings,
        "torn down" if event.torn_down else "",
        event.reason,
        event.note,
        f"by {event.by}" if event.by else "",
        "(struck)" if event.struck else "",
    ]
    at = f"{event.on} {event.at}" if event.on else event.at
    return f"{at}  {event.id}  {'  '.join(filter(None, words))}"


def dispute_lines(dispute: Dispute) -> Iterator[str]:
    """Tell in lines in which ways something is told, and what was decided."""
    state = "written down in more than one way"
    if dispute.choice:
        state += f"; decided by {dispute.choice.by}: {dispute.choice.reason}"
    yield f"{dispute.session_id} {dispute.event_id}: {state}"
    for version in dispute.versions:
        told = event_line(version.event) if version.event else _head_line(version.head)
        counts = "counts" if version.counts else "      "
        yield f"  {version.digest[:_SHOWN]}  {counts}  {version.source}: {told}"


def _head_line(head: Session | None) -> str:
    if head is None:
        return ""
    said = {"can": head.can, "lids": head.lid_lot, "supervisor": head.supervisor, "product": head.product}
    return ", ".join(f"{name} {value}" for name, value in said.items() if value)


def taken_in_line(found: TakenIn) -> str:
    """Tell in one line what a file changed."""
    if found.again:
        return "imported before; nothing changed"
    if found.changes_nothing:
        return f"nothing new; {found.same} events are there already"
    parts = [f"{found.added} new"] if found.added else []
    parts += [f"{found.revised} changed"] if found.revised else []
    parts += [f"{found.older} older, kept as history"] if found.older else []
    parts += [f"{found.same} there already"] if found.same else []
    parts += [f"{len(found.disputes)} to decide"] if found.disputes else []
    return ", ".join(parts)
