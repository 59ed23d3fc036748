"""Commands for the private register of volunteers."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tinwright.cli.common import CONTENT, counted
from tinwright.cli.practicals import practicals
from tinwright.cli.private import ON, REGISTER, day_of, opened
from tinwright.cli.register_lines import (
    certificate_line,
    coaching_line,
    drives_until,
    practical_line,
    sitting_line,
    standing_line,
)
from tinwright.cli.register_notes import coach, void
from tinwright.cli.register_people import check_kitchen, import_, reminders, sign_in
from tinwright.cli.register_place import backup, restore, where
from tinwright.errors import RecordError
from tinwright.knowledge.models.machine import Drive
from tinwright.knowledge.wording import nearest

if TYPE_CHECKING:
    import datetime as dt

__all__ = ["register"]

_JSON = click.option("--json", "as_json", is_flag=True, help="Print as JSON.")
_MARKS = ("done", "not-done")


@click.group()
def register() -> None:
    """Keep the private register of volunteers, examinations, practical checks and certificates.

    It holds personal data: it lies outside the site's folders, and nothing of it is published.

    Example: tinwright register add "Ann Example" --kitchen "Mill Street"
    """


for _command in (practicals, coach, void, import_, sign_in, reminders, where, backup, restore):
    register.add_command(_command)


@register.command()
@click.argument("name")
@click.option("--email", help="Where to reach them.")
@click.option("--kitchen", help="Where they work.")
@click.option("--another", is_flag=True, help="Add them although somebody of that name is in the register.")
@CONTENT
@ON
@REGISTER
def add(
    name: str,
    email: str | None,
    kitchen: str | None,
    another: bool,
    content: Path,
    on: dt.datetime | None,
    place: str | None,
) -> None:
    """Add a volunteer, and print the id to use from now on.

    Example: tinwright register add "Ann Example" --email ann@example.org
    """
    with opened(place, create=True) as register:
        check_kitchen(kitchen, content)
        wanted = " ".join(name.split()).casefold()
        same = [entry.id for entry in register.volunteers() if " ".join(entry.name.split()).casefold() == wanted]
        if same and not another:
            raise RecordError(f"{', '.join(same)} has that name already; say --another when this is somebody else")
        click.echo(register.add_volunteer(name, email=email, kitchen=kitchen, added_on=day_of(on)).id)


@register.command()
@click.argument("volunteer")
@click.option("--name", help="The name as it should be.")
@click.option("--email", help="The e-mail as it should be; '' takes it out.")
@click.option("--kitchen", help="The kitchen as it should be; '' takes it out.")
@CONTENT
@REGISTER
def correct(
    volunteer: str, name: str | None, email: str | None, kitchen: str | None, content: Path, place: str | None
) -> None:
    """Correct the name, e-mail or kitchen of a volunteer.

    Certificates that were issued keep the name that is on them.

    Example: tinwright register correct V0001 --kitchen Fairground
    """
    if name is email is kitchen is None:
        raise click.UsageError("expected --name, --email or --kitchen")
    with opened(place) as register:
        check_kitchen(kitchen, content)
        entry = register.correct_volunteer(volunteer, name=name, email=email, kitchen=kitchen)
    click.echo(f"{entry.id}  {entry.name}  {entry.email or '-'}  {entry.kitchen or '-'}")


@register.command("list")
@click.option(
    "--csv",
    "table",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Write id, name, e-mail, kitchen and day to a file; `register import` takes it.",
)
@ON
@_JSON
@REGISTER
def list_(table: Path | None, on: dt.datetime | None, as_json: bool, place: str | None) -> None:
    """List the volunteers, and what certificate each one holds.

    Example: tinwright register list
    """
    day = day_of(on)
    with opened(place) as register:
        people, issued = register.volunteers(), register.certificates()
        if table is not None:
            from tinwright.register.people_file import people_csv  # noqa: PLC0415 - as in `_steps`
            from tinwright.store import write_private  # noqa: PLC0415 - as in `_steps`

            write_private(table, people_csv(people))
            click.echo(f"{counted(len(people), 'volunteer')} in {table}; it holds personal data")
            return
    held = {entry.volunteer_id: entry for entry in issued if entry.in_force(day)}
    if as_json:
        certificates = {id_: asdict(row) for id_, row in held.items()}
        _print_json([{**asdict(entry), "certificate": certificates.get(entry.id)} for entry in people])
        return
    for entry in people:
        certificate = held.get(entry.id)
        state = drives_until(certificate) if certificate else "no certificate in force"
        click.echo(f"{entry.id}  {entry.name}  {entry.kitchen or '-'}  {state}")
    click.echo(counted(len(people), "volunteer"))


@register.command()
@click.argument("volunteer")
@ON
@_JSON
@REGISTER
def show(volunteer: str, on: dt.datetime | None, as_json: bool, place: str | None) -> None:
    """Show whether a certificate is in force, all that is held about a volunteer, and what is missing for another.

    Example: tinwright register show V0001
    """
    day = day_of(on)
    with opened(place) as register:
        entry = register.volunteer(volunteer)
        sat, observed = register.sittings(entry.id), register.practicals(entry.id)
        issued, missing = register.certificates(entry.id), register.missing_for_certificate(entry.id, day)
        coached = register.coachings(entry.id)
        doubts = {row.id: why for row, why in register.in_doubt(day)}
    held = next((row for row in reversed(issued) if row.in_force(day)), None)
    if as_json:
        _print_json(
            {
                "volunteer": asdict(entry),
                "sittings": [asdict(row) for row in sat],
                "practicals": [asdict(row) for row in observed],
                "coachings": [asdict(row) for row in coached],
                "certificates": [asdict(row) for row in issued],
                "in_force": held.id if held else None,
                "in_doubt": doubts.get(held.id) if held else None,
                "missing": missing,
            }
        )
        return
    click.echo(f"{entry.id}  {entry.name}  {entry.email or '-'}  {entry.kitchen or '-'}  added on {entry.added_on}")
    click.echo(f"  {standing_line(held, day)}")
    if held and held.id in doubts:
        click.echo(f"  IN DOUBT: {doubts[held.id]}")
    regraded = {row.supersedes for row in sat}
    purpose = "another certificate" if held else "a certificate"
    for line in (
        *(sitting_line(row, superseded=row.id in regraded) for row in sat),
        *map(practical_line, observed),
        *map(coaching_line, coached),
        *(certificate_line(row, day) for row in issued),
        *(f"missing for {purpose}: {reason}" for reason in missing),
    ):
        click.echo(f"  {line}")
    if not missing:
        click.echo(f"  nothing is missing for {purpose}")


@register.command()
@click.option("--within", default=60, show_default=True, type=click.IntRange(0), metavar="DAYS", help="Look this far.")
@click.option(
    "--lapsed",
    default=365,
    show_default=True,
    type=click.IntRange(0),
    metavar="DAYS",
    help="List also what ended this long ago, and was not renewed.",
)
@ON
@_JSON
@REGISTER
def due(within: int, lapsed: int, on: dt.datetime | None, as_json: bool, place: str | None) -> None:
    """List who is due for renewal, and certificates whose examination was not passed after all.

    Example: tinwright register due --within 90
    """
    day = day_of(on)
    with opened(place) as register:
        ending, doubtful = register.due_for_renewal(day, within, lapsed_days=lapsed), register.in_doubt(day)
        people = {entry.id: entry for entry in register.volunteers()}
    if as_json:
        _print_json(
            {"due": [asdict(row) for row in ending], "in_doubt": [{**asdict(row), "why": why} for row, why in doubtful]}
        )
        return
    for row in ending:
        person = people[row.volunteer_id]
        ends = "ended" if row.valid_until < day else "ends"
        reach = f"{person.email or '-'}  {person.kitchen or '-'}"
        click.echo(f"{person.id}  {person.name}  {reach}  {ends} on {row.valid_until} ({', '.join(row.drives)})")
    for row, why in doubtful:
        click.echo(f"{row.volunteer_id}  {row.name}  in doubt: {why} ({row.id})")
    click.echo(f"{counted(len(ending), 'certificate')} due, {len(doubtful)} in doubt")


@register.command()
@click.argument("certificate")
@click.option("--reason", required=True, help="Why; it stays in the register.")
@ON
@REGISTER
def revoke(certificate: str, reason: str, on: dt.datetime | None, place: str | None) -> None:
    """Revoke a certificate by its id; its id and the day go into the list that is published.

    Example: tinwright register revoke 6aab697b-3f7c-406a-bde5-e9d9d4db4d0a --reason "asked for it"
    """
    with opened(place) as register:
        entry = register.revoke(certificate, day_of(on), reason)
        total = len(register.revoked())
    click.echo(f"{entry.id} revoked on {entry.revoked_on}; {counted(total, 'certificate')} revoked in all")


@register.command()
@click.argument("volunteer")
@click.option("--drive", required=True, type=click.Choice([str(drive) for drive in Drive]), help="Drive of the sealer.")
@click.option("--sealer", help="Id of the sealer.")
@click.option("--examiner", required=True, help="Who observed: a register id, a name or initials.")
@click.option(
    "--step", "marks", multiple=True, metavar="STEP=MARK", help="A step, and done or not-done; asked when left out."
)
@click.option("--failed", is_flag=True, help="The examiner did not pass it, although every step was done.")
@ON
@REGISTER
def practical(
    volunteer: str,
    drive: str,
    sealer: str | None,
    examiner: str,
    marks: tuple[str, ...],
    failed: bool,
    on: dt.datetime | None,
    place: str | None,
) -> None:
    """Type in a practical check from its observed checklist; it is passed when every step was done.

    The steps are assemble, set-rollers, test-can, judge and correct-fault.

    Example: tinwright register practical V0001 --drive hand-lever --examiner AE
    """
    with opened(place) as register:
        person = register.volunteer(volunteer)
        steps = _steps(marks)
        passed = not failed and all(mark == "done" for mark in steps.values())
        entry = register.record_practical(
            person.id,
            drive=drive,
            sealer=sealer,
            observed_on=day_of(on),
            examiner=examiner,
            passed=passed,
            steps=steps,
        )
    click.echo(f"{person.name}: {practical_line(entry)}")


def _steps(marks: tuple[str, ...]) -> dict[str, str]:
    """Read the marks given, and ask for those of the other steps, in the order of the checklist."""
    from tinwright.register import STEPS  # noqa: PLC0415 - other commands must stay quick
    from tinwright.register.practicals import mark_typed  # noqa: PLC0415 - as above

    given: dict[str, str] = {}
    for text in marks:
        step, _, typed = text.partition("=")
        mark = mark_typed(typed)
        if step not in STEPS:
            raise click.BadParameter(f"no step is called {step!r}{nearest(step, STEPS)}", param_hint="--step")
        if mark is None:
            raise click.BadParameter(f"{step}: expected {' or '.join(_MARKS)}, got {typed!r}", param_hint="--step")
        if given.setdefault(step, mark) != mark:
            raise click.BadParameter(f"{step}: expected one mark, got both", param_hint="--step")
    return {
        step: given.get(step) or click.prompt(step, type=click.Choice(_MARKS, case_sensitive=False)) for step in STEPS
    }


@register.command()
@click.option("--output", type=click.Path(path_type=Path, dir_okay=False), help="Write the JSON to a file.")
@click.option(
    "--csv", "folder", type=click.Path(path_type=Path, file_okay=False), help="Write a CSV file for each table."
)
@REGISTER
def export(output: Path | None, folder: Path | None, place: str | None) -> None:
    """Print everything in the register as JSON, or write it to files that only you may read.

    Example: tinwright register export --output register.json
    """
    if output and folder:
        raise click.UsageError("expected --output or --csv, got both")
    with opened(place) as register:
        from tinwright.store import check_place, csv_tables, write_private  # noqa: PLC0415 - as in `_steps`

        exported = register.export()
        text = json.dumps(exported, indent=2, ensure_ascii=False)
        if output:
            write_private(output, text + "\n")
            click.echo(f"everything is in {output}; it holds personal data", err=True)
        elif folder:
            tables = csv_tables(exported)
            check_place(folder / "volunteer.csv")
            _make_private(folder)
            for name, table in tables.items():
                write_private(folder / name, table)
            click.echo(f"{counted(len(tables), 'file')} in {folder}; they hold personal data", err=True)
        else:
            click.echo(text)


def _make_private(folder: Path) -> None:
    try:
        folder.mkdir(mode=0o700, exist_ok=True)
    except OSError as error:
        raise RecordError(f"{folder}: cannot be made: {error.strerror}") from error


@register.command()
@click.argument("volunteer")
@click.option("--yes", is_flag=True, help="Do not ask.")
@ON
@REGISTER
def erase(volunteer: str, yes: bool, on: dt.datetime | None, place: str | None) -> None:
    """Erase a person who asks for it: name, e-mail, answers and checks. It cannot be undone.

    Scores stay for the statistics of items, and certificate ids for the list of the revoked; both without a person.

    Example: tinwright register erase V0001
    """
    with opened(place) as register:
        id_ = volunteer.strip().upper()
        if id_ not in {entry.volunteer_id for entry in register.erasures()}:
            person = register.volunteer(id_)
            if not yes:
                click.confirm(f"Erase {person.id}, {person.name}? It cannot be undone", abort=True)
        register.erase(id_, day_of(on))
    click.echo(f"{id_} is erased. Destroy your copies too: exports, backups, response files, printed lists.")


def _print_json(rows: object) -> None:
    click.echo(json.dumps(rows, indent=2, ensure_ascii=False, default=str))
