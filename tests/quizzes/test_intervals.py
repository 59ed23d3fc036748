from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from tinwright.errors import QuizError
from tinwright.quizzes.intervals import clopper_pearson, wilson

scores = st.integers(1, 200).flatmap(lambda of: st.tuples(st.integers(0, of), st.just(of)))


@pytest.mark.parametrize("interval", [wilson, clopper_pearson])
@given(score=scores)
def test_an_interval_holds_the_share_and_stays_between_0_and_1(interval, score) -> None:  # type: ignore[no-untyped-def]
    right, of = score
    found = interval(right, of)
    assert 0 <= found.low <= right / of <= found.high <= 1


@pytest.mark.parametrize("interval", [wilson, clopper_pearson])
@given(score=scores)
def test_right_and_wrong_answers_mirror_each_other(interval, score) -> None:  # type: ignore[no-untyped-def]
    right, of = score
    found, mirrored = interval(right, of), interval(of - right, of)
    assert found.low == pytest.approx(1 - mirrored.high, abs=1e-12)


@given(score=scores)
def test_the_exact_interval_keeps_its_promise_at_its_own_ends(score: tuple[int, int]) -> None:
    # by definition: at the lower end, a score this high or higher has a chance of 2.5 %
    right, of = score
    found = clopper_pearson(right, of)
    if right > 0:
        assert stats.binom.sf(right - 1, of, found.low) == pytest.approx(0.025, rel=1e-6)
    if right < of:
        assert stats.binom.cdf(right, of, found.high) == pytest.approx(0.025, rel=1e-6)


def test_a_perfect_score_reaches_to_exactly_1() -> None:
    assert wilson(20, 20).high == clopper_pearson(20, 20).high == 1.0
    assert wilson(0, 20).low == clopper_pearson(0, 20).low == 0.0


@pytest.mark.parametrize("interval", [wilson, clopper_pearson])
@pytest.mark.parametrize(
    ("right", "of", "confidence", "message"),
    [
        (3, 2, 0.95, "expected a number right from 0 to the number of items, got 3 of 2"),
        (-1, 2, 0.95, "expected a number right from 0 to the number of items, got -1 of 2"),
        (0, 0, 0.95, "expected a number right from 0 to the number of items, got 0 of 0"),
        (1, 2, 95, "expected a confidence between 0 and 1, got 95"),
    ],
)
def test_numbers_that_do_not_fit_are_refused(interval, right, of, confidence, message) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(QuizError, match=f"^{message}$"):
        interval(right, of, confidence)
