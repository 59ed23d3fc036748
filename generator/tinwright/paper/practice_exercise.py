"""Scenarios of the practice bench on paper: a sheet for the learner, and the key for whoever answers what is found."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.advice.practice_scenarios import bench_scenario
from tinwright.practice import SCREWS, Action, Round
from tinwright.practice.debrief import RUBRIC

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Cause
    from tinwright.knowledge.models.practice import PracticeScenario
    from tinwright.paper.press import Press, Printed
    from tinwright.practice import Scenario

__all__ = ["Exercise", "exercise_of", "practice_exercises"]

_LINES = 16
"""Empty lines on a learner's sheet."""


@dataclass(frozen=True)
class Exercise:
    """A scenario with what its key says."""

    record: PracticeScenario
    """The scenario."""
    cans: int
    """Cans there are to spend."""
    minutes: int
    """Minutes there are to spend."""
    seen: tuple[str, ...]
    """What shows on the first can: titles of defects."""
    readings: tuple[tuple[str, str], ...]
    """What is read on it, by dimension; inches, tightness in percent."""
    feels: tuple[tuple[str, str], ...]
    """How the gauge of each screw feels."""
    causes: tuple[Cause, ...]
    """What is wrong."""


def exercise_of(kb: KnowledgeBase, record: PracticeScenario) -> Exercise:
    """Return a scenario with its key: what is found before anything is changed.

    Raises:
        PracticeError: no sheet of the can aims for a seam, or a fault is not one that the bench knows.
    """
    scenario = bench_scenario(kb, record)
    played = Round(scenario)
    seen: dict[str, None] = {}
    readings: dict[str, list[str]] = {}
    for verb in ("test-can", "look", "measure", "tear-down"):
        outcome = played.do(Action(verb))
        seen |= dict.fromkeys(shown.defect for shown in outcome.shown)
        for reading in outcome.readings:
            is_rating = reading.dimension == "tightness"
            text = f"{reading.value:.0f}%" if is_rating else f"{reading.value:.3f}"
            readings.setdefault(reading.dimension, []).append(text)
    return Exercise(
        record=record,
        cans=scenario.budget_cans,
        minutes=int(scenario.budget_minutes),
        seen=tuple(kb.defects[id_].title if id_ in kb.defects else id_ for id_ in seen),
        readings=tuple((dimension, ", ".join(values)) for dimension, values in readings.items()),
        feels=tuple(_feels(scenario)),
        causes=tuple(kb.causes[fault.cause] for fault in record.faults),
    )


def _feels(scenario: Scenario) -> Iterator[tuple[str, str]]:
    played = Round(scenario)
    played.do(Action("unplug"))
    for screw in SCREWS:
        yield screw, played.do(Action("gauge", screw)).feel


def practice_exercises(press: Press, scenarios: Sequence[PracticeScenario]) -> Iterator[Printed]:
    """Print the learner's sheets and the key, as two files.

    Args:
        press: the press.
        scenarios: what to print.

    Raises:
        MissingExtraError: when the libraries of the extra `paper` are not installed.
    """
    exercises = [exercise_of(press.kb, record) for record in scenarios]
    for name, title, template in (
        ("practice-exercises.pdf", "Practice exercises", "practice-exercises.html.j2"),
        ("practice-key.pdf", "Practice exercises: the key", "practice-key.html.j2"),
    ):
        yield press.print(
            name, template, title=title, exercises=exercises, lines=range(1, _LINES + 1), rubric=RUBRIC.values()
        )
