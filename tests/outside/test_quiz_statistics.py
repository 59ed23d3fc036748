"""Item statistics, reliability and intervals against published data sets, tables and general-purpose libraries."""

from __future__ import annotations

import warnings
from typing import TYPE_CHECKING

import numpy as np
import pytest
from scipy import stats
from statsmodels.stats.proportion import proportion_confint

from tinwright.quizzes.guessing import error_rates, guessing_chance, pass_chance, shortest_test
from tinwright.quizzes.intervals import clopper_pearson, wilson
from tinwright.quizzes.item_statistics import (
    corrected_discriminations,
    difficulties,
    discriminations,
    rest_scores,
    upper_lower,
)
from tinwright.quizzes.option_statistics import analyse_options
from tinwright.quizzes.reliability import alpha, alpha_interval, kr20, kr21, standard_error

if TYPE_CHECKING:
    from types import ModuleType

    from tinwright.quizzes.statistic import Statistic

# Five items of the Law School Admission Test, section 6: Bock & Lieberman 1970, as in the R package psych (bock) and in
# a published worked example (read). Pattern of right and wrong answers: people.
LSAT6 = """
00000:3 00001:6 00010:2 00011:11 00100:1 00101:1 00110:3 00111:4 01000:1 01001:8 01011:16 01101:3 01110:2 01111:15
10000:10 10001:29 10010:14 10011:81 10100:3 10101:28 10110:15 10111:80 11000:16 11001:56 11010:21 11011:173 11100:11
11101:61 11110:28 11111:298
"""

# Ten students, ten items: K. L. Wuensch, The Kuder-Richardson 20, East Carolina University (read, whole matrix).
TEN_BY_TEN = """
1111110110 1011011101 1111011001 0010001000 0000010010 1110111111 1101110111 1111111101 0101111101 1101101110
"""


@pytest.fixture
def pingouin() -> ModuleType:
    with warnings.catch_warnings():
        # its own imports speak of the future of other libraries
        warnings.simplefilter("ignore")
        import pingouin
    return pingouin


def lsat6() -> list[list[int]]:
    pairs = [pair.split(":") for pair in LSAT6.split()]
    return [[int(right) for right in pattern] for pattern, people in pairs for _ in range(int(people))]


def ten_by_ten() -> list[list[int]]:
    return [[int(right) for right in row] for row in TEN_BY_TEN.split()]


def values(found: tuple[Statistic, ...]) -> list[float | None]:
    return [statistic.value for statistic in found]


def test_lsat6_item_statistics_are_those_of_two_r_packages() -> None:
    # R psych::alpha and psychometric::item.exam printed these alike
    table = lsat6()
    assert len(table) == 1000
    assert values(difficulties(table)) == pytest.approx([0.924, 0.709, 0.553, 0.763, 0.870])
    assert values(discriminations(table)) == pytest.approx([0.362010, 0.566772, 0.618440, 0.534418, 0.435366], abs=5e-7)
    corrected = [0.112833, 0.153178, 0.172779, 0.144428, 0.121596]
    assert values(corrected_discriminations(table)) == pytest.approx(corrected, abs=5e-7)


def test_lsat6_upper_and_lower_thirds_lie_between_the_ways_to_break_their_ties() -> None:
    # R psychometric::discrim takes 333 people from each end and breaks ties by the order of the rows; it printed these.
    published = [0.1832, 0.6336, 0.8198, 0.4745, 0.1862]
    table = sorted(lsat6(), key=sum)
    third = len(table) // 3
    by_row_order = np.mean(table[-third:], axis=0) - np.mean(table[:third], axis=0)
    assert by_row_order.tolist() == pytest.approx(published, abs=5e-5)
    # Ours is the mean over the orders of those who tie: it differs by less than the spread over some orders.
    rng = np.random.default_rng(1)
    shuffled = []
    for _ in range(400):
        ranked = sorted(rng.permutation(table).tolist(), key=sum)
        shuffled.append(np.mean(ranked[-third:], axis=0) - np.mean(ranked[:third], axis=0))
    found = values(upper_lower(table, 1 / 3))
    errors = np.std(shuffled, axis=0) / 20
    assert np.abs(np.mean(shuffled, axis=0) - found) == pytest.approx(np.zeros(5), abs=float(4 * errors.max()))


