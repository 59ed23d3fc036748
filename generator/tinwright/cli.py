"""The `tinwright` command: one thin command per task.

Exit codes: 0 all is well, 1 problems found, 2 misuse.
Problems go to standard error as `file:line:col: record: message`.
"""

from __future__ import annotations

import datetime as dt
import json
import sys
from dataclasses import asdict
from pathlib import Path
from typing import NoReturn

import click

from tinwright import __version__
from tinwright.bench import (
    BLANK_FORM,
    advise_on_sheet,
    advise_on_signs,
    cause_lines,
    find_defect,
    read_sheet,
    report_html,
    seam_lines,
    signs_from,
)
from tinwright.errors import ContentError, Problem, TinwrightError
from tinwright.knowledge import KnowledgeBase, find_problems, load
from tinwright.knowledge.models.trouble import Change, Extent, Repeats
from tinwright.knowledge.plain_words import DIRECTION_WORDS
from tinwright.knowledge.review import overdue
from tinwright.knowledge.schema import write_schemas
from tinwright.knowledge.wording import nearest
from tinwright.site import build_site, write_site
from tinwright.starter import lay_down

__all__ = ["main"]

_CONTENT = click.option(
    "--content",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("content"),
    show_default=True,
    help="Folder with the records.",
)


def _fail(error: TinwrightError) -> NoReturn:
    """Print an error in plain words and stop with exit code 1."""
    click.echo(str(error), err=True)
    if isinstance(error, ContentError):
        click.echo(_counted(len(error.problems), "problem"), err=True)
    sys.exit(1)


def _cannot_write(place: Path, error: OSError) -> NoReturn:
    """Say what could not be written, and stop with exit code 1."""
    click.echo(f"{place}: cannot be written: {error.strerror}", err=True)
    sys.exit(1)


def _loaded(content: Path) -> KnowledgeBase:
    try:
        return load(content)
    except ContentError as error:
        _fail(error)


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, message="%(version)s")
def main() -> None:
    """Knowledge base, set-up sheets and seam check for people who seal food cans by hand."""


@main.command()
@_CONTENT
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
        click.echo(_counted(len(problems), "problem"), err=True)
    else:
        records = len(load(content).records)
        click.echo(f"{_counted(records, 'record')} checked, no problems, {len(late)} overdue for review")


@main.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False), default=Path("content/schema"))
def schema(folder: Path) -> None:
    """Write a JSON Schema for each kind of record, for editors.

    Example: tinwright schema content/schema
    """
    try:
        names = write_schemas(folder)
    except OSError as error:
        _cannot_write(folder, error)
    click.echo(f"{_counted(len(names), 'schema')} in {folder}")


@main.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
@_CONTENT
@click.option("--directory-urls", is_flag=True, help="Link to pages as folders: droop/ instead of droop.html.")
def write(folder: Path, content: Path, directory_urls: bool) -> None:
    """Write the site's Markdown and assets to FOLDER, for any static-site tool.

    Example: tinwright write pages
    """
    kb = _loaded(content)
    try:
        site = build_site(kb, directory_urls=directory_urls)
        written, removed = write_site(site, folder)
    except TinwrightError as error:
        _fail(error)
    except OSError as error:
        _cannot_write(folder, error)
    total = len(site.pages) + len(site.assets)
    click.echo(f"{_counted(total, 'file')} in {folder}: {written} written, {removed} removed, the others unchanged")


@main.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
def new(folder: Path) -> None:
    """Lay down a small programme of your own in FOLDER, ready to build and to edit.

    Example: tinwright new our-kitchen
    """
    try:
        count = lay_down(folder)
    except TinwrightError as error:
        _fail(error)
    click.echo(f"{_counted(count, 'file')} in {folder}. Next: cd {folder}; tinwright check; mkdocs serve")


