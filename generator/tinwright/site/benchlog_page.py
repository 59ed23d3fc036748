"""The bench log: the page on which a sealing day is written down beside the machine, and the data its scripts need."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any

from tinwright.advice.held_cans import bench_policy, defect_dispositions, defect_reaches, what_to_do_with_held
from tinwright.benchlog import KINDS, REASONS
from tinwright.benchlog.checks import REACHES
from tinwright.benchlog.events import RESULTS
from tinwright.browser import needed_scripts
from tinwright.knowledge.linking import plain_text
from tinwright.knowledge.models.trouble import Turn
from tinwright.knowledge.plain_words import say, say_adjusted
from tinwright.seaming.signs import ADJUSTERS
from tinwright.site.advice_data import BENCH_LOG_PAGE, SEAM_CHECK_PAGE, BenchData
from tinwright.site.pages_and_assets import Asset, Page
from tinwright.site.rendering import script_json, uri_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tinwright.advice.set_ups import Sheet
    from tinwright.knowledge import KnowledgeBase
    from tinwright.site.rendering import Renderer

__all__ = ["adjusted_words", "benchlog_assets", "benchlog_page"]


def benchlog_page(kb: KnowledgeBase, renderer: Renderer) -> Iterator[Page]:
    """Yield the page of the bench log."""
    policy = kb.programme.policy
    yield Page(
        BENCH_LOG_PAGE,
        renderer.render(
            "bench-log.md.j2",
            BENCH_LOG_PAGE,
            policy=policy,
            kinds=KINDS,
            scripts=("bench-log-data.js", *needed_scripts("bench-log.js")),
            cautions=[id_ for id_ in ("bad-seam", "never-taste") if id_ in kb.cautions],
            procedures=[kb.procedures[id_] for id_ in _PROCEDURES if id_ in kb.procedures],
        ),
    )


_PROCEDURES = ("make-test-can", "mid-session-recheck", "when-a-check-fails")


def benchlog_assets(kb: KnowledgeBase, renderer: Renderer, sheets: Mapping[tuple[str, str], Sheet]) -> Iterator[Asset]:
    """Yield the data script of the bench log.

    Args:
        kb: the knowledge base.
        renderer: gives the addresses of pages.
        sheets: set-up sheets by sealer and can.
    """
    bench, log = script_json(BenchData(kb, renderer).for_the_log()), script_json(_plain(kb, renderer, sheets))
    text = f"globalThis.tinwrightData = {bench};\nglobalThis.tinwrightBenchLogData = {log};\n"
    yield Asset("assets/bench-log-data.js", text.encode())


def _plain(kb: KnowledgeBase, renderer: Renderer, sheets: Mapping[tuple[str, str], Sheet]) -> dict[str, Any]:
    policy, fails = bench_policy(kb), kb.procedures.get("when-a-check-fails")
    kitchens = [
        {"name": kitchen.name, "sealers": list(kitchen.sealers or kb.sealers)} for kitchen in kb.programme.kitchens
    ]
    set_ups: dict[str, dict[str, str]] = {id_: {} for id_ in kb.sealers}
    for (sealer, can), sheet in sheets.items():
        if sheet.works:
            set_ups[sealer][can] = renderer.address(sheet.uri, BENCH_LOG_PAGE)
    return {
        "policy": {
            "testCans": policy.test_cans,
            "recheckCans": policy.recheck_cans,
            "recheckMinutes": policy.recheck_minutes,
            "teardownCans": policy.teardown_cans,
            "teardownMinutes": policy.teardown_minutes,
            "endCheck": policy.end_check,
        },
        "kinds": {
            id_: {"label": kind.label, "needs": list(kind.needs), "may": list(kind.may)} for id_, kind in KINDS.items()
        },
        "results": {kind: list(results) for kind, results in RESULTS.items()},
        "reasons": dict(REASONS),
        "dispositions": defect_dispositions(kb),
        "reaches": defect_reaches(kb),
        "reachWords": [REACHES[reach] for reach in sorted(REACHES)],
        "kitchens": kitchens or [{"name": kb.programme.office, "sealers": list(kb.sealers)}],
        "cans": [{"id": can.id, "title": can.code} for can in kb.cans.values()],
        "setUps": set_ups,
        "adjusters": list(ADJUSTERS),
        "directions": [str(turn) for turn in Turn],
        "adjusted": {adjuster: adjusted_words(adjuster) for adjuster in ADJUSTERS},
        "hold": {
            name: [plain_text(kb, said.text) for said in what_to_do_with_held(kb, heated=heated)]
            for name, heated in (("notHeated", False), ("heated", True))
        },
        "fails": renderer.address(uri_of(fails), BENCH_LOG_PAGE) if fails else "",
        "seamCheck": renderer.address(SEAM_CHECK_PAGE, BENCH_LOG_PAGE),
    }


def adjusted_words(adjuster: str) -> dict[str, str]:
    """Return what is said of each way; what is said of most stands under no name.

    What is put together as `tighten the chuck` is, the phone puts together itself: it need not be sent.
    """
    words = {str(turn): say_adjusted(adjuster, turn) for turn in Turn}
    most, times = Counter(words.values()).most_common(1)[0]
    if times > len(words) / 2:
        return {"": most, **{turn: said for turn, said in words.items() if said != most}}
    return {turn: said for turn, said in words.items() if said != f"{say(turn)} the {say(adjuster)}"}
