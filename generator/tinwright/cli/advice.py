"""Commands that advise: judge seams from a sheet of readings, find the cause from what was seen."""

from __future__ import annotations

import json
import sys
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tinwright.advice.advice import advise_on_sheet, advise_on_signs, signs_from
from tinwright.advice.readings_file import BLANK_FORM, find_defect, read_sheet
from tinwright.advice.report import report_html
from tinwright.advice.spoken import cause_lines, seam_lines
from tinwright.cli.common import CONTENT, known, loaded, write_whole
from tinwright.knowledge.models.trouble import Change, Extent, Repeats
from tinwright.knowledge.plain_words import DIRECTION_WORDS
from tinwright.knowledge.wording import nearest

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase

__all__ = ["cause", "seam"]


@click.command()
@click.argument("readings", type=click.Path(path_type=Path, dir_okay=False), required=False)
@CONTENT
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
    kb = loaded(content)
    for kind, id_ in (("seam-specification", specification), ("sealer", sealer)):
        known(kb, kind, id_)
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
        write_whole(report, report_html(kb, advices, sheet.settings, problems))
    sys.exit(1 if problems else 0)


@click.command()
@CONTENT
@click.option("--defect", "defects", multiple=True, help="Id or name of a defect seen; may be repeated.")
@click.option("--absent", multiple=True, help="Id or name of a defect looked for and not found; may be repeated.")
@click.option(
    "--dimension",
    "dimensions",
    multiple=True,
    help="A dimension and how it is, such as body-hook=shorter, countersink=normal; may be repeated.",
)
@click.option("--where", "extent", type=click.Choice([str(e) for e in Extent]), help="How far around the can it goes.")
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
    kb = loaded(content)
    known(kb, "sealer", sealer)
    seen, missing = (_defects(kb, names) for names in (defects, absent))
    if both := set(seen) & set(missing):
        raise click.BadParameter(f"{', '.join(sorted(both))}: expected seen or not found, got both")
    directions = _directions(dimensions)
    signs = signs_from(kb, seen, directions, absent=missing, extent=extent, repeats=repeats, last_change=changed)
    advice = advise_on_signs(kb, signs, kb.sealers[sealer] if sealer else None)
    if as_json:
        click.echo(json.dumps(asdict(advice), indent=2, default=str))
    else:
        click.echo("\n".join(cause_lines(kb, advice, seen)))


def _defects(kb: KnowledgeBase, names: tuple[str, ...]) -> list[str]:
    """Look up defects by id or name, each once, in the order of the records whatever the order they were named in."""
    found: dict[str, None] = {}
    for name in names:
        id_ = find_defect(kb, name)
        if id_ is None:
            raise click.BadParameter(f"no defect is called {name!r}{nearest(name.lower(), kb.defects)}")
        found[id_] = None
    return [id_ for id_ in kb.defects if id_ in found]


def _directions(texts: tuple[str, ...]) -> dict[str, str]:
    """Read `body-hook=shorter` and the like, each dimension once."""
    found: dict[str, str] = {}
    for text in texts:
        dimension, direction = _direction(text)
        if found.setdefault(dimension, direction) != direction:
            raise click.BadParameter(
                f"{dimension}: expected one direction, got two; one that differs is {dimension}=uneven"
            )
    return found


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
