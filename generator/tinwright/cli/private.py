"""The commands' way to the private register: where it lies, who asks, which day it is."""

from __future__ import annotations

import contextlib
import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tinwright.cli.common import fail
from tinwright.errors import RecordError

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.register import Register

__all__ = ["ON", "REGISTER", "day_of", "opened"]

REGISTER = click.option(
    "--register",
    "place",
    envvar="TINWRIGHT_REGISTER",
    show_envvar=True,
    metavar="PLACE",
    help="The register: a file, or postgresql+psycopg://USER@HOST/DATABASE; in your own user folder when left out.",
)

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
        with open_register(place or _own_file(create=create), create=create) as register:
            yield register
    except RecordError as error:
        fail(error)


def _own_file(*, create: bool) -> Path:
    folder = Path(click.get_app_dir("tinwright"))
    if create:
        try:
            folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        except OSError as error:
            raise RecordError(f"{folder}: cannot be made: {error.strerror}") from error
    elif not folder.is_dir():
        raise RecordError(f"{folder / 'register.db'}: there is no register; adding the first volunteer makes one")
    return folder / "register.db"
