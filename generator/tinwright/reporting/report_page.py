"""Reports as a page, whole in itself, and as tagged PDF: the same template, in color on the screen and ink on paper."""

from __future__ import annotations

import datetime as dt
from functools import partial
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from tinwright.advice.held_cans import what_to_do_with_held
from tinwright.advice.profiles import seam_limits
from tinwright.benchlog import KINDS
from tinwright.benchlog.charts import RUN_RULE
from tinwright.benchlog.early_warning import WHAT_IT_IS
from tinwright.benchlog.ranges import can_name, cans_in_words, count, joined
from tinwright.errors import MissingLettersError
from tinwright.knowledge.plain_words import say, say_adjusted
from tinwright.paper.press import Press
from tinwright.printing import html_to_pdf
from tinwright.reporting.chart_drawing import CHART_COLUMNS, chart_in_words, chart_rows, draw_chart
from tinwright.reporting.day import DayReport
from tinwright.reporting.history import SealerReport
from tinwright.reporting.season import SeasonReport
from tinwright.reporting.wording import (
    date_in_words,
    fault_in_words,
    missed_in_words,
    name_of,
    told_in_words,
    what_in_words,
)
from tinwright.seaming import LABELS
from tinwright.templates import asset_of, templates_of

if TYPE_CHECKING:
    from tinwright.benchlog.charts import Chart
    from tinwright.knowledge import KnowledgeBase
    from tinwright.seaming import Limit

__all__ = ["Report", "report_html", "report_pdf", "title_of"]

Report = DayReport | SealerReport | SeasonReport

_CAUTIONS = ("bad-seam", "never-taste")


def title_of(kb: KnowledgeBase, report: Report) -> str:
    """Return the title of a report, such as `Sealing day at Mill Street, November 14, 2026`."""
    if isinstance(report, DayReport):
        return f"Sealing day at {report.kitchen}, {date_in_words(report.date)}"
    if isinstance(report, SealerReport):
        span = _span(report.first, report.last)
        return f"History of the {name_of(kb, 'sealer', report.sealer).lower()}, {span}"
    return f"Bench log of the season, {_span(report.since, report.until)}"


def report_html(kb: KnowledgeBase, report: Report) -> str:
    """Return a report as one HTML page: no script, nothing from elsewhere."""
    return _page(kb, report, ink=False)


def report_pdf(kb: KnowledgeBase, report: Report) -> bytes:
    """Print a report to PDF/UA-1 (ISO 14289-1), the same bytes for the same log.

    A letter that no font has, such as a small picture typed into a note, is printed as its number: what was written
    at the bench cannot be written again.

    Raises:
        MissingExtraError: when the libraries of the extra `paper` are not installed.
        PaperError: when `SOURCE_DATE_EPOCH` is no number.
    """
    last = report.date if isinstance(report, DayReport) else _last_day(report)
    html, dated = _page(kb, report, ink=True), dt.date.fromisoformat(last)
    try:
        return html_to_pdf(html, dated=dated)
    except MissingLettersError as error:
        numbers = {ord(letter): f"[U+{ord(letter):04X}]" for letter in error.letters}
        return html_to_pdf(html.translate(numbers), dated=dated)


def _last_day(report: SealerReport | SeasonReport) -> str:
    return report.last if isinstance(report, SealerReport) else report.until


def _span(first: str, last: str) -> str:
    return date_in_words(first) if first == last else f"{date_in_words(first)} to {date_in_words(last)}"


def _page(kb: KnowledgeBase, report: Report, *, ink: bool) -> str:
    press = Press(kb)
    env = templates_of("reporting")
    env.filters.update(
        rich=press.rich,
        evidence=press.evidence,
        cans=cans_in_words,
        day=date_in_words,
        fault=fault_in_words,
        missed=missed_in_words,
        can_name=can_name,
        say=say,
        upper_first=lambda text: text[:1].upper() + text[1:],
        done=say_adjusted,
        what=partial(what_in_words, kb),
        told=partial(told_in_words, kb),
        record=lambda id_, kind: name_of(kb, kind, id_),
    )
    kind = {DayReport: "day", SealerReport: "sealer", SeasonReport: "season"}[type(report)]
    return env.get_template(f"{kind}.html.j2").render(
        kb=kb,
        programme=kb.programme,
        report=report,
        title=title_of(kb, report),
        style=_style(ink=ink),
        cautions=[kb.cautions[id_] for id_ in _CAUTIONS if id_ in kb.cautions],
        rules={heated: what_to_do_with_held(kb, heated=heated) for heated in (False, True)},
        kinds=KINDS,
        joined=joined,
        count=count,
        labels=LABELS,
        run_rule=RUN_RULE.words,
        warning=WHAT_IT_IS,
        columns=CHART_COLUMNS,
        charted=partial(_charted, kb, press, ink=ink),
    )


def _charted(kb: KnowledgeBase, press: Press, chart: Chart, number: int, *, ink: bool) -> dict[str, Any]:
    """Return what the template shows of a chart."""
    where = f"{name_of(kb, 'sealer', chart.sealer)}, can {chart.can or 'not named'}"
    limit, by = _limit(kb, chart)
    drawn = draw_chart(chart, limit=limit, where=where, id_prefix=f"chart{number}")
    return {
        "title": f"{LABELS[chart.dimension]}, can {chart.can or 'not named'}",
        "drawing": press.ink(drawn) if ink else Markup(drawn),  # noqa: S704 figures escapes every text in it
        "words": chart_in_words(chart),
        "rows": chart_rows(chart),
        "by": by,
    }


def _limit(kb: KnowledgeBase, chart: Chart) -> tuple[Limit | None, str]:
    """Return the specification's limit for a chart, and whose it is in words.

    It is that named in the log, when all of the checks name one and the same.
    """
    named = {point.event.specification for point in chart.points}
    specification = kb.seam_specifications.get(named.pop()) if len(named) == 1 else None
    if specification is None:
        return None, ""
    limit = next((each for each in seam_limits(specification).limits if each.dimension == chart.dimension), None)
    invented = " It is invented: never judge a real can by it." if specification.evidence.grade == "invented" else ""
    return limit, f"Lines of the specification: {specification.title}.{invented}" if limit else ""


def _style(*, ink: bool) -> Markup:
    names = [("reporting", "report.css")]
    if not ink:
        names += [("figures", "figures.css"), ("reporting", "report-screen.css")]
    return Markup("\n").join(asset_of(room, name) for room, name in names)
