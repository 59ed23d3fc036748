"""Check a seam and Find the cause: the pages beside the machine, and the data their scripts need."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from tinwright.bench import BLANK_FORM
from tinwright.bench.advice import can_steps, plain_text
from tinwright.bench.profiles import (
    cause_profiles,
    instrument_uncertainties,
    screw_of,
    seam_limits,
    seen_defect,
)
from tinwright.bench.readings_file import POINT_NAMES
from tinwright.bench.seen_here import confirmed_of
from tinwright.bench.worked_example import worked_example
from tinwright.knowledge.models.trouble import Change, Extent, Repeats
from tinwright.knowledge.plain_words import DIRECTION_WORDS, say
from tinwright.seaming import FORMULAS, SIDE_SEAM_NOTE
from tinwright.site.bench_log_page import BENCH_LOG_PAGE
from tinwright.site.page import Asset, Page
from tinwright.site.rendering import script_json, uri_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Sealer, SeamSpecification
    from tinwright.knowledge.models.base import Record
    from tinwright.seaming import CauseProfile
    from tinwright.site.rendering import Renderer

__all__ = ["bench_assets", "bench_pages"]

_HERE = "seam-check.md"
_SCRIPTS = ("seaming.js", "bench-data.js", "bench-advice.js")


def bench_pages(kb: KnowledgeBase, renderer: Renderer) -> Iterator[Page]:
    """Yield the seam check, the cause finder and the blank form to print."""
    needs = {"cautions": [id_ for id_ in ("bad-seam", "never-taste") if id_ in kb.cautions]}
    yield Page(
        _HERE,
        renderer.render(
            "seam-check.md.j2",
            _HERE,
            scripts=(*_SCRIPTS, "seam-check.js"),
            formulas=[(formula, _mathml(formula.mathml)) for formula in FORMULAS.values()],
            example=worked_example(),
            side_seam=SIDE_SEAM_NOTE,
            **needs,
        ),
    )
    here = "find-the-cause.md"
    yield Page(
        here,
        renderer.render(
            "find-the-cause.md.j2", here, scripts=(*_SCRIPTS, "find-cause.js"), confirmed=confirmed_of(kb), **needs
        ),
    )
    here = "seam-form.md"
    yield Page(here, renderer.render("seam-form.md.j2", here, points=POINT_NAMES, side_seam=SIDE_SEAM_NOTE, **needs))


def _mathml(text: str) -> Markup:
    return Markup(text)  # noqa: S704 made of the formula's own symbols


def bench_assets(kb: KnowledgeBase, renderer: Renderer) -> Iterator[Asset]:
    """Yield the data script of the bench pages and the blank form as a file."""
    text = f"globalThis.tinwrightData = {script_json(_Data(kb, renderer).all())};\n"
    yield Asset("assets/bench-data.js", text.encode())
    yield Asset("assets/seam-readings.csv", BLANK_FORM.encode())


class _Data:
    """What the scripts need of the records: plain values only, pages as addresses from the bench pages."""

    def __init__(self, kb: KnowledgeBase, renderer: Renderer) -> None:
        self._kb, self._renderer = kb, renderer

    def all(self) -> dict[str, Any]:
        kb = self._kb
        fails = kb.procedures.get("when-a-check-fails")
        return {
            "office": kb.programme.office,
            "testCans": kb.programme.policy.test_cans,
            "variant": str(kb.programme.policy.overlap_variant),
            "demonstration": kb.programme.demonstration,
            "uncertainties": instrument_uncertainties(kb),
            "points": list(POINT_NAMES),
            "words": {id_: say(id_) for kind in (Extent, Repeats, Change) for id_ in map(str, kind)}
            | {id_: say(id_) for id_ in DIRECTION_WORDS},
            "directions": {name: list(words) for name, words in DIRECTION_WORDS.items()},
            "extents": list(map(str, Extent)),
            "repeats": list(map(str, Repeats)),
            "changes": list(map(str, Change)),
            "fails": self._page(fails) if fails else "",
            "finder": self._renderer.address("find-the-cause.md", _HERE),
            "benchLog": self._renderer.address(BENCH_LOG_PAGE, _HERE),
            "trees": self._renderer.address("trees/index.md", _HERE),
            "causes": [self._cause(profile) for profile in cause_profiles(kb)],
            "defects": [self._defect(id_) for id_ in kb.defects],
            "specifications": [self._specification(spec) for spec in kb.seam_specifications.values()],
            "sealers": [self._sealer(sealer) for sealer in kb.sealers.values()],
            **self._seen_here(),
        }

    def _seen_here(self) -> dict[str, Any]:
        counts = confirmed_of(self._kb)
        if not counts or self._kb.seen_here is None:
            return {}
        confirmed = [asdict(count) for count in counts]
        return {"seenHere": {"invented": self._kb.seen_here.invented, "confirmed": confirmed}}

    def _page(self, record: Record) -> str:
        return self._renderer.address(uri_of(record), _HERE)

    def _cause(self, profile: CauseProfile) -> dict[str, Any]:
        cause = self._kb.causes[profile.cause]
        procedure, retest = self._kb.procedures[cause.correction.procedure], self._kb.procedures[cause.retest]
        check = cause.confirm[0]
        return {
            "cause": profile.cause,
            "adjuster": profile.adjuster,
            "minutes": profile.minutes,
            "likelihoods": dict(profile.likelihoods),
            "effects": dict(profile.effects),
            "effectLikelihoods": dict(profile.effect_likelihoods),
            "extents": list(profile.extents),
            "repeats": list(profile.repeats),
            "after": list(profile.after),
            "title": cause.title,
            "page": self._page(cause),
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
            "measured": {str(sign.dimension): str(sign.direction) for sign in defect.measured},
            "disposition": seen_defect(defect).disposition,
            "place": str(defect.places[0]),
            "can": [step for _, steps in can_steps(self._kb, [id_]) for step in steps],
        }

    def _specification(self, spec: SeamSpecification) -> dict[str, Any]:
        limits = seam_limits(spec)
        return {
            "id": spec.id,
            "title": spec.title,
            "page": self._page(spec),
            "invented": spec.evidence.grade == "invented",
            "cans": [self._kb.cans[id_].code for id_ in spec.cans],
            "endPlate": float(spec.end_plate.inches),
            "bodyPlate": float(spec.body_plate.inches),
            "limits": {
                "limits": [vars(limit) for limit in limits.limits],
                "percentOverlapLow": limits.percent_overlap_low,
                "overlapVariant": limits.overlap_variant,
                "buttingLow": limits.butting_low,
                "tightnessLow": limits.tightness_low,
            },
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
