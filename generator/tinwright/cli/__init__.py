"""The `tinwright` command: one thin command per task.

Exit codes: 0 all is well, 1 problems found, 2 misuse.
Problems go to standard error as `file:line:col: record: message`.
"""

from __future__ import annotations

import click

from tinwright import __version__
from tinwright.cli.bench import cause, seam
from tinwright.cli.certificate import certificate
from tinwright.cli.content import check, new, schema, write
from tinwright.cli.exam import exam
from tinwright.cli.hosting import hosting
from tinwright.cli.log import log
from tinwright.cli.paper import paper
from tinwright.cli.register import register

__all__ = ["main"]


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, message="%(version)s")
def main() -> None:
    """Knowledge base, set-up sheets and seam check for people who seal food cans by hand."""


for _command in (check, schema, write, new, paper, hosting, seam, cause, exam, register, log, certificate):
    main.add_command(_command)
