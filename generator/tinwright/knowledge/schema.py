"""JSON Schema of each kind of record, so that an editor can complete keys and mark mistakes."""

from __future__ import annotations

import ast
import inspect
import json
import sys
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from pydantic.json_schema import GenerateJsonSchema

from tinwright.knowledge.models import KINDS
from tinwright.knowledge.models.examination import Blueprint, Topic
from tinwright.knowledge.models.item import ASKS, Item
from tinwright.knowledge.models.practice import PracticeScenario
from tinwright.knowledge.models.seen_here import SeenHere

if TYPE_CHECKING:
    from pathlib import Path

    from pydantic_core import core_schema

    from tinwright.knowledge.models.base import Model, Record

__all__ = ["SCHEMAS", "record_schema", "schema_of", "write_schemas"]

SCHEMAS: dict[str, tuple[type[Record], ...]] = {
    **{kind: (model,) for kind, model in KINDS.items()},
    Topic.kind: (Topic,),
    Item.kind: tuple(ASKS.values()),
    Blueprint.kind: (Blueprint,),
    PracticeScenario.kind: (PracticeScenario,),
    SeenHere.kind: (SeenHere,),
}
"""Each kind of file by name, and the models its records may have."""

_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema_of(kind: str) -> dict[str, Any]:
    """Return the JSON Schema of a file of one kind: a record named by its file, or a list of records with ids.

    Raises:
        KeyError: for an unknown kind.
    """
    models = [_schema_of_model(model) for model in SCHEMAS[kind]]
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
    record = _schema_of_model(KINDS[kind])
    parts = record.pop("$defs", {})
    if "Evidence" in parts:
        parts["Evidence"] = _with_short_form(parts["Evidence"])
    return record, parts


class _Described(GenerateJsonSchema):
    """Describes each field by the text under it, which is read from the source only now: records need none."""

    def model_schema(self, schema: core_schema.ModelSchema) -> dict[str, Any]:
        found = super().model_schema(schema)
        for model in reversed(schema["cls"].__mro__):
            for name, words in _texts_of(model.__module__).get(model.__name__, {}).items():
                if name in found.get("properties", {}):
                    found["properties"][name]["description"] = words
        return found


@cache
def _texts_of(module: str) -> dict[str, dict[str, str]]:
    """Return the text under each field of each class of a module of models."""
    if not module.startswith(f"{__package__}.models."):
        return {}
    tree = ast.parse(inspect.getsource(sys.modules[module]))
    return {
        node.name: {
            field.target.id: inspect.cleandoc(text.value.value)
            for field, text in pairwise(node.body)
            if isinstance(field, ast.AnnAssign) and isinstance(field.target, ast.Name)
            if isinstance(text, ast.Expr) and isinstance(text.value, ast.Constant) and isinstance(text.value.value, str)
        }
        for node in tree.body
        if isinstance(node, ast.ClassDef)
    }


def _schema_of_model(model: type[Model]) -> dict[str, Any]:
    return model.model_json_schema(ref_template="#/$defs/{model}", schema_generator=_Described)


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
