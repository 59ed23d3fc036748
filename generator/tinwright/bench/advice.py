"""What a seam technician would say: verdict, likely causes, next check and correction, from readings or signs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.bench.profiles import (
    cause_profiles,
    instrument_uncertainties,
    screw_of,
    seam_limits,
    seen_defect,
)
from tinwright.knowledge.linking import INLINE
from tinwright.knowledge.plain_words import say, say_direction
from tinwright.seaming import (
    Check,
    Signs,
    correct,
    find_directions,
    find_next,
    find_questions,
    judge,
    order_checks,
    rank,
)

if TYPE_CHECKING:
    from tinwright.bench.readings_file import CanReadings
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Sealer, SeamSpecification
    from tinwright.seaming import Ask, CorrectionAdvice, Question, Ranked, Ranking, SeamVerdict, Sign

__all__ = [
    "CauseAdvice",
    "SeamAdvice",
    "advise_on_seam",
    "advise_on_signs",
    "can_action",
    "plain_text",
    "sign_text",
    "what_to_ask",
]

_SHOWN = ("likely", "possible")


@dataclass(frozen=True)
class CauseAdvice:
    """Likely causes, what to check first, and the correction of the likeliest."""

    ranking: Ranking
    """All causes, the likeliest first."""
    order: tuple[str, ...]
    """Ids of the likely and possible causes in the order to check them."""
    question: Ask | None
    """The cheapest question whose answer can change the advice."""
    correction: CorrectionAdvice | None
    """For the cause to check first; None when nothing explains the signs."""
    first: str | None
    """Id of that cause."""

    @property
    def shown(self) -> tuple[Ranked, ...]:
        """The causes worth naming: likely and possible ones."""
        return tuple(ranked for ranked in self.ranking.causes if ranked.word in _SHOWN) if self.first else ()

    def reasons(self, ranked: Ranked, stance: str) -> tuple[Sign, ...]:
        """Return the signs that support or contradict a cause.

        A dimension that is as it should be counts as support only where it tells the cause from another one shown.
        """
        telling = {reason.sign for other in self.shown for reason in other.reasons if reason.stance == "contradicts"}
        return tuple(
            reason.sign
            for reason in ranked.reasons
            if reason.stance == stance
            and (stance != "supports" or reason.sign.answer != "normal" or reason.sign in telling)
        )


@dataclass(frozen=True)
class SeamAdvice:
    """All that is said about one can."""

    can: str
    """Its number on the sheet."""
    readings: CanReadings
    """What was read and seen."""
    specification: SeamSpecification | None
    """What it was judged against."""
    verdict: SeamVerdict
    """The verdict."""
    questions: tuple[Question, ...]
    """Readings that look like slips."""
    causes: CauseAdvice | None
    """Causes and correction; None when nothing is wrong."""


def advise_on_signs(
    kb: KnowledgeBase, signs: Signs, sealer: Sealer | None = None, out_by: dict[str, float] | None = None
) -> CauseAdvice:
    """Rank the causes for a mix of signs, and say what to check and correct first.

    Args:
        kb: the knowledge base.
        signs: what was seen, felt, measured and told.
        sealer: the sealer, for how to turn what.
        out_by: how far each dimension is out of its limits, in inches.
    """
    profiles = cause_profiles(kb)
    ranking = rank(profiles, signs)
    if not ranking.explained:
        return CauseAdvice(ranking, (), find_next(profiles, signs), None, None)
    shares = {ranked.cause: ranked.share for ranked in ranking.causes if ranked.word in _SHOWN}
    checks = [Check(p.cause, p.adjuster, p.minutes, shares[p.cause]) for p in profiles if p.cause in shares]
    order = tuple(check.cause for check in order_checks(checks))
    first = ranking.causes[0].cause
    cause = kb.causes[first]
    amount = max(((out_by or {}).get(str(effect.dimension), 0.0) for effect in cause.effects), default=0.0)
    advice = correct(
        str(cause.adjuster), str(cause.correction.direction), screw_of(sealer, cause.adjuster), amount or None
    )
    return CauseAdvice(ranking, order, find_next(profiles, signs), advice, first)


def advise_on_seam(
    kb: KnowledgeBase, can: CanReadings, specification: SeamSpecification | None, sealer: Sealer | None
) -> SeamAdvice:
    """Judge the seam of one can, and look for the cause when something is wrong with it."""
    limits = None if specification is None else seam_limits(specification)
    seen = [seen_defect(kb.defects[id_]) for id_ in can.defects]
    variant = str(kb.programme.policy.overlap_variant)
    verdict = judge(can.seam, limits, instrument_uncertainties(kb), seen, variant)
    directions = find_directions(verdict)
    causes = None
    if can.defects or any(direction != "normal" for direction in directions.values()):
        visible = [id_ for id_ in can.defects if not kb.defects[id_].measured]
        measured = {str(s.dimension): str(s.direction) for id_ in can.defects for s in kb.defects[id_].measured}
        out_by = {
            part.dimension: part.out_by for part in verdict.parts if part.low is not None or part.high is not None
        }
        signs = Signs(defects=tuple(visible), directions={**measured, **directions})
        causes = advise_on_signs(kb, signs, sealer, out_by)
    return SeamAdvice(can.number, can, specification, verdict, find_questions(can.seam), causes)


def can_action(advice: SeamAdvice) -> str:
    """Say what to do with the can and with the cans sealed since the last good check."""
    return {
        "accept": "This seam passes. It says nothing about the other cans: keep looking at every seam.",
        "measure-again": "Set this can aside. Measure again before you decide; fill no more cans until then.",
        "reject": "Do not use this can, and do not taste it. Stop. Hold every can sealed since the last good check.",
    }.get(
        advice.verdict.outcome,
        "No verdict: there is no seam specification to judge by. Set the can aside until there is one.",
    )


def plain_text(kb: KnowledgeBase, text: str) -> str:
    """Put the name of the record in place of each link in a text."""
    return INLINE.sub(lambda m: m["text"] or kb.records[m["kind"], m["id"]].name.lower(), text)


def sign_text(kb: KnowledgeBase, sign: Sign) -> str:
    """Say a sign in plain words, such as `cover hook shorter`."""
    if sign.kind == "direction":
        return f"{say(sign.key)} {say_direction(sign.key, sign.answer)}"
    if sign.kind in {"defect", "absent"}:
        title = kb.defects[sign.key].title
        return f"seen: {title}" if sign.answer == "seen" else f"not seen: {title}"
    if sign.kind == "last-change":
        return f"changed last: {say(sign.answer)}"
    return say(sign.answer)


def what_to_ask(kb: KnowledgeBase, ask: Ask) -> str:
    """Put the next question in plain words."""
    return {
        "repeats": "Look at the last few cans: is it on every can, at the same place, here and there, or on one only?",
        "extent": "Look how far round the can it goes: all round, part of the way, one place, or at the side seam?",
        "last-change": "What was changed last at this sealer?",
        "defect": f"Look for this: {kb.defects[ask.key].title if ask.kind == 'defect' else ''}. Is it there?",
        "direction": f"Measure the {say(ask.key)}.",
    }[ask.kind]
