"""Make the forms of an examination, with all that is printed and handed out.

What it needs is imported inside it: solving and printing come with extras that not everybody installs.
"""
# ruff: noqa: PLC0415 - as said above

from __future__ import annotations

import secrets
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tinwright.cli.common import CONTENT, counted, fail, loaded
from tinwright.cli.private import ON, day_of
from tinwright.errors import ExamError, TinwrightError
from tinwright.knowledge.bank import load_bank
from tinwright.knowledge.wording import nearest

if TYPE_CHECKING:
    import datetime as dt

__all__ = ["make"]

_BITS = 128
"""Of what is drawn by lot: too many to try them all."""


@click.command()
@click.argument("blueprint")
@click.option("--forms", type=click.IntRange(1, 10), default=1, show_default=True, help="How many parallel forms.")
@click.option(
    "--seed",
    type=click.IntRange(0, 2**_BITS - 1),
    help="The same seed makes the same questions again; one is drawn when left out.",
)
@click.option(
    "--salt",
    metavar="DIGITS",
    help="With the same seed, the same salt gives the forms the same code; one is drawn when left out.",
)
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    required=True,
    help="Folder for the files, away from the site and its sources.",
)
@click.option(
    "--quizzes",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("quizzes"),
    show_default=True,
    help="Folder with topics and blueprints.",
)
@click.option(
    "--examination",
    type=click.Path(path_type=Path, file_okay=False),
    help="Folder with the examination items; the one in the folder of the quizzes when left out.",
)
@click.option(
    "--used",
    type=click.Path(path_type=Path, dir_okay=False),
    multiple=True,
    metavar="FORM.form.json",
    help="A form whose items are not to come again; may be given more than once.",
)
@click.option(
    "--sealer",
    multiple=True,
    metavar="SEALER",
    help="A sealer the form is for, so that it asks nothing of other drives; may be given more than once. All of the "
    "program's when left out.",
)
@click.option("--accessible", is_flag=True, help="Add large print (18 points) and a script to be read aloud.")
@ON
@CONTENT
def make(
    blueprint: str,
    forms: int,
    seed: int | None,
    salt: str | None,
    out: Path,
    quizzes: Path,
    examination: Path | None,
    used: tuple[Path, ...],
    sealer: tuple[str, ...],
    accessible: bool,
    on: dt.datetime | None,
    content: Path,
) -> None:
    """Make parallel forms of an examination: on paper, as a page for a USB drive, and their keys.

    BLUEPRINT is the name of a file in quizzes/blueprints, without its ending.

    Example: tinwright exam make volunteer --forms 2 --out ../examinations/spring
    """
    kb = loaded(content)
    seed = secrets.randbits(_BITS) if seed is None else seed
    salt = secrets.token_hex(_BITS // 8) if salt is None else salt
    try:
        from tinwright.examining.claims import claims_lines, claims_of_key, unmet
        from tinwright.examining.form import read_form
        from tinwright.examining.kit import kit_of, prepare_folder, write_kit
        from tinwright.examining.making import make_forms
        from tinwright.examining.ratings import read_ratings
        from tinwright.printing import libraries

        # Before the long work, so that what is missing, and a folder that will not do, is told at once.
        libraries()
        prepare_folder(out)
        bank = load_bank(quizzes, kb, examination=examination or quizzes / "examination")
        if blueprint not in bank.blueprints:
            known = ", ".join(bank.blueprints) or "none"
            raise ExamError(
                f"no blueprint is called {blueprint!r}{nearest(blueprint, bank.blueprints)}; known: {known}"
            )
        for name in sealer:
            if name not in kb.sealers:
                raise ExamError(f"no sealer is called {name!r}{nearest(name, kb.sealers)}")
        plan = bank.blueprints[blueprint]
        made = make_forms(
            kb,
            bank,
            plan,
            read_ratings(bank.root / "blueprints" / plan.standard_setting.ratings),
            forms=forms,
            seed=seed,
            salt=salt,
            made_on=day_of(on),
            used=frozenset(item.id for file in used for item in read_form(file).items),
            sealers=[kb.sealers[name] for name in sealer],
        )
        forms_made = [one for one in made if not one.is_second_try]
        for one in forms_made:
            if problems := unmet(claims_of_key(one.key), plan.claims):
                raise ExamError(
                    f"form {one.form.code} does not keep what {blueprint}.yml claims: {'; '.join(problems)}"
                )
        kit = kit_of(made, plan, kb, accessible=accessible)
        place = write_kit(kit, out)
    except ModuleNotFoundError as error:
        fail(ExamError(f"examinations need the library {error.name}: install tinwright[office]"))
    except TinwrightError as error:
        fail(error)
    click.echo(f"{plan.title}: {counted(len(forms_made), 'form')} of {counted(made[0].form.out_of, 'question')}")
    for one in made:
        areas = "; ".join(f"{area.title} {area.right} of {len(area.items)}" for area in one.key.areas)
        if one.is_second_try:
            firsts = " and ".join(first.code for first in one.key.second_try_of)
            click.echo(f"  second try {one.form.code} for form {firsts}: {areas}")
            continue
        click.echo(
            f"  form {one.form.code}: passes with {one.key.cut} of {one.form.out_of} points; {areas or 'no areas'}"
        )
        for line in claims_lines(claims_of_key(one.key)):
            click.echo(f"    {line}")
    click.echo(f"  to make them again (keep it to yourself): --seed {seed} --salt {salt}")
    click.echo(f"In {place}")
    for title, secret in (("hand out", False), ("keep to yourself", True)):
        click.echo(f"  {title}:")
        for file in kit:
            if file.secret == secret:
                click.echo(f"    {file.name:<34} {file.what}")
    if plan.demonstration:
        click.echo("A demonstration: anybody can read the items of this bank. Not for a real examination.")
