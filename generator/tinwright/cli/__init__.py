"""The `tinwright` command: one thin command per task.

Exit codes: 0 all is well, 1 problems found, 2 misuse.
Problems go to standard error as `file:line:col: record: message`.
"""

from __future__ import annotations

import gc
from functools import cache
from importlib import import_module
from types import MappingProxyType
from typing import TYPE_CHECKING

import click

from tinwright import __version__

if TYPE_CHECKING:
    from collections.abc import Mapping
    from types import ModuleType

__all__ = ["main"]

_MODULES: Mapping[str, str] = MappingProxyType(
    {
        "cause": "advice",
        "certificate": "certificate",
        "check": "check",
        "exam": "exam",
        "hosting": "hosting",
        "log": "log",
        "new": "content",
        "paper": "paper",
        "register": "register",
        "schema": "content",
        "seam": "advice",
        "sheet": "sheet",
        "update": "update",
        "write": "content",
    }
)
"""Each command and the module below this one that holds it; only the module of the command that is run is loaded."""


class _Commands(click.Group):
    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 the library passes it
        return sorted(_MODULES)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002 the library passes it
        if cmd_name not in _MODULES:
            return None
        found: click.Command = getattr(_loaded(_MODULES[cmd_name]), cmd_name)
        return found


@cache
def _loaded(name: str) -> ModuleType:
    module = import_module(f"tinwright.cli.{name}")
    gc.freeze()  # code stays to the end: looking through it for garbage takes a tenth of a check
    return module


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, message="%(version)s")
def main() -> None:
    """Knowledge base, set-up sheets and seam check for people who seal food cans by hand."""
