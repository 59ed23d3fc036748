from __future__ import annotations

from statistics import mean, pvariance, variance

import numpy as np
import pytest

from tinwright.errors import QuizError
from tinwright.quizzes.decision_estimate import estimate_decisions
from tinwright.quizzes.decisions import livingston_k2, normal_consistency, phi_lambda
from tinwright.quizzes.reliability import alpha


def a_cohort(people: int = 200, items: int = 20, seed: int = 1) -> list[list[float]]:
    rng = np.random.default_rng(seed)
    table: list[list[float]] = (rng.random((people, items)) < rng.beta(6, 3, (people, 1))).astype(float).tolist()
    return table


def test_the_estimate_is_the_formulas_on_the_totals() -> None:
    table = a_cohort()
    totals = [sum(row) for row in table]
    found, r = estimate_decisions(table, 15), alpha(table)
    assert found.reason == ""
    assert found.passed == sum(total >= 15 for total in totals)
    assert found.normal is not None
    expected = normal_consistency(mean(totals), variance(totals) ** 0.5, r, 15).agreement
    assert found.normal.agreement == pytest.approx(expected)
    assert found.livingston.value == pytest.approx(livingston_k2(mean(totals), variance(totals), r, 15))
    expected = phi_lambda(20, mean(totals) / 20, pvariance(totals) / 400, 0.75)
    assert found.dependability.value == pytest.approx(expected)


def test_a_large_cohort_of_known_ability_is_recovered() -> None:
    rng = np.random.default_rng(4)
    ability = rng.beta(6, 3, 20_000)
    first, second = (rng.random((20_000, 40)) < ability[:, None] for _ in range(2))
    found = estimate_decisions(first, 28).beta_binomial
    passed, again, able = first.sum(axis=1) >= 28, second.sum(axis=1) >= 28, ability >= 0.7
    assert found is not None
    # the fit is to estimated moments: one in a hundred is what a cohort of this size leaves open
    assert found.accuracy == pytest.approx(np.mean(passed == able), abs=0.01)
    assert found.consistency.agreement == pytest.approx(np.mean(passed == again), abs=0.01)
    assert found.false_pass == pytest.approx(np.mean(passed & ~able), abs=0.01)


def test_too_few_people_give_nothing_but_how_many_it_takes() -> None:
    found = estimate_decisions(a_cohort(29), 15)
    assert (found.normal, found.beta_binomial) == (None, None)
    for reason in (found.reason, found.livingston.reason, found.dependability.reason):
        assert reason == "needs 30 people, has 29"
    assert estimate_decisions(a_cohort(30), 15).normal is not None


def test_a_form_without_reliability_has_no_decisions_to_trust() -> None:
    found = estimate_decisions([[1, 0, 0], [0, 1, 0], [1, 1, 0], [0, 0, 1]] * 10, 2)
    assert (found.normal, found.beta_binomial) == (None, None)
    assert found.reason.startswith("needs a reliability from 0 to 1, has -")
    assert found.livingston.value is None
    assert estimate_decisions([[1, 0], [0, 1]] * 20, 2).reason == "everybody has the same total"


def test_part_credit_counts_towards_the_cut_and_has_no_dependability() -> None:
    table = [[*row[:17], 0.1, 0.2, 0.7] for row in a_cohort()]
    found = estimate_decisions(table, 15)
    assert found.passed == sum(sum(row[:17]) >= 14 for row in table)
    assert found.dependability.value is None
    assert found.normal is not None


def test_a_cut_outside_the_form_is_refused() -> None:
    with pytest.raises(QuizError, match="expected a cut from 1 to the number of items, got 21 of 20"):
        estimate_decisions(a_cohort(), 21)
