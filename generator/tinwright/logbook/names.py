"""The names that a bench log may use, and the nearest spelling of those it may not."""

from __future__ import annotations

from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING

from tinwright.benchlog.events import KINDS, RESULTS
from tinwright.knowledge.models.machine import Adjuster
from tinwright.knowledge.models.trouble import Turn
from tinwright.knowledge.wording import nearest
from tinwright.seaming import DIMENSIONS, POINTS_NEEDED

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tinwright.knowledge import KnowledgeBase

__all__ = ["LogNames", "names_in"]

_RECORDS = ("can", "sealer", "defect", "cause", "specification")
_WORDS: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "kind": {name: name for name in KINDS} | {kind.label.lower(): name for name, kind in KINDS.items()},
        "result": {word: word for words in RESULTS.values() for word in words} | {"measure again": "measure-again"},
        "adjuster": {str(word): str(word) for word in Adjuster},
        "direction": {str(word): str(word) for word in Turn},
        "method": {word: word for word in POINTS_NEEDED},
        "dimension": {word: word for word in DIMENSIONS},
    }
)


@dataclass(frozen=True)
class LogNames:
    """The names there are; where it is None, any name is taken, and written as an id."""

    records: Mapping[str, Mapping[str, str]] | None = None
    """`can`, `sealer`, `defect`, `cause`, `specification` and `kitchen`: spellings in small letters, and the id."""
    people: frozenset[str] | None = None
    """Ids of the register; initials are always taken."""
    _found: dict[tuple[str, str], str | None] = field(default_factory=dict, repr=False, compare=False)

    def known(self, entry: str, text: str) -> str | None:
        """Return the name that a text stands for, or None when there is none.

        Args:
            entry: what it is a name of, such as `defect` or `kind`.
            text: as it was written.

        >>> LogNames().known("kind", "Test can")
        'test-can'
        """
        key = (entry, text)
        if key not in self._found:
            self._found[key] = self._look_up(entry, text)
        return self._found[key]

    def _look_up(self, entry: str, text: str) -> str | None:
        there = self._there(entry)
        plain = " ".join(text.lower().replace("×", "x").split())
        if there is None:
            return " ".join(text.split()) if entry == "kitchen" else plain.replace(" ", "-")
        return there.get(plain) or there.get(plain.replace(" ", "-"))

    def _there(self, entry: str) -> Mapping[str, str] | None:
        return _WORDS.get(entry) or (self.records.get(entry) if self.records is not None else None)

    def refusal(self, entry: str, text: str) -> str:
        """Say that there is no such name, and the nearest one there is."""
        there = self._there(entry) or {}
        hint = nearest(text, [*there.values()]) or nearest(text.lower(), there)
        if entry in {"can", "sealer", "defect", "cause", "specification", "kitchen"}:
            return f"no {entry} is called {text[:40]!r}{hint}"
        expected = ", ".join(dict.fromkeys(there.values()))
        return f"expected one of {expected}, got {text[:40]!r}{hint}"


def names_in(kb: KnowledgeBase, people: frozenset[str] | None = None) -> LogNames:
    """Return the names of a knowledge base: ids, titles and, for defects, what else they are called.

    Args:
        kb: the knowledge base.
        people: ids of the register, to be checked too.
    """
    found: dict[str, dict[str, str]] = {}
    for entry in _RECORDS:
        records = kb.of_kind("seam-specification" if entry == "specification" else entry)
        spelled = {getattr(record, "title", id_).lower(): id_ for id_, record in records.items()}
        others = {name.lower(): id_ for id_, record in records.items() for name in getattr(record, "also", ())}
        found[entry] = others | spelled | {id_: id_ for id_ in records}
    found["kitchen"] = {kitchen.name.lower(): kitchen.name for kitchen in kb.programme.kitchens}
    return LogNames(found, people)
