"""Which version of an event counts, when telephones and sheets tell it in several ways.

The newest revision counts. Of several with the same revision, and until somebody decides, the most cautious one: a
failure stands before whatever clears cans, and what was struck out clears nothing. The answer depends on the
versions alone, never on the order in which they came.
"""

from __future__ import annotations

import json
from dataclasses import replace
from hashlib import blake2b
from typing import TYPE_CHECKING

from tinwright.benchlog.checks import checked_can, reach_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tinwright.benchlog import Event, Session
    from tinwright.logbook.entries import Choice

__all__ = ["digest_of", "digest_of_head", "merged_head", "most_cautious", "standing"]

_HEAD_FIELDS = ("can", "lid_lot", "supervisor", "product")
_CLEARS, _STRUCK, _TELLS, _FAILS = range(4)
_ALL = 10**9
"""More cans than any counter shows: a test can clears all before it."""


def digest_of(event: Event) -> str:
    """Return a digest of what an event says; its session, id and revision are no part of it.

    >>> from tinwright.benchlog import Event
    >>> at = ("2026-11-14", "Mill Street", "s")
    >>> digest_of(Event("a-1", at, "09:05", "jam")) == digest_of(Event("a-2", at, "09:05", "jam", revision=2))
    True
    """
    said = vars(event)
    content = [said[name] for name in _CONTENT]
    # What a log of before knows nothing of is left out where it is blank, so that its digests stay.
    content += [[name, said[name]] for name in _ADDED if said[name]]
    if event.readings:
        content.append([[point.dimension, point.point, point.value] for point in event.readings])
    return blake2b(json.dumps(content, separators=(",", ":")).encode(), digest_size=16).hexdigest()


_CONTENT = (
    "at",
    "kind",
    "struck",
    "by",
    "can_number",
    "first",
    "last",
    "result",
    "can",
    "lid_lot",
    "defect",
    "cause",
    "adjuster",
    "direction",
    "turns",
    "method",
    "specification",
    "torn_down",
    "reason",
    "note",
)


_ADDED = ("run", "on", "after")


def digest_of_head(session: Session) -> str:
    """Return a digest of what a head says besides date, kitchen and sealer."""
    content = [getattr(session, name) for name in _HEAD_FIELDS]
    return blake2b(json.dumps(content, separators=(",", ":")).encode(), digest_size=16).hexdigest()


def standing(versions: Iterable[Event], choice: Choice | None = None) -> tuple[Event, list[Event]]:
    """Return the version that counts, and all those with the highest revision, in the order of their digests.

    Args:
        versions: all versions of one event.
        choice: what somebody decided; it holds where it was made among those there are.
    """
    found = list(versions)
    highest = max(event.revision for event in found)
    candidates = sorted((event for event in found if event.revision == highest), key=digest_of)
    if choice is not None and choice.settles(map(digest_of, candidates)):
        return next(event for event in candidates if digest_of(event) == choice.digest), candidates
    return most_cautious(candidates), candidates


def most_cautious(versions: Sequence[Event]) -> Event:
    """Return the version that lets the fewest cans go, the first of those that let go the same.

    >>> from tinwright.benchlog import Event
    >>> good = Event("a-1", ("2026-11-14", "Mill Street", "s"), "09:05", "test-can", result="good")
    >>> most_cautious([good, replace(good, result="bad")]).result
    'bad'
    >>> most_cautious([good, replace(good, struck=True)]).struck
    True
    """
    return max(versions, key=_caution)


def _caution(event: Event) -> tuple[int, int, int, int]:
    lets_go = event.kind in {"release", "discard"}
    number_of_cans = (event.last or 0) - (event.first or 0) if event.first is not None else -1
    # A check of a can further back clears fewer cans, and one that reaches less far fewer faults.
    sees_less = further_back = 0
    if event.struck:
        weight = _STRUCK
    elif event.result in {"bad", "reject"} or event.kind == "hold" or event.defect:
        weight = _FAILS
        sees_less, further_back = int(not event.defect), -(event.can_number or 0)
    elif lets_go or event.result in {"good", "accept"}:
        weight = _CLEARS
        can = checked_can(event)
        sees_less, further_back = -reach_of(event), -_ALL if can is None else -can
    else:
        weight = _TELLS
    return weight, -number_of_cans if lets_go else number_of_cans, sees_less, further_back


def merged_head(heads: Sequence[Session], chosen: Session | None = None) -> tuple[Session, bool]:
    """Return the head of a session from what its sources say, and whether they disagree.

    An entry that one of them leaves blank is no disagreement, nor are capitals and spaces.

    Args:
        heads: what they say, the one to go by first.
        chosen: the one that somebody chose, if any.
    """
    first = chosen or heads[0]
    filled = {name: _first_said(name, [first, *heads]) for name in _HEAD_FIELDS}
    differ = any(len({_plain(getattr(head, name)) for head in heads} - {""}) > 1 for name in _HEAD_FIELDS)
    return replace(first, **filled), differ


def _first_said(name: str, heads: Iterable[Session]) -> str:
    return next((value for head in heads if (value := getattr(head, name))), "")


def _plain(text: str) -> str:
    return " ".join(text.split()).casefold()
