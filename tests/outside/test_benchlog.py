"""Control charts, sampling and the cumulative sum against published tables and against scipy."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from scipy import integrate, stats

from tinwright.benchlog.charts import D2, D3, RUN_RULE, limits_of
from tinwright.benchlog.early_warning import PLANS, walk
from tinwright.benchlog.sampling import (
    chance_of_passing,
    chance_of_passing_stream,
    most_bad,
    most_bad_share,
    to_check,
)

# NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.1, table of factors: n, A2, D3, D4.
NIST_FACTORS = [
    (2, 1.880, 0, 3.267),
    (3, 1.023, 0, 2.575),
    (4, 0.729, 0, 2.282),
    (5, 0.577, 0, 2.115),
    (6, 0.483, 0, 2.004),
    (7, 0.419, 0.076, 1.924),
    (8, 0.373, 0.136, 1.864),
    (9, 0.337, 0.184, 1.816),
    (10, 0.308, 0.223, 1.777),
]


def moments_of_range(n: int) -> tuple[float, float]:
    """Mean and standard deviation of the range of n standard normal values, by numeric integration."""

    def tail(low: float, high: float) -> float:
        return (
            1
            - stats.norm.cdf(high) ** n
            - (1 - stats.norm.cdf(low)) ** n
            + (stats.norm.cdf(high) - stats.norm.cdf(low)) ** n
        )

    mean = integrate.quad(lambda x: 1 - stats.norm.cdf(x) ** n - (1 - stats.norm.cdf(x)) ** n, -8, 8)[0]
    square = 2 * integrate.dblquad(tail, -8, 8, -8, lambda high: high, epsabs=1e-8)[0]
    return mean, math.sqrt(square - mean**2)


@pytest.mark.parametrize(("n", "a2", "lower", "upper"), NIST_FACTORS[:1] + NIST_FACTORS[3:4] + NIST_FACTORS[-1:])
def test_nist_6_3_2_1_factors_follow_from_the_range_of_normal_values(
    n: int, a2: float, lower: float, upper: float
) -> None:
    mean, spread = moments_of_range(n)
    assert round(3 / (mean * math.sqrt(n)), 3) == pytest.approx(a2, abs=1.1e-3)
    assert max(0, 1 - 3 * spread / mean) == pytest.approx(lower, abs=6e-4)
    assert 1 + 3 * spread / mean == pytest.approx(upper, abs=6e-4)
    if n == 2:
        assert (pytest.approx(mean, abs=1e-7), pytest.approx(spread, abs=1e-7)) == (D2, D3)


def test_d2_and_d3_of_two_are_the_moments_of_the_studentized_range_too() -> None:
    above = stats.studentized_range(2, 1e6).sf
    assert integrate.quad(above, 0, 12)[0] == pytest.approx(D2, abs=1e-4)
    assert pytest.approx(NIST_FACTORS[0][3], abs=6e-4) == 1 + 3 * D3 / D2
    assert pytest.approx(2.66, abs=6e-3) == 3 / D2  # E2, as printed in the common tables


def test_nist_6_3_2_2_individuals_chart_of_flow_rates() -> None:
    # NIST/SEMATECH e-Handbook 6.3.2.2. The limits were read (mean moving range 1.8778, limits 55.8041 and 45.8159, with
    # d2 rounded to 1.128); the ten rates are from memory, not seen, and reproduce them.
    limits = limits_of([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1])
    assert limits.center == pytest.approx(50.81)
    assert limits.range_center == pytest.approx(1.8778, abs=5e-5)
    assert limits.center + 3 * limits.range_center / 1.128 == pytest.approx(55.8041, abs=5e-5)
    assert limits.center - 3 * limits.range_center / 1.128 == pytest.approx(45.8159, abs=5e-5)
    assert limits.upper == pytest.approx(55.8024, abs=5e-5)  # with d2 itself


def test_sas_qc_example_9_4_individuals_chart_of_tires() -> None:
    # SAS/QC User's Guide, MACONTROL procedure, Example 9.4, 30 tire weights: data and limits as printed there.
    tires = [24.05, 23.99, 23.95, 23.93, 23.97, 24.02, 24.06, 24.10, 23.98, 24.03, 23.91, 24.06, 24.06, 23.96, 23.98]
    tires += [24.06, 24.01, 24.00, 23.93, 23.92, 24.09, 24.11, 24.05, 23.98, 23.98, 24.06, 24.02, 24.06, 23.97, 23.96]
    limits = limits_of(tires)
    assert (round(limits.lower, 4), round(limits.center, 4), round(limits.upper, 4)) == (23.8571, 24.0083, 24.1596)
    assert (round(limits.range_center, 6), round(limits.range_upper, 5)) == (0.056897, 0.18585)
    assert round(limits.range_center / D2, 6) == 0.050423


def test_the_run_rule_is_the_one_of_western_electric() -> None:
    # Western Electric, Statistical Quality Control Handbook (1956): eight successive points on one side of the center
    # line. Nelson, Journal of Quality Technology 16 (1984) 237, asks for nine: hence name and length together.
    assert (RUN_RULE.name, RUN_RULE.length) == ("Western Electric", 8)
    # By chance alone eight in a row fall on one side 2 * (1/2)^8 of the time: about 1 in 128 groups of eight.
    assert 2 * stats.binom.pmf(8, 8, 0.5) == pytest.approx(1 / 128)


@pytest.mark.parametrize("lot", [5, 24, 60])
def test_chances_agree_with_scipy(lot: int) -> None:
    for bad in range(0, lot + 1, 3):
        for checked in range(0, lot + 1, 2):
            for allowed in (0, 1, 3):
                expected = stats.hypergeom.cdf(allowed, lot, bad, checked)
                assert chance_of_passing(lot, bad, checked, allowed) == pytest.approx(expected, abs=1e-12)
                expected = stats.binom.cdf(allowed, checked, bad / lot)
                assert chance_of_passing_stream(bad / lot, checked, allowed) == pytest.approx(expected, abs=1e-12)


def test_nist_6_2_3_2_operating_characteristic_of_52_and_3() -> None:
    # NIST/SEMATECH e-Handbook 6.2.3.2: Pa for n = 52, c = 3 at 1 to 12 percent. Printed values from memory, not seen;
    # two of them (.845 and .739) are off by one in the last place against exact sums.
    printed = [0.998, 0.980, 0.930, 0.845, 0.739, 0.620, 0.502, 0.394, 0.300, 0.223, 0.162, 0.115]
    for percent, expected in enumerate(printed, 1):
        assert chance_of_passing_stream(percent / 100, 52, 3) == pytest.approx(expected, abs=1.1e-3)
        assert chance_of_passing(10_000, percent * 100, 52, 3) == pytest.approx(expected, abs=1.6e-3)


# MIL-STD-105E (1989), table I (level II) and table II-A: lot sizes, sample, and the AQL at which it accepts on 0.
MIL_STD_105E = [(8, 2, 6.5), (15, 3, 4.0), (25, 5, 2.5), (50, 8, 1.5), (90, 13, 1.0), (150, 20, 0.65)]
# The same tables, code letters J, K, L: sample, AQLs, rejection numbers.
MIL_STD_105E_LARGE = [
    (80, (0.65, 1.0, 1.5, 2.5, 4.0, 6.5, 10.0), (2, 3, 4, 6, 8, 11, 15)),
    (125, (0.65, 1.0, 1.5, 2.5, 4.0, 6.5), (3, 4, 6, 8, 11, 15)),
    (200, (0.65, 1.0, 1.5, 2.5, 4.0), (4, 6, 8, 11, 15)),
]


def test_mil_std_105e_small_samples_accept_at_their_aql_and_catch_little() -> None:
    for lot, checked, aql in MIL_STD_105E:
        assert 0.85 < chance_of_passing_stream(aql / 100, checked) < 0.91
        # What such a sample is not: enough to catch one bad can in ten.
        assert checked <= to_check(lot)
        assert chance_of_passing_stream(0.1, checked) > 0.1


def test_mil_std_105e_large_samples_accept_at_their_aql() -> None:
    for checked, levels, rejections in MIL_STD_105E_LARGE:
        for aql, rejection in zip(levels, rejections, strict=False):
            assert 0.89 < chance_of_passing_stream(aql / 100, checked, rejection - 1) < 1


# 7 CFR 42.109, table I, single sampling, normal inspection: sample, then acceptance numbers at AQL .25, 1.5, 6.5, 2.5, 10.
CFR_42_109 = [
    (84, (0, 3, 9, 4, 13)),
    (168, (1, 5, 16, 7, 23)),
    (315, (2, 8, 28, 13, 41)),
    (500, (3, 12, 42, 18, 62)),
    (800, (4, 18, 64, 27, 95)),
]


def test_7_cfr_42_109_accepts_about_95_percent_at_the_quality_level() -> None:
    # 7 CFR 43.102: "about 95 percent" at the AQL; 84 cans with none allowed at .25 percent are the exception.
    for checked, accepted in CFR_42_109:
        for aql, allowed in zip((0.25, 1.5, 6.5, 2.5, 10.0), accepted, strict=True):
            chance = chance_of_passing_stream(aql / 100, checked, allowed)
            if allowed == 0:
                assert chance == pytest.approx(0.81, abs=5e-3)
            else:
                assert 0.93 <= chance <= 0.975


def test_7_cfr_52_38_plans_accept_about_95_percent_at_6_5() -> None:
    # 7 CFR 52.38 and 52.38c: sample and acceptance number (21/3 and 29/4 from memory, not seen). 52.38a says 95
    # percent; that these plans are for an AQL of 6.5 is inferred.
    for checked, allowed in [(6, 1), (13, 2), (21, 3), (29, 4), (38, 5), (48, 6), (60, 7)]:
        assert chance_of_passing_stream(0.065, checked, allowed) == pytest.approx(0.956, abs=0.01)


def test_rule_of_three_and_the_exact_bound() -> None:
    # Hanley and Lippman-Hand, JAMA 249 (1983) 1743 (from memory, not seen); Jovanovic and Levy, The American
    # Statistician 51 (1997) 137: 3/n against 1 - .05^(1/n).
    for checked in (14, 30, 60, 100, 300):
        exact = stats.binomtest(0, checked).proportion_ci(confidence_level=0.90, method="exact").high
        assert most_bad_share(checked) == pytest.approx(exact, abs=1e-9)
        assert most_bad_share(checked) <= 3 / checked <= 1.12 * most_bad_share(checked)


def test_zero_bad_in_a_small_lot_has_an_exact_bound() -> None:
    for lot in (6, 24, 50):
        for checked in range(1, lot):
            bad = most_bad(lot, checked)
            assert stats.hypergeom.pmf(0, lot, bad + 1, checked) <= 0.05 + 1e-12
            assert bad == 0 or stats.hypergeom.pmf(0, lot, bad, checked) > 0.05
            assert bad <= math.floor(most_bad_share(checked) * lot)


def test_cans_to_check_with_none_allowed() -> None:
    # n = ln(1 - confidence) / ln(1 - p), rounded up: 59, 299, 22, 29, 90, as in any table of "success runs".
    for confidence, share, expected in [
        (0.95, 0.05, 59),
        (0.95, 0.01, 299),
        (0.9, 0.1, 22),
        (0.95, 0.1, 29),
        (0.99, 0.05, 90),
    ]:
        checked = next(n for n in range(1, 400) if chance_of_passing_stream(share, n) <= 1 - confidence)
        assert checked == expected
        assert most_bad_share(checked, confidence) <= share < most_bad_share(checked - 1, confidence)
    # Small lots, one bad in ten to be caught with 95 percent: hypergeometric, worked out with scipy.
    assert [to_check(lot) for lot in (10, 20, 24, 50, 100)] == [10, 16, 19, 22, 25]


def test_two_cans_checked_prove_little() -> None:
    # Lot of 24 with 2 bad: the chance to miss both, worked out with scipy.
    assert [round(chance_of_passing(24, 2, checked), 3) for checked in (1, 2, 3, 5, 8)] == [
        0.917,
        0.837,
        0.761,
        0.62,
        0.435,
    ]


# 7 CFR 42.133: AQL, then T, L, S for normal, tightened and reduced inspection.
CFR_42_133 = {
    "0.25": [(".05", ".95", ".35"), (".1", ".9", ".3"), ("0", "0", "0")],
    "1.5": [(".5", "2", "1"), (".8", "1.6", ".4"), (".5", ".5", "0")],
    "6.5": [("2", "3", "1"), ("2.5", "3", "1"), ("1", "2", "1")],
}


@pytest.mark.parametrize("aql", CFR_42_133)
def test_7_cfr_42_133_parameters(aql: str) -> None:
    for stage, row in zip(("normal", "tightened", "reduced"), CFR_42_133[aql], strict=True):
        plan = PLANS[aql, stage]
        assert (plan.tolerance, plan.limit, plan.start) == tuple(Fraction(value) for value in row)


def test_7_cfr_42_132_walk() -> None:
    # 7 CFR 42.132: start at S, add defects, take off T, accept up to L, then set back to 0 or to L. The walk is our own,
    # derived from these rules by hand: AQL 1.5, normal.
    steps = walk([0, 1, 0, 2, 1, 0, 0, 3, 0], PLANS["1.5", "normal"])
    assert [float(step.total) for step in steps] == [0.5, 1.0, 0.5, 2.0, 2.5, 1.5, 1.0, 3.5, 1.5]
    assert [step.warns for step in steps] == [False, False, False, False, True, False, False, True, False]
    assert [float(step.total) for step in walk([0, 0, 0, 0], PLANS["1.5", "normal"])] == [0.5, 0.0, -0.5, -0.5]


def test_the_sums_stay_exact() -> None:
    # .35 + 12 * (1 - .05) - ... in binary fractions would drift across the limit.
    steps = walk([0] * 7 + [1], PLANS["0.25", "normal"])
    assert [step.total for step in steps][-1] == Fraction("0.95")
    assert not steps[-1].warns
