"""The whole knowledge base as JSON, in the words of the educator's own files."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tinwright.knowledge.models import KINDS

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
        records[kind][id_] = record.model_dump(mode="json", exclude_defaults=True)
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
