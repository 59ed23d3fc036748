"""Questions made from the knowledge base: when a record changes, its questions change.

from tinwright.advice.generated_questions import generate

for question in generate(kb, "stack", seed=7):
    print(question.id, question.text)

What is drawn by lot depends on the seed and the record alone, so a new record leaves the questions of the others alone.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from tinwright.advice.generated_choices import (
    drawn_questions,
    lot_for,
    roller_questions,
    stack_questions,
    step_questions,
)
from tinwright.errors import QuizError
from tinwright.knowledge.wording import nearest
from tinwright.quizzes.generated_numbers import MicrometerSet, Watch, hold_question, overlap_question

if TYPE_CHECKING:
    import random
    from collections.abc import Callable, Iterator, Mapping

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import SeamSpecification
    from tinwright.quizzes.questions import Question

__all__ = ["KINDS", "generate"]

_SETS = 3
"""Sets of readings for each seam specification."""
_WATCHES = 2
"""Failed checks for each sealer."""
_SPREAD = 4
"""Thousandths of an inch that a reading may lie from the aim, either way."""


def generate(kb: KnowledgeBase, kind: str | None = None, seed: int = 0) -> tuple[Question, ...]:
    """Make the questions of one kind, or of every kind, always the same from the same records and seed.

    Each teaches records that there are; a kind whose records are missing gives no questions.

    Args:
        kb: the knowledge base.
        kind: one of `KINDS`; all of them when left out.
        seed: any whole number; another one gives other readings and counts, and other places of the choices.

    Raises:
        QuizError: when the kind is unknown.
    """
    if kind is not None and kind not in KINDS:
        raise QuizError(f"expected one of {', '.join(KINDS)}, got {kind!r}{nearest(kind, KINDS)}")
    return tuple(question for name in ([kind] if kind else KINDS) for question in KINDS[name](kb, seed))


def _overlap_questions(kb: KnowledgeBase, seed: int) -> Iterator[Question]:
    for specification in kb.seam_specifications.values():
        teaches = _known(
            kb, "term/overlap", "procedure/tear-down-and-measure", f"seam-specification/{specification.id}"
        )
        for number in range(1, _SETS + 1):
            id_ = f"g-overlap-{specification.id}-{number}"
            readings = _readings(specification, lot_for(seed, id_))
            question = readings and overlap_question(id_, readings, specification.title, teaches)
            if question:
                yield question


def _readings(specification: SeamSpecification, lot: random.Random) -> MicrometerSet | None:
    """Draw three points round the aims of a sheet; None when the sheet lacks one of them."""
    aims: dict[str, int] = {}
    for limits in specification.limits:
        ends = [limits.aim] if limits.aim else [end for end in (limits.min, limits.max) if end]
        aims[limits.dimension] = round(1000 * sum((end.inches for end in ends), Fraction(0)) / len(ends))
    if not {"cover-hook", "body-hook", "seam-width"} <= aims.keys():
        return None

    def three(dimension: str) -> tuple[Decimal, ...]:
        # Three different readings, so that the worst is never the average.
        off = lot.sample(range(-_SPREAD, _SPREAD + 1), 3)
        return tuple(Decimal(max(1, aims[dimension] + part)).scaleb(-3) for part in off)

    plate = Decimal(round(specification.end_plate.inches * 10_000)).scaleb(-4)
    shown = plate.quantize(Decimal("0.001")) if plate == plate.quantize(Decimal("0.001")) else plate
    return MicrometerSet(three("cover-hook"), three("body-hook"), three("seam-width"), shown)


def _hold_questions(kb: KnowledgeBase, seed: int) -> Iterator[Question]:
    teaches = _known(kb, "procedure/when-a-check-fails", "procedure/mid-session-recheck")
    most = kb.programme.policy.recheck_cans
    if not teaches or most < 3:
        return
    for sealer in kb.sealers.values():
        for number in range(1, _WATCHES + 1):
            id_ = f"g-hold-{sealer.id}-{number}"
            lot = lot_for(seed, id_)
            good = lot.randint(20, 180)
            # The programme checks after so many cans at the latest.
            failed = good + lot.randint(max(3, most // 2), most)
            watch = Watch(good, lot.randint(good + 1, failed - 2), failed)
            yield hold_question(id_, watch, sealer.title.lower(), teaches)


def _known(kb: KnowledgeBase, *references: str) -> tuple[str, ...]:
    return tuple(reference for reference in references if tuple(reference.split("/", 1)) in kb.records)


KINDS: Mapping[str, Callable[[KnowledgeBase, int], Iterator[Question]]] = {
    "overlap": _overlap_questions,
    "stack": stack_questions,
    "drawn": drawn_questions,
    "roller": roller_questions,
    "steps": step_questions,
    "hold": _hold_questions,
}
"""The kinds of generated questions, each with what makes them."""
