"""The command that says how long a bank of questions lasts."""
# ruff: noqa: PLC0415 - solving comes with extras that not everybody installs

from __future__ import annotations

from pathlib import Path

import click

from tinwright.cli.common import CONTENT, fail, loaded
from tinwright.errors import ExamError, TinwrightError
from tinwright.knowledge.bank import load_bank
from tinwright.knowledge.wording import nearest

__all__ = ["plan"]

_FOLDER = click.Path(path_type=Path, file_okay=False)


@click.command()
@click.argument("blueprint")
@click.option("--classes", type=click.IntRange(1, 100), default=2, show_default=True, help="Classes in a year.")
@click.option("--people", type=click.IntRange(1, 200), default=12, show_default=True, help="People in a class.")
@click.option("--quizzes", type=_FOLDER, default=Path("quizzes"), show_default=True, help="Topics and blueprints.")
@click.option("--examination", type=_FOLDER, help="Folder with the examination items; that of the quizzes if left out.")
@click.option(
    "--used",
    type=click.Path(path_type=Path, dir_okay=False),
    multiple=True,
    metavar="FORM.form.json",
    help="A form whose items are not to come again; may be given more than once.",
)
@CONTENT
def plan(
    blueprint: str,
    classes: int,
    people: int,
    quizzes: Path,
    examination: Path | None,
    used: tuple[Path, ...],
    content: Path,
) -> None:
    """Say how many forms a bank gives, how many years they last, and what it is short of.

    BLUEPRINT is the name of a file in quizzes/blueprints, without its ending.

    Example: tinwright exam plan volunteer --classes 3 --people 12
    """
    kb = loaded(content)
    try:
        from tinwright.examining.form import read_form
        from tinwright.examining.planning import plan_bank, plan_lines
        from tinwright.examining.ratings import read_ratings

        bank = load_bank(quizzes, kb, examination=examination or quizzes / "examination")
        if blueprint not in bank.blueprints:
            raise ExamError(f"no blueprint is called {blueprint!r}{nearest(blueprint, bank.blueprints)}")
        chosen = bank.blueprints[blueprint]
        found = plan_bank(
            bank,
            chosen,
            read_ratings(bank.root / "blueprints" / chosen.standard_setting.ratings),
            classes=classes,
            people=people,
            used=frozenset(item.id for file in used for item in read_form(file).items),
        )
    except ModuleNotFoundError as error:
        fail(ExamError(f"examinations need the library {error.name}: install tinwright[office]"))
    except TinwrightError as error:
        fail(error)
    for line in plan_lines(found, items=len(bank.examination)):
        click.echo(line)
