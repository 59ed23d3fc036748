from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

import pytest

from seaming.twin import seeded
from tinwright.errors import SeamingError
from tinwright.seaming import ADJUSTERS, STAGES, Check, expected_minutes, order_checks

if TYPE_CHECKING:
    import random


def is_allowed(order: tuple[Check, ...]) -> bool:
    stages = [STAGES[check.adjuster] for check in order if check.adjuster in STAGES]
    return stages == sorted(stages)


def brute_force(checks: list[Check]) -> float:
    return min(expected_minutes(order) for order in itertools.permutations(checks) if is_allowed(order))


def some_checks(rng: random.Random, number: int, adjusters: tuple[str, ...]) -> list[Check]:
    return [
        Check(f"c{place}", rng.choice(adjusters), rng.choice([1, 2, 3, 5, 8, 13]), rng.choice([0, 0.05, 0.1, 0.3, 0.6]))
        for place in range(number)
    ]


def test_without_precedence_the_quotient_decides() -> None:
    # computations file 3.2, worked there: ratios .125 .06 .10 .035
    free = [Check(str(n), "operation", c, p) for n, c, p in [(1, 2, 0.25), (2, 5, 0.30), (3, 1, 0.10), (4, 10, 0.35)]]
    order = order_checks(free)
    assert [check.cause for check in order] == ["1", "3", "2", "4"]
    assert expected_minutes(order) == pytest.approx(9.5)
    by_share = sorted(free, key=lambda check: -check.share)
    by_minutes = sorted(free, key=lambda check: check.minutes)
    assert expected_minutes(by_share) == pytest.approx(14.05)
    assert expected_minutes(by_minutes) == pytest.approx(9.55)


def test_trap_a_the_last_suspect_is_checked_too() -> None:
    # If the last suspect were inferred, leaving the long check for last would win; it is not inferred.
    checks = [Check("long", "operation", 10, 0.6), Check("short", "operation", 8, 0.4)]
    assert [check.cause for check in order_checks(checks)] == ["long", "short"]
    assert expected_minutes(order_checks(checks)) == pytest.approx(0.6 * 10 + 0.4 * 18)
    inferred = {"long first": 10, "short first": 8}
    assert min(inferred, key=inferred.__getitem__) == "short first"


def test_trap_b_a_poor_check_is_done_for_what_comes_behind_it() -> None:
    # computations file 3.2: naive greedy 6.2, best 6.0
    trap = [Check("1", "chuck", 4, 0.05), Check("2", "first-roller", 1, 0.60), Check("3", "operation", 3, 0.35)]
    order = order_checks(trap)
    assert [check.cause for check in order] == ["1", "2", "3"]
    assert expected_minutes(order) == pytest.approx(6.0)
    greedy = [trap[2], trap[0], trap[1]]
    assert expected_minutes(greedy) == pytest.approx(6.2)


@pytest.mark.parametrize("number", [1, 2, 3, 4, 5, 6])
def test_it_is_as_good_as_brute_force(number: int) -> None:
    rng = seeded(number)
    for _ in range(60 if number < 6 else 25):
        checks = some_checks(rng, number, ADJUSTERS)
        order = order_checks(checks)
        assert is_allowed(order)
        assert expected_minutes(order) == pytest.approx(brute_force(checks))


@pytest.mark.parametrize("number", [7, 8])
def test_it_is_as_good_as_brute_force_on_many_checks(number: int) -> None:
    rng = seeded(number)
    for _ in range(3):
        checks = some_checks(rng, number, (*STAGES, "operation", "can-and-lid"))
        assert expected_minutes(order_checks(checks)) == pytest.approx(brute_force(checks))


def test_the_second_roller_never_comes_before_the_first() -> None:
    checks = [Check("second", "second-roller", 1, 0.9), Check("first", "first-roller", 60, 0.01)]
    assert [check.cause for check in order_checks(checks)] == ["first", "second"]


def test_level_checks_stand_in_the_order_of_adjustment() -> None:
    checks = [Check("b", "operation", 1, 0.2), Check("a", "operation", 2, 0.4), Check("c", "chuck", 1, 0.2)]
    assert [check.cause for check in order_checks(checks)] == ["c", "a", "b"]


@pytest.mark.parametrize(
    "check", [Check("a", "chuck", 0, 0.1), Check("a", "chuck", 1, -0.1), Check("a", "elsewhere", 1, 0.1)]
)
def test_impossible_checks_are_refused(check: Check) -> None:
    with pytest.raises(SeamingError, match="expected a check"):
        order_checks([check])
