from __future__ import annotations

from math import asin, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tinwright.errors import QuizError
from tinwright.quizzes.decisions import (
    TrueScores,
    decide,
    effective_length,
    fit_true_scores,
    livingston_k2,
    normal_consistency,
    phi_lambda,
)

shapes = st.floats(0.05, 2000)


@given(reliability=st.floats(0, 1))
def test_at_the_cut_agreement_follows_from_the_arc_sine(reliability: float) -> None:
    # exact: two correlated normals agree in sign with chance 1/2 + arcsin(r)/pi
    found = normal_consistency(15.5, 3, reliability, 16)
    assert found.agreement == pytest.approx(0.5 + asin(reliability) / pi, abs=1e-9)


@given(z=st.floats(-4, 4))
def test_no_reliability_agrees_by_chance_alone_and_full_reliability_always(z: float) -> None:
    none, full = (normal_consistency(0.5 - z, 1, reliability, 1) for reliability in (0, 1))
    assert none.agreement == pytest.approx(none.chance, abs=1e-12)
    assert full.agreement == pytest.approx(1, abs=1e-12)
    if full.kappa.value is not None:
        assert full.kappa.value == pytest.approx(1, abs=1e-6)


@settings(deadline=None)
@given(a=shapes, b=shapes, items=st.integers(2, 60), data=st.data())
def test_the_four_decisions_are_shares_of_everybody(a: float, b: float, items: int, data: st.DataObject) -> None:
    cut = data.draw(st.integers(1, items))
    found = decide(TrueScores(a, b), items=items, cut=cut)
    parts = (found.true_pass, found.false_fail, found.false_pass, found.true_fail)
    assert sum(parts) == pytest.approx(1, abs=1e-9)
    assert all(part >= -1e-9 for part in parts)
    assert found.consistency.chance - 1e-9 <= found.consistency.agreement <= 1 + 1e-9


def test_a_longer_examination_decides_better() -> None:
    short, long = (decide(TrueScores(6, 2), items=items, cut=items * 4 // 5) for items in (10, 100))
    assert long.accuracy > short.accuracy
    assert long.consistency.agreement > short.consistency.agreement


def test_a_cut_so_high_that_nobody_passes_has_no_kappa() -> None:
    found = normal_consistency(5, 0.1, 0.5, 40)
    assert (found.kappa.value, found.kappa.reason) == (None, "everybody passes, or nobody does")
    assert found.agreement == 1


def test_a_cut_in_the_very_middle_halves_the_people() -> None:
    # the two halves meet at one rank, but for rounding; an examination of two items is even to both sides
    found = decide(TrueScores(1.5, 1.5), items=2, cut=1)
    assert found.true_pass + found.false_fail == pytest.approx(0.5, abs=1e-9)
    assert found.false_pass + found.true_fail == pytest.approx(0.5, abs=1e-9)


def test_a_cut_below_every_true_score_makes_everybody_able() -> None:
    found = decide(TrueScores(5, 3, low=0.6), items=20, cut=10)
    assert found.false_pass == found.true_fail == 0


def test_the_boundary_lies_half_an_item_below_the_cut_on_the_effective_length() -> None:
    # 15.5 of 20 is 31 of 40: 31 passes, as a plain share of 0.8 would not have it
    true = TrueScores(5, 3)
    longer = decide(true, items=20, cut=16, length=40.2)
    same = decide(true, items=40, cut=32)
    nearer = decide(true, items=40, cut=31)
    assert longer.true_pass + longer.false_pass == pytest.approx(nearer.true_pass + nearer.false_pass, abs=1e-9)
    assert longer.true_pass + longer.false_fail == pytest.approx(same.true_pass + same.false_fail, abs=1e-9)


@given(share=st.floats(0.05, 0.95), reliability=st.floats(0.05, 0.95), spread=st.floats(0.01, 0.5))
def test_fitted_true_scores_keep_the_mean_and_the_reliable_variance(
    share: float, reliability: float, spread: float
) -> None:
    variance = spread * share * (1 - share) * 400
    fitted = fit_true_scores(20 * share, variance, reliability, greatest=20)
    total = fitted.alpha + fitted.beta
    assert fitted.alpha / total == pytest.approx(share)
    expected = fitted.alpha * fitted.beta / (total**2 * (total + 1))
    assert expected * 400 == pytest.approx(reliability * variance)


@given(length=st.integers(5, 80), share=st.floats(0.2, 0.8), total=st.floats(1, 30))
def test_the_effective_length_of_a_binomial_test_is_its_own(length: int, share: float, total: float) -> None:
    # a beta-binomial score has variance n p q (1 + (n - 1) rho) with rho = 1 / (total + 1), and its reliability is KR-21
    rho = 1 / (total + 1)
    variance = length * share * (1 - share) * (1 + (length - 1) * rho)
    reliability = length * rho / (1 + (length - 1) * rho)
    found = effective_length(length * share, variance, reliability, greatest=length)
    assert found == pytest.approx(length, rel=1e-6)


@given(reliability=st.floats(0, 1), variance=st.floats(0.1, 50), mean=st.floats(0, 30), cut=st.floats(0, 30))
def test_livingstons_index_lies_between_the_reliability_and_1(
    reliability: float, variance: float, mean: float, cut: float
) -> None:
    assert reliability - 1e-12 <= livingston_k2(mean, variance, reliability, cut) <= 1 + 1e-12


def test_what_does_not_fit_is_refused() -> None:
    for refused, message in [
        (lambda: normal_consistency(14, 0, 0.7, 16), "everybody has the same score"),
        (lambda: normal_consistency(14, 2, 1.7, 16), "needs a reliability from 0 to 1, has 1.70"),
        (lambda: effective_length(14, 6, 1, greatest=20), "needs a reliability from 0 to below 1, has 1.00"),
        (lambda: effective_length(14, 0, 0.7, greatest=20), "scores that differ"),
        (lambda: effective_length(25, 6, 0.7, greatest=20), "a mean inside the scores possible"),
        (lambda: effective_length(10, 110, 0.7, greatest=20), "spread more than any test"),
        (lambda: fit_true_scores(20, 6, 0.7, greatest=20), "a mean inside the scores possible"),
        (lambda: fit_true_scores(14, 6, 0, greatest=20), "nothing of the spread"),
        (lambda: fit_true_scores(10, 100, 1, greatest=20), "would spread more"),
        (
            lambda: decide(TrueScores(5, 3), items=20, cut=0),
            "expected a cut from 1 to the number of items, got 0 of 20",
        ),
        (lambda: decide(TrueScores(5, 3), items=20, cut=9, length=0.2), "an effective length of one item or more"),
        (lambda: TrueScores(0, 3), "expected shapes above zero"),
        (lambda: TrueScores(1, 3, low=0.9, high=0.2), "expected ends in order"),
        (lambda: livingston_k2(14, -1, 0.7, 14), "a variance of zero or more"),
        (lambda: livingston_k2(14, 0, 0.7, 14), "everybody's score is the cut"),
        (lambda: phi_lambda(1, 0.5, 0.1, 0.5), "needs two items, has 1"),
        (lambda: phi_lambda(10, 1.5, 0.1, 0.5), "expected a mean from 0 to 1"),
        (lambda: phi_lambda(10, 0.5, 0, 0.5), "everybody's score is the cut"),
    ]:
        with pytest.raises(QuizError, match=message):
            refused()