@main.command()
@click.argument("readings", type=click.Path(path_type=Path, dir_okay=False), required=False)
@_CONTENT
@click.option("--specification", help="Seam specification to judge by, in place of the one in the file.")
@click.option("--sealer", help="Sealer the cans were sealed on, in place of the one in the file.")
@click.option("--json", "as_json", is_flag=True, help="Print everything as JSON.")
@click.option("--report", type=click.Path(path_type=Path, dir_okay=False), help="Write a one-page HTML report, too.")
@click.option("--blank", is_flag=True, help="Print a blank form to fill in, and stop.")
def seam(
    readings: Path | None,
    content: Path,
    specification: str | None,
    sealer: str | None,
    as_json: bool,
    report: Path | None,
    blank: bool,
) -> None:
    """Judge the seams in READINGS, a CSV file; see --blank for its form.

    Example: tinwright seam docs/readings-example.csv --report report.html
    """
    if blank:
        click.echo(BLANK_FORM, nl=False)
        return
    if readings is None:
        raise click.UsageError("expected a file of readings, or --blank")
    kb = _loaded(content)
    for kind, id_ in (("seam-specification", specification), ("sealer", sealer)):
        _known(kb, kind, id_)
    sheet = read_sheet(readings, kb, specification=specification, sealer=sealer)
    advices, problems = advise_on_sheet(kb, sheet), sorted(sheet.problems)
    for problem in problems:
        click.echo(str(problem), err=True)
    if as_json:
        cans = [{**asdict(advice), "specification": sheet.settings.get("specification")} for advice in advices]
        rows = [asdict(problem) for problem in problems]
        click.echo(json.dumps({"settings": sheet.settings, "cans": cans, "problems": rows}, indent=2, default=str))
    else:
        for advice in advices:
            click.echo("\n".join(seam_lines(kb, advice)))
    if report is not None:
        _write_whole(report, report_html(kb, advices, sheet.settings, problems))
    sys.exit(1 if problems else 0)


def _known(kb: KnowledgeBase, kind: str, id_: str | None) -> None:
    """Refuse the id of a record that there is not."""
    records = kb.of_kind(kind)
    if id_ is not None and id_ not in records:
        raise click.BadParameter(f"no {kind} is called {id_!r}{nearest(id_, records)}")


def _write_whole(file: Path, text: str) -> None:
    """Write a file in one go, so that nothing is left half-written."""
    part = file.with_name(f".{file.name}.part")
    try:
        part.write_text(text, encoding="utf-8")
        part.replace(file)
    except OSError as error:
        part.unlink(missing_ok=True)
        _cannot_write(file, error)


@main.command()
@_CONTENT
@click.option("--defect", "defects", multiple=True, help="Id or name of a defect seen; may be repeated.")
@click.option("--absent", multiple=True, help="Id or name of a defect looked for and not found; may be repeated.")
@click.option(
    "--dimension",
    "dimensions",
    multiple=True,
    help="A dimension and how it is, such as body-hook=shorter, countersink=normal; may be repeated.",
)
@click.option("--where", "extent", type=click.Choice([str(e) for e in Extent]), help="How far round the can it goes.")
@click.option("--repeats", type=click.Choice([str(r) for r in Repeats]), help="How it shows from can to can.")
@click.option("--changed", type=click.Choice([str(c) for c in Change]), help="What was changed last.")
@click.option("--sealer", help="Sealer, for how to turn what.")
@click.option("--json", "as_json", is_flag=True, help="Print everything as JSON.")
def cause(
    content: Path,
    defects: tuple[str, ...],
    absent: tuple[str, ...],
    dimensions: tuple[str, ...],
    extent: str | None,
    repeats: str | None,
    changed: str | None,
    sealer: str | None,
    as_json: bool,
) -> None:
    """Find the likely cause from what was seen, felt, measured or changed.

    Example: tinwright cause --dimension body-hook=longer --dimension cover-hook=shorter
    """
    kb = _loaded(content)
    _known(kb, "sealer", sealer)
    seen, missing = (_defects(kb, names) for names in (defects, absent))
    if both := set(seen) & set(missing):
        raise click.BadParameter(f"{', '.join(sorted(both))}: expected seen or not found, got both")
    directions = dict(_direction(text) for text in dimensions)
    signs = signs_from(kb, seen, directions, absent=missing, extent=extent, repeats=repeats, last_change=changed)
    advice = advise_on_signs(kb, signs, kb.sealers[sealer] if sealer else None)
    if as_json:
        click.echo(json.dumps(asdict(advice), indent=2, default=str))
    else:
        click.echo("\n".join(cause_lines(kb, advice, seen)))


def _defects(kb: KnowledgeBase, names: tuple[str, ...]) -> list[str]:
    """Look up defects by id or name, each once."""
    found: dict[str, None] = {}
    for name in names:
        id_ = find_defect(kb, name)
        if id_ is None:
            raise click.BadParameter(f"no defect is called {name!r}{nearest(name.lower(), kb.defects)}")
        found[id_] = None
    return list(found)


def _direction(text: str) -> tuple[str, str]:
    """Read `body-hook=shorter` into the dimension and the direction."""
    dimension, _, word = text.partition("=")
    if dimension not in DIRECTION_WORDS:
        raise click.BadParameter(f"no dimension is called {dimension!r}{nearest(dimension, DIRECTION_WORDS)}")
    larger, smaller = DIRECTION_WORDS[dimension]
    words = {larger: "larger", smaller: "smaller", "normal": "normal", "uneven": "varies"}
    if word not in words:
        raise click.BadParameter(f"{dimension}: expected one of {', '.join(words)}, got {word!r}{nearest(word, words)}")
    return dimension, words[word]
