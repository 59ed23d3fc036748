"""The change record, the numbers given out, and texts as the register takes them."""

from __future__ import annotations

import datetime as dt
import getpass
import unicodedata
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import TYPE_CHECKING

from sqlalchemy import func, insert, select, update

from tinwright.errors import RecordError
from tinwright.store import tables

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement, Connection

__all__ = [
    "ERASED",
    "Change",
    "account",
    "changes",
    "exact_points",
    "in_order",
    "last_change",
    "log",
    "next_id",
    "optional_text",
    "plain_text",
]

ERASED = "(erased)"
"""Stands where the name or id of somebody stood who was erased."""
_LONGEST = 200
_TURNS_TEXT_ROUND = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Marks that make text read in another order than it is stored."""


@dataclass(frozen=True)
class Change:
    """One line of the change record; lines are only ever added."""

    number: int
    """Counted from 1."""
    at: str
    """Moment in UTC, such as `2026-05-02T14:03:11Z`."""
    by: str
    """Account on the computer that made the change."""
    what: str
    """What was done, in one of a few set phrases."""
    subject: str
    """Id of what it was done to."""


def account() -> str:
    """Return the account on this computer, for the change record."""
    try:
        return getpass.getuser()
    except (KeyError, OSError, ImportError):  # an account without a name, as in some containers
        return "unknown"


def log(connection: Connection, by: str, what: str, subject: str) -> None:
    """Add one line to the change record.

    Args:
        connection: the transaction that makes the change itself.
        by: the account that makes it.
        what: a set phrase, never anything typed in.
        subject: id of what is changed.
    """
    at = dt.datetime.now(tz=dt.UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    connection.execute(insert(tables.change).values(at=at, by=by, what=what, subject=subject))


def changes(connection: Connection) -> list[Change]:
    """Return the change record, oldest first."""
    return [Change(**row) for row in connection.execute(select(tables.change).order_by("number")).mappings()]


def last_change(connection: Connection) -> dt.datetime | None:
    """Return the moment of the newest line of the change record; None when there is none."""
    at = connection.execute(select(func.max(tables.change.c.at))).scalar()
    return None if at is None else dt.datetime.strptime(at, "%Y-%m-%dT%H:%M:%SZ").replace(tzinfo=dt.UTC)


def next_id(connection: Connection, kind: str) -> str:
    """Give out the next number of a kind, as an id such as `V0001`; whoever comes second waits for the first."""
    counter = tables.counter
    connection.execute(update(counter).where(counter.c.name == kind).values(last=counter.c.last + 1))
    number = connection.execute(select(counter.c.last).where(counter.c.name == kind)).scalar_one()
    return f"{kind[0].upper()}{number:04d}"


def in_order(id_: ColumnElement[str]) -> tuple[ColumnElement[int], ColumnElement[str]]:
    """Say how to sort by ids, so that `V10000` comes after `V9999`."""
    return func.length(id_), id_


def plain_text(text: str, what: str, *, longest: int = _LONGEST) -> str:
    """Return a text trimmed and composed, or refuse what could not be read or shown as one line.

    Args:
        text: as typed in.
        what: what it is, for the message.
        longest: number of characters to take at most.

    Raises:
        RecordError: when it is empty or too long, or holds characters that steer a screen.
    """
    composed = unicodedata.normalize("NFC", text).strip()
    if not composed:
        raise RecordError(f"{what}: expected some text, got nothing")
    if len(composed) > longest:
        raise RecordError(f"{what}: expected at most {longest} characters, got {len(composed)}")
    for character in composed:
        if unicodedata.category(character) in {"Cc", "Cs", "Zl", "Zp"} or character in _TURNS_TEXT_ROUND:
            raise RecordError(f"{what}: expected one line of plain text, got the character U+{ord(character):04X}")
    return composed


def optional_text(text: str | None, what: str) -> str | None:
    """Return a text as `plain_text` does, and None for one that is missing or empty."""
    return None if text is None or not text.strip() else plain_text(text, what)


def exact_points(text: str, what: str) -> Decimal:
    """Read points, and refuse what is not an exact decimal number of at least 0.

    >>> exact_points("12.50", "the score")
    Decimal('12.50')
    """
    try:
        points = Decimal(text)
    except InvalidOperation:
        points = Decimal("NaN")
    if not points.is_finite() or points < 0:
        raise RecordError(f"{what}: expected a decimal number of at least 0, got {text!r}")
    return points
