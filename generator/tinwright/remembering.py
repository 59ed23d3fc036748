"""Results that are kept: for functions that give the same for the same and are asked again and again."""

from __future__ import annotations

from functools import lru_cache, wraps
from typing import TYPE_CHECKING, ParamSpec, TypeVar, cast

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["remembered"]

_P = ParamSpec("_P")
_T = TypeVar("_T")
_MOST = 8192


def remembered(function: Callable[_P, _T]) -> Callable[_P, _T]:
    """Keep the results of a pure function, the last few thousand of them; with an argument that may change, none.

    While a site is served for editing, what did not change is then not drawn again.

    >>> @remembered
    ... def double(number: int) -> int:
    ...     print("reckoning")
    ...     return 2 * number
    >>> double(2) + double(2)
    reckoning
    8
    >>> remembered(len)([1, 2])
    2
    """
    kept = cast("Callable[_P, _T]", lru_cache(maxsize=_MOST)(function))

    @wraps(function)
    def ask(*values: _P.args, **named: _P.kwargs) -> _T:
        try:
            return kept(*values, **named)
        except TypeError:  # an argument that may change; what is wrong with the function itself comes up once more
            return function(*values, **named)

    return ask
