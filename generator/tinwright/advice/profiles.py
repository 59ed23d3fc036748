"""The bridge from records to the plain values that `seaming` reckons with."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.seaming import DIMENSIONS, CauseProfile, Limit, Screw, SeamLimits, SeenDefect, reading_uncertainty
from tinwright.seaming.setup import SealerSetup, Slot, Spacer
from tinwright.seaming.verdict import TOLD_AS

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Defect, Sealer, SeamSpecification
    from tinwright.knowledge.models.trouble import CauseLink

__all__ = [
    "cause_profiles",
    "defect_of",
    "instrument_uncertainties",
    "leads_somewhere",
    "most_likely_first",
    "read_signs",
    "screw_of",
    "sealer_setup",
    "seam_limits",
    "seen_defect",
    "visible_defects",
]

_LIKELIHOODS = ("common", "occasional", "rare")


def most_likely_first(links: Iterable[CauseLink]) -> list[CauseLink]:
    """Sort links to causes by likelihood, keeping the educator's order within one likelihood."""
    return sorted(links, key=lambda link: _LIKELIHOODS.index(link.likelihood))


def visible_defects(kb: KnowledgeBase) -> tuple[Defect, ...]:
    """Return the defects that are seen or felt; one that is a dimension out of limits is measured instead."""
    return tuple(defect for defect in kb.defects.values() if not defect.measured)


def read_signs(defect: Defect) -> dict[str, str]:
    """Return the dimensions that a measured defect is about, each with its direction; without what is worked out."""
    return {str(sign.dimension): str(sign.direction) for sign in defect.measured if str(sign.dimension) in DIMENSIONS}


def defect_of(kb: KnowledgeBase, value: str, direction: str) -> str | None:
    """Return the id of the defect that a dimension or computed value out of its limits is, or None.

    A defect that is just this comes before one that is more; a share that is short is else the length it is a share of.
    """
    for name in dict.fromkeys((value, TOLD_AS.get(value, value))):
        fitting = [
            defect
            for defect in kb.defects.values()
            if any((str(sign.dimension), str(sign.direction)) == (name, direction) for sign in defect.measured)
        ]
        if fitting:
            return min(fitting, key=lambda defect: len(defect.measured)).id
    return None


def leads_somewhere(kb: KnowledgeBase, value: str, direction: str) -> bool:
    """Say whether any record says what to do about a dimension or value that is out: a defect, or a cause's effect."""
    moved = (effect for cause in kb.causes.values() for effect in cause.effects)
    return defect_of(kb, value, direction) is not None or any(
        (str(effect.dimension), str(effect.direction)) == (value, direction) for effect in moved
    )


def cause_profiles(kb: KnowledgeBase) -> tuple[CauseProfile, ...]:
    """Return what ranking needs to know of every cause."""
    return tuple(_profile(kb, id_) for id_ in kb.causes)


def _profile(kb: KnowledgeBase, id_: str) -> CauseProfile:
    cause = kb.causes[id_]
    likelihoods: dict[str, str] = {}
    effect_likelihoods: dict[str, dict[str, str]] = {}
    for defect in kb.defects.values():
        for link in defect.causes:
            if link.cause != id_:
                continue
            if not read_signs(defect):
                likelihoods[defect.id] = str(link.likelihood)
            for sign in defect.measured:
                known = effect_likelihoods.setdefault(str(sign.dimension), {})
                words = (known.get(str(sign.direction), "rare"), str(link.likelihood))
                known[str(sign.direction)] = min(words, key=_LIKELIHOODS.index)
    effects = {str(effect.dimension): str(effect.direction) for effect in cause.effects}
    return CauseProfile(
        cause=id_,
        adjuster=str(cause.adjuster),
        minutes=float(cause.minutes),
        likelihoods=likelihoods,
        effects=effects,
        effect_likelihoods=effect_likelihoods,
        extents=tuple(map(str, cause.extent)),
        repeats=tuple(map(str, cause.repeats)),
        after=tuple(map(str, cause.after)),
    )


def seam_limits(specification: SeamSpecification) -> SeamLimits:
    """Return the limits of a seam specification, in inches and percent."""
    return SeamLimits(
        limits=tuple(
            Limit(
                str(limit.dimension),
                None if limit.min is None else float(limit.min.inches),
                None if limit.aim is None else float(limit.aim.inches),
                None if limit.max is None else float(limit.max.inches),
            )
            for limit in specification.limits
        ),
        percent_overlap_low=_number(specification.overlap_percent_min),
        overlap_variant=str(specification.overlap_variant),
        butting_low=_number(specification.butting_percent_min),
        tightness_low=_number(specification.tightness_percent_min),
        end_plate_in=float(specification.end_plate.inches),
        body_plate_in=float(specification.body_plate.inches),
    )


def _number(value: object) -> float | None:
    return None if value is None else float(str(value))


def instrument_uncertainties(kb: KnowledgeBase) -> dict[str, float]:
    """Return the standard uncertainty of an instrument by dimension, in inches, as the programme states it.

    Tightness, in percent, is rated by eye to a step: a uniform distribution over it (JCGM 100:2008, 4.3.7).
    """
    found = {
        str(dimension): float(instrument.standard_uncertainty.inches)
        for instrument in kb.programme.instruments
        for dimension in instrument.measures
    }
    if "seam-thickness" in found:  # the plates are read with the instrument of the seam thickness
        found["end-plate"] = found["body-plate"] = found["seam-thickness"]
    found["tightness"] = reading_uncertainty(0.0, kb.programme.policy.tightness_step_percent)
    return found


def seen_defect(defect: Defect) -> SeenDefect:
    """Return what the verdict needs of a defect that was seen: to reject when any scheme calls it unacceptable."""
    grades = [severity.grade.lower() for severity in defect.severity]
    unacceptable = any(grade.startswith(("unacceptable", "serious", "critical", "class i,")) for grade in grades)
    disposition = "reject" if unacceptable else str(defect.can_action.disposition)
    return SeenDefect(defect.id, defect.title, disposition)


def screw_of(sealer: Sealer | None, adjuster: str) -> Screw | None:
    """Return the adjuster of a sealer that a correction acts on, or None when the sealer is not known to have it."""
    for screw in sealer.adjusters if sealer else ():
        if screw.adjuster == adjuster:
            travel = None if screw.travel_per_turn is None else float(screw.travel_per_turn.inches)
            return Screw(adjuster, screw.tighten, screw.loosen, travel, screw.safe_step)
    return None


def sealer_setup(sealer: Sealer) -> SealerSetup:
    """Return what the set-up reckoning needs to know of a sealer."""
    return SealerSetup(
        chucks=tuple(chuck.size for chuck in sealer.chucks),
        seat_height_in=sealer.seat_height.inches if sealer.seat_height else None,
        spacers=tuple(Spacer(spacer.name, spacer.size.inches, spacer.count) for spacer in sealer.spacers),
        slots=tuple(Slot(slot.slot, slot.sizes) for slot in sealer.roller_slots),
    )
