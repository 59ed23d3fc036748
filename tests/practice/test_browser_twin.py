"""The browser's half of the practice bench gives the same answers, bit for bit."""

from __future__ import annotations

import dataclasses
import json
import statistics
import subprocess
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from practice.learners import profiles, random_scenario
from practice.small_bench import a_scenario
from seaming.twin import camel, files_of, seeded
from tinwright.browser import scripts
from tinwright.practice import (
    EFFECTS,
    REMEDIES,
    RUBRIC,
    SCREWS,
    VERBS,
    Action,
    Chance,
    Fault,
    Round,
    debrief,
    next_step,
)
from tinwright.practice.fault import SIGNED

if TYPE_CHECKING:
    import random
    from collections.abc import Callable, Sequence

PARTS = files_of(script.name for script in scripts().values() if script.joined in {"practice.js", "seaming.js"})
LOAD = f"""
const fs = require("node:fs"), vm = require("node:vm");
for (const file of {PARTS}) vm.runInThisContext(fs.readFileSync(file, "utf8"), file);
const practice = globalThis.tinwrightPracticeBench;
const given = JSON.parse(fs.readFileSync(0));
"""


def in_node(script: str, given: Any) -> Any:
    done = subprocess.run(
        ["node", "-e", LOAD + script], input=json.dumps(given), capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def plain(value: Any) -> Any:
    """Turn a value into what the browser's half would have for it."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {camel(field.name): plain(getattr(value, field.name)) for field in dataclasses.fields(value)}
    if hasattr(value, "_asdict"):
        return {camel(key): plain(each) for key, each in value._asdict().items()}
    if isinstance(value, dict) or hasattr(value, "items"):
        return {key: plain(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [plain(each) for each in value]
    return value


TARGETS = sorted({remedy.target for remedy in REMEDIES.values()})


def some_fault(rng: random.Random) -> Fault:
    kind = rng.choice(sorted(EFFECTS))
    amount = rng.randint(1, 8) * (rng.choice((1, -1)) if kind in SIGNED else 1)
    return Fault(kind, amount, rng.choice((None, rng.randrange(360))))


def some_action(rng: random.Random) -> Action:
    verb = rng.choice((*VERBS[:-2], *["test-can"] * 4)) if rng.random() < 0.99 else rng.choice(VERBS)
    target = rng.choice((*SCREWS, *TARGETS, *sorted(REMEDIES)))
    return Action(verb, target, rng.randint(-2, 4))


def state_of(bench: Round) -> dict[str, Any]:
    names = ("log", "cans", "declared", "minutes", "cans_spent", "faults", "turned", "has_power", "is_finished")
    return {camel(name): plain(getattr(bench, name)) for name in (*names, "is_repaired")}


def test_whole_rounds_are_equal_bit_for_bit(cases_of: Callable[[int], int]) -> None:
    rng = seeded(19)
    rounds: list[tuple[Any, Sequence[Action]]] = []
    for seed in range(1, cases_of(2_000) + 1):
        scenario = a_scenario(
            *[some_fault(rng) for _ in range(rng.randint(1, 2))],
            drive=rng.choice(("crank-cam", "hand-lever", "motor")),
            seed=seed * 2_000_003 % 2**32,
            food_before=rng.randint(0, 2),
            minutes={"test-can": 2.5, "turn": 0.1},
            budget_minutes=30.0,
            budget_cans=5,
        )
        rounds.append((scenario, [some_action(rng) for _ in range(25)]))
    script = """
    const names = ["log", "cans", "declared", "minutes", "cansSpent", "faults", "turned", "hasPower", "isFinished", "isRepaired"];
    const weights = { safe: 3, step: 0.1, fit: 2 };
    process.stdout.write(JSON.stringify(given.map(([scenario, actions]) => {
      const bench = practice.startRound(scenario);
      for (const action of actions) bench.do(action);
      return { ...Object.fromEntries(names.map((name) => [name, bench[name]])), judged: practice.debrief(bench, weights) };
    })));
    """
    for begin in range(0, len(rounds), 100):
        some = rounds[begin : begin + 100]
        found = in_node(script, [[plain(scenario), plain(actions)] for scenario, actions in some])
        for (scenario, actions), theirs in zip(some, found, strict=True):
            bench = Round.start(scenario)
            for action in actions:
                bench.do(action)
            judged = debrief(bench, {"safe": 3, "step": 0.1, "fit": 2})
            assert {**state_of(bench), "judged": plain(judged)} == theirs, scenario


def test_a_careful_technician_does_the_same_after_any_steps(cases_of: Callable[[int], int]) -> None:
    """After steps of her own and steps of anybody, so that every corner of what can be known is reached."""
    rng = seeded(20)
    given, ours = [], []
    for seed in range(1, cases_of(2_000) + 1):
        scenario = replace(random_scenario(rng, seed), food_before=rng.randint(0, 2))
        bench = Round.start(scenario)
        own = []
        for _ in range(rng.randint(1, 30)):
            own.append(next_step(scenario, bench.log, profiles()))
            bench.do(own[-1] if rng.random() < 0.85 else some_action(rng))
            if bench.is_finished:
                break
        given.append([plain(scenario), plain(bench.log)])
        ours.append(plain(own))
    script = """
    const [causes, rounds] = given;
    process.stdout.write(JSON.stringify(rounds.map(([scenario, log]) =>
      log.map((_, step) => practice.nextStep(scenario, log.slice(0, step), causes)))));
    """
    assert {action["verb"] for own in ours for action in own} >= {"unplug", "gauge", "turn", "look-at-part", "hold"}
    for begin in range(0, len(given), 100):
        theirs = in_node(script, [plain(profiles()), given[begin : begin + 100]])
        for own, other, (scenario, _) in zip(ours[begin:], theirs, given[begin:], strict=False):
            assert own == other, scenario


def test_chance_is_equal_and_is_that_of_the_paper() -> None:
    # Marsaglia 2003, section 3: the 32-bit generator begun with 2463534242; its first number, 723471715, is from memory
    assert Chance(2463534242).draw() * 2**32 == 723471715
    script = """
    process.stdout.write(JSON.stringify(given.map((seed) => {
      const chance = practice.startChance(seed);
      return [chance.draw(), chance.whole(24), chance.error(0.0005)];
    })));
    """
    seeds = [1, 7, 2463534242, 2**32 - 1]
    ours = [[chance.draw(), chance.whole(24), chance.error(0.0005)] for chance in map(Chance, seeds)]
    assert in_node(script, seeds) == ours


def test_errors_of_reading_have_the_uncertainty_stated() -> None:
    chance = Chance(7)
    errors = [chance.error(0.5) for _ in range(20_000)]
    assert statistics.fmean(errors) == pytest.approx(0.0, abs=0.02)
    assert statistics.stdev(errors) == pytest.approx(0.5, rel=0.02)


@pytest.mark.parametrize("name", ["practiceRemedies", "practiceEffects", "screws", "rubric"])
def test_the_tables_are_equal(name: str) -> None:
    ours = {"practiceRemedies": REMEDIES, "practiceEffects": EFFECTS, "screws": SCREWS, "rubric": RUBRIC}[name]
    theirs = in_node("process.stdout.write(JSON.stringify(practice[given]));", name)
    if name == "practiceEffects":
        assert {kind: [list(effect) for effect in effects] for kind, effects in EFFECTS.items()} == theirs
    else:
        assert plain(ours) == theirs
