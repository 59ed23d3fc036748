"""The checks of a defect in their order, each with its own correction on each sealer: for its page and its tree."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.advice.profiles import screw_of
from tinwright.advice.seen_here import link_shares
from tinwright.seaming.correction import LOCK, correct
from tinwright.seaming.order import Check, order_checks

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Cause, Defect, Procedure, Sealer
    from tinwright.knowledge.models.base import Statement
    from tinwright.knowledge.models.trouble import CheckStep

__all__ = ["Branch", "Correction", "OnSealers", "branches_of", "is_urgent", "red_line"]

_CAN_IN_SHORT = {
    "discard-part": "Do not seal it. Throw it away.",
    "reject": "Do not use this can.",
    "hold": "Set this can aside.",
    "cosmetic": "A mark only. Set the can aside.",
}
_BLOWN = "swollen-can"
"""The caution that comes first where a closed can is to be left shut."""


@dataclass(frozen=True)
class OnSealers:
    """How an adjuster is moved on sealers that say it alike."""

    sealers: tuple[Sealer, ...]
    """The sealers."""
    how: str
    """Which way to turn or move it, in the words of their records; empty when they have none."""
    amount: str
    """How far."""

    @property
    def invented(self) -> bool:
        """Whether any of these records is invented."""
        return any(sealer.evidence.grade == "invented" for sealer in self.sealers)


@dataclass(frozen=True)
class Correction:
    """What to do when a check says yes."""

    lock: str
    """What goes before an adjustment; empty when nothing is turned."""
    on: tuple[OnSealers, ...]
    """How it is done on each sealer; empty when nothing is turned."""
    steps: tuple[Statement, ...]
    """What to do when nothing is turned; empty otherwise."""
    notes: tuple[str, ...]
    """What else matters."""
    retest: str
    """The test can."""


@dataclass(frozen=True)
class Branch:
    """One check of a defect and where its answers lead."""

    likelihood: str
    cause: Cause
    check: CheckStep
    procedure: Procedure
    retest: Procedure
    correction: Correction


def branches_of(defect: Defect, kb: KnowledgeBase) -> list[Branch]:
    """Put the checks of a defect in order: likelihood per minute, within the order of adjustment.

    Causes confirmed in this programme count with the likelihood.
    """
    links = {link.cause: link for link in defect.causes}
    shares = link_shares(kb, defect)
    ordered = order_checks(
        [Check(id_, kb.causes[id_].adjuster, kb.causes[id_].minutes, share) for id_, share in sorted(shares.items())]
    )
    branches = []
    for check in ordered:
        cause = kb.causes[check.cause]
        branches.append(
            Branch(
                links[check.cause].likelihood,
                cause,
                cause.confirm[0],
                kb.procedures[cause.correction.procedure],
                kb.procedures[cause.retest],
                _correction(cause, kb),
            )
        )
    return branches


def is_urgent(defect: Defect) -> bool:
    """Whether the can may be swollen or leaking: it is left shut, whatever the machine did."""
    return defect.cautions[:1] == (_BLOWN,)


def red_line(defect: Defect) -> str:
    """Say what to do with the can in a few words, or in the first step of all where it must be left shut."""
    if is_urgent(defect):
        return defect.can_action.steps[0].text
    return _CAN_IN_SHORT[defect.can_action.disposition]


def _correction(cause: Cause, kb: KnowledgeBase) -> Correction:
    direction = str(cause.correction.direction)
    said = correct(cause.adjuster, direction)
    turned = bool(said.amount)
    return Correction(
        LOCK if turned else "",
        tuple(_on_sealers(cause.adjuster, direction, kb)) if turned else (),
        () if turned else cause.correction.do,
        tuple(note for note in said.notes if note != LOCK),
        said.retest,
    )


def _on_sealers(adjuster: str, direction: str, kb: KnowledgeBase) -> list[OnSealers]:
    """Return what each sealer's record says, sealers that say the same together."""
    alike: dict[tuple[str, str], list[Sealer]] = {}
    for sealer in kb.sealers.values():
        said = correct(adjuster, direction, screw_of(sealer, adjuster))
        alike.setdefault((said.how or "", said.amount), []).append(sealer)
    return [OnSealers(tuple(sealers), how, amount) for (how, amount), sealers in alike.items()]
