"""Check what a telephone or a sheet tells, entry by entry, before any of it is taken into the log."""

from __future__ import annotations

import datetime as dt
import re
from itertools import islice
from typing import TYPE_CHECKING, Any

from tinwright.benchlog import Event, MeasuredPoint, Session, problems_of
from tinwright.errors import RecordError
from tinwright.knowledge.wording import nearest
from tinwright.store.changes import plain_text

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tinwright.logbook.names import LogNames

__all__ = ["EVENT_ENTRIES", "HEAD_ENTRIES", "MOST_TOLD", "Problems", "checked_event", "checked_head"]

MOST_TOLD = 40
"""Problems that are told of one file, and looked up in it: finding the place of each takes time."""
Problems = list[tuple[str, str]]
"""An entry, and what was expected in it and what came."""

HEAD_ENTRIES = ("date", "kitchen", "sealer", "can", "lid_lot", "supervisor", "product")
_NAMED = ("kind", "can", "defect", "cause", "adjuster", "direction", "method", "specification")
_FREE = ("at", "by", "lid_lot", "result", "turns", "reason", "note", "run", "on", "after")
_NUMBERS = ("revision", "can_number", "first", "last")
_FLAGS = ("struck", "torn_down")
EVENT_ENTRIES = ("id", "at", "kind", *_FREE[1:], *_NAMED[1:], *_NUMBERS, *_FLAGS, "readings")
_ID = re.compile(r"[A-Za-z0-9]{1,40}-[0-9]{1,9}")
_PERSON = re.compile(r"[Vv]\d{4,}")
_LONGEST = 500
_GREATEST = 1_000_000


def checked_head(values: Mapping[str, Any], names: LogNames, latest: dt.date) -> tuple[Session | None, Problems]:
    """Return the head of a session, or what is wrong with it.

    Args:
        values: the entries of `Session` that were written, by name.
        names: the names there are.
        latest: last day on which it can have been.
    """
    problems = _unknown(values, (*HEAD_ENTRIES, "events"))
    texts = {entry: _text(entry, values[entry], problems) for entry in HEAD_ENTRIES if entry in values}
    for entry in ("date", "kitchen", "sealer"):
        if not texts.get(entry) and not any(name == entry for name, _ in problems):
            problems.append((entry, "expected one, got nothing"))
    _check_day(texts.get("date", ""), latest, problems)
    for entry in ("kitchen", "sealer", "can"):
        if texts.get(entry):
            texts[entry] = _named(entry, texts[entry], names, problems)
    texts["supervisor"] = _person("supervisor", texts.get("supervisor", ""), names, problems)
    return (None if problems else Session(**texts)), problems


def checked_event(
    values: Mapping[str, Any], session: tuple[str, str, str], names: LogNames
) -> tuple[Event | None, Problems]:
    """Return an event, or what is wrong with it.

    Args:
        values: the entries of `Event` that were written, by name: texts, whole numbers, true or false, and readings as
            `{"dimension": "seam-thickness", "point": "1", "value": 0.055}`.
        session: key of its session.
        names: the names there are.
    """
    problems = _unknown(values, EVENT_ENTRIES)
    found: dict[str, Any] = {}
    for entry, value in values.items():
        if entry in _NUMBERS:
            found[entry] = _number(entry, value, problems)
        elif entry in _FLAGS:
            if not isinstance(value, bool):
                problems.append((entry, f"expected true or false, got {str(value)[:40]!r}"))
            found[entry] = value is True
        elif entry == "readings":
            found[entry] = _readings(value, names, problems)
        elif entry in EVENT_ENTRIES:
            text = _text(entry, value, problems)
            found[entry] = _named(entry, text, names, problems) if text and entry in _NAMED else text
    found["by"] = _person("by", found.get("by", ""), names, problems)
    if found.get("result"):
        found["result"] = names.known("result", found["result"]) or found["result"]
    for entry in ("id", "at", "kind"):
        if not found.get(entry) and not any(name == entry for name, _ in problems):
            problems.append((entry, "expected one, got nothing"))
    if found.get("id") and not _ID.fullmatch(found["id"]):
        problems.append(("id", f"expected letters and digits, a hyphen and a number, got {found['id'][:40]!r}"))
    if problems:
        return None, problems
    event = Event(session=session, **found)
    problems = problems_of(event)
    return (None if problems else event), problems


def _unknown(values: Mapping[str, Any], allowed: tuple[str, ...]) -> Problems:
    unknown = islice((entry for entry in values if entry not in allowed), MOST_TOLD + 1)
    return [(entry, f"unknown key {entry[:40]!r}{nearest(entry[:40], allowed)}") for entry in unknown]


def _text(entry: str, value: Any, problems: Problems) -> str:
    if not isinstance(value, str):
        problems.append((entry, f"expected a text in quotes, got {str(value)[:40]}"))
        return ""
    if value.isascii() and value.isprintable() and len(value) <= _LONGEST:
        return value.strip()
    try:
        return plain_text(value, "", longest=_LONGEST) if value.strip() else ""
    except RecordError as error:
        problems.append((entry, str(error).removeprefix(": ")))
        return ""


def _named(entry: str, text: str, names: LogNames, problems: Problems) -> str:
    known = names.known(entry, text)
    if known is None:
        problems.append((entry, names.refusal(entry, text)))
        return ""
    return known


def _person(entry: str, text: str, names: LogNames, problems: Problems) -> str:
    if not _PERSON.fullmatch(text):
        return text
    id_ = text.upper()
    if names.people is not None and id_ not in names.people:
        problems.append((entry, f"{id_[:40]!r} is not in the register{nearest(id_, names.people)}"))
    return id_


def _check_day(text: str, latest: dt.date, problems: Problems) -> None:
    if not text:
        return
    try:
        day = dt.date.fromisoformat(text)
    except ValueError:
        day = None
    if day is None or day.isoformat() != text:
        problems.append(("date", f"expected a day such as 2026-11-14, got {text[:40]!r}"))
    elif day > latest:
        problems.append(("date", f"{day} is in the future"))


def _number(entry: str, value: Any, problems: Problems) -> int | None:
    if isinstance(value, int) and not isinstance(value, bool) and (entry == "revision") <= value <= _GREATEST:
        return value
    least = 1 if entry == "revision" else 0
    problems.append((entry, f"expected a whole number from {least} to {_GREATEST}, got {str(value)[:40]!r}"))
    return None


def _readings(value: Any, names: LogNames, problems: Problems) -> tuple[MeasuredPoint, ...]:
    found = []
    for reading in value if isinstance(value, list) else [value]:
        if not isinstance(reading, dict) or set(reading) != {"dimension", "point", "value"}:
            problems.append(("readings", "expected dimension, point and value of each reading"))
            return ()
        number = reading["value"]
        if isinstance(number, bool) or not isinstance(number, (int, float)) or not 0 <= number <= 100:
            problems.append(("readings", f"expected a number from 0 to 100, got {str(number)[:40]!r}"))
            return ()
        dimension = _named("dimension", _text("readings", reading["dimension"], problems), names, problems)
        found.append(MeasuredPoint(dimension, _text("readings", reading["point"], problems), float(number)))
    return tuple(found)
