"""What the commands share: the content folder, plain endings, files written whole."""

from __future__ import annotations

import datetime as dt
import sys
from pathlib import Path
from typing import NoReturn

import click

from tinwright.errors import ContentError, TinwrightError
from tinwright.knowledge import KnowledgeBase, load
from tinwright.knowledge.wording import nearest

__all__ = ["CONTENT", "cannot_write", "counted", "fail", "known", "loaded", "today_utc", "write_whole"]

CONTENT = click.option(
    "--content",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("content"),
    show_default=True,
    help="Folder with the records.",
)


def fail(error: TinwrightError) -> NoReturn:
    """Print an error in plain words and stop with exit code 1."""
    click.echo(str(error), err=True)
    if isinstance(error, ContentError):
        click.echo(counted(len(error.problems), "problem"), err=True)
    sys.exit(1)


def cannot_write(place: Path, error: OSError) -> NoReturn:
    """Say what could not be written, and stop with exit code 1."""
    click.echo(f"{place}: cannot be written: {error.strerror}", err=True)
    sys.exit(1)


def today_utc() -> dt.date:
    """Return the day it is in Greenwich."""
    return dt.datetime.now(tz=dt.UTC).date()


def loaded(content: Path, *, today: dt.date | None = None) -> KnowledgeBase:
    """Return the knowledge base, or print every problem and stop with exit code 1.

    Args:
        content: the folder with the records.
        today: the day it is, where days that have not come yet matter.
    """
    try:
        return load(content, today=today)
    except ContentError as error:
        fail(error)


def counted(number: int, noun: str) -> str:
    """Say a number of things: `1 problem`, `2 problems`."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def known(kb: KnowledgeBase, kind: str, id_: str | None) -> None:
    """Refuse the id of a record that there is not."""
    records = kb.of_kind(kind)
    if id_ is not None and id_ not in records:
        raise click.BadParameter(f"no {kind} is called {id_!r}{nearest(id_, records)}")


def write_whole(file: Path, content: str | bytes) -> None:
    """Write a file in one go, so that nothing is left half-written."""
    part = file.with_name(f".{file.name}.part")
    try:
        part.write_bytes(content.encode() if isinstance(content, str) else content)
        part.replace(file)
    except OSError as error:
        part.unlink(missing_ok=True)
        cannot_write(file, error)
