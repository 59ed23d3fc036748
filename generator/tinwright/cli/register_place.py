"""Commands about the file of the register: where it lies, a copy of it, and putting a copy back."""

from __future__ import annotations

from pathlib import Path

import click

from tinwright.cli.common import counted, fail
from tinwright.cli.private import REGISTER, place_of
from tinwright.errors import RecordError

__all__ = ["backup", "restore", "where"]

_FILE = click.Path(path_type=Path, dir_okay=False)


@click.command()
@REGISTER
def where(place: str | None) -> None:
    """Say where the register lies, and what is in it.

    Example: tinwright register where
    """
    try:
        from tinwright.register import open_register  # noqa: PLC0415 - other commands must stay quick

        found = place_of(place)
        click.echo(found if isinstance(found, Path) else found.rpartition("@")[2])
        if isinstance(found, Path) and not found.exists():
            click.echo("There is no register yet; adding the first volunteer makes one.")
            return
        with open_register(found, create=False) as register:
            click.echo(counted(len(register.volunteers()), "volunteer"))
    except ModuleNotFoundError as error:
        fail(RecordError(f"the register needs the library {error.name}: install tinwright[office]"))
    except RecordError as error:
        fail(error)


@click.command()
@click.argument("file", type=_FILE)
@REGISTER
def backup(file: Path, place: str | None) -> None:
    """Copy the whole register into a new FILE, and open the copy to see that all is in it.

    It may be done while other commands write. The copy holds personal data.

    Example: tinwright register backup /media/usb/register-2026-11-30.db
    """
    try:
        from tinwright.store.copying import back_up  # noqa: PLC0415 - other commands must stay quick

        found = back_up(place_of(place), file)
    except ModuleNotFoundError as error:
        fail(RecordError(f"the register needs the library {error.name}: install tinwright[office]"))
    except RecordError as error:
        fail(error)
    click.echo(f"{file} opens, with {_told(found)}; it holds personal data")


@click.command()
@click.argument("file", type=_FILE)
@click.option("--yes", is_flag=True, help="Do not ask.")
@REGISTER
def restore(file: Path, yes: bool, place: str | None) -> None:
    """Put a copy, FILE, in the place of the register; the register that stood there is kept beside it.

    Example: tinwright register restore /media/usb/register-2026-11-30.db
    """
    try:
        from tinwright.store.copying import put_back  # noqa: PLC0415 - other commands must stay quick

        target = place_of(place, create=True)
        if not yes:
            click.confirm(f"Put {file} in the place of {target}?", abort=True)
        found, kept = put_back(file, target)
    except ModuleNotFoundError as error:
        fail(RecordError(f"the register needs the library {error.name}: install tinwright[office]"))
    except RecordError as error:
        fail(error)
    click.echo(f"{target} opens, with {_told(found)}")
    if kept is not None:
        click.echo(f"what stood there before is in {kept}")


def _told(rows: dict[str, int]) -> str:
    names = {
        "volunteer": "volunteer",
        "sitting": "sitting",
        "practical": "practical check",
        "certificate": "certificate",
    }
    return ", ".join(counted(rows[table], noun) for table, noun in names.items())
