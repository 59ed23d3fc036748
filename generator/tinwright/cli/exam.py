"""The group of commands for examinations."""

from __future__ import annotations

import click

from tinwright.cli.exam_make import make

__all__ = ["exam"]


@click.group()
def exam() -> None:
    """Make an examination, grade it, and look at its items.

    Example: tinwright exam make volunteer --forms 2 --out ../examinations/spring
    """


for _command in (make,):
    exam.add_command(_command)
