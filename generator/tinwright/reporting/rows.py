"""Reports as CSV, for a spreadsheet: what happened line by line, or the sums."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.benchlog.charts import RUN_RULE
from tinwright.benchlog.ranges import cans_in_words
from tinwright.knowledge.plain_words import say_adjusted
from tinwright.reporting.day import DayReport
from tinwright.reporting.history import SealerReport
from tinwright.reporting.wording import missed_in_words, name_of, what_in_words
from tinwright.store.exporting import csv_tables

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.knowledge import KnowledgeBase
    from tinwright.reporting.findings import Findings
    from tinwright.reporting.report_page import Report
    from tinwright.reporting.season import SeasonReport

__all__ = ["report_csv"]

_DAY = ("part", "date", "kitchen", "sealer", "time", "what", "cans", "who", "reason")
_SEALER = ("date", "kitchen", "time", "can_size", "can", "dimension", "middle", "lowest", "highest", "signals")
_SEASON = ("part", "sealer", "can", "defect", "cause", "what", "times", "of")


def report_csv(kb: KnowledgeBase, report: Report) -> str:
    """Return a report as CSV (RFC 4180); cells that a spreadsheet would run as a formula begin with an apostrophe.

    A day: every entry, then what is held and what was missed. A sealer: every measured can, in inches or percent.
    A season: the sums.
    """
    columns: tuple[str, ...]
    rows: list[tuple[object, ...]]
    if isinstance(report, DayReport):
        columns, rows = _DAY, [row for found in report.sessions for row in _day(kb, found)]
    elif isinstance(report, SealerReport):
        columns, rows = _SEALER, list(_cans(report))
    else:
        columns, rows = _SEASON, list(_sums(report))
    if not rows:
        return ",".join(columns) + "\r\n"
    return csv_tables({"report": [dict(zip(columns, row, strict=True)) for row in rows]})["report.csv"]


def _day(kb: KnowledgeBase, found: Findings) -> Iterator[tuple[object, ...]]:
    session = found.session
    head = (session.date, session.kitchen, name_of(kb, "sealer", session.sealer))
    for event in found.events:
        outcome = " (failed)" if found.outcomes.get(event.id) == "failed" else ""
        reason = "; ".join(part for part in (event.reason, event.note) if part)
        yield (
            "logged",
            *head,
            f"{event.on} {event.at}".strip(),
            what_in_words(kb, event) + outcome,
            found.cans_of(event),
            event.by,
            reason,
        )
    for hold in found.holds:
        yield ("to hold", *head, hold.event.at, what_in_words(kb, hold.event), cans_in_words(hold.cans), "", "")
    if found.bad:
        yield ("found bad", *head, "", "", cans_in_words(found.bad), "", "")
    for name, held in (("not heated", found.held.not_heated), ("heated", found.held.heated)):
        if held:
            yield ("still held", *head, "", name, cans_in_words(held), "", "")
    for unchecked in found.unchecked:
        what = what_in_words(kb, unchecked.change)
        yield ("not looked at before", *head, unchecked.change.at, what, cans_in_words(unchecked.cans), "", "")
    for missed in found.missed:
        yield ("missed", *head, missed.at, missed_in_words(missed), cans_in_words([missed.cans]), "", "")


def _cans(report: SealerReport) -> Iterator[tuple[object, ...]]:
    for chart in report.charts:
        for point in chart.points:
            session, event = point.session, point.event
            signals = "; ".join(point.signals).replace("run", RUN_RULE.words)
            where = (session.date, session.kitchen, event.at, chart.can, event.can_number, chart.dimension)
            yield (*where, point.value, point.low, point.high, signals)


def _sums(report: SeasonReport) -> Iterator[tuple[object, ...]]:
    for each in report.sealers:
        for name in ("sessions", "sealed", "checks", "failed", "missed", "to_hold", "discarded", "still_held"):
            yield ("sealer", each.sealer, "", "", "", name.replace("_", " "), getattr(each, name), None)
    for sealer, can, defect, times in report.defects:
        yield ("defect", sealer, can, defect, "", "found", times, None)
    for count in report.confirmed:
        yield ("cause", count.sealer, "", count.defect, count.cause, "confirmed", count.times, None)
    for tried in report.corrections:
        what = f"{say_adjusted(tried.adjuster, tried.direction)}: next check good"
        yield ("correction", "", "", "", "", what, tried.worked, tried.checked)
