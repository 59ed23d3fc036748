"""What a certificate rests on: an examination and practical checks that count on a day, or what is missing.

The last word counts: of each examination the last sitting, on each drive the last check. An examination or a check
stands behind one certificate. The same examination may stand behind a second one only to add a drive, or after the
first was revoked, and the second then ends no later than the first.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from tinwright.register import practicals, sittings
from tinwright.register.validity import plus_years

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from sqlalchemy import Connection

    from tinwright.register.entries import Certificate, Practical, Sitting

__all__ = ["Grounds", "Issued", "grounds_for"]


@dataclass(frozen=True)
class Issued:
    """A certificate with what it rests on."""

    certificate: Certificate
    """The certificate."""
    sitting_id: str | None
    """The sitting it rests on."""
    practical_ids: tuple[str, ...]
    """The practical checks it rests on."""


@dataclass(frozen=True)
class Grounds:
    """What counts for a certificate on a day."""

    sitting: Sitting | None = None
    """The examination that was passed, if one counts."""
    checks: tuple[Practical, ...] = ()
    """The practical checks that were passed and count, by drive."""
    ends_by: dt.date | None = None
    """Day that a certificate must end by, when an earlier one rests on the same examination."""
    missing: list[str] = field(default_factory=list)
    """What is missing, in plain words; empty when a certificate can be issued."""


def grounds_for(
    connection: Connection, volunteer_id: str, issued: Sequence[Issued], *, on: dt.date, years: int | None
) -> Grounds:
    """Work out what counts for a certificate of a volunteer.

    Args:
        connection: any connection to the store.
        volunteer_id: whom it is for.
        issued: the certificates they were given so far.
        on: day it would be issued.
        years: how long it would be good for; examination and checks must not be older than that. Not asked when None.
    """
    oldest = plus_years(on, -years) if years is not None else None
    history = sittings.every(connection, volunteer_id)
    sitting, missing = _examination(sittings.standing_for(connection, volunteer_id), on, oldest)
    family = _gradings(history, sitting) if sitting else set()
    same = [row for row in issued if row.sitting_id in family]
    others = [row for row in issued if row.sitting_id not in family]
    used = {id_ for row in others if row.certificate.revoked_on is None for id_ in row.practical_ids}
    checks, without = _checks(practicals.every(connection, volunteer_id), on, oldest, used)
    missing += without
    ends_by = min((row.certificate.valid_until for row in same), default=None)
    if sitting and not missing:
        missing += _already(sitting, checks, same, on)
    return Grounds(sitting, tuple(checks), ends_by, missing)


def _examination(standing: Sequence[Sitting], on: dt.date, oldest: dt.date | None) -> tuple[Sitting | None, list[str]]:
    last = {row.exam: row for row in standing if row.taken_on <= on}
    if not last:
        return None, [f"the examination: none was sat by {on}"]
    passed = [row for row in last.values() if row.passed]
    if not passed:
        row = max(last.values(), key=lambda row: row.taken_on)
        return None, [f"the examination: the last one, on {row.taken_on}, was not passed ({row.score} of {row.out_of})"]
    best = max(passed, key=lambda row: row.taken_on)
    if oldest and best.taken_on < oldest:
        return None, [f"a new examination: the one passed on {best.taken_on} is from before {oldest}"]
    return best, []


def _gradings(history: Sequence[Sitting], sitting: Sitting) -> set[str]:
    """Return the ids of all gradings of one sitting."""
    before = {row.id: row.supersedes for row in history}
    family: set[str] = set()
    id_: str | None = sitting.id
    while id_ is not None:
        family.add(id_)
        id_ = before[id_]
    return family


def _checks(
    observed: list[Practical], on: dt.date, oldest: dt.date | None, used: set[str]
) -> tuple[list[Practical], list[str]]:
    last = practicals.latest_by_drive([check for check in observed if check.observed_on <= on])
    if not last:
        return [], [f"the practical check: none was observed by {on}"]
    counted, reasons = [], []
    for drive, check in sorted(last.items()):
        if not check.passed:
            reasons.append(f"the practical check: the last one on {drive}, on {check.observed_on}, was not passed")
        elif oldest and check.observed_on < oldest:
            reasons.append(
                f"a new practical check on {drive}: the one passed on {check.observed_on} is from before {oldest}"
            )
        elif check.id in used:
            reasons.append(
                f"a new practical check on {drive}: an earlier certificate rests on the one of {check.observed_on}"
            )
        else:
            counted.append(check)
    # One drive that counts is enough: a certificate names the drives it is for.
    return counted, [] if counted else reasons


def _already(sitting: Sitting, checks: Sequence[Practical], same: Sequence[Issued], on: dt.date) -> list[str]:
    kept = [row.certificate for row in same if row.certificate.revoked_on is None]
    if any(row.certificate.valid_until <= on for row in same):
        return [f"a new examination: the certificate that rests on the one passed on {sitting.taken_on} has ended"]
    held = {drive for certificate in kept for drive in certificate.drives}
    if kept and {check.drive for check in checks} <= held:
        until = min(certificate.valid_until for certificate in kept)
        return [
            f"a new examination: a certificate good until {until} rests on the one passed on {sitting.taken_on} already"
        ]
    return []
