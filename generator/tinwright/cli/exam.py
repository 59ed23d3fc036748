"""The group of commands for examinations."""

from __future__ import annotations

import click

from tinwright.cli.exam_grade import analyze, grade, rekey
from tinwright.cli.exam_make import make
from tinwright.cli.exam_plan import plan

__all__ = ["exam"]


@click.group()
def exam() -> None:
    """Plan and make examinations, grade them, correct a key, and see which questions are bad.

    Forms, keys, answers and reports are private: keep them out of the site's folders.

    Example: tinwright exam make volunteer --forms 2 --out ../exams
    """


for _command in (plan, make, grade, rekey, analyze):
    exam.add_command(_command)

# The spelling it had first; notes and scripts of offices may still call it so.
exam.add_command(click.Command("analyse", callback=analyze.callback, params=analyze.params, hidden=True))
