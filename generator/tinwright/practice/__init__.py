"""The practice bench: a sealer that can be set wrong, a seam that shows it, and a round to set it right.

    from tinwright.practice import Action, Round

    bench = Round.start(scenario)
    bench.do(Action("test-can"))
    bench.do(Action("look")).shown                     # what can be seen on it
    bench.do(Action("turn", "second-roller", 1))       # tighten by an eighth of a turn

A teaching model: real sealers differ. The browser's half, `browser/practice/practice.js`, has the same functions under
the same names in camelCase.
"""

from tinwright.practice.action import VERBS, Action, BenchedCan, Outcome
from tinwright.practice.careful import next_step, play_carefully
from tinwright.practice.chance import Chance
from tinwright.practice.debrief import MUST, RUBRIC, Debrief, Line, debrief
from tinwright.practice.fault import REMEDIES, SCREWS, Fault, Remedy
from tinwright.practice.reading import read_seam
from tinwright.practice.round import Round, is_within
from tinwright.practice.scenario import BenchAdjuster, BenchCan, BenchSealer, Scenario
from tinwright.practice.seam import Seam, Section, make_seam, shape_section
from tinwright.practice.setting import ANGLES, EFFECTS, STEP_IN, Setting, set_around
from tinwright.practice.showing import Shown, find_shown

__all__ = [
    "ANGLES",
    "EFFECTS",
    "MUST",
    "REMEDIES",
    "RUBRIC",
    "SCREWS",
    "STEP_IN",
    "VERBS",
    "Action",
    "BenchAdjuster",
    "BenchCan",
    "BenchSealer",
    "BenchedCan",
    "Chance",
    "Debrief",
    "Fault",
    "Line",
    "Outcome",
    "Remedy",
    "Round",
    "Scenario",
    "Seam",
    "Section",
    "Setting",
    "Shown",
    "debrief",
    "find_shown",
    "is_within",
    "make_seam",
    "next_step",
    "play_carefully",
    "read_seam",
    "set_around",
    "shape_section",
]
