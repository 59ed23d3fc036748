"""Commands about lists of people: taken in, signed on a class day, reminded."""

from __future__ import annotations

import csv
import io
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tinwright.cli.common import CONTENT, counted
from tinwright.cli.private import ON, REGISTER, day_of, opened
from tinwright.errors import ContentError, RecordError, TinwrightError
from tinwright.knowledge import load
from tinwright.knowledge.wording import nearest

if TYPE_CHECKING:
    import datetime as dt

    from tinwright.register import Register, Volunteer
    from tinwright.register.people_file import ListedPerson

__all__ = ["check_kitchen", "import_", "known_kitchens", "reminders", "sign_in"]

_FILE = click.Path(path_type=Path, dir_okay=False)
_ANSWERS = click.Choice(["skip", "update", "add"])


def known_kitchens(content: Path) -> tuple[str, ...] | None:
    """Return the kitchens of the programme; None where it cannot be read."""
    if not content.is_dir():
        return None
    try:
        return tuple(kitchen.name for kitchen in load(content).programme.kitchens)
    except ContentError:
        click.echo(f"{content} cannot be read, so kitchens are not checked; see tinwright check", err=True)
        return None


def check_kitchen(kitchen: str | None, content: Path) -> None:
    """Refuse a kitchen that the programme does not have.

    Raises:
        RecordError: naming the nearest one.
    """
    if kitchen and (known := known_kitchens(content)) is not None and kitchen.strip() not in known:
        raise RecordError(f"no kitchen is called {kitchen[:40]!r}{nearest(kitchen, known)}; known: {', '.join(known)}")


@click.command("import")
@click.argument("file", type=_FILE)
@click.option("--same", type=_ANSWERS, help="What to do with people who may be in the register; asked when left out.")
@CONTENT
@ON
@REGISTER
def import_(file: Path, same: str | None, content: Path, on: dt.datetime | None, place: str | None) -> None:
    """Add volunteers from a list, a CSV FILE with the headings name, email and kitchen.

    Of somebody whose name or e-mail is in the register already you are asked: skip, update the e-mail and kitchen, or
    add somebody else of that name.

    Example: tinwright register import class.csv
    """
    with opened(place, create=True) as register:
        from tinwright.register.people_file import read_people, same_people  # noqa: PLC0415 - must stay quick

        people, problems = read_people(file, kitchens=known_kitchens(content))
        for problem in problems:
            click.echo(problem, err=True)
        if problems:
            raise RecordError(f"{counted(len(problems), 'problem')}; nobody is added")
        counts = {"add": 0, "update": 0, "skip": 0}
        for person in people:
            found = same_people(person, register.volunteers())
            answer = "add" if not found else same or _ask(person, found)
            counts[answer] += 1
            _take(register, person, found, answer, day_of(on))
    click.echo(f"{counts['add']} added, {counts['update']} updated, {counts['skip']} skipped")


def _ask(person: ListedPerson, found: list[Volunteer]) -> str:
    there = "; ".join(
        f"{row.id} {row.name}, {row.email or 'no e-mail'}, {row.kitchen or 'no kitchen'}" for row in found
    )
    click.echo(f"{person.place}: {person.name}, {person.email or 'no e-mail'}, may be in the register: {there}")
    answer: str = click.prompt("skip, update or add", type=_ANSWERS, default="skip")
    return answer


def _take(register: Register, person: ListedPerson, found: list[Volunteer], answer: str, day: dt.date) -> None:
    try:
        if answer == "add":
            entry = register.add_volunteer(person.name, email=person.email, kitchen=person.kitchen, added_on=day)
            click.echo(f"{entry.id}  {entry.name}")
        elif answer == "update":
            entry = register.correct_volunteer(found[0].id, email=person.email, kitchen=person.kitchen)
            click.echo(f"{entry.id}  {entry.name}  updated")
    except RecordError as error:
        raise RecordError(f"{person.place}: {error}; those above it are in the register") from error


@click.command("sign-in")
@click.argument("file", type=_FILE)
@click.option("--kitchen", help="Only the volunteers of one kitchen.")
@click.option("--person", "chosen", multiple=True, metavar="ID", help="Only these volunteers; more than once.")
@click.option("--title", default="Sign-in sheet", show_default=True, help="What stands above it.")
@CONTENT
@ON
@REGISTER
def sign_in(
    file: Path,
    kitchen: str | None,
    chosen: tuple[str, ...],
    title: str,
    content: Path,
    on: dt.datetime | None,
    place: str | None,
) -> None:
    """Print a sign-in sheet for a class or an examination day to a PDF FILE.

    It has a line for each volunteer: number, name, form handed out, start, end, what was allowed, signature.

    Example: tinwright register sign-in ../sign-in.pdf --kitchen "Mill Street"
    """
    with opened(place) as register:
        check_kitchen(kitchen, content)
        wanted = {id_.strip().upper() for id_ in chosen}
        people = [
            entry
            for entry in register.volunteers()
            if (kitchen is None or entry.kitchen == kitchen) and (not wanted or entry.id in wanted)
        ]
        if strange := sorted(wanted - {entry.id for entry in people}):
            raise RecordError(f"no volunteer has the id {strange[0]!r}")
        if not people:
            raise RecordError("there is nobody to put on the sheet")
        try:
            from tinwright.examining.sign_in import sign_in_sheet  # noqa: PLC0415 - as in `import_`
            from tinwright.store import write_private  # noqa: PLC0415 - as in `import_`

            programme = load(content).programme if content.is_dir() else None
            write_private(file, sign_in_sheet(people, title=title, on=day_of(on), programme=programme))
        except TinwrightError as error:
            raise RecordError(str(error)) from error
    click.echo(f"{counted(len(people), 'volunteer')} on {file}; it holds personal data")


@click.command()
@click.argument("file", type=_FILE)
@click.option("--within", default=60, show_default=True, type=click.IntRange(0), metavar="DAYS", help="Look this far.")
@click.option(
    "--lapsed", default=90, show_default=True, type=click.IntRange(0), metavar="DAYS", help="And this far back."
)
@ON
@REGISTER
def reminders(file: Path, within: int, lapsed: int, on: dt.datetime | None, place: str | None) -> None:
    """Write who must renew to a CSV FILE that a mail program takes for a serial letter.

    Its columns: Name, Email, Kitchen, Ends on, Drives, Days left. Those without an e-mail are shown on the screen.

    Example: tinwright register reminders ../reminders.csv --within 90
    """
    day = day_of(on)
    with opened(place) as register:
        from tinwright.store import write_private  # noqa: PLC0415 - as in `import_`
        from tinwright.store.exporting import csv_cell  # noqa: PLC0415 - as in `import_`

        ending = register.due_for_renewal(day, within, lapsed_days=lapsed)
        people = {entry.id: entry for entry in register.volunteers()}
        out = io.StringIO()
        table = csv.writer(out, lineterminator="\n")
        table.writerow(["Name", "Email", "Kitchen", "Ends on", "Drives", "Days left"])
        silent = []
        for row in ending:
            person = people[row.volunteer_id]
            if not person.email:
                silent.append(person)
                continue
            cells = (person.name, person.email, person.kitchen, str(row.valid_until), ", ".join(row.drives))
            table.writerow([*map(csv_cell, cells), (row.valid_until - day).days])
        write_private(file, out.getvalue())
    for person in silent:
        click.echo(f"no e-mail: {person.id}  {person.name}  {person.kitchen or '-'}")
    click.echo(f"{counted(len(ending) - len(silent), 'reminder')} in {file}; it holds personal data")
