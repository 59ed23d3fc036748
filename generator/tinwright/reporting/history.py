"""The history of a sealer: its sessions, its charts across them, what was changed and what was found."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.benchlog.charts import charts_of
from tinwright.benchlog.learning import count_causes
from tinwright.errors import RecordError
from tinwright.reporting.findings import find

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tinwright.benchlog.charts import Chart
    from tinwright.knowledge import KnowledgeBase
    from tinwright.logbook.entries import LoggedSession
    from tinwright.reporting.findings import Findings
    from tinwright.seaming import Confirmed

__all__ = ["SealerReport", "sealer_report"]


@dataclass(frozen=True)
class SealerReport:
    """All sessions of one sealer."""

    sealer: str
    """Id of the sealer."""
    sessions: tuple[Findings, ...]
    """By date and kitchen."""
    charts: tuple[Chart, ...]
    """One for each can and dimension measured on it."""
    confirmed: tuple[Confirmed, ...]
    """Causes confirmed on it, the most frequent first."""

    @property
    def first(self) -> str:
        """The first day."""
        return self.sessions[0].session.date

    @property
    def last(self) -> str:
        """The last day."""
        return self.sessions[-1].session.date


def sealer_report(kb: KnowledgeBase, sessions: Sequence[LoggedSession]) -> SealerReport:
    """Put the history of a sealer together.

    Args:
        kb: the knowledge base.
        sessions: sessions of one sealer, at least one.

    Raises:
        RecordError: when there is none, or they are of several sealers.
    """
    sealers = {logged.session.sealer for logged in sessions}
    if len(sealers) != 1:
        raise RecordError(f"expected sessions of one sealer, got those of {len(sealers)}")
    ordered = sorted(sessions, key=lambda logged: logged.session.key)
    confirmed = count_causes(event for logged in ordered for event in logged.events)
    return SealerReport(
        sealers.pop(),
        tuple(find(kb, logged) for logged in ordered),
        tuple(charts_of([(logged.session, logged.events) for logged in ordered])),
        tuple(sorted(confirmed, key=lambda each: -each.times)),
    )
