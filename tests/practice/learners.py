"""Simulated learners at the practice bench, and scenarios drawn at random for them.

python tests/practice/learners.py 10000    prints how many rounds each passes
"""

from __future__ import annotations

import random
import sys
from functools import cache
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from typing import TYPE_CHECKING

from practice.small_bench import CAN, a_scenario
from tinwright.advice.profiles import cause_profiles
from tinwright.knowledge import load
from tinwright.practice import (
    REMEDIES,
    VERBS,
    Action,
    Chance,
    Fault,
    Round,
    Scenario,
    debrief,
    is_within,
    make_seam,
    play_carefully,
    set_around,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from tinwright.seaming import CauseProfile

MINUTES = {"tear-down": 15.0, "measure": 5.0, "look": 3.0, "turn": 3.0, "swap": 20.0, "refit": 10.0}


@cache
def profiles() -> tuple[CauseProfile, ...]:
    return cause_profiles(load(Path(__file__).parents[2] / "content"))


def random_scenario(rng: random.Random, seed: int) -> Scenario:
    """One fault, or two that are put right at two places; each alone makes a bad can."""
    while True:
        kinds = rng.sample(sorted(REMEDIES), rng.choice((1, 1, 2)))
        faults = [Fault(kind, rng.randint(3, 6)) for kind in kinds]
        shows = all(not is_within(make_seam(set_around([each], {}, Chance(seed)), CAN), CAN) for each in faults)
        if shows and len({REMEDIES[kind].target for kind in kinds}) == len(kinds):
            return a_scenario(
                *faults,
                seed=seed,
                drive=rng.choice(("crank-cam", "hand-lever", "motor")),
                food_before=rng.choice((0, 2)),
                budget_cans=14,
                budget_minutes=400.0,
                minutes=MINUTES,
            )


def by_the_finder(scenario: Scenario, rng: random.Random) -> Round:  # noqa: ARG001 - as the others
    return play_carefully(scenario, profiles())


def always_the_second_roller(scenario: Scenario, rng: random.Random) -> Round:  # noqa: ARG001 - as the others
    bench = begun(scenario)
    way = 1 if bench.do(Action("gauge", "second-roller")).feel == "loose" else -1
    for _ in range(6):
        if bench.do(Action("gauge", "second-roller")).feel != "drags":
            bench.do(Action("turn", "second-roller", way))
    return ended(bench, "second-roller-loose" if way == 1 else "second-roller-tight")


def the_commonest_cause(scenario: Scenario, rng: random.Random) -> Round:  # noqa: ARG001 - as the others
    """Put right what is most often called common in the records, whatever the can shows."""
    known = [cause for cause in profiles() if cause.cause in REMEDIES]
    most = max(known, key=lambda cause: (list(cause.likelihoods.values()).count("common"), cause.cause)).cause
    bench = begun(scenario)
    remedy = REMEDIES[most]
    bench.do(Action(remedy.verb, remedy.target, 2 if remedy.verb == "turn" else 0))
    return ended(bench, most)


def at_random(scenario: Scenario, rng: random.Random) -> Round:
    bench = begun(scenario)
    targets = sorted({remedy.target for remedy in REMEDIES.values()})
    for _ in range(30):
        verb = rng.choice(
            [verb for verb in VERBS if verb not in {"declare-fit", "give-up", "plug-in", "declare-cause"}]
        )
        bench.do(Action(verb, rng.choice(targets), rng.choice((-1, 1))))
    return ended(bench, rng.choice(sorted(REMEDIES)))


def begun(scenario: Scenario) -> Round:
    """Hold what was sealed, look at a can, and pull the plug: the learner is wrong about the cause alone."""
    bench = Round.start(scenario)
    for number in range(1, scenario.food_before + 1):
        bench.do(Action("hold", amount=number))
    for verb in ("test-can", "look", "tear-down", "unplug"):
        bench.do(Action(verb))
    return bench


def ended(bench: Round, cause: str) -> Round:
    for action in (
        Action("plug-in"),
        Action("test-can"),
        Action("look"),
        Action("declare-cause", cause),
        Action("declare-fit"),
    ):
        bench.do(action)
    return bench


LEARNERS: dict[str, Callable[[Scenario, random.Random], Round]] = {
    "by the finder": by_the_finder,
    "always the second roller": always_the_second_roller,
    "the commonest cause": the_commonest_cause,
    "at random": at_random,
}


def passed(learner: str, rounds: int, seed: int = 3) -> tuple[int, int]:
    """Return how many rounds a learner passes, and how many had an unsafe act."""
    rng = random.Random(seed)  # noqa: S311 - nothing secret
    found, unsafe = 0, 0
    for number in range(1, rounds + 1):
        judged = debrief(LEARNERS[learner](random_scenario(rng, number), rng))
        found += judged.has_passed
        unsafe += any(line.line in {"safe", "no-food"} and not line.is_kept for line in judged.lines)
    return found, unsafe


if __name__ == "__main__":
    count = int(sys.argv[1])
    for name in LEARNERS:
        good, bad = passed(name, count)
        print(f"{name}: {good} of {count} passed, {bad} with an unsafe act")  # noqa: T201
