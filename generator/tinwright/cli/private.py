"""The commands' way to the private register: where it lies, who asks, which day it is."""

from __future__ import annotations

import contextlib
import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from tinwright.cli.common import fail
from tinwright.errors import RecordError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from tinwright.register import Register

__all__ = ["ON", "REGISTER", "day_of", "note_trial", "opened", "place_of"]

Command = TypeVar("Command", bound="Callable[..., Any]")

_TRIAL = "tinwright.trial"


def REGISTER(command: Command) -> Command:  # noqa: N802 - a decorator like the options beside it
    """Let a command take a place for the register, or the trial register."""
    place = click.option(
        "--register",
        "place",
        envvar="TINWRIGHT_REGISTER",
        show_envvar=True,
        metavar="PLACE",
        help="The register: a file, or postgresql+psycopg://USER@HOST/DATABASE; in your own user folder when left out.",
    )
    trial = click.option(
        "--trial",
        is_flag=True,
        expose_value=False,
        callback=note_trial,
        help="Use a register for trying things out, apart from the real one.",
    )
    return place(trial(command))


def note_trial(context: click.Context, _: click.Parameter, value: bool) -> bool:
    """Note that the command works on the trial register."""
    context.meta[_TRIAL] = value
    return value


ON = click.option(
    "--on", type=click.DateTime(["%Y-%m-%d"]), metavar="YYYY-MM-DD", help="Day it is done; today when left out."
)


def day_of(on: dt.datetime | None) -> dt.date:
    """Return the day given, or today where the computer stands."""
    return (on or dt.datetime.now(tz=dt.UTC).astimezone()).date()


@contextlib.contextmanager
def opened(place: str | None, *, create: bool = False) -> Iterator[Register]:
    """Open the register for a command; any refusal inside is told in one line, with exit code 1.

    Args:
        place: what was given, or None for the file in the user's own folder.
        create: whether to make the file when it is not there.
    """
    try:
        from tinwright.register import open_register  # noqa: PLC0415 - other commands must stay quick
    except ModuleNotFoundError as error:
        fail(RecordError(f"the register needs the library {error.name}: install tinwright[office]"))
    try:
        with open_register(place_of(place, create=create), create=create) as register:
            yield register
    except RecordError as error:
        fail(error)


def place_of(place: str | None, *, create: bool = False) -> str | Path:
    """Return where the register lies that a command is to use, by what was given.

    Args:
        place: what was given, or None.
        create: whether to make the folder when it is not there.

    Raises:
        RecordError: when there is no folder for it, or it cannot be made.
    """
    context = click.get_current_context(silent=True)
    if context is not None and context.meta.get(_TRIAL):
        return _own_file("trial-register.db", create=create)
    return place or _own_file("register.db", create=create)


def _own_file(name: str, *, create: bool) -> Path:
    folder = Path(click.get_app_dir("tinwright"))
    if create:
        try:
            folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        except OSError as error:
            raise RecordError(f"{folder}: cannot be made: {error.strerror}") from error
    elif not folder.is_dir():
        raise RecordError(f"{folder / name}: there is no register; adding the first volunteer makes one")
    return folder / name
