"""Names of a room that load their module when they are first asked for: no command needs all of a room."""

from __future__ import annotations

import sys
from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

__all__ = ["loaded_when_asked"]


def loaded_when_asked(room: str, names: Mapping[str, str]) -> Callable[[str], object]:
    """Return the `__getattr__` of a room.

    Args:
        room: full name of the room, its `__name__`.
        names: for each of its modules, the names it gives to the room, with spaces between.
    """
    homes = {name: module for module, given in names.items() for name in given.split()}

    def find(name: str) -> object:
        if name not in homes:
            raise AttributeError(f"module {room!r} has no attribute {name!r}")
        found: object = getattr(import_module(f"{room}.{homes[name]}"), name)
        setattr(sys.modules[room], name, found)
        return found

    return find
