"""A round at the practice bench: what is done, what it costs, and what comes of it. Nothing can be undone."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tinwright.errors import PracticeError
from tinwright.practice.action import VERBS, Action, BenchedCan, Outcome
from tinwright.practice.chance import Chance
from tinwright.practice.fault import REMEDIES, SCREWS, Fault, Remedy
from tinwright.practice.reading import read_seam
from tinwright.practice.seam import make_seam
from tinwright.practice.setting import EFFECTS, set_around
from tinwright.practice.showing import find_shown

if TYPE_CHECKING:
    from tinwright.practice.scenario import BenchCan, Scenario
    from tinwright.practice.seam import Seam

__all__ = ["Round", "is_within"]

_MAKING = frozenset({"test-can", "first-operation", "seal-food"})
_READING = {
    "look": (),
    "measure": ("countersink", "seam-width", "seam-thickness"),
    "tear-down": ("body-hook", "cover-hook", "tightness"),
}
_CHANGING = frozenset({"restack", "clean", "refit", "swap", "redo"})
_HANDS_IN = frozenset({"gauge", "look-at-part", "turn", "restack", "clean", "refit", "swap"})
"""Verbs that put hands into the sealer: never while a motor has power."""
_FATES = {"hold": "held", "throw-away": "thrown-away", "let-go": "let-go"}
_FREE = frozenset({*_FATES, "declare-cause", "declare-fit", "give-up", "unplug", "plug-in"})
_GAUGED = {"base-pressure": "press", "first-roller": "first", "second-roller": "second"}
OPERATION = "operation"


class Round:
    """One round, from the story to the end.

    Args:
        scenario: what it begins with.

    Attributes:
        log: what was done, with what came of it, in order.
        cans: cans made, in order; the food cans sealed before come first.
        minutes: minutes spent.
        cans_spent: cans spent; food cans are not counted.
        faults: what is still wrong; what a screw makes up for stays here.
        turned: eighths of a turn that each screw was tightened by.
        has_power: whether a motor is plugged in; without a motor always false.
        declared: causes declared, in order.
        is_finished: whether the round is over.
    """

    def __init__(self, scenario: Scenario) -> None:
        self.scenario = scenario
        self.log: list[Outcome] = []
        self.cans: list[BenchedCan] = []
        self.minutes = 0.0
        self.cans_spent = 0
        self.faults: tuple[Fault, ...] = scenario.faults
        self.turned = dict.fromkeys(SCREWS, 0)
        self.has_power = scenario.sealer.drive == "motor"
        self.declared: list[str] = []
        self.is_finished = False
        self._chance = Chance(scenario.seed)
        for _ in range(scenario.food_before):
            self._make(is_food=True)

    @classmethod
    def start(cls, scenario: Scenario) -> Round:
        """Begin a round."""
        return cls(scenario)

    @property
    def is_repaired(self) -> bool:
        """Whether everything wrong is put right: each screw to within a step."""
        return all(REMEDIES[fault.kind].verb == "turn" for fault in self.faults) and all(
            abs(self._off(screw)) <= 1.0 for screw in SCREWS
        )

    def do(self, action: Action) -> Outcome:
        """Do something and return what comes of it; what cannot be done is refused and costs nothing.

        Raises:
            PracticeError: the verb is unknown.
        """
        if action.verb not in VERBS:
            raise PracticeError(f"expected one of {', '.join(VERBS)}, got {action.verb!r}")
        refused = self._refusal(action)
        if refused:
            return self._note(Outcome(action, refused=refused))
        if self.has_power and action.verb in _HANDS_IN and action.target != OPERATION:
            self.is_finished = True
            return self._note(Outcome(action, caution="motor-start"))
        minutes = self.scenario.minutes.get(action.verb, 0.0 if action.verb in _FREE else 1.0)
        self.minutes = self.minutes + minutes
        return self._note(replace(self._done(action), minutes=minutes))

    def _note(self, outcome: Outcome) -> Outcome:
        self.log.append(outcome)
        return outcome

    def _refusal(self, action: Action) -> str:
        if self.is_finished:
            return "finished"
        is_spent = self.minutes >= self.scenario.budget_minutes
        if action.verb not in _FREE and is_spent:
            return "no-budget"
        if action.verb in _MAKING:
            if action.verb != "seal-food" and self.cans_spent >= self.scenario.budget_cans:
                return "no-budget"
            if self.scenario.sealer.drive == "motor" and not self.has_power:
                return "unplugged"
        if action.verb in _READING and (not self.cans or self.cans[-1].is_torn):
            return "no-can"
        return "" if self._is_known(action) else "unknown"

    def _is_known(self, action: Action) -> bool:
        verb, target = action.verb, action.target
        if verb == "turn":
            return target in self.turned and action.amount != 0
        if verb == "gauge":
            return target in _GAUGED
        if verb in _FATES:
            return 1 <= action.amount <= len(self.cans)
        if verb == "seal-food":
            return 1 <= action.amount <= 100
        return verb != "declare-cause" or target in REMEDIES

    def _done(self, action: Action) -> Outcome:
        verb, target = action.verb, action.target
        if verb in _READING:
            return self._read(action)
        if verb in _MAKING:
            return self._sealed(action)
        if verb == "gauge":
            return Outcome(action, feel=self._feel_of(target))
        if verb == "look-at-part":
            found = sorted({fault.kind for fault in self.faults if REMEDIES[fault.kind].target == target})
            return Outcome(action, found=tuple(kind for kind in found if REMEDIES[kind].verb != "turn"))
        if verb == "turn":
            self.turned[target] += action.amount
        elif verb in _CHANGING:
            remedy = Remedy(verb, target)
            self.faults = tuple(fault for fault in self.faults if REMEDIES[fault.kind] != remedy)
        elif verb in _FATES:
            self.cans[action.amount - 1] = replace(self.cans[action.amount - 1], fate=_FATES[verb])
            return Outcome(action, can=action.amount)
        else:
            self._decide(action)
        return Outcome(action)

    def _decide(self, action: Action) -> None:
        if action.verb in {"unplug", "plug-in"}:
            self.has_power = action.verb == "plug-in" and self.scenario.sealer.drive == "motor"
        elif action.verb == "declare-cause":
            self.declared.append(action.target)
        else:
            self.is_finished = True

    def _sealed(self, action: Action) -> Outcome:
        if action.verb == "seal-food":
            for _ in range(action.amount):
                self._make(is_food=True)
            return Outcome(action, can=len(self.cans))
        self._make(is_finished=action.verb == "test-can")
        self.cans_spent += 1
        feel = "" if self.cans[-1].is_finished else self._feel_of("first-roller")
        return Outcome(action, cans=1, can=len(self.cans), feel=feel)

    def _make(self, *, is_food: bool = False, is_finished: bool = True) -> None:
        seam = make_seam(set_around(self.faults, self.turned, self._chance), self.scenario.can)
        is_good = is_finished and is_within(seam, self.scenario.can)
        self.cans.append(BenchedCan(len(self.cans) + 1, seam, is_good, is_food, is_finished))

    def _read(self, action: Action) -> Outcome:
        can = self.cans[-1]
        shown = find_shown(can.seam.settings) if can.is_finished else ()
        if action.verb == "tear-down":
            self.cans[-1] = replace(can, is_torn=True)
        at = shown[0].at if shown and shown[0].degrees < 360 else None
        readings = read_seam(can.seam, _READING[action.verb], self.scenario.uncertainties, self._chance, at)
        return Outcome(action, can=can.number, readings=readings, shown=shown)

    def _feel_of(self, screw: str) -> str:
        """Say how a gauge or the lift lever feels: it drags within a step of right."""
        off = -self._off(screw) if screw == "base-pressure" else self._off(screw)
        if off >= 1.0:
            return "loose"
        return "tight" if off <= -1.0 else "drags"

    def _off(self, screw: str) -> float:
        """Return by how many steps what a screw sets is off; above zero: a gap too wide, or pressure too high."""
        off = -float(self.turned[screw]) if screw != "base-pressure" else float(self.turned[screw])
        for fault in self.faults:
            if REMEDIES[fault.kind].target != OPERATION:
                for effect in EFFECTS[fault.kind]:
                    if effect.part == _GAUGED[screw] and effect.spread == "all":
                        off = off + effect.factor * fault.amount
        return off


def is_within(seam: Seam, can: BenchCan) -> bool:
    """Say whether a seam is within the can's sheet at every angle and shows no fault."""
    if find_shown(seam.settings):
        return False
    for limit in can.limits.limits:
        values = seam.around(limit.dimension)
        if limit.low is not None and min(values) < limit.low:
            return False
        if limit.high is not None and max(values) > limit.high:
            return False
    return can.limits.tightness_low is None or min(seam.around("tightness")) >= can.limits.tightness_low
