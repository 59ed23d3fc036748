from __future__ import annotations

from statistics import correlation

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tinwright.errors import QuizError
from tinwright.quizzes.option_statistics import (
    BEATS_KEY,
    DRAWS_STRONG,
    KEY_DRAWS_WEAK,
    NO_ANSWER,
    RARE,
    analyse_options,
    analyse_ticks,
)

answers = st.lists(st.tuples(st.integers(NO_ANSWER, 3), st.integers(0, 10)), min_size=3, max_size=40)


@given(answers=answers)
def test_an_option_correlates_as_a_yes_or_no_would(answers: list[tuple[int, int]]) -> None:
    chosen, rest = zip(*answers, strict=True)
    found = analyse_options(chosen, rest, key=0, options=4, people_needed=1)
    assert found.blank == chosen.count(NO_ANSWER)
    assert sum(option.chosen for option in found.options) + found.blank == len(answers)
    for number, option in enumerate(found.options):
        picked = [int(choice == number) for choice in chosen]
        assert option.share == pytest.approx(sum(picked) / len(answers))
        if len(set(picked)) == 1 or len(set(rest)) == 1:
            assert option.correlation.value is None
            assert option.correlation.reason
        else:
            assert option.correlation.value == pytest.approx(correlation(picked, rest), abs=1e-9)


@given(answers=answers)
def test_one_answer_is_the_case_of_one_tick(answers: list[tuple[int, int]]) -> None:
    chosen, rest = zip(*answers, strict=True)
    ticks = [[choice == number for number in range(4)] for choice in chosen]
    one = analyse_options(chosen, rest, key=2, options=4, people_needed=1)
    other = analyse_ticks(ticks, rest, keys={2}, people_needed=1)
    assert (one.blank, one.people) == (other.blank, other.people)
    for left, right in zip(one.options, other.options, strict=True):
        assert (left.chosen, left.keyed, left.flags) == (right.chosen, right.keyed, right.flags)
        assert left.correlation.value == pytest.approx(right.correlation.value, abs=1e-12)


def flags(chosen: list[int], rest: list[float], key: int = 0, options: int = 4) -> list[tuple[str, ...]]:
    return [option.flags for option in analyse_options(chosen, rest, key=key, options=options).options]


def test_a_sound_item_has_no_flags() -> None:
    assert flags([0] * 60 + [1] * 15 + [2] * 15 + [3] * 10, [0.9] * 60 + [0.4] * 40) == [(), (), (), ()]


def test_a_distractor_that_hardly_anybody_takes_is_flagged() -> None:
    chosen = [0] * 60 + [1] * 31 + [2] * 5 + [3] * 4
    assert flags(chosen, [0.9] * 60 + [0.4] * 40) == [(), (), (), (RARE,)]


def test_a_distractor_that_draws_those_who_know_the_rest_is_flagged() -> None:
    chosen = [0] * 60 + [1] * 20 + [2] * 20
    assert flags(chosen, [0.6] * 60 + [0.9] * 20 + [0.1] * 20, options=3) == [(), (DRAWS_STRONG,), ()]


def test_a_key_that_those_who_know_the_rest_avoid_is_flagged() -> None:
    chosen = [0] * 40 + [1] * 60
    assert flags(chosen, [0.2] * 40 + [0.8] * 60, options=2) == [(KEY_DRAWS_WEAK,), (DRAWS_STRONG, BEATS_KEY)]


def test_an_option_nobody_or_everybody_took_has_no_correlation() -> None:
    found = analyse_options([0] * 30, np.linspace(0, 1, 30), key=0, options=2)
    assert [option.correlation.reason for option in found.options] == ["everybody chose it", "nobody chose it"]
    flat = analyse_options([0, 1] * 20, [0.5] * 40, key=0, options=2)
    assert flat.options[0].correlation.reason == "everybody has the same score on the other items"


def test_those_who_did_not_see_the_item_do_not_count() -> None:
    found = analyse_options([0] * 30 + [1] * 30, [0.5] * 30 + [float("nan")] * 30, key=0, options=2)
    assert found.people == 30
    assert found.options[1].chosen == 0


def test_too_few_people_give_nothing_but_how_many_it_takes() -> None:
    found = analyse_ticks([[True, False]] * 29, [0.5] * 29, keys={0})
    assert (found.options, found.reason) == ((), "needs 30 people, has 29")
    assert analyse_options([], [], key=0, options=2, people_needed=30).reason == "needs 30 people, has 0"


def test_a_distractor_is_held_against_the_key_that_fewest_ticked() -> None:
    ticks = [[True, person < 20, person < 25] for person in range(40)]
    found = analyse_ticks(ticks, np.linspace(0, 1, 40), keys={0, 1})
    assert BEATS_KEY in found.options[2].flags


def test_what_does_not_fit_is_refused() -> None:
    with pytest.raises(QuizError, match="expected a key from 0 to 1, got 2"):
        analyse_options([0], [0.5], key=2, options=2)
    with pytest.raises(QuizError, match="expected choices from 0 to 1, or -1 for a blank"):
        analyse_options([2], [0.5], key=0, options=2)
    with pytest.raises(QuizError, match="expected choices from 0 to 1, or -1 for a blank"):
        analyse_options([-2], [0.5], key=0, options=2)
    with pytest.raises(QuizError, match="expected choices from 0 to 1, or -1 for a blank"):
        analyse_options([None, 0.5], [0.5, 0.5], key=0, options=2)
    with pytest.raises(QuizError, match="expected one choice for each rest score"):
        analyse_options([1, 0], [0.5], key=0, options=2)
    with pytest.raises(QuizError, match="expected keys from 0 to 1, got \\[2\\]"):
        analyse_ticks([[True, False]], [0.5], keys={2})
    with pytest.raises(QuizError, match="expected one row of ticks for each rest score"):
        analyse_ticks([[True, False]], [0.5, 0.6], keys={1})
