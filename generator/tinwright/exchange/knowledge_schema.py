"""The schema of the knowledge base as JSON, written from the models by `python -m tinwright.exchange.knowledge_schema`.

It depends on our models alone, and making it takes longer than anything a site makes of it: the file is kept.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from tinwright.exchange.knowledge_json import FORMAT
from tinwright.knowledge.models import KINDS
from tinwright.knowledge.schema import record_schema

__all__ = ["FILE", "knowledge_schema", "schema_text"]

FILE = Path(__file__).with_name("knowledge.schema.json")
"""The file that is written; a test keeps it fresh."""


def knowledge_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of `knowledge_json`."""
    definitions: dict[str, Any] = {}
    kinds: dict[str, Any] = {}
    for kind in KINDS:
        record, parts = record_schema(kind)
        definitions |= parts
        definitions[f"record-{kind}"] = record
        kinds[kind] = {"type": "object", "additionalProperties": {"$ref": f"#/$defs/record-{kind}"}}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Knowledge base",
        "description": "Every record of a program by kind and id, in the words of its files.",
        "type": "object",
        "required": ["format", "title", "demonstration", "reviewed", "pages", "records"],
        "additionalProperties": False,
        "properties": {
            "$schema": {"type": "string"},
            "format": {"const": FORMAT},
            "title": {"type": "string"},
            "demonstration": {"type": "boolean"},
            "reviewed": {"type": "string", "format": "date"},
            "pages": {"type": "object", "additionalProperties": {"type": "string"}},
            "records": {"type": "object", "properties": kinds, "required": list(kinds), "additionalProperties": False},
        },
        "$defs": definitions,
    }


def schema_text() -> str:
    """Return the schema as it is published, a key to a line."""
    return json.dumps(knowledge_schema(), ensure_ascii=False, sort_keys=True, indent=1) + "\n"


if __name__ == "__main__":
    FILE.write_text(schema_text(), encoding="utf-8", newline="\n")
    sys.stdout.write(f"wrote {FILE}\n")
