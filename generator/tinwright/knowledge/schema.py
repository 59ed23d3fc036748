"""JSON Schema of each kind of record, so that an editor can complete keys and mark mistakes."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from tinwright.knowledge.models import KINDS

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["schema_of", "write_schemas"]

_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema_of(kind: str) -> dict[str, Any]:
    """Return the JSON Schema of a file of one kind: a record named by its file, or a list of records with ids.

    Raises:
        KeyError: for an unknown kind.
    """
    record = KINDS[kind].model_json_schema(ref_template="#/$defs/{model}")
    definitions = record.pop("$defs", {})
    named = {key: value for key, value in record["properties"].items() if key != "id"}
    alone = {**record, "properties": named, "required": [key for key in record["required"] if key != "id"]}
    return {
        "$schema": _DIALECT,
        "title": record["title"],
        "description": record.get("description", ""),
        "oneOf": [alone, {"type": "array", "items": record, "minItems": 1}],
        "$defs": {
            **definitions,
            "Evidence": _with_short_form(definitions["Evidence"]) if "Evidence" in definitions else {},
        },
    }


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
    for kind in KINDS:
        text = json.dumps(schema_of(kind), indent=2, ensure_ascii=False) + "\n"
        (folder / f"{kind}.json").write_text(text, encoding="utf-8")
    return sorted(f"{kind}.json" for kind in KINDS)
