"""What pydantic found, in words an educator can act on."""

from __future__ import annotations

import difflib
from typing import TYPE_CHECKING, Any, get_args

from pydantic import BaseModel

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pydantic_core import ErrorDetails

__all__ = ["commas_asked", "nearest", "plain_message"]


def nearest(word: str, known: Iterable[str]) -> str:
    """Return `; did you mean 'x'?` for the nearest known spelling, or nothing.

    >>> nearest("defcet", ["defect", "cause"])
    "; did you mean 'defect'?"
    """
    close = difflib.get_close_matches(word, list(map(str, known)), n=1, cutoff=0.6)
    return f"; did you mean {close[0]!r}?" if close else ""


def commas_asked(line: str, names: Iterable[str]) -> str:
    """Return what to say of a line of a CSV file whose cells are not parted by commas, or nothing.

    Where a comma stands in decimal numbers, a spreadsheet writes semicolons into a file that it calls CSV.

    Args:
        line: the line, or its first cell.
        names: what its first cell may be, in small letters.

    >>> commas_asked('"sheet";"P04"', ["sheet"])
    'expected commas between the cells, got semicolons: in the spreadsheet save it as CSV with commas'
    >>> commas_asked("sheet,P04", ["sheet"])
    ''
    """
    plain = line.replace('"', "").casefold()
    for letter, said in ((";", "semicolons"), ("\t", "tabs")):
        first, found, _ = plain.partition(letter)
        if found and first.strip() in names:
            return f"expected commas between the cells, got {said}: in the spreadsheet save it as CSV with commas"
    return ""


def plain_message(error: ErrorDetails, model: type[BaseModel]) -> str:
    """Put one pydantic error into plain words.

    Args:
        error: the error, its `loc` relative to the record.
        model: the record's class, for the nearest spelling of an unknown key.
    """
    kind, context, got = error["type"], error.get("ctx", {}), error["input"]
    key = str(error["loc"][-1]) if error["loc"] else ""
    if kind == "missing":
        return f"the key {key!r} is missing"
    if kind == "extra_forbidden" and got is None and " " in key:
        return f"{key!r} is taken for a key: between {{ and }} a comma ends a text; put the whole text in quotes"
    if kind == "extra_forbidden":
        return f"unknown key {key!r}{nearest(key, _fields_around(model, error['loc'][:-1]))}"
    if kind in {"enum", "literal_error"}:
        expected = str(context["expected"]).replace(" or ", ", ")
        words = [word.strip(" '") for word in expected.split(",")]
        return f"{key}: expected one of {', '.join(words)}, got {_shown(got)}{nearest(str(got), words)}"
    if kind == "string_type":
        hint = ": put it in quotes" if isinstance(got, (int, float)) else ""
        return f"{key}: expected text, got {_shown(got)}{hint}"
    if kind == "string_pattern_mismatch":
        return f"{key}: expected a name of lower-case words joined by hyphens, got {_shown(got)}"
    if kind == "string_too_short" and not str(got).strip():
        return f"{key}: expected text, got nothing"
    if kind in {"string_too_short", "too_short"}:
        return f"{key}: expected at least {context.get('min_length')}, got {_count(got)}"
    if kind in {"tuple_type", "list_type"}:
        return f"{key}: expected a list (lines that begin with '- '), got {_shown(got)}"
    if kind in {"model_type", "model_attributes_type", "dict_type"}:
        return f"{key}: expected keys and values, got {_shown(got)}"
    if kind.startswith(("date", "int", "decimal", "bool", "float")) or kind in _BOUNDS:
        return f"{key}: expected {_expected(kind, context)}, got {_shown(got)}"
    message = error["msg"].removeprefix("Value error, ")
    return f"{key}: {message}" if key else message


_BOUNDS = {
    "greater_than": "more than",
    "greater_than_equal": "at least",
    "less_than": "less than",
    "less_than_equal": "at most",
}


def _expected(kind: str, context: dict[str, Any]) -> str:
    if kind in _BOUNDS:
        limit = next(iter(context.values()))
        return f"{_BOUNDS[kind]} {limit}"
    for start, words in (
        ("date", "a date such as 2026-04-30"),
        ("int", "a whole number"),
        ("bool", "true or false"),
    ):
        if kind.startswith(start):
            return words
    return "a number"


def _shown(value: object) -> str:
    if isinstance(value, dict):
        return "keys and values"
    if isinstance(value, (list, tuple)):
        return "a list"
    if value is None:
        return "nothing"
    text = str(value)
    return repr(text if len(text) <= 60 else text[:57] + "...") if isinstance(value, str) else text


def _count(value: object) -> str:
    return str(len(value)) if isinstance(value, (str, list, tuple)) else _shown(value)


def _fields_around(model: type[BaseModel], loc: tuple[int | str, ...]) -> list[str]:
    """Names of the fields of the model that holds the key at the end of `loc`."""
    current: type[BaseModel] = model
    for part in loc:
        if isinstance(part, int) or part not in current.model_fields:
            continue
        current = _model_in(current.model_fields[part].annotation) or current
    return list(current.model_fields)


def _model_in(annotation: object) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for inner in get_args(annotation):
        if found := _model_in(inner):
            return found
    return None
