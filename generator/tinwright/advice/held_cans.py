"""What to do with cans that are held, in the words of the programme's own procedure and with its evidence."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.knowledge.models.base import Evidence, Grade, Statement
from tinwright.knowledge.models.procedure import HeldCan

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Procedure

__all__ = ["HOW_TO_HOLD", "UNTIL_TOLD", "defect_dispositions", "procedures_for_held_cans", "what_to_do_with_held"]


def _practice(text: str) -> Statement:
    return Statement(text=text, evidence=Evidence(grade=Grade.PRACTICE))


HOW_TO_HOLD = (
    _practice("Hold every can after the last good check before the bad can, as far as the last can sealed."),
    _practice("Hold what is sealed after it, too, until a test can or a later can is found good."),
    _practice("Count by the counter of the sealer, not by the clock. Each sealer has its own count."),
    _practice("Take looks in one go as one look: if one is bad, those found good just before it vouch for nothing."),
    _practice("Take a reading that must be measured again as no check. It vouches for nothing."),
    _practice("Release a can only with a reason and a name. A second look at it releases nothing by itself."),
)
"""How `benchlog.holding` finds the cans, for readers."""

UNTIL_TOLD = _practice(
    "Keep these cans on hold. Ask your Extension office what becomes of them. When in doubt, throw them out."
)
"""What is said where the content says nothing of such cans."""


def what_to_do_with_held(kb: KnowledgeBase, *, heated: bool) -> tuple[Statement, ...]:
    """Return what to do with held cans, each statement with its evidence; never nothing.

    Args:
        kb: The knowledge base; its steps marked `held` are what is returned, in their order.
        heated: Whether the cans have been in the canner.
    """
    state = HeldCan.HEATED if heated else HeldCan.NOT_HEATED
    said = (
        Statement(text=step.do, evidence=step.evidence or procedure.evidence)
        for procedure in procedures_for_held_cans(kb)
        for step in procedure.steps
        if state in step.held
    )
    return tuple(said) or (UNTIL_TOLD,)


def procedures_for_held_cans(kb: KnowledgeBase) -> tuple[Procedure, ...]:
    """Return the procedures that say what to do with held cans."""
    return tuple(procedure for procedure in kb.procedures.values() if any(step.held for step in procedure.steps))


def defect_dispositions(kb: KnowledgeBase) -> dict[str, str]:
    """Return what the content says of a can with each defect, by the defect's id, as `benchlog` takes it."""
    return {defect.id: str(defect.can_action.disposition) for defect in kb.defects.values()}
