from __future__ import annotations

import numpy as np
import pytest

from tinwright.errors import QuizError
from tinwright.quizzes.guessing import error_rates
from tinwright.quizzes.simulation import decide_all, rasch_chances, simulate_answers, simulate_rates


@pytest.mark.parametrize(("items", "cut", "critical"), [(10, 8, 0), (20, 16, 0), (30, 23, 0), (30, 23, 3)])
def test_a_cohort_is_decided_wrongly_as_often_as_the_table_says(items: int, cut: int, critical: int) -> None:
    people = 20_000
    chances = np.repeat([[0.60] * items, [0.85] * items], people, axis=0)
    found = simulate_rates(chances, np.repeat([False, True], people), cut=cut, seed=4, critical=range(critical))
    expected = error_rates(items, cut, non_master=0.60, master=0.85, critical=critical)
    assert (found.masters, found.non_masters) == (people, people)
    for rate, error, value in [
        (found.false_pass, found.false_pass_error, expected.false_pass),
        (found.false_fail, found.false_fail_error, expected.false_fail),
    ]:
        assert rate.value is not None
        assert error.value is not None
        assert abs(rate.value - value) < 4 * error.value


def test_the_same_seed_gives_the_same_cohort() -> None:
    chances = np.full((50, 10), 0.5)
    assert np.array_equal(simulate_answers(chances, 3), simulate_answers(chances, 3))
    assert not np.array_equal(simulate_answers(chances, 3), simulate_answers(chances, 4))


def test_the_able_do_better_and_hard_items_are_harder() -> None:
    chances = rasch_chances([-1000, -1, 0, 1, 1000], [-1, 0, 2])
    assert (np.diff(chances, axis=0) >= 0).all()
    assert (np.diff(chances, axis=1) <= 0).all()
    assert chances[2, 1] == 0.5
    # odds of e^1
    assert chances[3, 1] / (1 - chances[3, 1]) == pytest.approx(np.e)


def test_a_critical_item_wrong_fails_whatever_the_score() -> None:
    assert decide_all([[1, 1, 0], [1, 1, 1]], 2, critical=[2]).tolist() == [False, True]


def test_a_cohort_without_masters_has_no_false_fails() -> None:
    found = simulate_rates([[0.5, 0.5]] * 4, [False] * 4, cut=2, seed=1)
    assert (found.false_fail.value, found.false_fail.reason) == (None, "nobody in the cohort is a master")
    assert found.false_pass.value is not None


def test_what_does_not_fit_is_refused() -> None:
    with pytest.raises(QuizError, match="expected chances from 0 to 1"):
        simulate_answers([[1.5]], 1)
    with pytest.raises(QuizError, match="expected a master or not for each of 2 people, got 1"):
        simulate_rates([[0.5], [0.5]], [True], cut=1, seed=1)
