"""Who follows the site's finder puts nearly every sealer right; who guesses does not. Simulation only."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from practice.learners import LEARNERS, passed, profiles, random_scenario
from practice.small_bench import a_scenario
from seaming.twin import seeded
from tinwright.practice import REMEDIES, Action, Fault, Round, debrief, next_step, play_carefully

if TYPE_CHECKING:
    from collections.abc import Callable


def test_the_finder_puts_95_of_100_right_and_never_unsafely(cases_of: Callable[[int], int]) -> None:
    rounds = cases_of(1_000)
    good, unsafe = passed("by the finder", rounds)
    assert (good >= 0.95 * rounds, unsafe) == (True, 0)


@pytest.mark.parametrize("learner", [name for name in LEARNERS if name != "by the finder"])
def test_guessing_passes_no_more_than_5_of_100(learner: str, cases_of: Callable[[int], int]) -> None:
    rounds = cases_of(2_000)
    assert passed(learner, rounds)[0] <= 0.05 * rounds


@pytest.mark.parametrize("kind", sorted(REMEDIES))
@pytest.mark.parametrize("drive", ["crank-cam", "motor"])
def test_each_fault_alone_is_found_by_name(kind: str, drive: str) -> None:
    bench = play_carefully(a_scenario(Fault(kind, 5), drive=drive, food_before=1, budget_cans=12), profiles())
    judged = debrief(bench)
    assert [line.line for line in judged.lines if not line.is_kept] == []


def test_the_careful_step_knows_only_what_was_told() -> None:
    rng = seeded(4)
    for seed in range(1, 20):
        scenario = random_scenario(rng, seed)
        bench = Round.start(scenario)
        for verb in ("plug-in", "test-can", "look", "measure", "tear-down"):
            bench.do(Action(verb))
        blind = a_scenario(Fault("two-lids", 1), drive=scenario.sealer.drive, food_before=scenario.food_before)
        assert next_step(scenario, bench.log, profiles()) == next_step(blind, bench.log, profiles())