def test_lsat6_reliability_is_that_of_r_psych() -> None:
    table = lsat6()
    totals = np.sum(table, axis=1)
    assert totals.mean() == 3.819
    assert totals.std(ddof=1) == pytest.approx(1.035041, abs=5e-7)
    assert alpha(table) == pytest.approx(0.2949972, abs=5e-8)
    assert kr20(table) == pytest.approx(0.2949972, abs=5e-8)
    assert kr21(5, 3.819, float(totals.var())) == pytest.approx(0.1964412, abs=5e-8)
    # psychometric::SE.Meas(1.035041, .2949972)
    assert standard_error(1.035041, 0.2949972) == pytest.approx(0.8690664, abs=5e-8)


def test_ten_by_ten_has_the_published_totals_shares_and_variance() -> None:
    table = ten_by_ten()
    assert [sum(row) for row in table] == [8, 7, 7, 2, 2, 9, 8, 9, 7, 7]
    assert values(difficulties(table)) == pytest.approx([0.7, 0.7, 0.6, 0.7, 0.6, 0.8, 0.7, 0.7, 0.5, 0.6])
    assert np.sum(table, axis=1).var() == pytest.approx(5.84)


def test_ten_by_ten_keeps_clear_of_the_divisor_trap() -> None:
    # by hand from the published figures: sum of p q = 2.18, variance 5.84 (divisor n) gives 10/9 (1 - 2.18/5.84)
    table = ten_by_ten()
    assert kr20(table) == pytest.approx(10 / 9 * (1 - 2.18 / 5.84))
    assert kr20(table) == pytest.approx(0.696347, abs=5e-7)
    # with n - 1 under the totals alone, as some tutorials have it
    trapped = 10 / 9 * (1 - 2.18 / np.sum(table, axis=1).var(ddof=1))
    assert trapped == pytest.approx(0.737823, abs=5e-7)
    assert abs(kr20(table) - trapped) > 0.04
    assert kr21(10, 6.6, 5.84) == pytest.approx(0.684170, abs=5e-7)
    assert standard_error(5.84**0.5, 0.696347) == pytest.approx(1.331666, abs=5e-6)
    assert standard_error((5.84 * 10 / 9) ** 0.5, 0.696347) == pytest.approx(1.403699, abs=5e-6)


def test_ten_by_ten_corrected_discriminations() -> None:
    # computed with numpy.corrcoef from the published matrix; two are negative
    expected = [0.7059, 0.7059, 0, 0.4736, 0.5839, 0.2861, -0.0274, 0.7059, -0.1236, 0.4759]
    assert values(corrected_discriminations(ten_by_ten())) == pytest.approx(expected, abs=5e-5)


def test_alpha_and_its_interval_agree_with_pingouin(pingouin: ModuleType) -> None:
    import pandas as pd

    rng = np.random.default_rng(5)
    for people, items in ((10, 10), (30, 20), (200, 5)):
        table = (rng.random((people, items)) < rng.random((people, 1))).astype(float)
        expected, ends = pingouin.cronbach_alpha(data=pd.DataFrame(table))
        assert alpha(table) == pytest.approx(expected, abs=1e-12)
        interval = alpha_interval(float(expected), people, items)
        assert [interval.low, interval.high] == pytest.approx(list(ends), abs=6e-4)
    expected, ends = pingouin.cronbach_alpha(data=pd.DataFrame(ten_by_ten()))
    assert alpha(ten_by_ten()) == pytest.approx(expected)
    assert list(ends) == pytest.approx([0.309, 0.911])


def test_options_agree_with_scipy_point_biserial() -> None:
    rng = np.random.default_rng(2)
    scores = (rng.random((300, 12)) < rng.random((300, 1))).astype(float)
    rest = rest_scores(scores)[:, 0]
    chosen = np.where(scores[:, 0] == 1, 0, rng.integers(1, 4, 300))
    found = analyse_options(chosen, rest, key=0, options=4)
    for number, option in enumerate(found.options):
        expected = stats.pointbiserialr(chosen == number, rest).statistic
        assert option.correlation.value == pytest.approx(expected, abs=1e-12)
        assert option.share == np.mean(chosen == number)
    assert found.options[0].correlation.value == pytest.approx(corrected_discriminations(scores)[0].value)


