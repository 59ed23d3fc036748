"""A programme in which every field of every record is filled, made from the record models themselves."""

from __future__ import annotations

import datetime as dt
import json
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from types import MappingProxyType, UnionType
from typing import TYPE_CHECKING, Annotated, Any, Union, get_args, get_origin

from PIL import Image
from pydantic import BaseModel

from tinwright.knowledge import KnowledgeBase
from tinwright.knowledge.models import KINDS, Source
from tinwright.knowledge.models.base import Photo, Reference
from tinwright.measures import Length

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

PICTURE = "the seam.png"
_FIXED = {
    "code": "307x409",
    "size": "307",
    "sizes": ["307"],
    "thread": "1/4-20",
    "reviewed": dt.date(2026, 11, 2),
    "formerly": ["before"],
    "seat_height": "4 1/2 in",
    "standard_uncertainty": "0.0005 in",
    "end_plate": "0.010 in",
    "body_plate": "0.010 in",
    "limits": [
        {"dimension": dimension, "min": low, "aim": aim, "max": high}
        for dimension, low, aim, high in (
            ("countersink", "0.120 in", "0.125 in", "0.130 in"),
            ("seam-width", "0.110 in", "0.118 in", "0.125 in"),
            ("seam-thickness", "0.051 in", "0.055 in", "0.060 in"),
            ("body-hook", "0.070 in", "0.078 in", "0.086 in"),
            ("cover-hook", "0.068 in", "0.076 in", "0.084 in"),
            ("overlap", "0.040 in", "0.045 in", "no limit"),
        )
    ],
    "overlap_percent_min": 45,
    "butting_percent_min": 70,
    "tightness_percent_min": 70,
    "digest": "0123456789abcdef",
}
_SIZES_OF = {
    "Can": {"code"},
    "Chuck": {"size"},
    "RollerSlot": {"sizes"},
    "AdjusterScrew": {"thread"},
    "Sealer": {"seat_height"},
    "Instrument": {"standard_uncertainty"},
    "SheetReading": {"digest"},
    "SeamSpecification": {
        "end_plate",
        "body_plate",
        "limits",
        "overlap_percent_min",
        "butting_percent_min",
        "tightness_percent_min",
    },
}
"""What only some values fit, by the part of a record."""
_OTHER = {
    "id": "other",
    "title": "The other",
    "short": "The other",
    "publisher": "Somebody else",
    "year": "2026",
    "about": "What the source passes on.",
    "reading": "whole",
    "licence": "None",
    "reviewed": dt.date(2026, 11, 2),
}
"""A second source: no statement cites one twice, and no source passes on itself."""
_SETTLED = {("Citation", "source"): "other", ("Source", "same_as"): "other", ("Evidence", "single"): False}


def filled_programme(root: Path, text: Callable[[str], str]) -> KnowledgeBase:
    """One record of each kind, each named after its kind, all linked to each other.

    Args:
        root: a folder for the photograph.
        text: gives the text for a field from its path, such as `defect.can_action.steps.text`.
    """
    _picture(root)
    records = {
        (kind, kind): model.model_validate({**_fields(model, kind, text), "id": kind}) for kind, model in KINDS.items()
    }
    other = Source.model_validate(_OTHER)
    return KnowledgeBase(root, MappingProxyType({**records, ("source", "other"): other}))


def write_filled_programme(root: Path, text: Callable[[str], str] = lambda path: f"words of {path}") -> None:
    """Write the same records below `root`, as an educator would lay them down."""
    _picture(root)
    for kind, model in KINDS.items():
        target = root / "program.yml" if kind == "programme" else root / model.folder / f"{kind}.yml"
        target.parent.mkdir(parents=True, exist_ok=True)
        values = _fields(model, kind, text)
        if kind == "cause":
            values["correction"]["say"] = "Put it right."  # the checker asks for one short order
        target.write_text(json.dumps(values, default=str, ensure_ascii=False, indent=1), encoding="utf-8")
    (root / "sources" / "others.yml").write_text(json.dumps([_OTHER], default=str), encoding="utf-8")


def _picture(root: Path) -> None:
    picture = root / "photos" / PICTURE
    if not picture.is_file():
        picture.parent.mkdir(parents=True, exist_ok=True)
        Image.new("RGB", (8, 6), "gray").save(picture)


def text_paths(root: Path) -> list[str]:
    """The path of every field that holds free text."""
    paths: list[str] = []

    def note(path: str) -> str:
        paths.append(path)
        return "words"

    filled_programme(root, note)
    return paths


def _fields(model: type[BaseModel], path: str, text: Callable[[str], str]) -> dict[str, Any]:
    values: dict[str, Any] = {}
    for name, info in model.model_fields.items():
        if name == "id":
            continue
        if name in {"reviewed", "formerly"} or name in _SIZES_OF.get(model.__name__, ()):
            values[name] = _FIXED[name]
        elif name == "by" and model.__name__ == "SheetReading":  # two people, who must not be the same
            values[name] = [{"who": text(f"{path}.by.who") + mark, "day": "2026-11-02"} for mark in (" A", " B")]
        elif model is Photo and name == "file":
            values[name] = PICTURE
        elif (model.__name__, name) in _SETTLED:
            values[name] = _SETTLED[model.__name__, name]
        else:
            values[name] = _value(info.annotation, [*info.metadata], f"{path}.{name}", text)
    return values


def _value(annotation: Any, metadata: list[Any], path: str, text: Callable[[str], str]) -> Any:
    origin, arguments = get_origin(annotation), get_args(annotation)
    if origin is Annotated:
        return _value(arguments[0], [*metadata, *annotation.__metadata__], path, text)
    if origin in {Union, UnionType}:
        return _value(next(a for a in arguments if a is not type(None)), metadata, path, text)
    if origin is tuple:
        least = next((m.min_length for m in metadata if hasattr(m, "min_length")), 1)
        return [_value(arguments[0], [], path, text) for _ in range(max(1, least))]
    reference = next((m for m in metadata if isinstance(m, Reference)), None)
    if reference is not None:
        return reference.kind
    if annotation is str:
        return text(path)
    return _plain(annotation, metadata, path, text)


def _plain(annotation: Any, metadata: list[Any], path: str, text: Callable[[str], str]) -> Any:
    if issubclass(annotation, BaseModel):
        return _fields(annotation, path, text)
    if issubclass(annotation, StrEnum):
        return next(iter(annotation)).value
    if annotation is bool:
        return True
    if annotation is int:
        return max(1, next((m.ge for m in metadata if hasattr(m, "ge")), 1))
    return {Length: "1/4 in", Fraction: "1/8 turn", Decimal: Decimal("12.5"), dt.date: dt.date(2026, 11, 2)}[annotation]
