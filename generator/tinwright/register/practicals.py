"""Practical checks, observed at a sealer."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sqlalchemy import insert, select

from tinwright.errors import RecordError
from tinwright.register import voiding, volunteers
from tinwright.register.entries import Practical
from tinwright.store import tables
from tinwright.store.changes import in_order, log, next_id, plain_text

if TYPE_CHECKING:
    from sqlalchemy import Connection

__all__ = ["DONE", "NOT_DONE", "STEPS", "every", "latest_by_drive", "mark_typed", "record"]

STEPS = ("assemble", "set-rollers", "test-can", "judge", "correct-fault")
"""The observed checklist: assemble, set both rollers, make a test can, judge it, correct a fault the examiner set."""
DONE = "done"
"""How a step is marked that was done right without help."""
NOT_DONE = "not-done"
"""How a step is marked that was not."""


def mark_typed(text: str) -> str | None:
    """Read a mark as people type it; None for another word.

    >>> mark_typed("Done"), mark_typed("NOT DONE"), mark_typed("perhaps")
    ('done', 'not-done', None)
    """
    mark = "-".join(text.casefold().replace("-", " ").split())
    return mark if mark in {DONE, NOT_DONE} else None


def record(connection: Connection, by: str, draft: Practical) -> Practical:
    """Enter an observed check; the same one again changes nothing.

    Args:
        connection: a writing transaction.
        by: the account that enters it.
        draft: the check; its id is given here.
    """
    holder = volunteers.hold(connection, draft.volunteer_id)
    draft = replace(
        draft,
        volunteer_id=holder.id,
        drive=plain_text(draft.drive, "drive"),
        examiner=plain_text(draft.examiner, "examiner"),
    )
    missed = sorted(step for step, mark in draft.steps.items() if mark == NOT_DONE)
    if draft.passed and missed:
        raise RecordError(f"expected a check that was passed to have every step done, got {', '.join(missed)} not done")
    for known in every(connection, holder.id):
        if known.voided is None and replace(known, id=draft.id) == draft:
            return known
    entry = replace(draft, id=next_id(connection, "practical"))
    values = {name: value for name, value in vars(entry).items() if name != "voided"}
    connection.execute(insert(tables.practical).values(values))
    log(connection, by, "practical recorded", entry.id)
    return entry


def every(connection: Connection, volunteer_id: str | None = None) -> list[Practical]:
    """Return the checks in the order they were entered, of one volunteer or of all."""
    query = select(tables.practical).order_by(*in_order(tables.practical.c.id))
    if volunteer_id is not None:
        query = query.where(tables.practical.c.volunteer_id == volunteer_id)
    void = voiding.reasons(connection, "practical")
    return [Practical(**row, voided=void.get(row["id"])) for row in connection.execute(query).mappings()]


def latest_by_drive(checks: list[Practical]) -> dict[str, Practical]:
    """Return the last check on each drive that is not void: whoever failed after a pass has to show it again."""
    # The sort is stable: of one day, the one entered last counts.
    counting = [check for check in checks if check.voided is None]
    return {check.drive: check for check in sorted(counting, key=lambda check: check.observed_on)}
