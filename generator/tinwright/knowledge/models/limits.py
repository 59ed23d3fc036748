"""Limits as a supplier's sheet states them: a number, or `no limit` in words, so that a line left out is seen."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any

from pydantic import BeforeValidator, GetPydanticSchema, PlainSerializer, WithJsonSchema
from pydantic_core import core_schema

from tinwright.measures import Length, parse_length

__all__ = ["NO_LIMIT", "LimitField", "PercentLimit"]

NO_LIMIT = "no limit"
"""What stands in a record where the sheet has no limit."""

_PERCENT = (25, 100)
"""No sheet allows less than a quarter of what there could be, none asks for more than all; the product's own bounds."""


def _as_limit(value: object) -> Length | None:
    if isinstance(value, Length) or value == NO_LIMIT:
        return value if isinstance(value, Length) else None
    if value is None:
        raise ValueError(f"expected a length, or '{NO_LIMIT}' in words, got nothing")
    return parse_length(str(value))


def _as_percent(value: object) -> Decimal | None:
    if value == NO_LIMIT:
        return None
    if isinstance(value, bool) or not isinstance(value, (int, float, Decimal)):
        raise ValueError(f"expected percent as a number, or '{NO_LIMIT}' in words, got {value!r}")
    least, most = _PERCENT
    number = Decimal(str(value))
    if not least <= number <= most:
        raise ValueError(f"expected {least} to {most} percent, or '{NO_LIMIT}' in words, got {value}")
    return number


def _text(value: object) -> str:
    return NO_LIMIT if value is None else str(value)


def _percent(value: Decimal | None) -> int | float | str:
    if value is None:
        return NO_LIMIT
    return int(value) if value == int(value) else float(value)


def _any_schema(_source: Any, _handler: Any) -> core_schema.CoreSchema:
    return core_schema.any_schema()


LimitField = Annotated[
    Length | None,
    GetPydanticSchema(_any_schema),
    BeforeValidator(_as_limit),
    PlainSerializer(_text),
    WithJsonSchema({"type": "string", "pattern": r"^([\d./ -]+(in|mm)|no limit)$", "examples": ["0.055 in", NO_LIMIT]}),
]
"""A length with its unit, or `no limit`, which is None."""

PercentLimit = Annotated[
    Decimal | None,
    GetPydanticSchema(_any_schema),
    BeforeValidator(_as_percent),
    PlainSerializer(_percent),
    WithJsonSchema(
        {"anyOf": [{"type": "number", "minimum": _PERCENT[0], "maximum": _PERCENT[1]}, {"const": NO_LIMIT}]}
    ),
]
"""A number of percent, or `no limit`, which is None."""
