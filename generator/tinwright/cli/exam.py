"""The group of commands for examinations."""

from __future__ import annotations

import click

from tinwright.cli.exam_grade import analyse, grade, rekey

__all__ = ["exam"]


@click.group()
def exam() -> None:
    """Grade examinations, correct a key, and see which questions are bad.

    Forms, keys, answers and reports are private: keep them out of the site's folders.

    Example: tinwright exam grade volunteer-A.key.json answers.csv
    """


for _command in (grade, rekey, analyse):
    exam.add_command(_command)
