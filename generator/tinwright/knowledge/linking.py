"""References between records: found by their types, resolved, and turned round for links both ways."""

from __future__ import annotations

import re
from collections import defaultdict
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple, get_args

from pydantic import BaseModel

from tinwright.knowledge.models.base import AnyReference, Reference

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from pydantic.fields import FieldInfo

    from tinwright.knowledge.base import KnowledgeBase
    from tinwright.knowledge.models.base import Record

__all__ = ["INLINE", "Mention", "mentions", "plain_text", "reference_of", "turned_round"]

INLINE = re.compile(r"\[\[(?P<kind>[a-z-]+)/(?P<id>[a-z0-9.-]+)(?:\|(?P<text>[^\]|]+))?\]\]")
"""A link written in text: `[[defect/droop]]` or `[[defect/droop|that droop]]`."""


class Mention(NamedTuple):
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


def mentions(record: Record) -> list[Mention]:
    """Return every reference in a record, in order: reference fields and `[[kind/id]]` in any text."""
    found: list[Mention] = []
    _add_from_model(record, (), found)
    return found


def _add_from_model(model: BaseModel, path: tuple[str | int, ...], found: list[Mention]) -> None:
    for name, reference in _fields(type(model)):
        _add_from_value(getattr(model, name), path, name, reference, found)


@cache
def _fields(model: type[BaseModel]) -> tuple[tuple[str, Reference | AnyReference | None], ...]:
    """Return the fields of a model that may name a record, each with what its type says it names."""
    return tuple(
        (
            name,
            reference_of(info),
        )
        for name, info in model.model_fields.items()
        if _may_name(info.annotation)
    )


def reference_of(info: FieldInfo) -> Reference | AnyReference | None:
    """Return what a field names, or each entry of the list it holds; None when it names no record."""
    return next((m for m in info.metadata if isinstance(m, Reference | AnyReference)), None) or _nested(info.annotation)


def _may_name(annotation: Any) -> bool:
    """Tell whether there is text in values of this type."""
    if isinstance(annotation, type):
        return annotation is str or issubclass(annotation, BaseModel)
    return any(map(_may_name, get_args(annotation)))


def _add_from_value(
    value: Any,
    path: tuple[str | int, ...],
    step: str | int,
    reference: Reference | AnyReference | None,
    found: list[Mention],
) -> None:
    """Add what a part of a record names; `path` leads to what it is a part of, `step` from there."""
    if isinstance(value, str):
        if isinstance(reference, Reference):
            found.append(Mention(reference.kind, value, (*path, step)))
        elif reference is not None:
            kind, _, id_ = value.partition("/")
            found.append(Mention(kind, id_, (*path, step)))
        elif "[[" in value:
            found.extend(Mention(match["kind"], match["id"], (*path, step)) for match in INLINE.finditer(value))
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            _add_from_value(item, (*path, step), index, reference, found)
    elif isinstance(value, BaseModel):
        _add_from_model(value, (*path, step), found)


def _nested(annotation: Any) -> Reference | AnyReference | None:
    """Find the reference inside `tuple[ref, ...]` or `ref | None`."""
    for inner in (*getattr(annotation, "__args__", ()), *getattr(annotation, "__metadata__", ())):
        if isinstance(inner, Reference | AnyReference):
            return inner
        if not isinstance(inner, type) and (found := _nested(inner)):
            return found
    return None


def turned_round(
    named: Mapping[tuple[str, str], Iterable[Mention]],
) -> dict[tuple[str, str], tuple[tuple[str, str, str], ...]]:
    """For each record that is named, who names it: `(kind, id, field)`, once each, in order of kind and id.

    Args:
        named: what each record names, by its own kind and id.
    """
    found: dict[tuple[str, str], set[tuple[str, str, str]]] = defaultdict(set)
    for (kind, id_), names in named.items():
        for mention in names:
            if (mention.kind, mention.id) != (kind, id_):
                found[mention.kind, mention.id].add((kind, id_, mention.field))
    return {target: tuple(sorted(sources)) for target, sources in found.items()}


def plain_text(kb: KnowledgeBase, text: str) -> str:
    """Put the name of the record in place of each link in a text."""
    return INLINE.sub(lambda m: m["text"] or kb.records[m["kind"], m["id"]].name.lower(), text)
