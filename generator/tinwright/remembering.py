"""Results that are kept: for functions that give the same for the same and are asked often."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, ParamSpec, TypeVar, cast

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["remembered"]

_P = ParamSpec("_P")
_T = TypeVar("_T")
_MOST = 8192


def remembered(function: Callable[_P, _T]) -> Callable[_P, _T]:
    """Keep the results of a pure function whose arguments cannot change, the last few thousand of them.

    While a site is served for editing, what did not change is then not drawn again. The standard library's cache does
    the work; here it keeps the types of the arguments, and one size.

    >>> @remembered
    ... def double(number: int) -> int:
    ...     print("reckoning")
    ...     return 2 * number
    >>> double(2) + double(2)
    reckoning
    8
    """
    return cast("Callable[_P, _T]", lru_cache(maxsize=_MOST)(function))
