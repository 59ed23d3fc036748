"""What must hold within one record beyond the form of its fields; each fault with the way to where it stands."""

from __future__ import annotations

import datetime as dt
import re
from decimal import Decimal
from enum import StrEnum
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple, get_args

from pydantic import BaseModel

from tinwright.knowledge.linking import reference_of
from tinwright.knowledge.models import Can, Defect
from tinwright.knowledge.models.trouble import Disposition
from tinwright.knowledge.plausible import fault_of_code, fault_of_length
from tinwright.knowledge.texts import faults_of_text
from tinwright.measures import Length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.knowledge.models.base import Record

__all__ = ["PathInRecord", "dates_in", "faults_in"]

PathInRecord = tuple[str | int, ...]

_NO_IDS = frozenset(
    {"index", "con", "prn", "aux", "nul", *(f"{name}{n}" for name in ("com", "lpt") for n in range(10))}
)
"""The page of a folder itself, and names that Windows keeps for devices: no file can be called so."""
_ONCE = {
    "CauseLink": "cause",
    "Chuck": "size",
    "DimensionLimits": "dimension",
    "Effect": "dimension",
    "Kitchen": "name",
    "LookAlike": "defect",
    "MeasuredSign": "dimension",
    "RollerSlot": "slot",
    "SpacerKind": "name",
}
"""Parts of records of which no two in a list may be the same, and by what they are told apart."""
_CODE_IN_ID = re.compile(r"\d+x\d+(?:\.\d+)?(?:x\d+)?(?![\w.])")
_REFUSES = re.compile(
    r"(?:^|[.!;:] +)(?:reject|discard|do not use|never use|throw (?:it|the can|this can) away)\b", re.I
)
_UNACCEPTABLE = ("unacceptable", "serious", "critical", "class i,", "class i:")


def faults_in(record: Record, written: dict[str, Any]) -> Iterator[tuple[PathInRecord, str]]:
    """Yield what is wrong within a record, whatever other records there are.

    Args:
        record: the record.
        written: its keys and values as they stand in the file.
    """
    yield from _mistaken(record, written, ())
    if record.id in _NO_IDS:
        yield ("id",), f"a record cannot be called {record.id!r}: its page would be that of its folder, or of nobody"
    for number, old in enumerate(record.formerly):
        if old in _NO_IDS:
            yield ("formerly", number), f"no record was ever called {old!r}"
    yield from _in_model(record, ())
    if isinstance(record, Can):
        yield from _in_can(record)
    elif isinstance(record, Defect):
        yield from _in_defect(record)


def _mistaken(model: BaseModel, written: dict[str, Any], path: PathInRecord) -> Iterator[tuple[PathInRecord, str]]:
    """Yield each `true` where a number is meant, and each word where one of the two is."""
    for name, kind in _telling(type(model)):
        got = written.get(name)
        if got is None:
            continue
        if kind is bool and not isinstance(got, bool):
            yield (*path, name), f"{name}: expected true or false, without quotes, got {got!r}"
        elif kind in _NUMBERS and (isinstance(got, bool) or (isinstance(got, str) and kind is not Decimal)):
            shown = str(got).lower() if isinstance(got, bool) else repr(got)
            yield (*path, name), f"{name}: expected {_NUMBERS[kind]}, without quotes, got {shown}"
        elif isinstance(got, dict | list):
            value = getattr(model, name)
            pairs: list[tuple[tuple[int, ...], Any, Any]] = [((), value, got)] if isinstance(got, dict) else []
            if isinstance(got, list) and isinstance(value, tuple) and len(value) == len(got):
                pairs = [((number,), *pair) for number, pair in enumerate(zip(value, got, strict=True))]
            for way, part, raw in pairs:
                if isinstance(part, BaseModel) and isinstance(raw, dict):
                    yield from _mistaken(part, raw, (*path, name, *way))


_NUMBERS = {int: "a whole number", float: "a number", Decimal: "a number"}


@cache
def _telling(model: type[BaseModel]) -> tuple[tuple[str, Any], ...]:
    """Return the fields of a model that are a number or true or false, or may hold parts."""
    return tuple(
        (name, info.annotation)
        for name, info in model.model_fields.items()
        if info.annotation in {bool, *_NUMBERS} or _has_parts(info.annotation)
    )


