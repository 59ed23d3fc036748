"""Certificates: issued, looked up, revoked, due."""

from __future__ import annotations

import uuid
from typing import TYPE_CHECKING, Any

from sqlalchemy import and_, insert, or_, select, tuple_, union, update

from tinwright.errors import RecordError
from tinwright.register import sittings, voiding, volunteers
from tinwright.register.entries import Certificate
from tinwright.register.grounds import Issued, grounds_for
from tinwright.register.validity import plus_years
from tinwright.store import tables
from tinwright.store.changes import in_order, log, plain_text

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping

    from sqlalchemy import ColumnElement, CompoundSelect, Connection, FromClause, Select

__all__ = ["due", "every", "find", "in_doubt", "issue", "missing", "revoke", "revoked"]

_table = tables.certificate
_MOST_YEARS = 50


def missing(connection: Connection, volunteer_id: str, *, on: dt.date, years: int | None) -> list[str]:
    """Say in plain words what a volunteer lacks for a certificate on a day."""
    volunteer = volunteers.find(connection, volunteer_id)
    return grounds_for(connection, volunteer.id, _issued(connection, volunteer.id), on=on, years=years).missing


def issue(connection: Connection, by: str, volunteer_id: str, *, issued_on: dt.date, years: int) -> Certificate:
    """Issue a certificate, or say what is missing."""
    if not 1 <= years <= _MOST_YEARS:
        raise RecordError(f"years: expected from 1 to {_MOST_YEARS}, got {years}")
    volunteer = volunteers.hold(connection, volunteer_id)
    issued = _issued(connection, volunteer.id)
    grounds = grounds_for(connection, volunteer.id, issued, on=issued_on, years=years)
    if grounds.missing or grounds.sitting is None:
        raise RecordError(f"no certificate for {volunteer.id} yet; missing: {'; '.join(grounds.missing)}")
    valid_until = plus_years(issued_on, years)
    entry = Certificate(
        id=str(uuid.uuid4()),
        volunteer_id=volunteer.id,
        name=volunteer.name,
        drives=tuple(check.drive for check in grounds.checks),
        exam=grounds.sitting.exam,
        form=grounds.sitting.form,
        issued_on=issued_on,
        valid_until=min(valid_until, grounds.ends_by or valid_until),
        revoked_on=None,
        revoked_reason=None,
        renews=_renewed(issued),
        public_bank=grounds.sitting.public_bank,
    )
    rests_on = {"sitting_id": grounds.sitting.id, "practical_ids": [check.id for check in grounds.checks]}
    connection.execute(insert(_table).values({**vars(entry), "drives": list(entry.drives), **rests_on}))
    log(connection, by, "certificate issued", entry.id)
    return entry


def _renewed(issued: list[Issued]) -> str | None:
    """Return the id of the last certificate that is neither revoked nor renewed yet."""
    before = {row.certificate.renews for row in issued}
    open_ends = [row.certificate for row in issued if row.certificate.revoked_on is None]
    return next((entry.id for entry in reversed(open_ends) if entry.id not in before), None)


def find(connection: Connection, id_: str) -> Certificate:
    """Return a certificate by its id, with or without `urn:uuid:`."""
    return _one(connection, select(_table), id_)


def every(connection: Connection, volunteer_id: str | None = None) -> list[Certificate]:
    """Return the certificates by day of issue, of one volunteer or of all."""
    return [row.certificate for row in _issued(connection, volunteer_id)]


def revoke(connection: Connection, by: str, id_: str, *, on: dt.date, reason: str) -> Certificate:
    """Revoke a certificate; it stays in the register and in the list of the revoked."""
    entry = _one(connection, select(_table).with_for_update(), id_)
    if entry.revoked_on is not None:
        raise RecordError(f"certificate {entry.id} was revoked on {entry.revoked_on} already")
    if on < entry.issued_on:
        raise RecordError(f"certificate {entry.id} was issued on {entry.issued_on}: it cannot be revoked on {on}")
    values = {"revoked_on": on, "revoked_reason": plain_text(reason, "reason")}
    connection.execute(update(_table).where(_table.c.id == entry.id).values(values))
    log(connection, by, "certificate revoked", entry.id)
    return find(connection, entry.id)


def revoked(connection: Connection) -> list[tuple[str, dt.date]]:
    """Return the ids of the revoked certificates with their days, oldest first; nothing else of them is published."""
    columns = select(_table.c.id, _table.c.revoked_on).where(_table.c.revoked_on.is_not(None))
    rows = connection.execute(columns.order_by(_table.c.revoked_on, _table.c.id))
    return [(id_, day) for id_, day in rows]


