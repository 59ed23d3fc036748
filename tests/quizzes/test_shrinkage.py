"""Shares right of few people, against scipy's beta distribution and at its two ends."""

from __future__ import annotations

import pytest
from scipy.stats import beta

from tinwright.errors import QuizError
from tinwright.quizzes.shrinkage import RATING_COUNTS_FOR, shrunk_share


@pytest.mark.parametrize(("right", "people", "rating"), [(0, 3, 0.8), (5, 6, 0.7), (11.5, 12, 0.6), (0, 0, 0.75)])
def test_share_and_interval_are_those_of_the_beta_distribution(right: float, people: int, rating: float) -> None:
    found = shrunk_share(right, people, rating)
    own = beta(rating * RATING_COUNTS_FOR + right, (1 - rating) * RATING_COUNTS_FOR + people - right)
    assert found.share == pytest.approx(own.mean())
    assert (found.low, found.high) == pytest.approx((own.ppf(0.025), own.ppf(0.975)))


def test_nobody_leaves_the_rating_and_many_leave_their_own_share() -> None:
    assert shrunk_share(0, 0, 0.7).share == pytest.approx(0.7)
    assert shrunk_share(5_000, 10_000, 0.9).share == pytest.approx(0.5, abs=0.001)


@pytest.mark.parametrize(("right", "people", "rating"), [(4, 3, 0.5), (-1, 3, 0.5), (1, 3, 1.2)])
def test_numbers_that_do_not_fit_are_refused(right: float, people: int, rating: float) -> None:
    with pytest.raises(QuizError):
        shrunk_share(right, people, rating)
