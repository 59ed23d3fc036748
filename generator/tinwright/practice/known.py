"""What the learner can know at a step of a round: only what was seen, felt and measured so far."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from tinwright.seaming.limits import SeenDefect
from tinwright.seaming.readings import Reading, SeamReadings
from tinwright.seaming.signs import Signs
from tinwright.seaming.verdict import find_directions, judge

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tinwright.practice.action import Outcome
    from tinwright.practice.scenario import Scenario
    from tinwright.practice.showing import Shown
    from tinwright.seaming.verdict import SeamVerdict

__all__ = ["CHECKS", "Known", "find_known", "judge_can", "judge_readings"]

CHECKS = ("look", "measure", "tear-down")
_CHANGING = frozenset({"turn", "restack", "clean", "refit", "swap", "redo"})
_CAUSE_OF = {
    ("base-pressure", "loose"): "base-pressure-low",
    ("base-pressure", "tight"): "base-pressure-high",
    ("first-roller", "loose"): "first-roller-loose",
    ("first-roller", "tight"): "first-roller-tight",
    ("second-roller", "loose"): "second-roller-loose",
    ("second-roller", "tight"): "second-roller-tight",
}


@dataclass
class Known:
    """What is known so far."""

    has_power: bool = False
    """Whether a motor is plugged in."""
    decided: set[int] = field(default_factory=set)
    """Numbers of the cans held or thrown away."""
    last_can: int = 0
    """Number of the last test can since the last change; zero: none."""
    checked: dict[str, Outcome] = field(default_factory=dict)
    """What its checks told, by verb."""
    good_cans: int = 0
    """Cans found good since the last change."""
    feels: dict[str, str] = field(default_factory=dict)
    """What each gauge said last, unless its screw was turned since."""
    looked: set[str] = field(default_factory=set)
    """Parts looked at."""
    found: list[str] = field(default_factory=list)
    """Causes found and not put right yet."""
    turning: str = ""
    """Screw that is being turned toward its gauge."""
    causes: list[str] = field(default_factory=list)
    """Every cause found in this round."""
    declared: set[str] = field(default_factory=set)
    """Causes declared."""

    def note(self, outcome: Outcome) -> None:
        """Take in what came of an action."""
        verb, target = outcome.action.verb, outcome.action.target
        if outcome.refused:
            return
        if verb in _CHANGING:
            self.last_can, self.good_cans, self.checked = 0, 0, {}
            self.feels.pop(target, None)
            self.turning = target if verb == "turn" else ""
            self.found = [] if verb != "turn" else self.found
        elif verb == "test-can":
            self.last_can, self.checked = outcome.can or 0, {}
        elif verb in CHECKS and outcome.can == self.last_can:
            self.checked[verb] = outcome
        elif verb == "gauge":
            self.feels[target] = outcome.feel
            self.turning = "" if outcome.feel == "drags" else self.turning
        elif verb == "look-at-part":
            self.looked.add(target)
            self.found = list(outcome.found)
            self._add(outcome.found)
        elif verb in {"unplug", "plug-in"}:
            self.has_power = verb == "plug-in"
        elif verb in {"hold", "throw-away"}:
            self.decided.add(outcome.action.amount)
        elif verb == "declare-cause":
            self.declared.add(target)
        if verb == "turn" and not any(cause.startswith(target) for cause in self.causes):
            self._add((_CAUSE_OF[target, "loose" if outcome.action.amount > 0 else "tight"],))

    def _add(self, causes: Sequence[str]) -> None:
        self.causes.extend(cause for cause in causes if cause not in self.causes)


def find_known(scenario: Scenario, log: Sequence[Outcome]) -> Known:
    """Return what is known after these steps of a round."""
    known = Known(has_power=scenario.sealer.drive == "motor")
    for outcome in log:
        known.note(outcome)
        if set(known.checked) == set(CHECKS[:2]) and outcome.action.verb == "measure":
            known.good_cans += known.good_cans > 0 and judge_can(scenario, known.checked)[0]
        elif outcome.action.verb == "tear-down" and set(known.checked) == set(CHECKS):
            known.good_cans = max(known.good_cans, int(judge_can(scenario, known.checked)[0]))
    return known


def judge_readings(scenario: Scenario, readings: Sequence[Reading], shown: Sequence[Shown] = ()) -> SeamVerdict:
    """Judge a can by the sheet of the round, as the seam check does.

    Args:
        scenario: the round's.
        readings: what was measured on it.
        shown: what was seen or felt on it.
    """
    can = scenario.can
    seam = SeamReadings("micrometer", tuple(readings), can.end_plate_in, can.body_plate_in)
    return judge(
        seam, can.limits, scenario.uncertainties, [SeenDefect(each.defect, each.defect, "reject") for each in shown]
    )


def judge_can(scenario: Scenario, checked: Mapping[str, Outcome]) -> tuple[bool, Signs]:
    """Say whether a can is good by what its checks told, and which signs it gives.

    Args:
        scenario: the round's.
        checked: what was told, by verb: `look`, `measure`, `tear-down`.
    """
    readings: list[Reading] = [reading for outcome in checked.values() for reading in outcome.readings]
    shown = next((outcome.shown for outcome in checked.values() if outcome.shown), ())
    directions = find_directions(judge_readings(scenario, readings, shown))
    is_bad = bool(shown) or any(direction != "normal" for direction in directions.values())
    extent = None
    if shown:
        degrees = shown[0].degrees
        extent = "all-round" if degrees == 360 else "one-place" if degrees <= 60 else "part-round"
    return not is_bad, Signs(defects=tuple(each.defect for each in shown), directions=directions, extent=extent)
