"""What the office takes out of the bench log: reports, and the counts that the site is built with."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tinwright.cli.common import CONTENT, counted, fail, known, loaded, write_whole
from tinwright.cli.private import REGISTER, opened
from tinwright.errors import RecordError, TinwrightError

if TYPE_CHECKING:
    from collections.abc import Callable

    from tinwright.knowledge import KnowledgeBase
    from tinwright.logbook.entries import LoggedSession
    from tinwright.reporting.report_page import Report

__all__ = ["counts", "report"]

_KINDS = (".html", ".pdf", ".csv")
_DAY = click.DateTime(["%Y-%m-%d"])
_SINCE = click.option("--since", type=_DAY, metavar="YYYY-MM-DD", help="First day; the first in the log when left out.")
_UNTIL = click.option("--until", type=_DAY, metavar="YYYY-MM-DD", help="Last day; the last in the log when left out.")
_KITCHEN = click.option("--kitchen", help="Kitchen; all of them when left out.")
_OUT = click.option(
    "--out",
    "outs",
    type=click.Path(path_type=Path, dir_okay=False),
    multiple=True,
    required=True,
    help="File to write, ending in .html, .pdf or .csv; may be repeated.",
)


@click.group()
def report() -> None:
    """Report a day, a sealer's history or a season, as a page, as PDF or as CSV.

    Reports name people and cans: they are written for their owner alone, and never into the site.
    """


@report.command()
@click.option("--date", required=True, type=_DAY, metavar="YYYY-MM-DD", help="The day.")
@click.option("--kitchen", help="The kitchen, when several worked that day.")
@_OUT
@CONTENT
@REGISTER
def day(date: dt.datetime, kitchen: str | None, outs: tuple[Path, ...], content: Path, place: str | None) -> None:
    """Report one day in one kitchen: cans, checks, holds, what was missed, charts.

    Example: tinwright log report day --date 2026-11-14 --out private/day.html --out private/day.pdf
    """
    from tinwright.reporting import day_report  # noqa: PLC0415 - other commands must stay quick

    kb = loaded(content)
    sessions = _sessions(place, date, date, kitchen=kitchen)
    there = sorted({each.session.kitchen for each in sessions})
    if len(there) > 1:
        raise click.UsageError(f"expected --kitchen with one of {', '.join(there)}")
    if not sessions:
        fail(RecordError(f"there is no session of {date:%Y-%m-%d}{f' at {kitchen}' if kitchen else ''} in the log"))
    before = _sessions(place, None, date - dt.timedelta(days=1), kitchen=kitchen or there[0])
    _write(kb, day_report(kb, sessions, before=before), outs)


@report.command()
@click.argument("id_", metavar="SEALER")
@_SINCE
@_UNTIL
@_OUT
@CONTENT
@REGISTER
def sealer(
    id_: str,
    since: dt.datetime | None,
    until: dt.datetime | None,
    outs: tuple[Path, ...],
    content: Path,
    place: str | None,
) -> None:
    """Report the history of SEALER: its sessions, its charts across them, what was changed and found.

    Example: tinwright log report sealer bench-crank-sealer --out private/crank.pdf
    """
    from tinwright.reporting import sealer_report  # noqa: PLC0415 - as above

    kb = loaded(content)
    known(kb, "sealer", id_)
    sessions = _sessions(place, since, until, sealer=id_)
    if not sessions:
        fail(RecordError(f"there is no session on {id_} of that time in the log"))
    _write(kb, sealer_report(kb, sessions), outs)


@report.command()
@_SINCE
@_UNTIL
@_KITCHEN
@_OUT
@CONTENT
@REGISTER
def season(
    since: dt.datetime | None,
    until: dt.datetime | None,
    kitchen: str | None,
    outs: tuple[Path, ...],
    content: Path,
    place: str | None,
) -> None:
    """Report a season: defects by sealer and can, causes, corrections that worked, checks missed, cans discarded.

    Example: tinwright log report season --since 2026-06-01 --until 2026-11-30 --out private/season.html
    """
    from tinwright.logbook.bench_log import BenchLog  # noqa: PLC0415 - as above
    from tinwright.reporting import season_report  # noqa: PLC0415 - as above

    kb = loaded(content)
    with opened(place) as register:
        found = season_report(
            kb, BenchLog(register.store, register.by).sessions(**_span(since, until), kitchen=kitchen)
        )
    _write(kb, found, outs)


@click.command()
@click.option(
    "--out",
    type=click.Path(path_type=Path, dir_okay=False),
    help="File to write; without it, seen-here.yml in your own layer.",
)
@_UNTIL
@CONTENT
@REGISTER
def counts(out: Path | None, until: dt.datetime | None, content: Path, place: str | None) -> None:
    """Count the confirmed causes into the file that the next build of the site reads.

    It holds sealers, defects, causes and numbers up to a year: no person, no session, no day.

    Example: tinwright log counts
    """
    from tinwright.benchlog.learning import count_causes  # noqa: PLC0415 - as above
    from tinwright.logbook.bench_log import BenchLog  # noqa: PLC0415 - as above
    from tinwright.reporting.counts_file import check_ids, counts_text  # noqa: PLC0415 - as above

    kb = loaded(content)
    confirmed, last = [], ""
    with opened(place) as register:
        for logged in BenchLog(register.store, register.by).sessions(**_span(None, until)):
            last = logged.session.date
            confirmed += [event for event in logged.events if event.kind == "cause"]
    if not last:
        fail(RecordError("there is no session of that time in the log"))
    found = count_causes(confirmed)
    try:
        check_ids(kb, found)
    except RecordError as error:
        fail(error)
    out = out or kb.own / "seen-here.yml"
    write_whole(out, counts_text(found, through=int(last[:4]), invented=kb.programme.demonstration))
    click.echo(f"{counted(sum(each.times for each in found), 'confirmed cause')} in {out}")


def _sessions(
    place: str | None,
    since: dt.datetime | None,
    until: dt.datetime | None,
    *,
    kitchen: str | None = None,
    sealer: str | None = None,
) -> list[LoggedSession]:
    from tinwright.logbook.bench_log import BenchLog  # noqa: PLC0415 - as above

    with opened(place) as register:
        return list(
            BenchLog(register.store, register.by).sessions(**_span(since, until), kitchen=kitchen, sealer=sealer)
        )


def _span(since: dt.datetime | None, until: dt.datetime | None) -> dict[str, str]:
    days = {"since": since, "until": until}
    return {name: f"{day:%Y-%m-%d}" for name, day in days.items() if day is not None}


def _write(kb: KnowledgeBase, found: Report, outs: tuple[Path, ...]) -> None:
    """Write a report in each of the ways asked for, or nothing when one of them cannot be written."""
    from tinwright.reporting import report_csv, report_html, report_pdf  # noqa: PLC0415 - as above
    from tinwright.store import check_place, write_private  # noqa: PLC0415 - as above

    makers: dict[str, Callable[[KnowledgeBase, Report], str | bytes]] = {
        ".html": report_html,
        ".pdf": report_pdf,
        ".csv": report_csv,
    }
    for out in outs:
        if out.suffix not in makers:
            raise click.BadParameter(f"{out}: expected a file ending in {', '.join(_KINDS)}", param_hint="--out")
    try:
        for out in outs:
            check_place(out)
        made = [(out, makers[out.suffix](kb, found)) for out in outs]
        for out, text in made:
            write_private(out, text)
            click.echo(f"{out}")
    except TinwrightError as error:
        fail(error)
