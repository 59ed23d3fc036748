"""Commands for the educator's files: their schemas, the pages made of them, a programme to start with."""

from __future__ import annotations

from pathlib import Path

import click

from tinwright.advice.item_checks import load_sound_practice
from tinwright.cli.common import CONTENT, cannot_write, counted, fail, loaded, today_utc
from tinwright.errors import TinwrightError
from tinwright.knowledge.schema import write_schemas
from tinwright.site import build_site, write_site
from tinwright.starter import lay_down

__all__ = ["new", "schema", "write"]


@click.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False), default=Path("content/schema"))
def schema(folder: Path) -> None:
    """Write a JSON Schema for each kind of record, for editors.

    Example: tinwright schema content/schema
    """
    try:
        names = write_schemas(folder)
    except OSError as error:
        cannot_write(folder, error)
    click.echo(f"{counted(len(names), 'schema')} in {folder}")


@click.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
@CONTENT
@click.option(
    "--quizzes",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("quizzes"),
    show_default=True,
    help="Folder with the practice questions; left out when it holds no topics.yml.",
)
@click.option("--directory-urls", is_flag=True, help="Link to pages as folders: droop/ instead of droop.html.")
def write(folder: Path, content: Path, quizzes: Path, directory_urls: bool) -> None:
    """Write the site's Markdown and assets to FOLDER, for any static-site tool.

    Example: tinwright write pages
    """
    today = today_utc()
    kb = loaded(content, today=today)
    try:
        bank = load_sound_practice(quizzes, kb, today=today) if (quizzes / "topics.yml").is_file() else None
        site = build_site(kb, bank=bank, directory_urls=directory_urls)
        written, removed = write_site(site, folder)
    except TinwrightError as error:
        fail(error)
    except OSError as error:
        cannot_write(folder, error)
    total = len(site.pages) + len(site.assets)
    click.echo(f"{counted(total, 'file')} in {folder}: {written} written, {removed} removed, the others unchanged")


@click.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
def new(folder: Path) -> None:
    """Lay down a small program of your own in FOLDER, ready to build and to edit.

    Example: tinwright new our-kitchen
    """
    try:
        count = lay_down(folder)
    except TinwrightError as error:
        fail(error)
    click.echo(f"{counted(count, 'file')} in {folder}. Next: cd {folder}; tinwright check; mkdocs serve")
