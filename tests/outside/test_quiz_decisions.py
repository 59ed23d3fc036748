"""Decisions at a cut and the setting of cuts against published tables and general-purpose libraries."""

from __future__ import annotations

import warnings

import numpy as np
import pytest
from scipy import stats

from tinwright.quizzes.decisions import (
    TrueScores,
    decide,
    effective_length,
    normal_consistency,
    phi_lambda,
)
from tinwright.quizzes.simulation import simulate_answers
from tinwright.quizzes.standard_setting import intraclass

# Shrout & Fleiss 1979, Psychological Bulletin 86:420-428, table 2: six targets by four judges.
SHROUT_FLEISS = [[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]]

# Agreement and kappa under the normal approximation by |z| for reliabilities .1 .3 .5 .7 .9 (None where not given):
# scipy.stats.multivariate_normal. The table printed by Subkoviak 1988 was not seen.
NORMAL = {
    0: ([0.53, 0.60, 0.67, 0.75, 0.86], [0.06, 0.19, 0.33, 0.49, 0.71]),
    1: ([0.75, 0.77, 0.81, 0.85, 0.91], None),
    2: ([0.96, 0.96, 0.96, 0.97, 0.98], [0.02, 0.07, 0.16, 0.31, 0.58]),
}
RELIABILITIES = [0.1, 0.3, 0.5, 0.7, 0.9]


def test_normal_approximation_of_a_worked_case() -> None:
    # scipy.stats.multivariate_normal, mean 14, deviation 2.5, reliability .70, cut 16
    found = normal_consistency(14, 2.5, 0.70, 16)
    assert found.agreement == pytest.approx(0.790646, abs=5e-7)
    assert found.kappa.value == pytest.approx(0.474087, abs=5e-7)


@pytest.mark.parametrize("z", NORMAL)
def test_normal_approximation_over_the_table(z: int) -> None:
    agreements, kappas = NORMAL[z]
    found = [normal_consistency(0, 1, reliability, z + 0.5) for reliability in RELIABILITIES]
    assert [round(one.agreement, 2) for one in found] == agreements
    if kappas is not None:
        assert [round(one.kappa.value or 0, 2) for one in found] == kappas


def test_normal_approximation_agrees_with_scipys_bivariate_normal() -> None:
    for z in (-2.3, -0.7, 0.1, 1.4):
        for reliability in (0.05, 0.4, 0.8, 0.99):
            both = stats.multivariate_normal(cov=[[1, reliability], [reliability, 1]]).cdf([z, z])
            found = normal_consistency(0, 1, reliability, z + 0.5)
            assert found.agreement == pytest.approx(1 - 2 * (stats.norm.cdf(z) - both), abs=1e-6)


def test_beta_binomial_decisions_of_the_r_package_betafunctions() -> None:
    # betafunctions 1.9.0: LL.CA(list(l=.25, u=1, alpha=5, beta=3, etl=20), reliability=.8, cut=16, min=0, max=20).
    # It calls a score below the cut a positive; the names here are turned round.
    found = decide(TrueScores(5, 3, low=0.25, high=1), items=20, cut=16)
    assert found.true_pass == pytest.approx(0.232907, abs=5e-7)
    assert found.false_fail == pytest.approx(0.046009, abs=5e-7)
    assert found.false_pass == pytest.approx(0.162778, abs=5e-7)
    assert found.true_fail == pytest.approx(0.558306, abs=5e-7)
    assert found.accuracy == pytest.approx(0.7912132, abs=5e-8)
    assert found.consistency.agreement == pytest.approx(0.7296421, abs=5e-8)
    assert found.consistency.chance == pytest.approx(0.5217633, abs=5e-8)
    assert found.consistency.kappa.value == pytest.approx(0.4346776, abs=5e-8)


def test_effective_length_of_the_r_package_betafunctions() -> None:
    # ETL(14, 6.25, .7, 0, 20)
    assert effective_length(14, 6.25, 0.7, least=0, greatest=20) == pytest.approx(42.46667, abs=5e-6)


