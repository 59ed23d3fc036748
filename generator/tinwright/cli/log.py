"""Commands for the bench log: what happened at the sealers, from telephones and sheets, kept in the private store."""

from __future__ import annotations

import contextlib
import datetime as dt
import json
import re
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tinwright.cli import log_reports
from tinwright.cli.common import CONTENT, counted, loaded
from tinwright.cli.log_lines import dispute_lines, event_line, runs_of, session_line, taken_in_line, went_back_lines
from tinwright.cli.private import ON, REGISTER, day_of, opened
from tinwright.errors import RecordError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from tinwright.errors import Problem
    from tinwright.logbook import BenchLog, LogFile, LoggedSession

__all__ = ["log", "opened_log"]

_JSON = click.option("--json", "as_json", is_flag=True, help="Print as JSON.")
_BY = click.option("--by", required=True, help="Who decides: an id of the register, or initials.")
_BY_IF_KNOWN = click.option("--by", default="", help="Who decides: an id of the register, or initials.")
_WHY = click.option("--reason", default="", help="Why.")
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")


def _can(_ctx: click.Context, _param: click.Parameter, value: str) -> tuple[str, int]:
    """Read a can as it is called: its number, after the letter of its run from the second run on."""
    match = re.fullmatch(r"([A-Za-z]{0,2})(\d{1,9})", value)
    if match is None or int(match[2]) < 1:
        raise click.BadParameter(f"expected the number of a can, such as 13 or B13, got {value[:40]!r}")
    return match[1].upper(), int(match[2])


