"""The bridge from a scenario's record to the plain values of the practice bench, and what a sound scenario keeps to."""

from __future__ import annotations

import zlib
from dataclasses import replace
from math import ceil
from typing import TYPE_CHECKING

from tinwright.advice.profiles import instrument_uncertainties, seam_limits
from tinwright.advice.set_ups import all_sheets
from tinwright.errors import PracticeError
from tinwright.knowledge.models.practice import PracticeScenario
from tinwright.practice import (
    REMEDIES,
    SCREWS,
    Action,
    BenchAdjuster,
    BenchCan,
    BenchSealer,
    Fault,
    Round,
    Scenario,
    find_shown,
    is_within,
)

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tinwright.errors import Problem
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Sealer
    from tinwright.knowledge.record_files import PlacedRecord

__all__ = ["bench_can", "bench_scenario", "bench_sealer", "play_knowing", "scenario_problems", "verb_minutes"]

_PLENTY = 10_000
_PROCEDURES = {
    "look": "look-and-feel",
    "tear-down": "tear-down-and-measure",
    "turn": "set-second-roller",
    "swap": "replace-roller",
    "refit": "fit-chuck",
    "restack": "set-base-height",
    "first-operation": "check-first-operation",
    "seal-food": "fill-and-close",
}
"""The procedure whose minutes a verb takes."""
_OTHERWISE = {
    "test-can": 1.0, "first-operation": 10.0, "look": 2.0, "measure": 5.0, "tear-down": 25.0, "gauge": 2.0,
    "look-at-part": 2.0, "turn": 10.0, "restack": 5.0, "clean": 5.0, "refit": 10.0, "swap": 30.0, "redo": 2.0,
    "seal-food": 10.0,
}  # fmt: skip
"""Minutes of a verb for which no procedure says how long it takes."""
_ORDER = (
    *("can-lot", "lid-lot", "operation", "chuck", "chuck-shaft", "base-plate", "base-height", "base-pressure"),
    *("roller-height", "first-roller", "second-roller"),
)
"""What is put right before what: cans and lids, then chuck and base, then the first roller, then the second."""
_CLOSER = {"base-pressure-low", "first-roller-loose", "second-roller-loose"}
"""Faults that tightening puts right."""


def verb_minutes(kb: KnowledgeBase) -> dict[str, float]:
    """Return the minutes of each verb: those of its procedure, where the records have one."""
    said = {verb: float(kb.procedures[id_].minutes) for verb, id_ in _PROCEDURES.items() if id_ in kb.procedures}
    return _OTHERWISE | said


def bench_can(kb: KnowledgeBase, can: str) -> BenchCan | None:
    """Return a can with the first sheet that aims for all of its seam; None when there is none."""
    for sheet in kb.seam_specifications.values():
        if can in sheet.cans:
            try:
                return BenchCan(kb.cans[can].code, seam_limits(sheet))
            except PracticeError:
                continue
    return None


def bench_sealer(sealer: Sealer, stack: tuple[str, ...] = ()) -> BenchSealer:
    """Return a sealer as the practice bench knows it; a step that its record does not state is an eighth."""
    screws = {str(screw.adjuster): screw for screw in sealer.adjusters if str(screw.adjuster) in SCREWS}
    return BenchSealer(
        sealer=sealer.id,
        drive=str(sealer.drive),
        adjusters=tuple(
            BenchAdjuster(adjuster, max(1, int(8 * screws[adjuster].safe_step)) if screws[adjuster].safe_step else 1)  # type: ignore[operator]
            for adjuster in SCREWS
            if adjuster in screws
        ),
        stack=stack,
    )


def bench_scenario(kb: KnowledgeBase, record: PracticeScenario) -> Scenario:
    """Return a scenario as the bench plays it; cans and minutes are worked out where the record leaves them out.

    Raises:
        PracticeError: no sheet of the can aims for a seam, or a fault is not one that the bench knows.
    """
    can = bench_can(kb, record.can)
    if can is None:
        raise PracticeError(f"no seam specification of {record.can} aims for every dimension")
    given = Scenario(
        scenario=record.id,
        faults=tuple(Fault(fault.cause, fault.amount, fault.at) for fault in record.faults),
        sealer=bench_sealer(kb.sealers[record.sealer]),
        can=can,
        minutes=verb_minutes(kb),
        uncertainties=instrument_uncertainties(kb),
        budget_cans=record.cans or _PLENTY,
        budget_minutes=float(record.minutes or _PLENTY),
        food_before=record.sealed,
        grade=record.grade,
        seed=zlib.crc32(record.id.encode()) or 1,
    )
    if record.cans and record.minutes:
        return given
    played = play_knowing(given)
    return replace(
        given,
        budget_cans=record.cans or ceil(1.5 * played.cans_spent),
        budget_minutes=float(record.minutes or 10 * ceil(1.5 * played.minutes / 10)),
    )


