"""The file that a telephone exports: JSON, read fast, and read again with places when something is wrong.

Its form is told by `EXAMPLE`.
"""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING, Any

from tinwright.errors import Problem
from tinwright.knowledge.yaml_source import MOST_BYTES, read_yaml
from tinwright.logbook.checking import HEAD_ENTRIES, MOST_TOLD, checked_event, checked_head

if TYPE_CHECKING:
    import datetime as dt
    from pathlib import Path

    from tinwright.benchlog import Event, Session
    from tinwright.logbook.names import LogNames

__all__ = ["EXAMPLE", "FORMAT", "VERSION", "read_phone_text"]

FORMAT = "tinwright-bench-log"
VERSION = 1
EXAMPLE = """\
{"format": "tinwright-bench-log", "version": 1, "device": "k7f3q2", "sessions": [
 {"date": "2026-11-14", "kitchen": "Mill Street", "sealer": "bench-crank-sealer", "can": "307x409", "events": [
  {"id": "k7f3q2-1", "at": "09:05", "kind": "test-can", "result": "good"},
  {"id": "k7f3q2-2", "at": "09:12:40", "kind": "sealed", "revision": 2, "first": 1, "last": 12}]}]}
"""
"""A file; entries that are blank are left out, readings are lists of `dimension`, `point` and `value` in inches."""
_DEVICE = re.compile(r"[A-Za-z0-9]{1,40}")
_Path = tuple[str | int, ...]
_Found = list[tuple[_Path, str, str]]
"""Path of the part, the record it is in, and the message."""


class _DoubledKeyError(ValueError):
    """Raised while reading an object that has a key twice."""


def read_phone_text(
    file: Path, text: str, names: LogNames, latest: dt.date
) -> tuple[str, list[tuple[Session, tuple[Event, ...]]], list[Problem]]:
    """Return the telephone's name, its sessions with their events, and all that is wrong with the file.

    Args:
        file: where it lies.
        text: what is in it.
        names: the names there are.
        latest: last day on which a session can have been.
    """
    try:
        value = json.loads(text, object_pairs_hook=_once, parse_constant=_no_number)
    except json.JSONDecodeError as error:
        return "", [], [Problem(str(file), error.lineno, error.colno, "", f"not valid JSON: {error.msg.lower()}")]
    except RecursionError:
        return "", [], [Problem(str(file), 1, 1, "", "expected a bench log, got lists within lists without end")]
    except _DoubledKeyError as error:
        found_by_place = read_yaml(file, str(file)).problems if len(text.encode()) <= MOST_BYTES else []
        return "", [], found_by_place or [Problem(str(file), 1, 1, "", str(error))]
    except ValueError as error:
        return "", [], [Problem(str(file), 1, 1, "", str(error))]
    found: _Found = []
    sessions: list[tuple[Session, tuple[Event, ...]]] = []
    if _is_log(value, found):
        for at, given in enumerate(value["sessions"]):
            session, events = _session(at, given, names, latest, found)
            if session is not None:
                sessions.append((session, tuple(events)))
            if len(found) > MOST_TOLD:
                break
        _check_once(sessions, found)
    if not found:
        return value["device"], sessions, []
    located = read_yaml(file, str(file))
    return "", [], [located.problem(path, message, record=record) for path, record, message in found[: MOST_TOLD + 1]]


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for key, value in pairs:
        if key in found:
            raise _DoubledKeyError(f"expected every key once, got {key[:40]!r} again")
        found[key] = value
    return found


def _no_number(text: str) -> None:
    raise ValueError(f"expected a number, got {text}")


def _is_log(value: Any, found: _Found) -> bool:
    if not isinstance(value, dict) or value.get("format") != FORMAT:
        got = value.get("format") if isinstance(value, dict) else value
        found.append((("format",), "", f"expected a file of the format {FORMAT!r}, got {str(got)[:40]!r}"))
    elif value.get("version") != VERSION:
        expected = f"expected version {VERSION}, got {str(value.get('version'))[:40]!r}: update Tinwright"
        found.append((("version",), "", expected))
    elif not isinstance(value.get("device"), str) or not _DEVICE.fullmatch(value["device"]):
        got = str(value.get("device"))[:40]
        found.append((("device",), "", f"device: expected the telephone's name in letters and digits, got {got!r}"))
    elif not isinstance(value.get("sessions"), list):
        found.append((("sessions",), "", "sessions: expected a list"))
    return not found


def _session(
    at: int, given: Any, names: LogNames, latest: dt.date, found: _Found
) -> tuple[Session | None, list[Event]]:
    path: _Path = ("sessions", at)
    if not isinstance(given, dict) or not isinstance(given.get("events"), list):
        found.append((path, f"session {at + 1}", "expected a session with a list of events"))
        return None, []
    head, problems = checked_head(given, names, latest)
    found += [((*path, entry), f"session {at + 1}", _told(entry, message)) for entry, message in problems]
    key = head.key if head else tuple(str(given.get(entry, "")) for entry in HEAD_ENTRIES[:3])
    events = []
    for place, line in enumerate(given["events"]):
        where: _Path = (*path, "events", place)
        if not isinstance(line, dict):
            found.append((where, f"event {place + 1}", "expected the entries of an event"))
            continue
        event, wrong = checked_event(line, (key[0], key[1], key[2]), names)
        record = f"event {str(line.get('id', place + 1))[:40]}"
        found += [((*where, entry), record, _told(entry, message)) for entry, message in wrong if entry != "date"]
        if event is not None:
            events.append(event)
        if len(found) > MOST_TOLD:
            break
    return head, events


def _told(entry: str, message: str) -> str:
    return message if message.startswith("unknown key") else f"{entry}: {message}"


def _check_once(sessions: list[tuple[Session, tuple[Event, ...]]], found: _Found) -> None:
    seen: set[tuple[str, str, str]] = set()
    for at, (session, _) in enumerate(sessions):
        if session.key in seen:
            found.append((("sessions", at), f"session {at + 1}", f"expected it once, got it again: {session.key}"))
        seen.add(session.key)
