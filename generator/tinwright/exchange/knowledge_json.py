"""The whole knowledge base as JSON, in the words of the educator's own files."""

from __future__ import annotations

import datetime as dt
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Any

from pydantic import BaseModel

from tinwright.knowledge.models import KINDS
from tinwright.measures import Length

if TYPE_CHECKING:
    from collections.abc import Callable

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models.base import Record

__all__ = ["FORMAT", "knowledge_json"]

FORMAT = 1
"""Number of the form; it grows when a program that reads an older one could no longer read this."""


def knowledge_json(kb: KnowledgeBase, *, address: Callable[[Record], str] | None = None) -> dict[str, Any]:
    """Return every record as JSON-able values: the same keys and texts as in the files, each with its id.

    Measures stay text with their unit, so that nothing is rounded. Keys left out of a file are left out here.

    Args:
        kb: the knowledge base.
        address: gives a record's page, relative to the site; pages are left out without it.
    """
    records: dict[str, dict[str, Any]] = {kind: {} for kind in KINDS}
    for (kind, id_), record in sorted(kb.records.items()):
        records[kind][id_] = _plain(record)
    pages = {
        f"{kind}/{id_}": address(record)
        for (kind, id_), record in sorted(kb.records.items())
        if address and kind != "programme"
    }
    return {
        "$schema": "knowledge.schema.json",
        "format": FORMAT,
        "title": kb.programme.title,
        "demonstration": kb.programme.demonstration,
        "reviewed": max(record.reviewed for record in kb.records.values()).isoformat(),
        "pages": pages,
        "records": records,
    }


def _plain(value: Any) -> Any:
    if type(value) is str:
        return value
    if isinstance(value, BaseModel):
        return {
            name: _plain(field)
            for name, default in _fields(type(value))
            if (field := getattr(value, name)) is not default and not _is_default(field, default)
        }
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    if isinstance(value, Length):
        return value.text
    if isinstance(value, Fraction):
        return f"{value} turn" if value <= 1 else f"{value} turns"
    if isinstance(value, dt.date):
        return value.isoformat()
    if isinstance(value, Decimal):
        return str(value)
    return value if isinstance(value, bool | int | float | type(None)) else str(value)


@cache
def _fields(model: type[BaseModel]) -> tuple[tuple[str, Any], ...]:
    """Return the name and the default of each field of a model; where there is no default, `...`."""
    fields = model.model_fields.items()
    return tuple((name, ... if info.is_required() else info.get_default()) for name, info in fields)


def _is_default(value: Any, default: Any) -> bool:
    return type(value) is type(default) and bool(value == default)
