"""What a careful technician does next, knowing only what the learner knows: the site's finder, step by step.

Cans first. Then the finder ranks the causes by what the test can shows, and orders their checks; each is gauged or
looked at before anything is changed, a worn part before its screw. One safe step at a time toward the gauge, then a
test can.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.practice.action import Action
from tinwright.practice.fault import REMEDIES, SCREWS
from tinwright.practice.known import CHECKS, Known, find_known, judge_can
from tinwright.practice.round import Round
from tinwright.seaming.causes import rank
from tinwright.seaming.order import Check, order_checks

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tinwright.practice.action import Outcome
    from tinwright.practice.scenario import Scenario
    from tinwright.seaming.signs import CauseProfile

__all__ = ["next_step", "play_carefully"]

_LOOK_FIRST = {"base-pressure": "base-height", "first-roller": "first-roller", "second-roller": "second-roller"}
"""What is looked at before a screw is turned: the stack before the spring, a worn roller before its gap."""
_HANDS_IN = frozenset({"gauge", "look-at-part", "turn", "restack", "clean", "refit", "swap"})


_LONGEST = 300
"""More steps than any round needs."""


def play_carefully(scenario: Scenario, causes: Sequence[CauseProfile]) -> Round:
    """Play a whole round by the finder alone, and return it.

    Args:
        scenario: what it begins with.
        causes: what the records know of the causes.
    """
    bench = Round.start(scenario)
    while not bench.is_finished and len(bench.log) < _LONGEST:
        if bench.do(next_step(scenario, bench.log, causes)).refused:
            bench.do(Action("give-up"))
    return bench


def next_step(scenario: Scenario, log: Sequence[Outcome], causes: Sequence[CauseProfile]) -> Action:
    """Return what a careful technician would do after these steps of a round.

    Args:
        scenario: the round's; its faults are not looked at.
        log: the steps so far.
        causes: what the records know of the causes.
    """
    known = find_known(scenario, log)
    action = _wanted(scenario, known, causes)
    if scenario.sealer.drive == "motor":
        if known.has_power and action.verb in _HANDS_IN and action.target != "operation":
            return Action("unplug")
        if not known.has_power and action.verb == "test-can":
            return Action("plug-in")
    return action


def _wanted(scenario: Scenario, known: Known, causes: Sequence[CauseProfile]) -> Action:
    undecided = [number for number in range(1, scenario.food_before + 1) if number not in known.decided]
    if undecided:
        return Action("hold", amount=undecided[0])
    if known.found:
        remedy = REMEDIES[known.found[0]]
        return Action(remedy.verb, remedy.target)
    if known.turning:
        return _turned(scenario, known, known.turning)
    if not known.last_can:
        return Action("test-can")
    needed = CHECKS[:2] if known.good_cans else CHECKS
    for verb in needed:
        if verb not in known.checked:
            return Action(verb)
    if known.good_cans and known.causes:
        return _finished(known)
    return _searched(scenario, known, causes)


def _turned(scenario: Scenario, known: Known, screw: str) -> Action:
    """Gauge, and turn a safe step toward where the gauge drags."""
    if screw not in known.feels:
        return Action("gauge", screw)
    steps = {each.adjuster: each.safe_step_eighths for each in scenario.sealer.adjusters}
    step = steps.get(screw, 1)
    return Action("turn", screw, step if known.feels[screw] == "loose" else -step)


def _finished(known: Known) -> Action:
    if known.good_cans < 2:
        return Action("test-can")
    undeclared = [cause for cause in known.causes if cause not in known.declared]
    return Action("declare-cause", undeclared[0]) if undeclared else Action("declare-fit")


def _searched(scenario: Scenario, known: Known, causes: Sequence[CauseProfile]) -> Action:
    """Return the next check in the finder's order, or what a check has shown to be needed."""
    for target in _targets(scenario, known, causes):
        if target not in SCREWS:
            if target not in known.looked:
                return Action("look-at-part", target)
        elif target not in known.feels:
            return Action("gauge", target)
        elif _LOOK_FIRST[target] not in known.looked:
            return Action("look-at-part", _LOOK_FIRST[target])
        elif known.feels[target] != "drags":
            return _turned(scenario, known, target)
    return Action("give-up")


def _targets(scenario: Scenario, known: Known, causes: Sequence[CauseProfile]) -> list[str]:
    """List what to check, likeliest and quickest first, each once."""
    _, signs = judge_can(scenario, known.checked)
    suspects = {cause.cause: cause for cause in causes if cause.cause in REMEDIES}
    ranking = rank(tuple(suspects.values()), signs)
    checks = [
        Check(ranked.cause, suspects[ranked.cause].adjuster, suspects[ranked.cause].minutes, ranked.share)
        for ranked in ranking.causes
    ]
    named = [check.cause for check in order_checks([check for check in checks if check.share > 0.0])]
    rest = [check.cause for check in checks if check.cause not in named]
    return list(dict.fromkeys(REMEDIES[cause].target for cause in [*named, *rest]))