def test_the_share_that_passes_is_scipys_beta_binomial() -> None:
    rng = np.random.default_rng(3)
    for _ in range(60):
        a, b = np.exp(rng.uniform(np.log(0.05), np.log(3000), 2)).tolist()
        items = int(rng.integers(1, 120))
        cut = int(rng.integers(1, items + 1))
        found = decide(TrueScores(a, b), items=items, cut=cut)
        expected = stats.betabinom(items, a, b).sf(cut - 1)
        assert found.true_pass + found.false_pass == pytest.approx(expected, abs=1e-8), (a, b, items, cut)


def test_a_cohort_of_known_ability_is_decided_as_the_model_says() -> None:
    people, items, cut = 40_000, 20, 16
    ability = 0.25 + 0.75 * np.random.default_rng(8).beta(5, 3, people)
    chances = np.repeat(ability[:, None], items, axis=1)
    first, second = (simulate_answers(chances, seed).sum(axis=1) >= cut for seed in (1, 2))
    found, able = decide(TrueScores(5, 3, low=0.25), items=items, cut=cut), ability >= cut / items
    for share, expected in [
        (np.mean(first & ~able), found.false_pass),
        (np.mean(~first & able), found.false_fail),
        (np.mean(first == able), found.accuracy),
        (np.mean(first == second), found.consistency.agreement),
    ]:
        assert abs(share - expected) < 4 * (expected * (1 - expected) / people) ** 0.5


@pytest.mark.parametrize(
    ("cut", "expected"), [(0.5, 0.780423), (0.7, 0.692593), (0.8, 0.763533), (0.9, 0.840996), (0.66, 0.684170)]
)
def test_dependability_of_the_ten_by_ten_quiz(cut: float, expected: float) -> None:
    # Wuensch's ten-by-ten quiz: mean 6.6, variance 5.84; a full person by item analysis of variance gave the same
    # digits (project's own, in numpy). At the mean it is KR-21.
    assert phi_lambda(10, 0.66, 0.0584, cut) == pytest.approx(expected, abs=5e-7)


def test_the_six_intraclass_correlations_of_shrout_and_fleiss() -> None:
    # the paper prints .17 .29 .71 .44 .62 .91; R psych::ICC and pingouin gave these digits
    found = intraclass(SHROUT_FLEISS)
    forms = (found.one_way, found.random, found.fixed, found.one_way_mean, found.random_mean, found.fixed_mean)
    printed = [0.17, 0.29, 0.71, 0.44, 0.62, 0.91]
    assert [round(form.value or 0, 2) for form in forms] == printed
    digits = [0.165742, 0.289764, 0.714841, 0.442797, 0.620051, 0.909316]
    assert [form.value for form in forms] == pytest.approx(digits, abs=5e-7)


@pytest.mark.filterwarnings("ignore:The inplace keyword")  # pingouin speaks to pandas in the old way
def test_intraclass_correlations_agree_with_pingouin() -> None:
    with warnings.catch_warnings():
        # its own imports speak of the future of other libraries
        warnings.simplefilter("ignore")
        import pandas as pd
        import pingouin

    rng = np.random.default_rng(6)
    table = np.round(np.clip(rng.beta(5, 2, (15, 1)) + rng.normal(0, 0.08, (15, 5)), 0, 1), 2)
    rows = [(target, judge, table[target, judge]) for target in range(15) for judge in range(5)]
    frame = pd.DataFrame(rows, columns=["target", "judge", "rating"])
    expected = pingouin.intraclass_corr(frame, targets="target", raters="judge", ratings="rating")["ICC"]
    found = intraclass(table)
    forms = (found.one_way, found.random, found.fixed, found.one_way_mean, found.random_mean, found.fixed_mean)
    assert [form.value for form in forms] == pytest.approx(expected.tolist(), abs=1e-9)