def _of_cans(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command the range of cans of a session that it is about, and the moment."""
    day = click.DateTime(["%Y-%m-%d"])
    command = click.option("--on", type=day, metavar="YYYY-MM-DD", help="The day of it; today when left out.")(command)
    command = click.option("--at", metavar="HH:MM", help="The time of it; now when left out.")(command)
    for name in ("last", "first"):
        command = click.argument(name, callback=_can)(command)
    return click.argument("session")(command)


@click.group()
def log() -> None:
    """Keep the bench log: what was sealed, checked, adjusted, held and released.

    It names people: it lies in the private register, and nothing of it is published but counts.

    Example: tinwright log import bench-log-2026-11-14-k7f3q2.json sheet-P04.csv
    """


log.add_command(log_reports.report)
log.add_command(log_reports.counts)


@contextlib.contextmanager
def opened_log(place: str | None, *, create: bool = False) -> Iterator[BenchLog]:
    """Open the bench log for a command; any refusal inside is told in one line, with exit code 1.

    Args:
        place: what was given, or None for the file in the user's own folder.
        create: whether to make the file when it is not there.
    """
    with opened(place, create=create) as register:
        from tinwright.logbook import BenchLog  # noqa: PLC0415 - other commands must stay quick

        yield BenchLog(register.store, register.by)


@log.command("import")
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path, dir_okay=False))
@click.option("--skip-refused", is_flag=True, help="Import the sound files although others are refused.")
@CONTENT
@ON
@REGISTER
def import_(
    files: tuple[Path, ...], skip_refused: bool, content: Path, on: dt.datetime | None, place: str | None
) -> None:
    """Import FILES into the log: saved by a phone (JSON), or typed in from a sheet (CSV).

    When one file is refused, nothing is imported. Importing a file twice changes nothing. Where two of them disagree,
    both are kept, and the most cautious one counts until somebody chooses.

    Example: tinwright log import bench-log-2026-11-14-k7f3q2.json sheet-P04.csv
    """
    with opened_log(place, create=True) as book:
        sound, problems = _read(book, files, content, day_of(on))
        for problem in problems:
            click.echo(str(problem), err=True)
        if problems and not skip_refused:
            refused = counted(len(problems), "problem")
            raise RecordError(f"{refused}; nothing is imported: fix what is refused, or say --skip-refused")
        if not sound:
            raise RecordError("there is no file to import")
        for file, found in zip(sound, book.take_in_all(sound), strict=True):
            click.echo(f"{file.name}: {taken_in_line(found)}")
            for session, event in found.disputes:
                click.echo(f"  {session} {event} was written down in more than one way: tinwright log show {session}")
            for line in [] if found.again else _asked_about(book, file):
                click.echo(f"  {line}")


def _asked_about(book: BenchLog, file: LogFile) -> Iterator[str]:
    """Say where the counter or the clock of a file goes back, and what is made of it."""
    for head, events in file.sessions:
        ids = {event.id for event in events}
        (row,) = book.sessions(since=head.date, until=head.date, kitchen=head.kitchen, sealer=head.sealer)
        yield from went_back_lines(row, ids)


def _read(book: BenchLog, files: tuple[Path, ...], content: Path, day: dt.date) -> tuple[list[LogFile], list[Problem]]:
    from tinwright.logbook.files import read_log_file  # noqa: PLC0415 - other commands must stay quick
    from tinwright.logbook.names import LogNames, names_in  # noqa: PLC0415 - as above

    people = book.people()
    names = names_in(loaded(content), people) if content.is_dir() else LogNames(people=people)
    sound, problems = [], []
    for path in files:
        file, found = read_log_file(path, names, day)
        sound += [file] if file else []
        problems += found
    return sound, problems


@log.command("list")
@click.option("--since", default="", metavar="YYYY-MM-DD", help="First day.")
@click.option("--until", default="9999-12-31", metavar="YYYY-MM-DD", help="Last day.")
@_JSON
@REGISTER
def list_(since: str, until: str, as_json: bool, place: str | None) -> None:
    """List the sessions, one line each.

    Example: tinwright log list --since 2026-11-01
    """
    with opened_log(place) as book:
        sessions = list(book.sessions(since=since, until=until))
    if as_json:
        _print_json([{"id": row.id, **asdict(row.session), "events": len(row.events)} for row in sessions])
        return
    for row in sessions:
        click.echo(session_line(row))
    click.echo(counted(len(sessions), "session"))


@log.command()
@click.argument("which", metavar="DATE|SESSION")
@_JSON
@REGISTER
def show(which: str, as_json: bool, place: str | None) -> None:
    """Show the events of a day or a session in order, and beside each other what was written down in more than one way.

    Example: tinwright log show 2026-11-14
    """
    with opened_log(place) as book:
        sessions = _chosen(book, which)
    if as_json:
        _print_json([asdict(row) for row in sessions])
        return
    for row in sessions:
        click.echo(session_line(row))
        disputes = {dispute.event_id: dispute for dispute in row.disputes}
        runs = runs_of(row)
        for event in row.events:
            click.echo(f"  {event_line(event, runs.get(event.id))}")
            if event.id in disputes:
                for line in dispute_lines(disputes.pop(event.id)):
                    click.echo(f"    {line}")
        for dispute in disputes.values():
            for line in dispute_lines(dispute):
                click.echo(f"  {line}")


def _chosen(book: BenchLog, which: str) -> list[LoggedSession]:
    if not _DAY.fullmatch(which):
        return [book.session(which)]
    sessions = list(book.sessions(since=which, until=which))
    if not sessions:
        raise RecordError(f"there is no session on {which}")
    return sessions


@log.command()
@click.argument("session")
@click.argument("event")
@click.argument("version")
@_BY
@click.option("--reason", required=True, help="Why; it stays in the log.")
@REGISTER
def choose(session: str, event: str, version: str, by: str, reason: str, place: str | None) -> None:
    """Decide which VERSION of an EVENT of a SESSION counts; `head` stands for the head of the session.

    Versions are called by the first digits that `tinwright log show` prints. The others are kept.

    Example: tinwright log choose B0001 k7f3q2-4 3f9a --by AE --reason "asked BK, the can was bad"
    """
    with opened_log(place) as book:
        dispute = book.choose(session, event, version, by=by, reason=reason)
    for line in dispute_lines(dispute):
        click.echo(line)


@log.command()
@_of_cans
@_BY_IF_KNOWN
@_WHY
@REGISTER
def hold(
    session: str,
    first: tuple[str, int],
    last: tuple[str, int],
    at: str | None,
    on: dt.datetime | None,
    by: str,
    reason: str,
    place: str | None,
) -> None:
    """Hold the cans FIRST to LAST of a SESSION, from the desk.

    Example: tinwright log hold B0001 13 24 --by AE --reason "second roller found loose"
    """
    _at_desk(place, session, "hold", (first, last), (at, on), by, reason)


@log.command()
@_of_cans
@_BY
@click.option("--reason", required=True, help="Why they may go; it stays in the log.")
@REGISTER
def release(
    session: str,
    first: tuple[str, int],
    last: tuple[str, int],
    at: str | None,
    on: dt.datetime | None,
    by: str,
    reason: str,
    place: str | None,
) -> None:
    """Release held cans FIRST to LAST of a SESSION, from the desk; by whom and why is recorded.

    Cans that are not held are refused, and so is a can that was found bad: it is never released. The release stands
    with the day and the time it was made, and lets go what is held by then. Cans of a second run are B13 and so on.

    Example: tinwright log release B0001 13 18 --by AE --reason "seams of 13, 15 and 18 torn down, all accepted"
    """
    _at_desk(place, session, "release", (first, last), (at, on), by, reason)


@log.command()
@_of_cans
@_BY_IF_KNOWN
@_WHY
@REGISTER
def discard(
    session: str,
    first: tuple[str, int],
    last: tuple[str, int],
    at: str | None,
    on: dt.datetime | None,
    by: str,
    reason: str,
    place: str | None,
) -> None:
    """Write down that the cans FIRST to LAST of a SESSION were discarded.

    Example: tinwright log discard B0001 19 24 --by AE --reason "droop at the side seam"
    """
    _at_desk(place, session, "discard", (first, last), (at, on), by, reason)


def _at_desk(
    place: str | None,
    session: str,
    kind: str,
    cans: tuple[tuple[str, int], tuple[str, int]],
    made: tuple[str | None, dt.datetime | None],
    by: str,
    reason: str,
) -> None:
    (run, first), (last_run, last) = cans
    if run != last_run:
        raise click.BadParameter(f"expected cans of one run, got {run}{first} and {last_run}{last}", param_hint="LAST")
    now = dt.datetime.now(tz=dt.UTC).astimezone()
    when, day = made[0] or now.strftime("%H:%M"), made[1] or now
    with opened_log(place) as book:
        event = book.write_at_desk(
            session, kind, (first, last), at=when, on=f"{day:%Y-%m-%d}", by=by, reason=reason, run=run
        )
    click.echo(event_line(event))


@log.command()
def blank() -> None:
    """Print the blank CSV form of a sheet, with notes on how to fill it in.

    Example: tinwright log blank > sheet-P04.csv
    """
    from tinwright.logbook.sheet_file import BLANK_SHEET  # noqa: PLC0415 - other commands must stay quick

    click.echo(BLANK_SHEET, nl=False)


@log.command()
@click.option("--output", type=click.Path(path_type=Path, dir_okay=False), help="Write it to a file only you may read.")
@REGISTER
def export(output: Path | None, place: str | None) -> None:
    """Print all events that count as one CSV table; `tinwright register export` has every version.

    Cells that a spreadsheet would run as a formula begin with an apostrophe.

    Example: tinwright log export --output bench-log.csv
    """
    with opened_log(place) as book:
        from tinwright.logbook.exporting import events_csv  # noqa: PLC0415 - as above
        from tinwright.store import write_private  # noqa: PLC0415 - other commands must stay quick

        table = events_csv(book.sessions())
        if output:
            write_private(output, table)
            click.echo(f"the log is in {output}; it holds personal data", err=True)
        else:
            click.echo(table, nl=False)


def _print_json(rows: object) -> None:
    click.echo(json.dumps(rows, indent=2, ensure_ascii=False, default=str))
