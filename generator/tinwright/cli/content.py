"""Commands for the educator's files: check them, their schemas, the pages made of them, a programme to start with."""

from __future__ import annotations

import datetime as dt
import json
import sys
from dataclasses import asdict
from pathlib import Path

import click

from tinwright.cli.common import CONTENT, cannot_write, counted, fail, loaded
from tinwright.errors import Problem, TinwrightError
from tinwright.knowledge import find_problems, load
from tinwright.knowledge.bank import load_bank
from tinwright.knowledge.review import overdue
from tinwright.knowledge.schema import write_schemas
from tinwright.site import build_site, write_site
from tinwright.starter import lay_down

__all__ = ["check", "new", "schema", "write"]


@click.command()
@CONTENT
@click.option("--today", type=click.DateTime(["%Y-%m-%d"]), help="Day to reckon reviews from; today when left out.")
@click.option("--strict", is_flag=True, help="Exit with 1 when a record is overdue for review, too.")
@click.option("--json", "as_json", is_flag=True, help="Print problems and overdue records as JSON.")
def check(content: Path, today: dt.datetime | None, strict: bool, as_json: bool) -> None:
    """Check every record, and list what is overdue for review.

    Example: tinwright check --content content
    """
    problems = find_problems(content)
    late = [] if problems else overdue(load(content), today.date() if today else dt.datetime.now(tz=dt.UTC).date())
    if as_json:
        rows = [asdict(problem) for problem in problems]
        click.echo(json.dumps({"problems": rows, "overdue": [asdict(row) for row in late]}, indent=2, default=str))
    else:
        _print_check(problems, [str(row) for row in late], content)
    sys.exit(1 if problems or (strict and late) else 0)


def _print_check(problems: list[Problem], late: list[str], content: Path) -> None:
    for problem in problems:
        click.echo(str(problem), err=True)
    for row in late:
        click.echo(row)
    if problems:
        click.echo(counted(len(problems), "problem"), err=True)
    else:
        records = len(load(content).records)
        click.echo(f"{counted(records, 'record')} checked, no problems, {len(late)} overdue for review")


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
    kb = loaded(content)
    try:
        bank = load_bank(quizzes, kb) if (quizzes / "topics.yml").is_file() else None
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
    """Lay down a small programme of your own in FOLDER, ready to build and to edit.

    Example: tinwright new our-kitchen
    """
    try:
        count = lay_down(folder)
    except TinwrightError as error:
        fail(error)
    click.echo(f"{counted(count, 'file')} in {folder}. Next: cd {folder}; tinwright check; mkdocs serve")
