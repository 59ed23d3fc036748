"""The practice bench: its page, and what its scripts need of the records and scenarios."""

from __future__ import annotations

from dataclasses import asdict
from math import pi
from typing import TYPE_CHECKING, Any

from tinwright.advice.practice_scenarios import bench_scenario, verb_minutes
from tinwright.advice.profiles import cause_profiles, instrument_uncertainties
from tinwright.browser import needed_scripts
from tinwright.knowledge.scenarios import load_scenarios
from tinwright.measures import parse_can_code
from tinwright.practice import REMEDIES
from tinwright.practice.debrief import RUBRIC
from tinwright.practice.showing import RULES
from tinwright.seaming.wording import MM_PER_IN
from tinwright.site.advice_data import limits_data, profile_data
from tinwright.site.pages_and_assets import Asset, Page
from tinwright.site.rendering import script_json, uri_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models.practice import PracticeScenario
    from tinwright.practice import Scenario
    from tinwright.site.rendering import Renderer

__all__ = ["PRACTICE_PAGE", "practice_bench_assets", "practice_bench_page"]

PRACTICE_PAGE = "practice-bench.md"
"""Where the page lies."""
_GRADES = {1: "One plain fault", 2: "One fault that hides", 3: "Two faults at once"}
_CAUTION = "motor-start"


def practice_bench_page(kb: KnowledgeBase, renderer: Renderer) -> Iterator[Page]:
    """Yield the practice bench; nothing for a program without scenarios."""
    scenarios = load_scenarios(kb)
    if scenarios:
        yield Page(
            PRACTICE_PAGE,
            renderer.render(
                "practice-bench.md.j2",
                PRACTICE_PAGE,
                grades=[
                    (grade, words, [each for each in scenarios.values() if each.grade == grade])
                    for grade, words in _GRADES.items()
                ],
                rubric=list(RUBRIC.values()),
                scripts=("practice-data.js", *needed_scripts("practice-bench.js")),
                cautions=[id_ for id_ in ("bad-seam",) if id_ in kb.cautions],
            ),
        )


def practice_bench_assets(kb: KnowledgeBase, renderer: Renderer) -> Iterator[Asset]:
    """Yield the data script of the practice bench; nothing for a program without scenarios."""
    scenarios = load_scenarios(kb)
    if scenarios:
        text = f"globalThis.tinwrightPracticeData = {script_json(_plain(kb, renderer, scenarios))};\n"
        yield Asset("assets/practice-data.js", text.encode())


def _plain(kb: KnowledgeBase, renderer: Renderer, scenarios: Mapping[str, PracticeScenario]) -> dict[str, Any]:
    played = {id_: bench_scenario(kb, record) for id_, record in scenarios.items()}
    causes = [id_ for id_ in REMEDIES if id_ in kb.causes]
    defects = [id_ for id_ in dict.fromkeys(rule.defect for rule in RULES) if id_ in kb.defects]
    sealers = {record.sealer: played[id_] for id_, record in scenarios.items()}
    cans = {record.can: played[id_].can for id_, record in scenarios.items()}
    caution = kb.cautions.get(_CAUTION)
    return {
        "plays": [_play(record, played[id_]) for id_, record in scenarios.items()],
        "sealers": {
            id_: {
                "title": kb.sealers[id_].title,
                "page": renderer.address(uri_of(kb.sealers[id_]), PRACTICE_PAGE),
                "plain": _sealer(scenario),
            }
            for id_, scenario in sealers.items()
        },
        "cans": {
            id_: {
                "code": kb.cans[id_].code,
                "aroundMm": _around_mm(kb.cans[id_].code),
                "plain": {"code": can.code, "limits": limits_data(can.limits)},
            }
            for id_, can in cans.items()
        },
        "causes": {
            id_: {
                "title": kb.causes[id_].title,
                "page": renderer.address(uri_of(kb.causes[id_]), PRACTICE_PAGE),
                "say": kb.causes[id_].correction.say,
            }
            for id_ in causes
        },
        "defects": {id_: {"title": kb.defects[id_].title} for id_ in defects},
        "profiles": [profile_data(profile) for profile in cause_profiles(kb) if profile.cause in REMEDIES],
        "minutes": verb_minutes(kb),
        "uncertainties": instrument_uncertainties(kb),
        "weights": dict.fromkeys(RUBRIC, 1),
        "motorPage": renderer.address(uri_of(caution), PRACTICE_PAGE) if caution else "",
    }


def _play(record: PracticeScenario, scenario: Scenario) -> dict[str, Any]:
    return {
        "id": record.id,
        "title": record.title,
        "story": record.story,
        "grade": record.grade,
        "sealer": record.sealer,
        "can": record.can,
        "faults": [asdict(fault) for fault in scenario.faults],
        "cans": scenario.budget_cans,
        "minutes": scenario.budget_minutes,
        "food": scenario.food_before,
        "seed": scenario.seed,
    }


def _sealer(scenario: Scenario) -> dict[str, Any]:
    sealer = scenario.sealer
    adjusters = [{"adjuster": each.adjuster, "safeStepEighths": each.safe_step_eighths} for each in sealer.adjusters]
    return {"sealer": sealer.sealer, "drive": sealer.drive, "adjusters": adjusters, "stack": list(sealer.stack)}


def _around_mm(code: str) -> float:
    return float(parse_can_code(code).diameter_in) * MM_PER_IN * pi