# right, of, Wilson, Clopper-Pearson. First four: Newcombe 1998, Statistics in Medicine 17:857-872, table I (values from
# memory, and those of scipy and statsmodels). 23/60: inputs of a published calculator. Rest: scipy and statsmodels.
INTERVALS = [
    (81, 263, (0.2553, 0.3662), (0.2527, 0.3676)),
    (15, 148, (0.0624, 0.1605), (0.0578, 0.1617)),
    (0, 20, (0, 0.1611), (0, 0.1684)),
    (1, 29, (0.0061, 0.1718), (0.0009, 0.1776)),
    (23, 60, (0.2709, 0.5098), (0.2607, 0.5179)),
    (8, 10, (0.4902, 0.9433), (0.4439, 0.9748)),
    (16, 20, (0.5840, 0.9193), (0.5634, 0.9427)),
    (24, 30, (0.6269, 0.9049), (0.6143, 0.9229)),
    (20, 20, (0.8389, 1), (0.8316, 1)),
]


@pytest.mark.parametrize(("right", "of", "score", "exact"), INTERVALS)
def test_published_intervals(right: int, of: int, score: tuple[float, float], exact: tuple[float, float]) -> None:
    for found, expected in ((wilson(right, of), score), (clopper_pearson(right, of), exact)):
        assert (found.low, found.high) == pytest.approx(expected, abs=5e-5)


def test_the_exact_interval_of_the_nist_handbook() -> None:
    # NIST/SEMATECH e-Handbook 7.2.4.1, 4 of 20 at 90 %: 0.071 to 0.401 (from memory, not looked up)
    found = clopper_pearson(4, 20, 0.90)
    assert (round(found.low, 3), round(found.high, 3)) == (0.071, 0.401)


def test_intervals_agree_with_statsmodels_for_every_score_up_to_60() -> None:
    for of in range(1, 61):
        for right in range(of + 1):
            for ours, theirs in ((wilson, "wilson"), (clopper_pearson, "beta")):
                found = ours(right, of)
                low, high = proportion_confint(right, of, 0.05, theirs)
                assert (found.low, found.high) == pytest.approx((low, high), abs=1e-10), (right, of, theirs)


def test_chance_to_pass_agrees_with_scipy() -> None:
    for items in (1, 5, 20, 50):
        for cut in range(items + 1):
            for right in (0.0, 0.25, 0.6, 0.85, 1.0):
                expected = stats.binom.sf(cut - 1, items, right)
                assert pass_chance(items, cut, right) == pytest.approx(expected, rel=1e-9, abs=1e-15)


def test_the_binomial_guessing_table() -> None:
    # computed with scipy.stats.binom; three by hand as well, such as 56 / 1024 for eight of ten true or false
    assert pass_chance(20, 16, 0.25) == pytest.approx(3.865e-7, rel=5e-4)
    assert pass_chance(20, 10, 0.25) == pytest.approx(0.01386, abs=5e-6)
    assert pass_chance(10, 8, 0.5) == pytest.approx(56 / 1024)
    assert pass_chance(10, 8, 0.25) == pytest.approx(4.158e-4, rel=5e-4)
    assert guessing_chance([0.5] * 10, 8) == pytest.approx(56 / 1024)


# items, cut, false pass, false fail for a non-master at .60 and a master at .85: scipy.stats.binom
ERRORS = [
    (10, 8, 0.167, 0.180),
    (15, 12, 0.091, 0.177),
    (20, 15, 0.126, 0.067),
    (20, 16, 0.051, 0.170),
    (25, 20, 0.029, 0.162),
    (30, 23, 0.044, 0.070),
    (40, 30, 0.035, 0.030),
    (50, 38, 0.013, 0.030),
]


@pytest.mark.parametrize(("items", "cut", "false_pass", "false_fail"), ERRORS)
def test_the_table_of_lengths_and_cuts(items: int, cut: int, false_pass: float, false_fail: float) -> None:
    found = error_rates(items, cut, non_master=0.60, master=0.85)
    assert (found.false_pass, found.false_fail) == pytest.approx((false_pass, false_fail), abs=5.1e-4)


@pytest.mark.parametrize(
    ("limit", "items", "cut", "false_pass", "false_fail"),
    [(0.10, 21, 16, 0.0957, 0.0827), (0.05, 33, 25, 0.0444, 0.0495)],
)
def test_the_shortest_tests(limit: float, items: int, cut: int, false_pass: float, false_fail: float) -> None:
    # searched with scipy.stats.binom
    found = shortest_test(0.60, 0.85, most_false_pass=limit, most_false_fail=limit)
    assert (found.items, found.cut) == (items, cut)
    assert (found.rates.false_pass, found.rates.false_fail) == pytest.approx((false_pass, false_fail), abs=5.1e-5)
