"""How a layer changes a record of a layer beneath: it amends some of it, replaces it, or leaves it out.

    amends: cfjagclbhdke      # the text beneath that was read when this was written
    title: What we call it    # a field that is put in place of the one beneath
    causes:                   # a list: entries by their id, or by what is written first in them
      drop: [chuck-worn]
      add: [{cause: chuck-dirty, likelihood: likely, evidence: practice}]
      first: [chuck-dirty]

`replaces: cfjagclbhdke` stands at the head of a whole record, `leave_out: Why` alone.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tinwright.knowledge.yaml_source import LocatedYaml

__all__ = ["AMENDS", "LEAVE_OUT", "REPLACES", "AmendError", "Change", "Question", "amended", "digest_of", "way_of"]

AMENDS, REPLACES, LEAVE_OUT = "amends", "replaces", "leave_out"
"""The key that says how a record changes the one beneath it."""
_LETTERS = str.maketrans("0123456789", "ghijklmnop")
"""Letters alone: YAML would take some digests with digits for numbers."""
_LIST_WORDS = {"add", "drop", "first"}


class AmendError(ValueError):
    """Raised by `amended` for a change that does not fit what is beneath.

    Attributes:
        path: where in the change.
    """

    def __init__(self, message: str, path: tuple[str | int, ...]) -> None:
        super().__init__(message)
        self.path = path


@dataclass(frozen=True)
class Change:
    """What a layer changes in a record of a layer beneath."""

    id: str
    """The record's id."""
    value: dict[str, Any]
    """The change, with the key that says how."""
    file: LocatedYaml
    """The file it stands in."""
    path: tuple[str | int, ...]
    """Where in that file."""


@dataclass(frozen=True)
class Question:
    """A change that answered another text than the one beneath it now: keep it, drop it, or edit it."""

    kind: str
    """Kind of the record."""
    change: Change
    """The change."""
    beneath: dict[str, Any]
    """What stands beneath now."""
    beneath_file: str
    """Where that stands."""
    subject: str
    """What the record is called in problems."""

    def __str__(self) -> str:
        line, column = self.change.file.at(self.change.path)
        place = f"{self.change.file.file}:{line}:{column}: {self.subject}"
        return f"{place}: the text beneath has changed: {self.beneath_file}"


def way_of(record: dict[str, Any]) -> str | None:
    """Return the key that says how a record changes one beneath it, or None for a record of its own."""
    return next((way for way in (AMENDS, REPLACES, LEAVE_OUT) if way in record), None)


def digest_of(record: dict[str, Any]) -> str:
    """Return a short digest of what a record says; how it is laid out, and its notes, do not count.

    >>> digest_of({"title": "Droop"}) == digest_of({"title": "Droop", "id": "droop"})
    True
    """
    said = {key: value for key, value in record.items() if key != "id"}
    digest = hashlib.sha256(json.dumps(said, sort_keys=True).encode()).hexdigest()[:12]
    return digest.translate(_LETTERS)


def amended(beneath: dict[str, Any], change: dict[str, Any]) -> dict[str, Any]:
    """Return the record beneath with a change made in it; neither of them is changed.

    >>> amended({"title": "Droop", "said": ["a", "b"]}, {"amends": "", "said": {"drop": ["a"], "add": ["c"]}})
    {'title': 'Droop', 'said': ['b', 'c']}

    Raises:
        AmendError: when a list is to drop or move an entry that it has not.
    """
    found = dict(beneath)
    for key, value in change.items():
        if key in {AMENDS, "id"}:
            continue
        is_of_a_list = isinstance(value, dict) and value and set(value) <= _LIST_WORDS
        found[key] = _relisted(beneath.get(key, []), value, key) if is_of_a_list else value
    return found


def _relisted(beneath: Any, change: dict[str, Any], key: str) -> list[Any]:
    if not isinstance(beneath, list):
        raise AmendError(f"{key}: expected a list beneath, to add to or drop from", (key,))
    entries = list(beneath)
    for number, name in enumerate(_words(change, "drop", key)):
        entries.remove(_entry(entries, name, (key, "drop", number)))
    added = change.get("add", [])
    if not isinstance(added, list):
        raise AmendError("add: expected a list", (key, "add"))
    entries += added
    front = [_entry(entries, name, (key, "first", number)) for number, name in enumerate(_words(change, "first", key))]
    return [*front, *(entry for entry in entries if entry not in front)]


def _words(change: dict[str, Any], word: str, key: str) -> list[str]:
    names = change.get(word, [])
    if not isinstance(names, list) or not all(isinstance(name, str) for name in names):
        raise AmendError(f"{word}: expected a list of entries by their names", (key, word))
    return names


def _entry(entries: list[Any], name: str, path: tuple[str | int, ...]) -> Any:
    named = {_name(entry): entry for entry in entries}
    if name not in named:
        shown = ", ".join(each if len(each) <= _LONGEST else f"{each[:_LONGEST]}..." for each in named)
        raise AmendError(f"no entry is called {name!r}; there are: {shown or 'none'}", path)
    return named[name]


_LONGEST = 30
"""So many letters of an entry are shown."""


def _name(entry: Any) -> str:
    """Return what an entry of a list is called: itself, its id, or what is written first in it."""
    if isinstance(entry, dict):
        return str(entry.get("id", next(iter(entry.values()), "")))
    return str(entry)
