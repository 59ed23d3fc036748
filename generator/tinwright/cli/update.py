"""The command that walks through what has changed beneath the program's own words."""

from __future__ import annotations

import textwrap
from itertools import zip_longest
from typing import TYPE_CHECKING

import click
import yaml

from tinwright.cli.common import CONTENT, cannot_write, counted
from tinwright.knowledge.answering import both_versions, file_of, keep_mine, take_theirs
from tinwright.knowledge.loading import open_questions

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.knowledge.amending import Question

__all__ = ["side_by_side", "update"]

_WIDTH = 56
"""Letters in a column; two of them and what stands between fit a printed line."""


@click.command()
@CONTENT
def update(content: Path) -> None:
    """Decide what to do where the text beneath your own words has changed.

    For each record that you amended or replaced it shows both versions and asks: keep yours, take theirs,
    edit yours, or decide later. All else in your files stays as it is.

    Example: tinwright update
    """
    questions = open_questions(content)
    later = 0
    # from the end of each file, so that what was taken out moves no place still to be answered
    for question in sorted(questions, key=lambda q: (q.change.file.file, q.change.path), reverse=True):
        click.echo(f"{question}\n{side_by_side(question)}")
        answer = click.prompt("keep, take, edit or later", type=click.Choice(["keep", "take", "edit", "later"]))
        try:
            if answer == "take":
                take_theirs(question, content)
            elif answer != "later":
                keep_mine(question, content)
        except OSError as error:
            cannot_write(file_of(question, content), error)
        if answer == "edit":
            click.edit(filename=str(file_of(question, content)))
        later += answer == "later"
    click.echo(f"{counted(len(questions), 'question')}, {later} left for later")


def side_by_side(question: Question) -> str:
    """Show what the two versions say otherwise: the educator's words left, those beneath right."""
    rows = [f"  {'yours':{_WIDTH}} | beneath"]
    for name, *versions in both_versions(question):
        mine, theirs = (_lines(name, version) for version in versions)
        rows += [f"  {left:{_WIDTH}} | {right}".rstrip() for left, right in zip_longest(mine, theirs, fillvalue="")]
    return "\n".join(rows)


def _lines(name: str, version: object) -> list[str]:
    if version is None:
        return [f"{name}: (not said)"]
    text = yaml.safe_dump({name: version}, allow_unicode=True, sort_keys=False, width=_WIDTH)
    return [part for line in text.splitlines() for part in textwrap.wrap(line, _WIDTH, drop_whitespace=False)]
