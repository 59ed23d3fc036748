"""The report of a day in one kitchen: what was sealed, checked, held, missed and changed, sealer by sealer."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.advice.held_cans import defect_dispositions, defect_reaches
from tinwright.benchlog.charts import charts_of
from tinwright.benchlog.holding import held_from_day_before
from tinwright.benchlog.ranges import count, joined
from tinwright.errors import RecordError
from tinwright.reporting.findings import find

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from tinwright.benchlog.charts import Chart
    from tinwright.benchlog.holding import Hold
    from tinwright.knowledge import KnowledgeBase
    from tinwright.logbook.entries import LoggedSession
    from tinwright.reporting.findings import Findings

__all__ = ["DayReport", "day_report"]


@dataclass(frozen=True)
class DayReport:
    """All sessions of one kitchen on one day."""

    date: str
    """As in `2026-11-14`."""
    kitchen: str
    """Name of the kitchen."""
    sessions: tuple[Findings, ...]
    """One for each sealer, by its id."""
    charts: tuple[Chart, ...]
    """One for each sealer, can and dimension measured that day."""
    reaching_back: Mapping[str, tuple[str, Hold]]
    """Sealer: the day of its last session before, and which cans of that the first failure holds as well."""

    @property
    def people(self) -> list[str]:
        """Everybody who is named."""
        return sorted({name for each in self.sessions for name in [*each.people, each.session.supervisor]} - {""})

    @property
    def sealed(self) -> int:
        """Cans sealed that day."""
        return sum(each.sealed for each in self.sessions)

    @property
    def still_held(self) -> int:
        """Cans that are held as the log stands."""
        return sum(count(joined(each.held.not_heated, each.held.heated)) for each in self.sessions)

    @property
    def bad(self) -> int:
        """Cans found bad, by a check or as having a defect that holds cans."""
        return sum(count(each.bad) for each in self.sessions)

    @property
    def failed(self) -> int:
        """Checks that failed, and defects found that hold cans."""
        return sum(len(each.failures) for each in self.sessions)

    @property
    def missed(self) -> int:
        """Checks that were missed."""
        return sum(missed.times for each in self.sessions for missed in each.missed)

    def charts_on(self, sealer: str) -> list[Chart]:
        """Return the charts of one sealer."""
        return [chart for chart in self.charts if chart.sealer == sealer]


def day_report(
    kb: KnowledgeBase, sessions: Sequence[LoggedSession], *, before: Iterable[LoggedSession] = ()
) -> DayReport:
    """Put the report of a day together.

    Args:
        kb: the knowledge base.
        sessions: the sessions of one kitchen on one day, at least one.
        before: earlier sessions, in the order of their days; the last one of each sealer counts.

    Raises:
        RecordError: when there is none, or they are of several days or kitchens.
    """
    days = {logged.session.key[:2] for logged in sessions}
    if len(days) != 1:
        raise RecordError(f"expected sessions of one day and one kitchen, got {len(days)} of them")
    ((date, kitchen),) = days
    ordered = sorted(sessions, key=lambda logged: logged.session.sealer)
    charts = charts_of([(logged.session, logged.events) for logged in ordered])
    last = {logged.session.sealer: logged for logged in before}
    back, known = {}, (defect_dispositions(kb), defect_reaches(kb))
    for logged in ordered:
        earlier = last.get(logged.session.sealer)
        hold = earlier and held_from_day_before(earlier.events, logged.events, *known)
        if earlier and hold:
            back[logged.session.sealer] = (earlier.session.date, hold)
    return DayReport(date, kitchen, tuple(find(kb, logged) for logged in ordered), tuple(charts), back)