def _has_parts(annotation: Any) -> bool:
    if isinstance(annotation, type):
        return issubclass(annotation, BaseModel)
    return any(map(_has_parts, get_args(annotation)))


def _in_can(can: Can) -> Iterator[tuple[PathInRecord, str]]:
    code = can.code.lower().replace("×", "x").replace(" ", "")
    if (fault := fault_of_code(code)) is not None:
        yield ("code",), fault
    named = _CODE_IN_ID.match(can.id)
    if named and named[0] != code:
        yield ("code",), f"the id says {named[0]}, the code says {can.code}"


def _in_defect(defect: Defect) -> Iterator[tuple[PathInRecord, str]]:
    if defect.can_action.disposition is not Disposition.COSMETIC:
        return
    for number, step in enumerate(defect.can_action.steps):
        if _REFUSES.search(step.text):
            message = (
                "the disposition is cosmetic, and this step refuses the can: say hold or reject, or when to refuse"
            )
            yield ("can_action", "steps", number, "text"), message
    for number, severity in enumerate(defect.severity):
        if severity.grade.lower().startswith(_UNACCEPTABLE):
            message = f"the disposition is cosmetic, and {severity.scheme} calls it {severity.grade!r}"
            yield ("severity", number, "grade"), message


def _in_model(model: BaseModel, path: PathInRecord) -> Iterator[tuple[PathInRecord, str]]:
    for name, kind in _fields(type(model)):
        value = getattr(model, name)
        if value is not None:
            yield from _in_value(value, (*path, name), kind, type(model).__name__)


class _Field(NamedTuple):
    """What is known of a field from its type."""

    names: bool
    """True when it names records, each of which it may name once."""


@cache
def _fields(model: type[BaseModel]) -> tuple[tuple[str, _Field], ...]:
    return tuple(
        (name, _Field(reference_of(info) is not None))
        for name, info in model.model_fields.items()
        if info.annotation not in {bool, int, float, dt.date} and name != "id"
    )


def _in_value(value: Any, path: PathInRecord, field: _Field, model: str) -> Iterator[tuple[PathInRecord, str]]:
    if isinstance(value, StrEnum):
        return
    if isinstance(value, str):
        if not value.isascii() or "[[" in value or not value.isprintable():
            yield from ((path, message) for _, message in faults_of_text(value))
    elif isinstance(value, tuple):
        yield from _twice(value, path, field)
        for number, entry in enumerate(value):
            yield from _in_value(entry, (*path, number), field, model)
    elif isinstance(value, BaseModel):
        yield from _in_model(value, path)
    elif isinstance(value, Length) and (fault := fault_of_length(model, str(path[-1]), value)) is not None:
        yield path, f"{path[-1]}: {fault}"


def _twice(values: tuple[Any, ...], path: PathInRecord, field: _Field) -> Iterator[tuple[PathInRecord, str]]:
    if len(values) < 2:  # most lists
        return
    key = _ONCE.get(type(values[0]).__name__)
    if key is None and not field.names and not isinstance(values[0], StrEnum):
        return
    seen: set[str] = set()
    for number, entry in enumerate(values):
        told = str(getattr(entry, key)) if key else str(entry)
        if told in seen:
            yield (*path, number, *((key,) if key else ())), f"{told!r} is here twice"
        seen.add(told)


def dates_in(model: BaseModel, path: PathInRecord = ()) -> Iterator[tuple[PathInRecord, dt.date]]:
    """Yield every day that is written in a record, with the way to it."""
    for name in _fields_with_dates(type(model)):
        value = getattr(model, name)
        for number, entry in enumerate(value) if isinstance(value, tuple) else ((None, value),):
            there = (*path, name) if number is None else (*path, name, number)
            if isinstance(entry, dt.date):
                yield there, entry
            elif isinstance(entry, BaseModel):
                yield from dates_in(entry, there)


@cache
def _fields_with_dates(model: type[BaseModel]) -> tuple[str, ...]:
    return tuple(name for name, info in model.model_fields.items() if _may_hold_dates(info.annotation))


def _may_hold_dates(annotation: Any) -> bool:
    if isinstance(annotation, type):
        return annotation is dt.date or (issubclass(annotation, BaseModel) and bool(_fields_with_dates(annotation)))
    return any(map(_may_hold_dates, get_args(annotation)))
