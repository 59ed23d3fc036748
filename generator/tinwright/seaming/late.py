"""Libraries that are imported when they are first used: most commands need none of the algebra."""

from __future__ import annotations

from importlib import import_module
from importlib.util import find_spec
from types import ModuleType
from typing import Any

__all__ = ["late"]


class _Late(ModuleType):
    """Stands for a module until something in it is asked for.

    It is not entered among the loaded modules, as `importlib.util.LazyLoader` would do: whoever looks through those
    for the place of some code, as pydantic does for each class, would load them all.
    """

    def __getattr__(self, name: str) -> Any:
        return getattr(import_module(self.__name__), name)


def late(name: str) -> ModuleType:
    """Return a module that is loaded when something in it is first asked for.

    Args:
        name: a top-level module.

    Raises:
        ModuleNotFoundError: when it is not installed.
    """
    if find_spec(name) is None:
        raise ModuleNotFoundError(f"no module named {name!r}", name=name)
    return _Late(name)
