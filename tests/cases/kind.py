"""What a function with cases is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["Kind", "rounded"]


@dataclass(frozen=True)
class Kind:
    """A function with cases."""

    name: str
    """Name of its file."""
    python: Callable[[list[Any]], Any]
    """The answer of the Python half to one list of arguments, as plain values."""
    browser: Callable[[list[list[Any]]], list[Any]]
    """The answers of the browser's half to many."""
    asked: Callable[[], list[list[Any]]]
    """What is asked, the same in every run."""


def rounded(value: Any) -> Any:
    """Round every number to nine places: roots, logarithms and angles need not agree to the last bit."""
    if isinstance(value, float):
        return round(value, 9)
    if isinstance(value, dict):
        return {name: rounded(each) for name, each in value.items()}
    return [rounded(each) for each in value] if isinstance(value, list | tuple) else value
