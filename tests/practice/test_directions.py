"""Every direction that the cause records claim comes out of the model; what shows lists the cause.

The records are those that the repository ships: the model and they must tell one story.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from practice.small_bench import CAN
from tinwright.knowledge import load
from tinwright.practice import EFFECTS, REMEDIES, Chance, Fault, Seam, find_shown, make_seam, set_around
from tinwright.practice.fault import SIGNED

SEEDS = (1, 2, 3, 4)
NOISE_IN = 0.0008
"""More than cans differ by chance; less than what one step does to any dimension it moves."""


@cache
def knowledge():
    return load(Path(__file__).parents[2] / "content")


def amounts(kind: str) -> tuple[int, ...]:
    return (2, 4, 6, -2, -4, -6) if kind in SIGNED else (2, 4, 6)


def seams(kind: str, amount: int) -> list[Seam]:
    return [make_seam(set_around([Fault(kind, amount)], {}, Chance(seed)), CAN) for seed in SEEDS]


def aim(dimension: str) -> float:
    return {**CAN.aims, "overlap": 0.046, "tightness": 90.0}[dimension]


CLAIMS = [
    (cause.id, str(effect.dimension), str(effect.direction))
    for cause in knowledge().causes.values()
    for effect in cause.effects
]


def test_every_cause_that_moves_something_can_be_practiced() -> None:
    assert {cause for cause, _, _ in CLAIMS} <= set(EFFECTS)
    assert set(EFFECTS) == set(REMEDIES)
    assert set(EFFECTS) <= set(knowledge().causes)


@pytest.mark.parametrize(("cause", "dimension", "direction"), CLAIMS)
def test_the_model_moves_each_dimension_as_the_record_claims(cause: str, dimension: str, direction: str) -> None:
    ways = set()
    for amount in amounts(cause):
        for seam in seams(cause, amount):
            around = seam.around(dimension)
            least, greatest = min(around) - aim(dimension), max(around) - aim(dimension)
            moved = NOISE_IN if dimension != "tightness" else 5.0
            larger, smaller = greatest > moved, least < -moved
            ways |= {way for way, is_so in (("larger", larger), ("smaller", smaller)) if is_so}
            if direction in {"larger", "smaller"}:
                assert (larger, smaller) == (direction == "larger", direction == "smaller"), (amount, least, greatest)
            elif direction == "disputed":
                assert (larger, smaller) == (False, False), (amount, least, greatest)
            elif cause not in SIGNED:
                assert greatest - least > moved, (amount, least, greatest)
    if cause in SIGNED:
        assert ways == {"larger", "smaller"}


@pytest.mark.parametrize("kind", sorted(EFFECTS))
def test_what_shows_lists_the_cause(kind: str) -> None:
    for amount in amounts(kind):
        for seam in seams(kind, amount):
            for shown in find_shown(seam.settings):
                assert kind in {str(link.cause) for link in knowledge().defects[shown.defect].causes}, shown


@pytest.mark.parametrize("kind", sorted(EFFECTS))
def test_a_fault_of_six_steps_is_no_good_can(kind: str) -> None:
    from tinwright.practice import is_within

    assert not any(is_within(seam, CAN) for seam in seams(kind, 6))


def test_a_sealer_that_is_right_makes_what_the_sheet_aims_for() -> None:
    for seed in SEEDS:
        seam = make_seam(set_around([], {}, Chance(seed)), CAN)
        for dimension, value in {**CAN.aims, "overlap": 0.046}.items():
            assert seam.around(dimension)[0] == pytest.approx(value, abs=NOISE_IN), dimension
        assert find_shown(seam.settings) == ()
