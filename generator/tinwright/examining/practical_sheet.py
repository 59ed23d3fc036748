"""The checklist that a practical check is observed with, on two pages of paper, for one sealer of the programme."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.errors import QuizError
from tinwright.examining.print import sheet_pdf
from tinwright.knowledge.linking import plain_text
from tinwright.knowledge.models.caution_term import Signal
from tinwright.knowledge.plain_words import say
from tinwright.register.practicals import STEPS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Caution, Procedure, Sealer
    from tinwright.knowledge.models.examination import Blueprint

__all__ = ["Observed", "observed_parts", "practical_sheet", "sealers_of"]

_TITLES = {
    "assemble": "Put the sealer together",
    "set-rollers": "Set both rollers",
    "test-can": "Make a test can",
    "judge": "Judge the test can",
    "correct-fault": "Correct a fault that the examiner set",
}
_ROLLERS = frozenset({"first-roller", "second-roller"})
_AT_THE_SEALER = frozenset({"assemble", "set-rollers", "test-can"})


@dataclass(frozen=True)
class Observed:
    """A part of the check."""

    step: str
    """Its id in the register, one of `records.STEPS`."""
    title: str
    """Its name."""
    procedures: tuple[Procedure, ...]
    """What is to be done in it, in order."""


def observed_parts(procedures: Sequence[Procedure]) -> tuple[Observed, ...]:
    """Sort the procedures of a blueprint into the parts of the check.

    What comes before the setting of the rollers is the putting together; the one after it makes the test can; the last
    corrects the fault; what lies between judges the can.

    Args:
        procedures: the procedures in the order they are observed in.

    Raises:
        QuizError: when a part would be left without a procedure.
    """
    setting = [place for place, procedure in enumerate(procedures) if _ROLLERS & set(procedure.sets)]
    sets = {adjuster for place in setting for adjuster in procedures[place].sets}
    first, after = (setting[0], setting[-1] + 1) if setting else (0, 0)
    rows = {
        "assemble": procedures[:first],
        "set-rollers": procedures[first:after],
        "test-can": procedures[after : after + 1],
        "judge": procedures[after + 1 : -1],
        "correct-fault": procedures[after + 1 :][-1:],
    }
    if not sets >= _ROLLERS or not all(rows[step] for step in STEPS):
        raise QuizError(
            "practical: expected procedures that put the sealer together, set both rollers, make a test can, judge it, "
            f"and correct a fault, in this order; got {', '.join(procedure.id for procedure in procedures)}"
        )
    return tuple(Observed(step, _TITLES[step], tuple(rows[step])) for step in STEPS)


def sealers_of(kb: KnowledgeBase) -> tuple[Sealer, ...]:
    """Return the sealers that stand in the programme's kitchens; all there are records of when none is named there."""
    named = dict.fromkeys(id_ for kitchen in kb.programme.kitchens for id_ in kitchen.sealers)
    return tuple(kb.sealers[id_] for id_ in named) or tuple(kb.sealers.values())


def practical_sheet(blueprint: Blueprint, sealer: Sealer, kb: KnowledgeBase) -> bytes:
    """Return the checklist for one sealer as PDF: its drive, its gauges, its cautions.

    Args:
        blueprint: the examination it belongs to.
        sealer: the sealer that the check is observed at.
        kb: the knowledge base with the procedures.

    Raises:
        QuizError: when a part of the check has no procedure, or no procedure is for its drive.
    """
    drive = str(sealer.drive)
    chosen = [kb.procedures[id_] for id_ in blueprint.practical]
    parts = observed_parts([one for one in chosen if not one.drives or drive in one.drives])
    return sheet_pdf(
        "practical.html.j2",
        title=f"{blueprint.title}: practical check, {sealer.title}",
        blueprint=blueprint,
        programme=kb.programme,
        sealer=sealer,
        drive=say(drive),
        drive_id=drive,
        parts=parts,
        steps_of=lambda procedure: [
            plain_text(kb, step.do) for step in procedure.steps if not step.drives or drive in step.drives
        ],
        plain=lambda text: plain_text(kb, text),
        cautions=_cautions(parts, sealer, kb),
    )


def _cautions(parts: Sequence[Observed], sealer: Sealer, kb: KnowledgeBase) -> list[Caution]:
    """Return the cautions of the sealer and of the steps that are done at it, the gravest first, each once."""
    named = dict.fromkeys(sealer.cautions)
    for procedure in (procedure for part in parts for procedure in part.procedures if part.step in _AT_THE_SEALER):
        for step in procedure.steps:
            if not step.drives or sealer.drive in step.drives:
                named |= dict.fromkeys(step.cautions)
    found = [kb.cautions[id_] for id_ in named if kb.cautions[id_].signal is not Signal.NOTICE]
    return sorted(found, key=lambda caution: list(Signal).index(caution.signal))
