from __future__ import annotations

import itertools
from math import comb, prod

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tinwright.errors import QuizError
from tinwright.quizzes.guessing import error_rates, guessing_chance, pass_chance, shortest_test


@given(
    chances=st.lists(st.sampled_from([0.0, 0.2, 0.25, 0.5, 1.0]), min_size=1, max_size=8),
    cut=st.integers(0, 8),
)
def test_guessing_agrees_with_trying_every_outcome(chances: list[float], cut: int) -> None:
    cut = min(cut, len(chances))
    expected = sum(
        prod(chance if right else 1 - chance for chance, right in zip(chances, outcome, strict=True))
        for outcome in itertools.product([True, False], repeat=len(chances))
        if sum(outcome) >= cut
    )
    assert guessing_chance(chances, cut) == pytest.approx(expected, abs=1e-12)


@given(items=st.integers(1, 40), cut=st.integers(0, 40), right=st.floats(0, 1), critical=st.integers(0, 5))
def test_critical_items_are_counted_as_enumeration_does(items: int, cut: int, right: float, critical: int) -> None:
    cut, critical = min(cut, items), min(critical, items)
    rest = items - critical
    expected = right**critical * sum(
        comb(rest, k) * right**k * (1 - right) ** (rest - k) for k in range(rest + 1) if k + critical >= cut
    )
    assert pass_chance(items, cut, right, critical=critical) == pytest.approx(expected, abs=1e-10)


def test_a_critical_item_lowers_the_false_passes_and_raises_the_false_fails() -> None:
    without = error_rates(30, 23, non_master=0.6, master=0.85)
    with_two = error_rates(30, 23, non_master=0.6, master=0.85, critical=2)
    assert with_two.false_pass < without.false_pass
    assert with_two.false_fail > without.false_fail


@pytest.mark.parametrize("limit", [0.20, 0.10, 0.05])
def test_no_shorter_test_does(limit: float) -> None:
    found = shortest_test(0.60, 0.85, most_false_pass=limit, most_false_fail=limit)
    for items in range(1, found.items):
        for cut in range(items + 1):
            rates = error_rates(items, cut, non_master=0.60, master=0.85)
            assert rates.false_pass > limit or rates.false_fail > limit


def test_of_several_cuts_the_highest_is_taken() -> None:
    found = shortest_test(0.2, 0.9, most_false_pass=0.3, most_false_fail=0.3)
    assert (found.items, found.cut) == (1, 1)
    found = shortest_test(0.1, 0.99, most_false_pass=0.02, most_false_fail=0.5)
    assert (found.items, found.cut) == (2, 2)


def test_what_no_test_can_tell_apart_is_said() -> None:
    with pytest.raises(
        QuizError, match=r"no test of up to 20 items tells 0.8 from 0.81 with at most 0.05 false passes"
    ):
        shortest_test(0.80, 0.81, most_false_pass=0.05, most_false_fail=0.05, longest=20)


def test_numbers_that_do_not_fit_are_refused() -> None:
    with pytest.raises(QuizError, match="got 11 of 10"):
        pass_chance(10, 11, 0.5)
    with pytest.raises(QuizError, match="expected a chance from 0 to 1, got 25"):
        pass_chance(10, 5, 25)
    with pytest.raises(QuizError, match="expected a chance from 0 to 1, got 4"):
        guessing_chance([4], 1)
    with pytest.raises(QuizError, match="expected from 0 to 10 critical items, got 11"):
        pass_chance(10, 5, 0.5, critical=11)
    with pytest.raises(QuizError, match=r"expected a master above a non-master, got 0.6 and 0.85"):
        error_rates(10, 8, non_master=0.85, master=0.6)
