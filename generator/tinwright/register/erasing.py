"""Erase a person on request, and keep what belongs to nobody.

Gone: the entry, name, e-mail, answers, practical checks, and the name wherever else it stands, in the bench log too.
Kept without a person:
scores for the statistics of items (under a new random id, with no more than the year), and the certificate's id with
its days, so that a revocation stays published. The change record says that an erasure happened.
"""

from __future__ import annotations

import re
import uuid
from typing import TYPE_CHECKING

from sqlalchemy import delete, insert, select, update

from tinwright.logbook.erasing import strike_from_log
from tinwright.register import certificates, sittings, volunteers
from tinwright.register.entries import Erasure
from tinwright.store import tables
from tinwright.store.changes import ERASED, log

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable

    from sqlalchemy import Connection, Table

__all__ = ["erase", "erasures"]


def erase(connection: Connection, by: str, volunteer_id: str, on: dt.date) -> None:
    """Erase a volunteer in the store's tables; `Store.scrub` then takes the remains out of the file."""
    person = volunteers.hold(connection, volunteer_id)
    names = {person.name, *(entry.name for entry in certificates.every(connection, person.id))}
    names |= {person.email} if person.email else set()
    _free_certificates(connection, person.id)
    _free_sittings(connection, person.id)
    _free_practicals(connection, person.id)
    connection.execute(delete(tables.coaching).where(tables.coaching.c.volunteer_id == person.id))
    words = {*names, person.id}
    strike = _striker(words)
    _strike_out(connection, tables.practical, "examiner", strike)
    _strike_out(connection, tables.coaching, "coach", strike)
    _strike_out(connection, tables.coaching, "about", strike)
    _strike_out(connection, tables.voided, "reason", strike)
    _strike_out(connection, tables.certificate, "revoked_reason", strike)
    strike_from_log(connection, words, strike)
    connection.execute(delete(tables.volunteer).where(tables.volunteer.c.id == person.id))
    connection.execute(insert(tables.erasure).values(volunteer_id=person.id, erased_on=on))
    log(connection, by, "volunteer erased", person.id)


def erasures(connection: Connection) -> list[Erasure]:
    """Return who was erased and when, by id."""
    query = select(tables.erasure).order_by(tables.erasure.c.erased_on, tables.erasure.c.volunteer_id)
    return [Erasure(**row) for row in connection.execute(query).mappings()]


def _free_certificates(connection: Connection, id_: str) -> None:
    certificate = tables.certificate
    connection.execute(
        update(certificate)
        .where(certificate.c.volunteer_id == id_)
        .values(
            volunteer_id=None,
            name="",
            drives=[],
            exam="",
            form="",
            revoked_reason=None,
            renews=None,
            sitting_id=None,
            practical_ids=[],
        )
    )


def _free_sittings(connection: Connection, id_: str) -> None:
    sitting, response = tables.sitting, tables.item_response
    old = sittings.every(connection, id_)
    renamed = {row.id: f"anonymous-{uuid.uuid4().hex}" for row in old}
    for row in old:
        connection.execute(
            insert(sitting).values(
                {
                    **sittings.columns_of(row),
                    "id": renamed[row.id],
                    "volunteer_id": None,
                    "taken_on": row.taken_on.replace(month=1, day=1),
                    # the digest of a response file would lead back to the file, and to the name in it
                    "digest": f"erased-{uuid.uuid4().hex}",
                    "supersedes": renamed[row.supersedes] if row.supersedes else None,
                    "second_of": renamed[row.second_of] if row.second_of else None,
                    "allowed": None,
                }
            )
        )
        void = tables.voided.c.kind == "sitting", tables.voided.c.id == row.id
        connection.execute(update(tables.voided).where(*void).values(id=renamed[row.id], reason=ERASED))
        kept = update(response).where(response.c.sitting_id == row.id)
        connection.execute(kept.values(sitting_id=renamed[row.id], response=None))
    connection.execute(update(sitting).where(sitting.c.volunteer_id == id_).values(supersedes=None, second_of=None))
    connection.execute(delete(sitting).where(sitting.c.volunteer_id == id_))


def _free_practicals(connection: Connection, id_: str) -> None:
    practical, voided = tables.practical, tables.voided
    own = select(practical.c.id).where(practical.c.volunteer_id == id_)
    connection.execute(delete(voided).where(voided.c.kind == "practical", voided.c.id.in_(own)))
    connection.execute(delete(practical).where(practical.c.volunteer_id == id_))


def _striker(words: set[str]) -> Callable[[str], str]:
    """Return what replaces words in a text that people type, whatever their capitals."""
    pattern = re.compile(
        "|".join(rf"(?<!\w){re.escape(word)}(?!\w)" for word in sorted(words, key=len, reverse=True)), re.I
    )
    return lambda text: pattern.sub(ERASED, text)


def _strike_out(connection: Connection, table: Table, column: str, strike: Callable[[str], str]) -> None:
    texts = connection.execute(select(table.c[column]).where(table.c[column].is_not(None)).distinct()).scalars().all()
    for text in texts:
        if (struck := strike(text)) != text:
            connection.execute(update(table).where(table.c[column] == text).values({column: struck}))
