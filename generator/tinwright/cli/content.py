"""Commands for the educator's files: check them, their schemas, the pages made of them, a programme to start with."""

from __future__ import annotations

import datetime as dt
import json
import sys
from dataclasses import asdict
from pathlib import Path

import click

from tinwright.bench.item_checks import review_bank
from tinwright.cli.common import CONTENT, cannot_write, counted, fail, loaded
from tinwright.errors import Problem, TinwrightError
from tinwright.knowledge import KnowledgeBase, find_problems, load
from tinwright.knowledge.bank import EXAMINATION, find_bank_problems, load_bank
from tinwright.knowledge.review import Overdue, overdue
from tinwright.knowledge.schema import write_schemas
from tinwright.site import build_site, write_site
from tinwright.starter import lay_down

__all__ = ["check", "new", "schema", "write"]


@click.command()
@CONTENT
@click.option(
    "--quizzes",
    type=click.Path(path_type=Path, file_okay=False, exists=True),
    help="Folder of the question bank; `quizzes` beside the records when left out, and nothing when there is none.",
)
@click.option(
    "--examination",
    type=click.Path(path_type=Path, file_okay=False, exists=True),
    help="Folder of the examination items; `examination` in the question bank when left out.",
)
@click.option("--today", type=click.DateTime(["%Y-%m-%d"]), help="Day to reckon reviews from; today when left out.")
@click.option("--strict", is_flag=True, help="Exit with 1 for overdue records and gaps of the bank, too.")
@click.option("--json", "as_json", is_flag=True, help="Print problems, overdue records and gaps as JSON.")
def check(
    content: Path,
    quizzes: Path | None,
    examination: Path | None,
    today: dt.datetime | None,
    strict: bool,
    as_json: bool,
) -> None:
    """Check every record, and list what is overdue for review.

    A question bank beside the records is checked, too: each item, and what no item asks about yet.

    Example: tinwright check --content content
    """
    problems = find_problems(content)
    late: list[Overdue] = []
    gaps: tuple[Problem, ...] = ()
    if not problems:
        kb = load(content)
        late = overdue(kb, today.date() if today else dt.datetime.now(tz=dt.UTC).date())
        problems, gaps = _check_bank(kb, quizzes, examination)
    if as_json:
        found = {
            "problems": [asdict(problem) for problem in problems],
            "overdue": [asdict(row) for row in late],
            "gaps": [asdict(gap) for gap in gaps],
        }
        click.echo(json.dumps(found, indent=2, default=str))
    else:
        _print_check(problems, [*map(str, gaps), *map(str, late)], len(late), len(gaps), content)
    sys.exit(1 if problems or (strict and (late or gaps)) else 0)


def _check_bank(
    kb: KnowledgeBase, quizzes: Path | None, examination: Path | None
) -> tuple[list[Problem], tuple[Problem, ...]]:
    """Return the faults of the question bank and what it lacks; neither when there is no bank."""
    root = quizzes or kb.root.resolve().parent / "quizzes"
    if not root.is_dir():
        return [], ()
    if examination is None and (root / EXAMINATION).is_dir():
        examination = root / EXAMINATION
    problems = find_bank_problems(root, kb, examination=examination)
    if problems:
        return problems, ()
    review = review_bank(load_bank(root, kb, examination=examination), kb, with_examination=examination is not None)
    return list(review.problems), review.gaps


def _print_check(problems: list[Problem], rows: list[str], late: int, gaps: int, content: Path) -> None:
    for problem in problems:
        click.echo(str(problem), err=True)
    for row in rows:
        click.echo(row)
    if problems:
        click.echo(counted(len(problems), "problem"), err=True)
    else:
        records = counted(len(load(content).records), "record")
        lacking = f", {counted(gaps, 'gap')} in the question bank" if gaps else ""
        click.echo(f"{records} checked, no problems, {late} overdue for review{lacking}")


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
    """Lay down a small program of your own in FOLDER, ready to build and to edit.

    Example: tinwright new our-kitchen
    """
    try:
        count = lay_down(folder)
    except TinwrightError as error:
        fail(error)
    click.echo(f"{counted(count, 'file')} in {folder}. Next: cd {folder}; tinwright check; mkdocs serve")
