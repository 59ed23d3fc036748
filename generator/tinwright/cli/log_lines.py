"""The bench log in lines of text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.benchlog import KINDS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.benchlog import Event, Session
    from tinwright.logbook import Dispute, LoggedSession, TakenIn

__all__ = ["dispute_lines", "event_line", "session_line", "taken_in_line"]

_SHOWN = 6
"""Digits of a version that are shown."""


def session_line(row: LoggedSession) -> str:
    """Tell a session in one line."""
    events = f"{len(row.events)} event{'' if len(row.events) == 1 else 's'}"
    disputes = f", {len(row.open_disputes)} to decide" if row.open_disputes else ""
    return f"{row.id}  {row.session.date}  {row.session.kitchen}, {row.session.sealer}: {events}{disputes}"


def event_line(event: Event) -> str:
    """Tell an event in one line, a struck one as such."""
    cans = f"{event.first} to {event.last}" if event.first is not None else ""
    about = [event.can, event.lid_lot, event.adjuster, event.direction, event.turns, event.cause, event.defect]
    readings = ", ".join(f"{point.dimension} {point.value:g}" for point in event.readings)
    words = [
        KINDS[event.kind].label if event.kind in KINDS else event.kind,
        cans or (f"can {event.can_number}" if event.can_number is not None else ""),
        event.result,
        *about,
        readings,
        "torn down" if event.torn_down else "",
        event.reason,
        event.note,
        f"by {event.by}" if event.by else "",
        "(struck)" if event.struck else "",
    ]
    return f"{event.at}  {event.id}  {'  '.join(filter(None, words))}"


def dispute_lines(dispute: Dispute) -> Iterator[str]:
    """Tell in lines in which ways something is told, and what was decided."""
    state = "told in several ways"
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
        return "taken in before; nothing changed"
    if found.changes_nothing:
        return f"nothing new; {found.same} events are there already"
    parts = [f"{found.added} new"] if found.added else []
    parts += [f"{found.revised} changed"] if found.revised else []
    parts += [f"{found.older} older, kept as history"] if found.older else []
    parts += [f"{found.same} there already"] if found.same else []
    parts += [f"{len(found.disputes)} to decide"] if found.disputes else []
    return ", ".join(parts)
