from __future__ import annotations

from statistics import pvariance, stdev

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tinwright.errors import QuizError
from tinwright.quizzes.decisions import phi_lambda
from tinwright.quizzes.reliability import alpha, alpha_interval, estimate_reliability, kr20, kr21, standard_error

right_or_wrong = st.integers(2, 6).flatmap(
    lambda items: st.lists(st.lists(st.integers(0, 1), min_size=items, max_size=items), min_size=2, max_size=12)
)


def a_cohort(people: int = 40, items: int = 10, seed: int = 1) -> list[list[float]]:
    rng = np.random.default_rng(seed)
    return [[float(rng.random() < person / people) for _ in range(items)] for person in range(people)]


@given(table=right_or_wrong)
def test_kr_20_is_alpha_where_items_are_right_or_wrong(table: list[list[int]]) -> None:
    assume(pvariance([sum(row) for row in table]) > 0)
    assert kr20(table) == pytest.approx(alpha(table), abs=1e-9)


@given(table=right_or_wrong)
def test_kr_21_never_exceeds_kr_20(table: list[list[int]]) -> None:
    totals = [sum(row) for row in table]
    assume(pvariance(totals) > 0)
    assert kr21(len(table[0]), sum(totals) / len(totals), pvariance(totals)) <= kr20(table) + 1e-9


@given(table=right_or_wrong)
def test_dependability_at_the_mean_is_kr_21(table: list[list[int]]) -> None:
    items, shares = len(table[0]), [sum(row) / len(row) for row in table]
    assume(pvariance(shares) > 0)
    mean, variance = sum(shares) / len(shares), pvariance(shares)
    expected = kr21(items, mean * items, variance * items**2)
    assert phi_lambda(items, mean, variance, mean) == pytest.approx(expected, abs=1e-9)


def test_copies_of_one_item_are_wholly_reliable() -> None:
    assert alpha([[1, 1, 1], [0, 0, 0], [0.5, 0.5, 0.5]]) == pytest.approx(1)


def test_enough_people_give_everything() -> None:
    table = a_cohort()
    found = estimate_reliability(table)
    totals = [sum(row) for row in table]
    assert (found.people, found.items) == (40, 10)
    assert found.alpha.value == pytest.approx(alpha(table))
    assert found.kr20.value == pytest.approx(found.alpha.value)
    assert found.kr21.value == pytest.approx(kr21(10, sum(totals) / 40, pvariance(totals)))
    assert found.deviation.value == pytest.approx(stdev(totals))
    assert found.interval is not None
    assert found.alpha.value is not None
    assert found.interval.low < found.alpha.value < found.interval.high
    assert found.standard_error.value == pytest.approx(stdev(totals) * (1 - found.alpha.value) ** 0.5)


def test_too_few_people_give_nothing_but_how_many_it_takes() -> None:
    found = estimate_reliability(a_cohort(29))
    for statistic in (found.mean, found.deviation, found.kr20, found.alpha, found.kr21, found.standard_error):
        assert (statistic.value, statistic.reason) == (None, "needs 30 people, has 29")
    assert found.interval is None
    assert estimate_reliability(a_cohort(30)).alpha.value is not None


def test_part_credit_has_alpha_and_no_kr_20() -> None:
    table = a_cohort()
    table[0][0] = 0.5
    found = estimate_reliability(table)
    assert found.alpha.value is not None
    for statistic in (found.kr20, found.kr21):
        assert statistic.value is None
        assert "right or wrong" in statistic.reason


def test_people_who_all_score_alike_have_no_reliability() -> None:
    found = estimate_reliability([[1, 0], [0, 1]] * 20)
    for statistic in (found.alpha, found.kr20, found.kr21, found.standard_error):
        assert (statistic.value, statistic.reason) == (None, "everybody has the same total")
    assert found.interval is None
    assert found.mean.value == 1


def test_a_reliability_below_zero_has_no_standard_error() -> None:
    found = estimate_reliability([[1, 0, 0], [0, 1, 0], [1, 1, 0], [0, 0, 1]] * 10)
    assert found.alpha.value is not None
    assert found.alpha.value < 0
    assert found.standard_error.value is None
    assert "needs a reliability from 0 to 1" in found.standard_error.reason


def test_more_people_narrow_the_interval() -> None:
    few, many = alpha_interval(0.7, 30, 20), alpha_interval(0.7, 300, 20)
    assert many.high - many.low < few.high - few.low


def test_what_does_not_fit_is_refused() -> None:
    with pytest.raises(QuizError, match="one form at a time"):
        alpha([[1, 0, None], [1, 1, 0]])
    with pytest.raises(QuizError, match="expected two people and two items or more, got 1 and 5"):
        alpha_interval(0.7, 1, 5)
    with pytest.raises(QuizError, match="expected a confidence between 0 and 1, got 95"):
        alpha_interval(0.7, 30, 5, 95)
    with pytest.raises(QuizError, match="needs two items, has 1"):
        kr21(1, 0.5, 0.25)
    with pytest.raises(QuizError, match=r"needs a reliability from 0 to 1, has 1.20"):
        standard_error(1, 1.2)
