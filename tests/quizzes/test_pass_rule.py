"""The chance to pass under a whole rule, against scipy, against trying every answer, and against its own limits."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binom, poisson_binom

from tinwright.errors import QuizError
from tinwright.quizzes.pass_rule import AreaRule, PassRule, all_tries, chances_at, pass_chances, right_counts

chances = st.floats(0.02, 0.98)


@given(st.lists(chances, min_size=1, max_size=30))
def test_the_number_right_is_scipys_poisson_binomial(own: list[float]) -> None:
    expected = poisson_binom.pmf(range(len(own) + 1), own)
    assert right_counts(own) == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize(("items", "cut", "right"), [(30, 23, 0.60), (30, 23, 0.85), (36, 27, 0.60), (20, 1, 0.1)])
def test_without_areas_and_with_items_alike_it_is_scipys_binomial(items: int, cut: int, right: float) -> None:
    found = pass_chances([right] * items, PassRule(items, cut))
    assert found.at_once == found.same_day == pytest.approx(binom.sf(cut - 1, items, right), abs=1e-12)


@given(st.lists(chances, min_size=7, max_size=7), st.integers(0, 7), st.integers(0, 2), st.integers(0, 3))
def test_it_is_what_trying_every_answer_to_both_tries_comes_to(
    own: list[float], cut: int, one: int, other: int
) -> None:
    """Two areas of 2 and 3 items; the second try has as many. 2^7 first answers by 2^5 second ones."""
    rule = PassRule(7, cut, (AreaRule((0, 3), one), AreaRule((1, 2, 6), other)))
    again = [[own[0], own[3]], [own[1], own[2], own[6]]]
    at_once = same_day = 0.0
    for first in itertools.product((0, 1), repeat=7):
        chance = math.prod(own[place] if right else 1 - own[place] for place, right in enumerate(first))
        enough = sum(first) >= cut
        missed = [sum(first[place] for place in area.places) < area.right for area in rule.areas]
        at_once += chance * (enough and not any(missed))
        for second in itertools.product((0, 1), repeat=5):
            weight = math.prod(p if right else 1 - p for p, right in zip([*again[0], *again[1]], second, strict=True))
            repaired = [sum(second[:2]) >= one, sum(second[2:]) >= other]
            passed = enough and all(good or not bad for bad, good in zip(missed, repaired, strict=True))
            same_day += chance * weight * passed
    found = pass_chances(own, rule)
    assert found.at_once == pytest.approx(at_once, abs=1e-9)
    assert found.same_day == pytest.approx(same_day, abs=1e-9)


def test_the_rule_that_sent_every_second_good_volunteer_home() -> None:
    """30 items, cut 18, all of 5 critical ones right: 0.85^5 = 0.4437 pass, so 56 of 100 fail."""
    rule = PassRule(30, 18, (AreaRule((0, 1, 2, 3, 4), 5),))
    assert 1 - pass_chances([0.85] * 30, rule).at_once == pytest.approx(0.556, abs=0.001)


@given(st.lists(st.floats(0.05, 0.95), min_size=2, max_size=20), st.floats(0.1, 0.9))
def test_somebody_of_a_share_earns_that_share_and_hard_items_stay_hard(rated: list[float], share: float) -> None:
    moved = chances_at(rated, share)
    assert sum(moved) / len(moved) == pytest.approx(share, abs=1e-9)
    for (one, before), (other, after) in itertools.pairwise(sorted(zip(rated, moved, strict=True))):
        assert one == other or before <= after


def test_several_sittings_are_one_less_failing_all_of_them() -> None:
    assert all_tries(0.04, 2) == pytest.approx(0.0784)
    assert all_tries(0.3, 1) == pytest.approx(0.3)


@pytest.mark.parametrize(
    "make",
    [
        lambda: PassRule(3, 4),
        lambda: PassRule(3, 1, (AreaRule((0, 3), 1),)),
        lambda: PassRule(3, 1, (AreaRule((0,), 1), AreaRule((0,), 1))),
        lambda: PassRule(3, 1, (AreaRule((0,), 2),)),
        lambda: pass_chances([0.5], PassRule(2, 1)),
        lambda: pass_chances([0.5, 1.5], PassRule(2, 1)),
        lambda: pass_chances([0.5, 0.5], PassRule(2, 1, (AreaRule((0,), 1),)), second=[]),
        lambda: chances_at([], 0.5),
        lambda: chances_at([0.5], 1.0),
    ],
)
def test_numbers_that_do_not_fit_are_refused(make: object) -> None:
    with pytest.raises(QuizError):
        make()  # type: ignore[operator]
