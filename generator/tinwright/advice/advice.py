"""What a seam technician would say: verdict, likely causes, next check and correction, from readings or signs."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tinwright.advice.profiles import (
    cause_profiles,
    defect_of,
    instrument_uncertainties,
    leads_somewhere,
    read_signs,
    screw_of,
    seam_limits,
    seen_defect,
)
from tinwright.advice.seen_here import experience_with
from tinwright.knowledge.linking import plain_text
from tinwright.knowledge.plain_words import say, say_change, say_direction
from tinwright.knowledge.sheet_rules import unconfirmed_words
from tinwright.seaming import (
    DIMENSIONS,
    Check,
    SeamLimits,
    Signs,
    correct,
    find_amounts,
    find_directions,
    find_next,
    find_questions,
    judge,
    list_questions,
    order_checks,
    rank,
)
from tinwright.seaming.confirmed import hold_unconfirmed
from tinwright.seaming.sentences import sentence
from tinwright.seaming.wording import LABELS, is_percent

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tinwright.advice.readings_file import CanReadings, ReadingsSheet
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Cause, Sealer, SeamSpecification
    from tinwright.seaming import Ask, CorrectionAdvice, Experience, Question, Ranked, Ranking, SeamVerdict, Sign

__all__ = [
    "CauseAdvice",
    "SeamAdvice",
    "advise_on_seam",
    "advise_on_sheet",
    "advise_on_signs",
    "can_steps",
    "nowhere_text",
    "sign_text",
    "signs_from",
    "what_to_ask",
]

_SHOWN = ("likely", "possible")
_UNREAD = "Not all of the sheet could be read. Put that right before you accept this can."


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
    """For the likeliest cause; None when nothing explains the signs."""
    first: str | None
    """Id of the likeliest cause; the one to check first may be another, which is `order[0]`."""
    sealer: str | None = None
    """Id of the sealer it is for."""
    experience: Experience | None = None
    """What was confirmed before behind these defects; None when the programme has no such counts."""

    @property
    def shown(self) -> tuple[Ranked, ...]:
        """The causes worth naming: likely and possible ones."""
        return tuple(ranked for ranked in self.ranking.causes if ranked.word in _SHOWN) if self.first else ()


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
    action: str
    """What to do with the can, and with those sealed since the last good check."""
    questions: tuple[Question, ...]
    """Readings that look like slips."""
    causes: CauseAdvice | None
    """Causes and correction; None when nothing is wrong."""
    named: tuple[str, ...] = ()
    """Ids of the defects that the values out of their limits are."""
    nowhere: tuple[tuple[str, str], ...] = ()
    """Values out of their limits, each with its direction, about which no record says anything."""


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
    id_ = None if sealer is None else sealer.id
    experience = experience_with(kb, signs, id_)
    # what is worked out from readings is no question to somebody who looks
    asks = [ask for ask in list_questions(profiles, signs) if ask.kind != "defect" or not kb.defects[ask.key].measured]
    ranking, question = rank(profiles, signs, experience), find_next(profiles, signs, asks, experience=experience)
    if not ranking.explained:
        return CauseAdvice(ranking, (), question, None, None, id_, experience)
    shares = {ranked.cause: ranked.share for ranked in ranking.causes if ranked.word in _SHOWN}
    checks = [Check(p.cause, p.adjuster, p.minutes, shares[p.cause]) for p in profiles if p.cause in shares]
    order = tuple(check.cause for check in order_checks(checks))
    first = ranking.causes[0].cause
    cause = kb.causes[first]
    screw, amount = screw_of(sealer, cause.adjuster), _out_by(cause, out_by or {})
    correction = correct(str(cause.adjuster), str(cause.correction.direction), screw, amount or None)
    return CauseAdvice(ranking, order, question, correction, first, id_, experience)


def _out_by(cause: Cause, out_by: Mapping[str, float]) -> float:
    """Return how far the lengths this cause moves are out of their limits; a rating in percent is no travel."""
    moved = [str(effect.dimension) for effect in cause.effects if not is_percent(effect.dimension)]
    return max((out_by.get(dimension, 0.0) for dimension in moved), default=0.0)


def signs_from(
    kb: KnowledgeBase,
    defects: Sequence[str] = (),
    directions: Mapping[str, str] | None = None,
    *,
    absent: Sequence[str] = (),
    extent: str | None = None,
    repeats: str | None = None,
    last_change: str | None = None,
) -> Signs:
    """Put signs together so that each counts once: a defect that is a dimension out of limits counts as that.

    A dimension that the defects tell both ways is uneven.

    Args:
        kb: the knowledge base.
        defects: ids of the defects seen.
        directions: what was measured; it comes before what a defect says of the same dimension. A value worked out
            from several readings counts as the defect that it is.
        absent: ids of the defects looked for and not found.
        extent: how far round the can it goes.
        repeats: how it shows from can to can.
        last_change: what was changed last.
    """
    measured: dict[str, str] = {}
    for name, way in (read for id_ in defects for read in read_signs(kb.defects[id_]).items()):
        measured[name] = way if measured.get(name, way) == way else "varies"
    told = {**measured, **(directions or {})}
    computed = (defect_of(kb, name, way) for name, way in told.items() if name not in DIMENSIONS)
    visible = [id_ for id_ in (*defects, *computed) if id_ is not None and not read_signs(kb.defects[id_])]
    read = {name: way for name, way in told.items() if name in DIMENSIONS}
    return Signs(tuple(dict.fromkeys(visible)), tuple(absent), read, extent, repeats, last_change)


def advise_on_sheet(kb: KnowledgeBase, sheet: ReadingsSheet) -> tuple[SeamAdvice, ...]:
    """Judge every can of a sheet by the specification it names, for the sealer it names."""
    specification = kb.seam_specifications.get(sheet.settings.get("specification", ""))
    sealer = kb.sealers.get(sheet.settings.get("sealer", ""))
    return tuple(advise_on_seam(kb, can, specification, sealer) for can in sheet.cans)


def advise_on_seam(
    kb: KnowledgeBase, can: CanReadings, specification: SeamSpecification | None, sealer: Sealer | None
) -> SeamAdvice:
    """Judge the seam of one can, and look for the cause when something is wrong with it."""
    seen = [seen_defect(kb.defects[id_]) for id_ in can.defects]
    variant, errors = str(kb.programme.policy.overlap_variant), instrument_uncertainties(kb)
    limits = None if specification is None else seam_limits(specification)
    verdict = _with_unread(judge(can.seam, limits, errors, seen, variant), can.unread)
    verdict = hold_unconfirmed(verdict, "" if specification is None else unconfirmed_words(specification))
    questions = find_questions(can.seam, limits or SeamLimits(overlap_variant=variant), errors)
    directions = find_directions(verdict)
    out = {name: way for name, way in directions.items() if way != "normal"}
    causes = None
    if can.defects or out:
        signs = signs_from(kb, can.defects, directions)
        causes = advise_on_signs(kb, signs, sealer, find_amounts(verdict))
    named = (defect_of(kb, part.dimension, part.way) for part in verdict.parts if part.way)
    return SeamAdvice(
        can.number,
        can,
        specification,
        verdict,
        sentence(f"action-{verdict.outcome}"),
        questions,
        causes,
        tuple(dict.fromkeys(id_ for id_ in named if id_ is not None)),
        tuple((name, way) for name, way in out.items() if not leads_somewhere(kb, name, way)),
    )


def nowhere_text(kb: KnowledgeBase, value: str, direction: str) -> str:
    """Say plainly that nobody has published what to do about a value that is out."""
    direction = say_direction(value, direction)
    return sentence("nowhere", label=LABELS[value], direction=direction, office=kb.programme.office)


def _with_unread(verdict: SeamVerdict, unread: Sequence[str]) -> SeamVerdict:
    """Hold back acceptance while something is unread: it may be the reading that is out."""
    if not unread:
        return verdict
    outcome = "measure-again" if verdict.outcome == "accept" else verdict.outcome
    return replace(verdict, outcome=outcome, reasons=(_UNREAD, *unread, *verdict.reasons))


def can_steps(kb: KnowledgeBase, defects: Sequence[str]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return what to do with the can for each defect seen, in the order of the records: its title, and the steps."""
    return tuple(
        (kb.defects[id_].title, tuple(plain_text(kb, step.text) for step in kb.defects[id_].can_action.steps))
        for id_ in kb.defects
        if id_ in defects
    )


def sign_text(kb: KnowledgeBase, sign: Sign) -> str:
    """Say a sign in plain words, such as `cover hook shorter`."""
    if sign.kind == "direction":
        return f"{say(sign.key)} {say_direction(sign.key, sign.answer)}"
    if sign.kind in {"defect", "absent"}:
        title = kb.defects[sign.key].title
        if sign.answer != "seen":
            return sentence("sign-not-seen", title=title)
        return sentence("sign-measured" if kb.defects[sign.key].measured else "sign-seen", title=title)
    if sign.kind == "last-change":
        return sentence("sign-changed-last", change=say_change(sign.answer))
    return say(sign.answer)


def what_to_ask(kb: KnowledgeBase, ask: Ask) -> str:
    """Put the next question in plain words."""
    if ask.kind == "defect":
        defect = kb.defects[ask.key]
        return sentence("ask-defect", title=defect.title, summary=defect.summary)
    return sentence(f"ask-{ask.kind}", dimension=say(ask.key) if ask.key else "")
