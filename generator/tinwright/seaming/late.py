"""Libraries that are imported when they are first used: most commands need none of the algebra."""

from __future__ import annotations

import sys
from importlib.util import LazyLoader, find_spec, module_from_spec
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from types import ModuleType

__all__ = ["late"]


def late(name: str) -> ModuleType:
    """Return a module that is loaded when something in it is first asked for.

    Args:
        name: a top-level module.

    Raises:
        ModuleNotFoundError: when it is not installed.
    """
    if name in sys.modules:
        return sys.modules[name]
    spec = find_spec(name)
    if spec is None or spec.loader is None:
        raise ModuleNotFoundError(f"no module named {name!r}", name=name)
    spec.loader = loader = LazyLoader(spec.loader)
    sys.modules[name] = module = module_from_spec(spec)
    loader.exec_module(module)
    return module
