"""The command that takes practical checks from one file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from tinwright.cli.common import CONTENT, counted, loaded
from tinwright.cli.private import ON, REGISTER, day_of, opened
from tinwright.cli.register_lines import practical_line
from tinwright.errors import RecordError

if TYPE_CHECKING:
    import datetime as dt

__all__ = ["practicals"]


@click.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@CONTENT
@ON
@REGISTER
def practicals(file: Path, content: Path, on: dt.datetime | None, place: str | None) -> None:
    """Take practical checks from a CSV FILE typed in from the observed checklists: all of them, or none.

    Its headings, in this order: person, observed_on, drive, sealer, examiner, assemble, set-rollers, test-can, judge,
    correct-fault, passed.

    A step is done or not-done. A check is passed when every step is done, unless no stands under passed.

    Example: tinwright register practicals practicals.csv
    """
    sealers = list(loaded(content).of_kind("sealer")) if content.is_dir() else None
    with opened(place) as register:
        from tinwright.register.practicals_file import read_practicals  # noqa: PLC0415 - other commands must stay quick

        people = {entry.id: entry.name for entry in register.volunteers()}
        checks, problems = read_practicals(file, people=people, sealers=sealers, latest=day_of(on))
        for problem in problems:
            click.echo(problem, err=True)
        if problems:
            raise RecordError(f"{counted(len(problems), 'problem')}; nothing is recorded")
        known = {row.id for row in register.practicals()}
        recorded = register.record_practicals(checks)
    for row in recorded:
        click.echo(f"{people[row.volunteer_id]}: {practical_line(row)}")
    fresh = {row.id for row in recorded} - known
    click.echo(f"{counted(len(fresh), 'practical check')} recorded, {len(recorded) - len(fresh)} already there")
