"""The report of a season: which defects came on which sealer and can, what was behind them, and what put them right."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.benchlog.learning import count_causes, shares_behind
from tinwright.benchlog.ranges import count, joined
from tinwright.errors import RecordError
from tinwright.reporting.findings import can_at, find

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from tinwright.benchlog.learning import CauseShare
    from tinwright.knowledge import KnowledgeBase
    from tinwright.logbook.entries import LoggedSession
    from tinwright.reporting.findings import Findings
    from tinwright.seaming import Confirmed

__all__ = ["SealerTotals", "SeasonReport", "Tried", "season_report"]


_ALSO_SHOWN = 3
"""Causes never confirmed are shown as far as they are among the likeliest."""


@dataclass
class SealerTotals:
    """What one sealer comes to."""

    sealer: str
    """Its id."""
    sessions: int = 0
    """Sessions."""
    sealed: int = 0
    """Cans sealed."""
    checks: int = 0
    """Looks at seams."""
    failed: int = 0
    """Failed checks, and defects found that hold cans."""
    missed: int = 0
    """Checks missed."""
    to_hold: int = 0
    """Cans that were to be held."""
    discarded: int = 0
    """Cans thrown away."""
    still_held: int = 0
    """Cans still held."""


@dataclass(frozen=True)
class Tried:
    """One way to correct, and how often the next check was good."""

    adjuster: str
    """What was adjusted."""
    direction: str
    """Which way."""
    worked: int
    """How often the first check after it was good."""
    checked: int
    """How often there was such a check."""
    times: int
    """How often it was tried."""


@dataclass(frozen=True)
class SeasonReport:
    """All sessions of some time."""

    since: str
    """The first day there is a session of."""
    until: str
    """The last."""
    kitchens: tuple[str, ...]
    """Names of the kitchens."""
    sealers: tuple[SealerTotals, ...]
    """Each sealer, by id."""
    defects: tuple[tuple[str, str, str, int], ...]
    """Sealer, can, defect, and how often it was found; the most frequent first."""
    confirmed: tuple[Confirmed, ...]
    """Causes confirmed, by sealer, defect and cause."""
    shares: Mapping[str, tuple[CauseShare, ...]]
    """For each defect of which a cause was confirmed: those causes and the likeliest others."""
    corrections: tuple[Tried, ...]
    """What was tried, the most frequent first."""
    open_disputes: int
    """What is told in several ways, and nobody has decided."""


def season_report(kb: KnowledgeBase, sessions: Iterable[LoggedSession]) -> SeasonReport:
    """Put the report of a season together; sessions are read one by one, and only sums are kept.

    Args:
        kb: the knowledge base.
        sessions: the sessions.

    Raises:
        RecordError: when there is none.
    """
    totals: dict[str, SealerTotals] = {}
    defects: Counter[tuple[str, str, str]] = Counter()
    tried: dict[tuple[str, str], list[int]] = {}
    confirmed = []
    dates, kitchens, disputes = set(), set(), 0
    for logged in sessions:
        found = find(kb, logged)
        session = found.session
        dates.add(session.date)
        kitchens.add(session.kitchen)
        disputes += len(logged.open_disputes)
        confirmed += found.of_kind("cause")
        _add(totals.setdefault(session.sealer, SealerTotals(session.sealer)), found)
        cans = can_at(session, found.events)
        defects.update(
            (session.sealer, cans[event.id], event.defect)
            for event in found.events
            if event.defect and event.kind != "cause"
        )
        for correction in found.corrections:
            numbers = tried.setdefault((correction.event.adjuster, correction.event.direction), [0, 0, 0])
            numbers[0] += correction.worked is True
            numbers[1] += correction.worked is not None
            numbers[2] += 1
    if not dates:
        raise RecordError("there is no session of that time in the log")
    counts = count_causes(confirmed)
    return SeasonReport(
        min(dates),
        max(dates),
        tuple(sorted(kitchens)),
        tuple(totals[sealer] for sealer in sorted(totals)),
        tuple((*key, times) for key, times in sorted(defects.items(), key=lambda item: (-item[1], item[0]))),
        counts,
        _shares(kb, counts),
        tuple(Tried(*key, *numbers) for key, numbers in sorted(tried.items(), key=lambda item: (-item[1][2], item[0]))),
        disputes,
    )


def _add(total: SealerTotals, found: Findings) -> None:
    total.sessions += 1
    total.sealed += found.sealed
    total.checks += len(found.checks)
    total.failed += len(found.failures)
    total.missed += sum(missed.times for missed in found.missed)
    total.to_hold += count(joined(*(hold.cans for hold in found.holds)))
    total.discarded += count(found.discarded)
    total.still_held += count(joined(found.held.not_heated, found.held.heated))


def _shares(kb: KnowledgeBase, counts: Iterable[Confirmed]) -> dict[str, tuple[CauseShare, ...]]:
    by_defect: dict[str, Counter[str]] = {}
    for each in counts:
        by_defect.setdefault(each.defect, Counter())[each.cause] += each.times
    found = {}
    for id_, times in sorted(by_defect.items()):
        defect = kb.defects.get(id_)
        words = {link.cause: str(link.likelihood) for link in defect.causes} if defect else {}
        likeliest = shares_behind(words, times)
        found[id_] = tuple(share for place, share in enumerate(likeliest) if share.times or place < _ALSO_SHOWN)
    return found