def due(connection: Connection, *, on: dt.date, within_days: int, lapsed_days: int) -> list[Certificate]:
    """Return the last certificate of each volunteer where it ends soon or ended lately, the first to end first."""
    other = _table.alias("other")

    def counts(each: FromClause) -> ColumnElement[bool]:
        return and_(each.c.revoked_on.is_(None), each.c.issued_on <= on)

    def place(each: FromClause) -> ColumnElement[Any]:
        return tuple_(each.c.valid_until, each.c.issued_on, *in_order(each.c.id))

    later = select(other.c.id).where(
        other.c.volunteer_id == _table.c.volunteer_id, counts(other), place(other) > place(_table)
    )
    first, last = (_day_from(on, days) for days in (-lapsed_days, within_days))
    ending = select(_table).where(counts(_table), _table.c.valid_until.between(first, last), ~later.exists())
    holder = _table.c.volunteer_id
    rows = connection.execute(ending.where(holder.is_not(None)).order_by(_table.c.valid_until, *in_order(holder)))
    return [_certificate(row) for row in rows.mappings()]


def _day_from(day: dt.date, days: int) -> dt.date:
    """Return a day some days off, or the first or last of the calendar."""
    ordinal = day.toordinal() + days
    return day.fromordinal(min(max(ordinal, 1), day.max.toordinal()))


def in_doubt(connection: Connection, *, on: dt.date) -> list[tuple[Certificate, str]]:
    """Return the certificates in force that rest on what does not hold any more, each with the reason."""
    sitting = tables.sitting
    anew = select(sitting.c.supersedes).where(sitting.c.supersedes.is_not(None))
    void = select(tables.voided.c.id).where(tables.voided.c.kind == "sitting")
    second = select(sitting.c.id).where(or_(sitting.c.second_of.in_(anew), sitting.c.second_of.in_(void)))
    void_checks = voiding.reasons(connection, "practical")
    # The checks of a certificate are one text, so that those of all must be looked at; few registers have a void one.
    rests_on = None if void_checks else union(anew, void, second)
    doubtful = []
    for row in _issued(connection, rests_on=rests_on):
        if row.sitting_id is None or not row.certificate.in_force(on):
            continue
        if why := _doubt(connection, row, row.sitting_id, void_checks):
            doubtful.append((row.certificate, why))
    return doubtful


def _doubt(connection: Connection, row: Issued, sitting_id: str, void_checks: Mapping[str, str]) -> str | None:
    history = {entry.id: entry for entry in sittings.every(connection, row.certificate.volunteer_id)}
    later = {entry.supersedes: entry for entry in history.values() if entry.supersedes and entry.voided is None}
    grading = history[sitting_id]
    while grading.id in later:
        grading = later[grading.id]
    if grading.voided is not None:
        return f"its examination was made void: {grading.voided}"
    if not grading.passed:
        return "graded again, the examination is not passed"
    if grading.id not in {entry.id for entry in sittings.standing(list(history.values()))}:
        return "its examination was graded again: grade the second try again, too"
    void = [void_checks[id_] for id_ in row.practical_ids if id_ in void_checks]
    return f"its practical check was made void: {void[0]}" if void else None


def _issued(
    connection: Connection,
    volunteer_id: str | None = None,
    *,
    rests_on: Select[Any] | CompoundSelect[Any] | None = None,
) -> list[Issued]:
    query = select(_table)
    if rests_on is not None:
        query = query.where(_table.c.sitting_id.in_(rests_on))
    if volunteer_id is not None:
        query = query.where(_table.c.volunteer_id == volunteer_id)
    rows = connection.execute(query.order_by(_table.c.issued_on, *in_order(_table.c.id))).mappings()
    return [Issued(_certificate(row), row["sitting_id"], tuple(row["practical_ids"])) for row in rows]


def _one(connection: Connection, query: Select[Any], id_: str) -> Certificate:
    id_ = id_.strip().lower().removeprefix("urn:uuid:")
    row = connection.execute(query.where(_table.c.id == id_)).mappings().first()
    if row is None:
        raise RecordError(f"no certificate has the id {id_!r}")
    return _certificate(row)


def _certificate(row: Mapping[Any, Any]) -> Certificate:
    fields = {key: value for key, value in row.items() if key not in {"sitting_id", "practical_ids"}}
    return Certificate(**{**fields, "volunteer_id": row["volunteer_id"] or "", "drives": tuple(row["drives"])})
