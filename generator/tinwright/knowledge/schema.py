"""JSON Schema of each kind of record, so that an editor can complete keys and mark mistakes."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from tinwright.knowledge.models import KINDS
from tinwright.knowledge.models.examination import Blueprint, Topic
from tinwright.knowledge.models.item import ASKS, Item
from tinwright.knowledge.models.seen_here import SeenHere

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.knowledge.models.base import Record

__all__ = ["SCHEMAS", "record_schema", "schema_of", "write_schemas"]

SCHEMAS: dict[str, tuple[type[Record], ...]] = {
    **{kind: (model,) for kind, model in KINDS.items()},
    Topic.kind: (Topic,),
    Item.kind: tuple(ASKS.values()),
    Blueprint.kind: (Blueprint,),
    SeenHere.kind: (SeenHere,),
}
"""Each kind of file by name, and the models its records may have."""

_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema_of(kind: str) -> dict[str, Any]:
    """Return the JSON Schema of a file of one kind: a record named by its file, or a list of records with ids.

    Raises:
        KeyError: for an unknown kind.
    """
    models = [model.model_json_schema(ref_template="#/$defs/{model}") for model in SCHEMAS[kind]]
    definitions = {name: value for model in models for name, value in model.pop("$defs", {}).items()}
    alone = [_without_id(model) for model in models]
    listed = models[0] if len(models) == 1 else {"oneOf": models}
    return {
        "$schema": _DIALECT,
        "title": models[0]["title"] if len(models) == 1 else kind.capitalize(),
        "description": models[0].get("description", "") if len(models) == 1 else (Item.__doc__ or ""),
        "oneOf": [*alone, {"type": "array", "items": listed, "minItems": 1}],
        "$defs": {
            **definitions,
            "Evidence": _with_short_form(definitions["Evidence"]) if "Evidence" in definitions else {},
        },
    }


def record_schema(kind: str) -> tuple[dict[str, Any], dict[str, Any]]:
    """Return the JSON Schema of one record of a kind, its id included, and the definitions it refers to.

    Raises:
        KeyError: for an unknown kind.
    """
    record = KINDS[kind].model_json_schema(ref_template="#/$defs/{model}")
    parts = record.pop("$defs", {})
    if "Evidence" in parts:
        parts["Evidence"] = _with_short_form(parts["Evidence"])
    return record, parts


def _without_id(model: dict[str, Any]) -> dict[str, Any]:
    """Describe a record that is named by its file."""
    named = {key: value for key, value in model["properties"].items() if key != "id"}
    return {**model, "properties": named, "required": [key for key in model["required"] if key != "id"]}


def _with_short_form(evidence: dict[str, Any]) -> dict[str, Any]:
    """Allow `evidence: practice` beside the long form."""
    words = {
        "enum": ["derived", "practice", "memory", "invented"],
        "description": "How it is known, in one word.",
    }
    return {"anyOf": [words, evidence]}


def write_schemas(folder: Path) -> list[str]:
    """Write the schema of each kind to `KIND.json`; return the names of the files, sorted."""
    folder.mkdir(parents=True, exist_ok=True)
    for kind in SCHEMAS:
        text = json.dumps(schema_of(kind), indent=2, ensure_ascii=False) + "\n"
        (folder / f"{kind}.json").write_text(text, encoding="utf-8")
    return sorted(f"{kind}.json" for kind in SCHEMAS)
