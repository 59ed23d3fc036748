"""How a round went: line by line of the educator's rubric, from what was done and what was true."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.seaming.order import STAGES

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tinwright.practice.action import Outcome
    from tinwright.practice.round import Round

__all__ = ["MUST", "RUBRIC", "Debrief", "Line", "debrief"]

RUBRIC: Mapping[str, str] = {
    "safe": "No hands in the sealer while a motor has power.",
    "can-first": "Look at a can, and hold what was sealed, before anything is changed.",
    "order": "Base and chuck before the first roller, the first roller before the second.",
    "step": "Never more than one safe step at a time.",
    "retest": "A test can after each change, and a look at it.",
    "no-food": "No food before two good test cans, one of them torn down.",
    "cause": "Every cause named, and no other.",
    "cans": "Every food can that may leak held or thrown away.",
    "fit": "The sealer is right when it is declared fit.",
}
"""Each line by its id. What each weighs is the educator's to say."""
MUST: frozenset[str] = frozenset({"safe", "no-food", "cause", "cans", "fit"})
"""Without one of these nobody passes, whatever the others say."""
GOOD_CANS = 2
"""Good test cans after the last change before food is sealed."""

_CHANGING = frozenset({"turn", "restack", "clean", "refit", "swap", "redo"})
_CHECKING = frozenset({"look", "measure", "tear-down"})
_PARTS = {"base-plate": "base-height", "chuck-shaft": "chuck"}
"""Parts that belong to an adjuster of another name."""


@dataclass(frozen=True)
class Line:
    """One line of the rubric, judged."""

    line: str
    """Its id, one of `RUBRIC`."""
    is_kept: bool
    """Whether it was kept."""
    at: int | None = None
    """Place in the log where it was broken first, from 0; None: not broken, or by nothing done."""


@dataclass(frozen=True)
class Debrief:
    """A round, judged."""

    lines: tuple[Line, ...]
    """Every line, in the order of `RUBRIC`."""
    points: float
    """Points, from 0 to 100."""
    has_passed: bool
    """Whether every line in `MUST` was kept."""
    causes: tuple[str, ...]
    """What was wrong: ids of the causes."""


def debrief(bench: Round, weights: Mapping[str, float] | None = None) -> Debrief:
    """Judge a round.

    Args:
        bench: the round; one that is not over counts as given up.
        weights: what each line weighs; a line left out weighs one.
    """
    broken: dict[str, int | None] = {}
    for line, at in (*_broken_on_the_way(bench), *_broken_at_the_end(bench)):
        broken.setdefault(line, at)
    told = weights or {}
    whole, kept = 0.0, 0.0
    for line in RUBRIC:
        weight = told.get(line, 1.0)
        whole = whole + weight
        kept = kept + (0.0 if line in broken else weight)
    return Debrief(
        tuple(Line(line, line not in broken, broken.get(line)) for line in RUBRIC),
        100.0 * kept / whole if whole > 0.0 else 0.0,
        not MUST & broken.keys(),
        tuple(fault.kind for fault in bench.scenario.faults),
    )


def _broken_on_the_way(bench: Round) -> Iterator[tuple[str, int]]:
    """Yield each line broken by something done, with its place in the log."""
    steps = {screw.adjuster: screw.safe_step_eighths for screw in bench.scenario.sealer.adjusters}
    stage, untested, changed = 0, "", False
    looked, held = False, set[int]()
    good = _GoodCans()
    for at, outcome in enumerate(bench.log):
        action = outcome.action
        if outcome.caution:
            yield "safe", at
        if outcome.refused or outcome.caution:
            continue
        good.note(outcome, bench)
        if action.verb in _CHECKING:
            looked = True
            untested = ""
        elif action.verb in {"hold", "throw-away"}:
            held.add(action.amount)
        elif action.verb == "seal-food" and not good.are_enough:
            yield "no-food", at
        elif action.verb == "declare-fit" and untested:
            yield "retest", at
        elif action.verb in _CHANGING:
            if not changed and (not looked or not held >= set(range(1, bench.scenario.food_before + 1))):
                yield "can-first", at
            changed = True
            now = STAGES.get(_PARTS.get(action.target, action.target), stage)
            if now < stage:
                yield "order", at
            stage = max(stage, now)
            if action.verb == "turn" and abs(action.amount) > steps.get(action.target, 1):
                yield "step", at
            # turning on toward the gauge is one change
            if untested and not (action.verb == "turn" and untested == action.target):
                yield "retest", at
            untested = action.target


class _GoodCans:
    """Counts the good test cans since the last change."""

    def __init__(self) -> None:
        self._checked = set[int]()
        self._torn = set[int]()
        self._since = 0

    @property
    def are_enough(self) -> bool:
        return len(self._checked) >= GOOD_CANS and bool(self._torn)

    def note(self, outcome: Outcome, bench: Round) -> None:
        if outcome.action.verb in _CHANGING:
            self._checked.clear()
            self._torn.clear()
            self._since = 0
        elif outcome.action.verb in {"test-can", "first-operation"}:
            self._since = outcome.can or 0
        elif self._is_check_of_a_good_can(outcome, bench):
            self._checked.add(self._since)
            if outcome.action.verb == "tear-down":
                self._torn.add(self._since)

    def _is_check_of_a_good_can(self, outcome: Outcome, bench: Round) -> bool:
        is_check = outcome.action.verb in _CHECKING and outcome.can == self._since
        return is_check and bench.cans[self._since - 1].is_good


def _broken_at_the_end(bench: Round) -> Iterator[tuple[str, int | None]]:
    """Yield each line broken by how the round ended."""
    last = len(bench.log) - 1 if bench.log else None
    if set(bench.declared) != {fault.kind for fault in bench.scenario.faults}:
        yield "cause", last
    if any(can.is_food and not can.is_good and can.fate not in {"held", "thrown-away"} for can in bench.cans):
        yield "cans", last
    is_declared = bool(bench.log) and bench.log[-1].action.verb == "declare-fit" and not bench.log[-1].refused
    if not is_declared or not bench.is_repaired:
        yield "fit", last