def play_knowing(scenario: Scenario) -> Round:
    """Play a scenario as somebody who knows what is wrong and does all that is owed; return the round.

    Cans first; then what is wrong in the order of work, one safe step and one test can at a time; then two good cans.
    """
    played = Round(scenario)
    steps = {screw.adjuster: screw.safe_step_eighths for screw in scenario.sealer.adjusters}

    def test(*, torn: bool) -> None:
        _powered(played, "plug-in")
        played.do(Action("test-can"))
        for verb in ("look", "measure", "tear-down") if torn else ("look", "measure"):
            played.do(Action(verb))

    for can in range(1, scenario.food_before + 1):
        played.do(Action("hold", amount=can))
    test(torn=True)
    for fault in sorted(scenario.faults, key=lambda fault: _ORDER.index(REMEDIES[fault.kind].target)):
        remedy = REMEDIES[fault.kind]
        left = fault.amount if remedy.verb == "turn" else 1
        while left > 0:
            step = min(steps.get(remedy.target, 1), left) if remedy.verb == "turn" else 1
            left -= step
            if remedy.target != "operation":
                _powered(played, "unplug")
            way = step if fault.kind in _CLOSER else -step
            played.do(Action(remedy.verb, remedy.target, way if remedy.verb == "turn" else 0))
            test(torn=left <= 0)
    test(torn=False)
    for fault in scenario.faults:
        played.do(Action("declare-cause", fault.kind))
    played.do(Action("declare-fit"))
    return played


def _powered(played: Round, verb: str) -> None:
    if played.scenario.sealer.drive == "motor" and played.has_power != (verb == "plug-in"):
        played.do(Action(verb))


def scenario_problems(kb: KnowledgeBase, placed: Mapping[str, PlacedRecord]) -> Iterator[Problem]:
    """Yield what is wrong with scenarios that only playing them tells: one cannot be won, or nothing shows.

    Args:
        kb: the knowledge base.
        placed: scenarios with their places.
    """
    sheets = all_sheets(kb)
    for item in placed.values():
        record = item.record
        if not isinstance(record, PracticeScenario):
            continue
        found = list(_wrong_before_play(kb, item, record, works=sheets[record.sealer, record.can].works))
        yield from found or _wrong_in_play(item, bench_scenario(kb, record))


def _wrong_before_play(
    kb: KnowledgeBase, item: PlacedRecord, record: PracticeScenario, *, works: bool
) -> Iterator[Problem]:
    screws = {str(screw.adjuster) for screw in kb.sealers[record.sealer].adjusters}
    for number, setting in enumerate(record.faults):
        if setting.cause not in REMEDIES:
            message = f"cause: the practice bench does not know {setting.cause}; expected one of {', '.join(REMEDIES)}"
            yield item.problem(("faults", number, "cause"), message)
            continue
        try:
            Fault(setting.cause, setting.amount, setting.at)
        except PracticeError as error:
            yield item.problem(("faults", number, "amount"), str(error))
        remedy = REMEDIES[setting.cause]
        if remedy.verb == "turn" and remedy.target not in screws:
            yield item.problem(("faults", number, "cause"), f"cause: {record.sealer} has no screw for {remedy.target}")
    if not works:
        yield item.problem(("can",), f"can: {record.can} cannot be set up on {record.sealer}")
    elif bench_can(kb, record.can) is None:
        yield item.problem(("can",), f"can: no seam specification of {record.can} aims for every dimension")


def _wrong_in_play(item: PlacedRecord, scenario: Scenario) -> Iterator[Problem]:
    played = play_knowing(scenario)
    first = played.cans[scenario.food_before]
    if is_within(first.seam, scenario.can) and not find_shown(first.seam.settings):
        yield item.problem(("faults",), "nothing shows on a can, and nothing is out of limits: make the fault larger")
    elif any(outcome.refused == "no-budget" for outcome in played.log):
        yield item.problem((), "somebody who knows what is wrong runs out of cans or minutes: give more of them")
    elif not played.is_repaired or not all(can.is_good for can in played.cans[-2:]):
        yield item.problem((), "putting every fault right leaves the seam wrong: the faults work against each other")
