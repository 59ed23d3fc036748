from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tinwright.errors import QuizError
from tinwright.quizzes.standard_setting import intraclass, judge_agreement, set_cut

# made up: three judges, ten items, for the arithmetic alone
RATINGS = [
    [0.90, 0.70, 0.80, 0.50, 0.95, 0.60, 0.75, 0.40, 0.85, 0.65],
    [0.85, 0.60, 0.80, 0.65, 0.90, 0.55, 0.70, 0.50, 0.90, 0.70],
    [0.95, 0.75, 0.70, 0.60, 1.00, 0.50, 0.80, 0.45, 0.80, 0.60],
]


def test_the_panels_cut_is_the_mean_of_the_judges_cuts() -> None:
    # by hand: 7.10, 7.15 and 7.15; their deviation is 0.05 / sqrt(3)
    found = set_cut(RATINGS)
    assert found.judge_cuts == pytest.approx((7.10, 7.15, 7.15))
    assert found.cut == pytest.approx(7.1333, abs=5e-5)
    assert found.deviation.value == pytest.approx(0.05 / 3**0.5)
    assert found.standard_error.value == pytest.approx(0.05 / 3)
    assert found.pass_score == 8
    assert found.item_means[0] == pytest.approx(0.9)
    assert found.item_ranges[:3] == pytest.approx((0.10, 0.15, 0.10))


@pytest.mark.parametrize(
    ("ratings", "needed"),
    [
        ([[0.05, 0.55, 0.3, 0.1]], 1),  # in binary the sum is a little over 1
        ([[0.7] * 10], 7),
        ([[0.1] * 10, [0.3] * 10, [0.2] * 10], 2),
        ([[0.7] * 10 + [0.01]], 8),
        ([[1.0] * 10], 10),
        ([[0.0] * 10], 0),
    ],
)
def test_the_cut_is_rounded_up_to_whole_items(ratings: list[list[float]], needed: int) -> None:
    assert set_cut(ratings).pass_score == needed


@given(hundredths=st.lists(st.integers(0, 100), min_size=1, max_size=60))
def test_rounding_up_is_that_of_exact_hundredths(hundredths: list[int]) -> None:
    assert set_cut([[value / 100 for value in hundredths]]).pass_score == -(-sum(hundredths) // 100)


def test_one_judge_has_no_deviation() -> None:
    found = set_cut(RATINGS[:1])
    assert (found.deviation.value, found.deviation.reason) == (None, "needs two judges, has 1")
    assert found.standard_error.value is None


def test_judges_who_differ_by_a_constant_agree_in_order_and_not_in_level() -> None:
    found = judge_agreement([[0.2, 0.4, 0.6, 0.8], [0.4, 0.6, 0.8, 1.0]])
    assert found.fixed.value == pytest.approx(1)
    assert found.random.value is not None
    assert found.random.value < 1


def test_judges_who_say_the_same_of_everything_have_no_agreement_to_speak_of() -> None:
    found = judge_agreement([[0.5, 0.5], [0.5, 0.5]])
    assert found.random.value is None
    assert found.random.reason == "the targets do not differ"


def test_one_judge_or_one_item_has_no_agreement() -> None:
    found = judge_agreement([[0.5, 0.6]])
    assert found.fixed_mean.reason == "needs two targets and two judges, has 2 and 1"


def test_what_does_not_fit_is_refused() -> None:
    for ratings, message in [
        ([[0.5, 0.6], [0.5]], "expected a table of ratings, judges by items, all rows of one length"),
        ([[0.5, 60]], "expected ratings from 0 to 1, got 60 of judge 1 for item 2"),
        ([[0.5, None]], "expected ratings from 0 to 1, got nan of judge 1 for item 2"),
        ([[]], "got an empty one"),
        ([0.5], "got something else"),
    ]:
        with pytest.raises(QuizError, match=message):
            set_cut(ratings)  # type: ignore[arg-type]
    with pytest.raises(QuizError, match="expected a rating of every target by every judge"):
        intraclass([[1, None], [2, 3]])  # type: ignore[list-item]
