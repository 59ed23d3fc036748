"""What the scripts of the pages beside the machine need of the records."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from tinwright.advice.advice import can_steps
from tinwright.advice.profiles import (
    cause_profiles,
    instrument_uncertainties,
    read_signs,
    screw_of,
    seam_limits,
    seen_defect,
)
from tinwright.advice.readings_file import POINT_NAMES
from tinwright.advice.seen_here import confirmed_of
from tinwright.knowledge.linking import plain_text
from tinwright.knowledge.models.trouble import Change, Extent, Repeats
from tinwright.knowledge.plain_words import COMPUTED_WORDS, DIRECTION_WORDS, say, say_change
from tinwright.knowledge.sheet_rules import unconfirmed_words
from tinwright.site.rendering import uri_of

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Sealer, SeamSpecification
    from tinwright.knowledge.models.base import Record
    from tinwright.seaming import CauseProfile, SeamLimits
    from tinwright.site.rendering import Renderer

__all__ = ["BENCH_LOG_PAGE", "SEAM_CHECK_PAGE", "BenchData", "limits_data", "profile_data"]

SEAM_CHECK_PAGE = "seam-check.md"
"""Where the seam check lies."""
BENCH_LOG_PAGE = "bench-log.md"
"""Where the bench log lies, beside the seam check: one address leads from both."""


class BenchData:
    """What the scripts need of the records: plain values only, pages as addresses from theirs."""

    def __init__(self, kb: KnowledgeBase, renderer: Renderer) -> None:
        self._kb, self._renderer = kb, renderer

    def all(self) -> dict[str, Any]:
        """Return what judging a seam and finding its cause take."""
        kb = self._kb
        fails = kb.procedures.get("when-a-check-fails")
        return {
            **self._for_readings(),
            "office": kb.programme.office,
            "testCans": kb.programme.policy.test_cans,
            "demonstration": kb.programme.demonstration,
            "points": list(POINT_NAMES),
            "extents": list(map(str, Extent)),
            "repeats": list(map(str, Repeats)),
            "changes": list(map(str, Change)),
            "fails": self._page(fails) if fails else "",
            "finder": self._renderer.address("find-the-cause.md", SEAM_CHECK_PAGE),
            "benchLog": self._renderer.address(BENCH_LOG_PAGE, SEAM_CHECK_PAGE),
            "trees": self._renderer.address("trees/index.md", SEAM_CHECK_PAGE),
            "causes": [self._cause(profile) for profile in cause_profiles(kb)],
            "defects": [self._defect(id_) for id_ in kb.defects],
            "sealers": [self._sealer(sealer) for sealer in kb.sealers.values()],
            **self._seen_here(),
        }

    def for_the_log(self) -> dict[str, Any]:
        """Return what judging readings and naming records take: little, for the page that a phone must have soon."""
        kb = self._kb
        return {
            **self._for_readings(),
            "causes": [
                {"cause": profile.cause, "title": kb.causes[profile.cause].title, "likelihoods": profile.likelihoods}
                for profile in cause_profiles(kb)
            ],
            "defects": [{"id": defect.id, "title": defect.title} for defect in kb.defects.values()],
            "sealers": [{"id": sealer.id, "title": sealer.title} for sealer in kb.sealers.values()],
        }

    def _for_readings(self) -> dict[str, Any]:
        kb = self._kb
        return {
            "variant": str(kb.programme.policy.overlap_variant),
            "uncertainties": instrument_uncertainties(kb),
            "words": {id_: say(id_) for kind in (Extent, Repeats) for id_ in map(str, kind)}
            | {id_: say(id_) for id_ in DIRECTION_WORDS},
            "changeWords": {change: say_change(change) for change in map(str, Change)},
            "directions": {name: list(words) for name, words in DIRECTION_WORDS.items()},
            "computedDirections": {name: list(words) for name, words in COMPUTED_WORDS.items()},
            "specifications": [self._specification(spec) for spec in kb.seam_specifications.values()],
        }

    def _seen_here(self) -> dict[str, Any]:
        counts = confirmed_of(self._kb)
        if not counts or self._kb.seen_here is None:
            return {}
        confirmed = [asdict(count) for count in counts]
        return {"seenHere": {"invented": self._kb.seen_here.invented, "confirmed": confirmed}}

    def _page(self, record: Record) -> str:
        return self._renderer.address(uri_of(record), SEAM_CHECK_PAGE)

    def _cause(self, profile: CauseProfile) -> dict[str, Any]:
        cause = self._kb.causes[profile.cause]
        procedure, retest = self._kb.procedures[cause.correction.procedure], self._kb.procedures[cause.retest]
        check = cause.confirm[0]
        return {
            **profile_data(profile),
            "title": cause.title,
            "page": self._page(cause),
            "say": cause.correction.say,
            "direction": str(cause.correction.direction),
            "correction": [plain_text(self._kb, step.text) for step in cause.correction.do],
            "procedure": {"title": procedure.title, "page": self._page(procedure)},
            "retest": {"title": retest.title, "page": self._page(retest)},
            "check": {key: plain_text(self._kb, getattr(check, key)) for key in ("do", "if_so", "if_not")},
        }

    def _defect(self, id_: str) -> dict[str, Any]:
        defect = self._kb.defects[id_]
        return {
            "id": id_,
            "title": defect.title,
            "summary": defect.summary,
            "page": self._page(defect),
            "measured": read_signs(defect),
            "outOf": [[str(sign.dimension), str(sign.direction)] for sign in defect.measured],
            "disposition": seen_defect(defect).disposition,
            "place": str(defect.places[0]),
            "can": [step for _, steps in can_steps(self._kb, [id_]) for step in steps],
        }

    def _specification(self, spec: SeamSpecification) -> dict[str, Any]:
        return {
            "id": spec.id,
            "title": spec.title,
            "page": self._page(spec),
            "invented": spec.evidence.grade == "invented",
            "unconfirmed": unconfirmed_words(spec),
            "cans": [self._kb.cans[id_].code for id_ in spec.cans],
            "endPlate": float(spec.end_plate.inches),
            "bodyPlate": float(spec.body_plate.inches),
            "limits": limits_data(seam_limits(spec)),
        }

    def _sealer(self, sealer: Sealer) -> dict[str, Any]:
        screws = {}
        for adjuster in dict.fromkeys(str(entry.adjuster) for entry in sealer.adjusters):
            screw = screw_of(sealer, adjuster)
            if screw is not None:
                step = screw.safe_step
                screws[adjuster] = {
                    "adjuster": adjuster,
                    "tighten": screw.tighten,
                    "loosen": screw.loosen,
                    "travelPerTurnIn": screw.travel_per_turn_in,
                    "safeStep": None if step is None else [step.numerator, step.denominator],
                }
        return {
            "id": sealer.id,
            "title": sealer.title,
            "page": self._page(sealer),
            "invented": sealer.evidence.grade == "invented",
            "screws": screws,
        }


def profile_data(profile: CauseProfile) -> dict[str, Any]:
    """Return what ranking needs of a cause, as the scripts take it."""
    return {
        "cause": profile.cause,
        "adjuster": profile.adjuster,
        "minutes": profile.minutes,
        "likelihoods": dict(profile.likelihoods),
        "effects": dict(profile.effects),
        "effectLikelihoods": {name: dict(words) for name, words in profile.effect_likelihoods.items()},
        "extents": list(profile.extents),
        "repeats": list(profile.repeats),
        "after": list(profile.after),
    }


def limits_data(limits: SeamLimits) -> dict[str, Any]:
    """Return the limits of a sheet as the scripts take them."""
    return {
        "limits": [vars(limit) for limit in limits.limits],
        "percentOverlapLow": limits.percent_overlap_low,
        "overlapVariant": limits.overlap_variant,
        "buttingLow": limits.butting_low,
        "tightnessLow": limits.tightness_low,
        "endPlateIn": limits.end_plate_in,
        "bodyPlateIn": limits.body_plate_in,
    }
