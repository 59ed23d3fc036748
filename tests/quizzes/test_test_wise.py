"""What strategies score on a small bank, counted by hand."""

from __future__ import annotations

import pytest

from tinwright.quizzes.questions import Choice, Question
from tinwright.quizzes.test_wise import StrategyScore, score_strategies


def one(key: int, *texts: str) -> Question:
    return Question("q", "t", "one-answer", "What do you do?", tuple(map(Choice, texts)), (key,))


def scores(*questions: Question) -> dict[str, StrategyScore]:
    return {score.strategy: score for score in score_strategies(questions)}


def test_the_careful_sentence_is_right_in_one_of_two_items() -> None:
    found = scores(
        one(1, "Go on and fill the cans", "Stop, and hold the cans", "Taste the food", "Press it harder"),
        one(0, "Back the roller off", "Hold every can, and ask", "Go on as before", "Press it harder"),
    )["most cautious"]
    assert (found.items, found.share, found.chance) == (2, 0.5, 0.25)
    assert found.is_too_good


def test_over_careful_wrong_options_bring_the_strategy_down_to_guessing() -> None:
    careful = one(0, "Hold the can", "Stop, hold every can, and ask", "Go on", "Taste it")
    plain = one(0, "Stop, and hold the can", "Press it", "Go on", "Taste it")
    found = scores(careful, plain, careful, careful)["most cautious"]
    assert found.share == 0.25
    assert not found.is_too_good


def test_options_that_tie_share_the_draw_and_items_that_tell_nothing_do_not_count() -> None:
    found = scores(one(2, "aaaa", "bb", "cccc"), one(0, "aa", "bb", "cc"))["longest"]
    assert (found.items, found.share) == (1, 0.5)


def test_the_odd_one_out_shares_no_words_with_the_others() -> None:
    texts = ("the first roller nearer", "the first roller off", "the second roller nearer", "a new chuck")
    assert scores(one(3, *texts))["odd one out"].share == 1.0
    assert scores(one(0, *texts))["odd one out"].share == 0.0


@pytest.mark.parametrize(("key", "share"), [(0, 0.0), (1, 1.0), (2, 0.0)])
def test_the_middle_number_counts_fractions_as_well(key: int, share: float) -> None:
    assert scores(one(key, "By 1/8 turn", "By 0.25 turn", "By 1/2 turn", "Not at all"))["middle number"].share == share


def test_the_middle_number_says_nothing_where_few_options_have_one() -> None:
    assert "middle number" not in scores(one(0, "By 1/8 turn", "By 1/4 turn", "Not at all"))


def test_only_items_with_one_right_answer_are_scored() -> None:
    several = Question("q", "t", "several-answers", "Which?", (Choice("Stop"), Choice("Hold"), Choice("Go")), (0, 1))
    assert score_strategies([several]) == ()
