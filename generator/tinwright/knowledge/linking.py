"""References between records: found by their types, resolved, and turned round for links both ways."""

from __future__ import annotations

import re
from collections import defaultdict
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any

from pydantic import BaseModel

from tinwright.knowledge.models.base import AnyReference, Reference

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.knowledge.models.base import Record

__all__ = ["INLINE", "Mention", "mentions"]

INLINE = re.compile(r"\[\[(?P<kind>[a-z-]+)/(?P<id>[a-z0-9.-]+)(?:\|(?P<text>[^\]|]+))?\]\]")
"""A link written in text: `[[defect/droop]]` or `[[defect/droop|that droop]]`."""


@dataclass(frozen=True)
class Mention:
    """One record naming another."""

    kind: str
    """Kind of the record named."""
    id: str
    """Its id."""
    path: tuple[str | int, ...]
    """Where in the record that names it."""

    @property
    def field(self) -> str:
        """The top field of the record that names it."""
        return str(self.path[0])


def mentions(record: Record) -> Iterator[Mention]:
    """Yield every reference in a record, in order: reference fields and `[[kind/id]]` in any text."""
    yield from _in_model(record, ())


def _in_model(model: BaseModel, path: tuple[str | int, ...]) -> Iterator[Mention]:
    for name, reference in _fields(type(model)):
        value = getattr(model, name)
        if isinstance(value, str | tuple | BaseModel):
            yield from _in_value(value, (*path, name), reference)


@cache
def _fields(model: type[BaseModel]) -> tuple[tuple[str, Reference | AnyReference | None], ...]:
    """Return the fields of a model, each with what its type says it names."""
    return tuple(
        (
            name,
            next((m for m in info.metadata if isinstance(m, Reference | AnyReference)), None)
            or _nested(info.annotation),
        )
        for name, info in model.model_fields.items()
    )


def _in_value(value: Any, path: tuple[str | int, ...], reference: Reference | AnyReference | None) -> Iterator[Mention]:
    if isinstance(value, BaseModel):
        yield from _in_model(value, path)
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            yield from _in_value(item, (*path, index), reference)
    elif isinstance(value, str):
        if isinstance(reference, Reference):
            yield Mention(reference.kind, value, path)
        elif reference is not None:
            kind, _, id_ = value.partition("/")
            yield Mention(kind, id_, path)
        elif "[[" in value:
            for match in INLINE.finditer(value):
                yield Mention(match["kind"], match["id"], path)


def _nested(annotation: Any) -> Reference | AnyReference | None:
    """Find the reference inside `tuple[ref, ...]` or `ref | None`."""
    for inner in (*getattr(annotation, "__args__", ()), *getattr(annotation, "__metadata__", ())):
        if isinstance(inner, Reference | AnyReference):
            return inner
        if not isinstance(inner, type) and (found := _nested(inner)):
            return found
    return None


def turned_round(
    records: dict[tuple[str, str], Record],
) -> dict[tuple[str, str], tuple[tuple[str, str, str], ...]]:
    """For each record, who names it: `(kind, id, field)`, once each, in order of kind and id."""
    found: dict[tuple[str, str], set[tuple[str, str, str]]] = defaultdict(set)
    for (kind, id_), record in records.items():
        for mention in mentions(record):
            if (mention.kind, mention.id) != (kind, id_):
                found[mention.kind, mention.id].add((kind, id_, mention.field))
    return {target: tuple(sorted(sources)) for target, sources in found.items()}
