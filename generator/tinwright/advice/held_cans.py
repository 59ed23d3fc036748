"""What to do with cans that are held, in the words of the programme's own procedure and with its evidence."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright import benchlog
from tinwright.benchlog.checks import LOOKED_AT, MEASURED, TORN_DOWN
from tinwright.knowledge.models.base import Evidence, Grade, Statement
from tinwright.knowledge.models.procedure import HeldCan
from tinwright.knowledge.models.programme import EndCheck
from tinwright.knowledge.models.trouble import Disposition, FoundBy, LeastCheck

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Procedure

__all__ = [
    "HOW_TO_HOLD",
    "UNTIL_TOLD",
    "WATCH",
    "bench_policy",
    "defect_dispositions",
    "defect_reaches",
    "procedures_for_held_cans",
    "what_to_do_with_held",
]

WATCH = "watch"
"""What `benchlog` takes a cosmetic defect for of which a cause can do worse: it holds no can and clears none."""


def _practice(text: str) -> Statement:
    return Statement(text=text, evidence=Evidence(grade=Grade.PRACTICE))


HOW_TO_HOLD = tuple(_practice(text) for text in benchlog.HOW_TO_HOLD)
"""How `benchlog.holding` finds the cans, for readers: its words, which are nobody's but ours."""

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


def bench_policy(kb: KnowledgeBase) -> benchlog.Policy:
    """Return the programme's rules for the bench, as `benchlog` takes them."""
    policy = kb.programme.policy
    return benchlog.Policy(
        policy.test_cans,
        policy.recheck_cans,
        policy.recheck_minutes,
        policy.teardown_cans or 0,
        policy.teardown_minutes,
        _END_CHECK[policy.end_check],
    )


_LEAST_CHECK = {LeastCheck.LOOK: LOOKED_AT, LeastCheck.MEASURE: MEASURED, LeastCheck.TEARDOWN: TORN_DOWN}
_END_CHECK = {EndCheck.LOOK: LOOKED_AT, EndCheck.MEASURE: MEASURED, EndCheck.TEARDOWN: TORN_DOWN}


def defect_dispositions(kb: KnowledgeBase) -> dict[str, str]:
    """Return what the content says of a can with each defect, by the defect's id, as `benchlog` takes it.

    A cosmetic defect is only to be watched when one of its causes is also behind a defect that is not cosmetic: then a
    seam that shows it says nothing of the cans before it.
    """
    grave = {
        link.cause
        for defect in kb.defects.values()
        if defect.can_action.disposition != Disposition.COSMETIC
        for link in defect.causes
    }
    return {
        defect.id: WATCH
        if defect.can_action.disposition == Disposition.COSMETIC and any(link.cause in grave for link in defect.causes)
        else str(defect.can_action.disposition)
        for defect in kb.defects.values()
    }


def defect_reaches(kb: KnowledgeBase) -> dict[str, int]:
    """Return how far a check must reach to find each defect, from how the content says it is found.

    What can be seen or felt takes a look. Of what is found by measuring and by teardown alone it is the teardown that
    counts: hooks are measured in a seam that was cut open. A defect that is often seen but can hide, or that shows only
    later, says itself which check clears cans of it.
    """
    found = {}
    for defect in kb.defects.values():
        if defect.cleared_by:
            found[defect.id] = _LEAST_CHECK[defect.cleared_by]
        elif {FoundBy.SEE, FoundBy.FEEL} & set(defect.found_by):
            found[defect.id] = LOOKED_AT
        else:
            found[defect.id] = TORN_DOWN if FoundBy.TEARDOWN in defect.found_by else MEASURED
    return found
