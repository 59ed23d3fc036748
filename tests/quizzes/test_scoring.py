"""Scores of answers: the rules, their limits, and what is typed on an answer sheet."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tinwright.errors import QuizError
from tinwright.quizzes.questions import Choice, Question
from tinwright.quizzes.scoring import read_answer, score, write_answer


def a_question(asks: Any, key: tuple[int, ...], size: int = 4, **more: Any) -> Question:
    lefts = tuple(f"left {place}" for place in range(len(key))) if asks == "match" else ()
    choices = tuple(Choice(f"choice {place}") for place in range(size))
    return Question("q", "topic", asks, "What?", choices, key, lefts=lefts, **more)


def a_number(answer: str, low: str, high: str) -> Question:
    return Question("q", "topic", "number", "How long?", answer=Decimal(answer), low=Decimal(low), high=Decimal(high))


several = st.integers(3, 7).flatmap(
    lambda size: st.tuples(
        st.just(size),
        st.sets(st.integers(0, size - 1), min_size=1, max_size=size - 1),
        st.sets(st.integers(0, size - 1)),
    )
)


@given(several)
def test_several_answers_follow_plus_minus_scoring(drawn: tuple[int, set[int], set[int]]) -> None:
    # plus/minus rule of Betts, Muntean, Kim and Kao 2022: max(0, (hits - false picks) / keyed options)
    size, key, ticked = drawn
    question = a_question("several-answers", tuple(sorted(key)), size)
    hits, false = len(key & ticked), len(ticked - key)
    assert score(question, tuple(sorted(ticked))) == max(Fraction(0), Fraction(hits - false, len(key)))


@given(several)
def test_full_marks_only_for_the_exact_key_and_each_correct_change_never_lowers(
    drawn: tuple[int, set[int], set[int]],
) -> None:
    # properties asked of partial credit, common practice, no source
    size, key, ticked = drawn
    question = a_question("several-answers", tuple(sorted(key)), size)
    now = score(question, tuple(sorted(ticked)))
    assert (now == 1) == (ticked == key)
    for place in range(size):
        if (place in ticked) != (place in key):
            assert score(question, tuple(sorted(ticked ^ {place}))) >= now


@given(several)
def test_ticking_nothing_and_ticking_everything_never_pass_eighty_percent(
    drawn: tuple[int, set[int], set[int]],
) -> None:
    size, key, _ = drawn
    question = a_question("several-answers", tuple(sorted(key)), size)
    assert score(question, ()) == 0
    if len(key) <= size / 2:
        assert score(question, tuple(range(size))) == 0


def test_an_order_counts_each_step_that_follows_the_right_one() -> None:
    question = a_question("order", (0, 1, 2, 3))
    assert [score(question, order) for order in [(0, 1, 2, 3), (1, 2, 3, 0), (3, 2, 1, 0), (0, 1, 3, 2)]] == [
        1,
        Fraction(2, 3),
        0,
        Fraction(1, 3),
    ]


def test_pairs_count_one_by_one_and_a_pair_left_out_counts_nothing() -> None:
    question = a_question("match", (2, 0, 0), 3)
    assert score(question, (2, 0, 0)) == 1
    assert score(question, (2, -1, 1)) == Fraction(1, 3)


def test_the_ends_of_the_range_of_a_number_count_as_right() -> None:
    question = a_number("0.046", "0.0455", "0.0465")
    assert [score(question, Decimal(text)) for text in ("0.0455", "0.0465", "0.04549", "0.04651", "0.046")] == [
        1,
        1,
        0,
        0,
        1,
    ]


def test_in_a_critical_question_only_the_whole_answer_counts() -> None:
    for asks, key, partly in [
        ("several-answers", (0, 1), (0,)),
        ("order", (0, 1, 2, 3), (0, 1, 3, 2)),
        ("match", (0, 1), (0, 0)),
    ]:
        assert score(a_question(asks, key), partly) > 0
        assert score(a_question(asks, key, critical=True), partly) == 0
        assert score(a_question(asks, key, critical=True), key) == 1


def test_no_answer_counts_nothing() -> None:
    assert score(a_question("one-answer", (1,)), None) == 0
    assert score(a_number("1", "1", "1"), None) == 0


@pytest.mark.parametrize(
    ("asks", "key", "typed", "read"),
    [
        ("one-answer", (1,), " b ", (1,)),
        ("several-answers", (0, 2), "C,a", (0, 2)),
        ("order", (0, 1, 2, 3), "d c b a", (3, 2, 1, 0)),
        ("match", (2, 0), "c-", (2, -1)),
        ("point", (1,), "B", (1,)),
    ],
)
def test_letters_are_read_as_people_type_them(
    asks: str, key: tuple[int, ...], typed: str, read: tuple[int, ...]
) -> None:
    question = a_question(asks, key)
    assert read_answer(question, typed) == read
    assert read_answer(question, write_answer(read)) == read


@pytest.mark.parametrize("typed", ["0.046", ".046", "+0.046", "0.0460"])
def test_numbers_are_read_as_people_type_them(typed: str) -> None:
    assert read_answer(a_number("0.046", "0", "1"), typed) == Decimal("0.046")


@pytest.mark.parametrize(
    ("asks", "typed", "told"),
    [
        ("one-answer", "E", "expected letters from A to D, got 'E'"),
        ("one-answer", "AB", "expected one letter, got 2"),
        ("several-answers", "A A", "expected each letter once"),
        ("order", "A B C", "expected each of 4 letters once, got 3"),
        ("match", "A", "expected 4 letters, got 1"),
    ],
)
def test_an_answer_that_does_not_fit_is_told(asks: str, typed: str, told: str) -> None:
    key = (0,) if asks == "one-answer" else (0, 1, 2, 3)
    with pytest.raises(QuizError, match=told):
        read_answer(a_question(asks, key), typed)


@pytest.mark.parametrize("typed", ["4 thou", "1e3", "NaN", "1/7", "0,046", "--1", "1" * 40])
def test_text_that_is_no_plain_number_is_told(typed: str) -> None:
    with pytest.raises(QuizError, match="expected a number such as"):
        read_answer(a_number("1", "1", "1"), typed)


@given(st.permutations(range(5)))
def test_a_question_with_its_choices_rearranged_has_the_same_right_answers(order: list[int]) -> None:
    for asks, key in [
        ("one-answer", (3,)),
        ("several-answers", (1, 4)),
        ("order", (2, 0, 1, 4, 3)),
        ("match", (4, 4, 0)),
    ]:
        question = a_question(asks, key, 5)
        moved = question.rearranged(tuple(order))
        texts = [question.choices[place].text for place in question.key]
        moved_texts = [moved.choices[place].text for place in moved.key]
        assert sorted(moved_texts) == sorted(texts) if asks == "several-answers" else moved_texts == texts
        assert score(moved, moved.key) == 1


def test_a_key_that_does_not_fit_the_choices_is_refused() -> None:
    for asks, key in [
        ("one-answer", (4,)),
        ("one-answer", (0, 1)),
        ("order", (0, 1)),
        ("several-answers", (2, 1)),
        ("match", ()),
    ]:
        with pytest.raises(QuizError):
            a_question(asks, key)
    with pytest.raises(QuizError):
        a_number("2", "0", "1")


@pytest.mark.parametrize(
    ("typed", "number"),
    [("1 3/16", "1.1875"), ("3/16", "0.1875"), ("1-3/16", "1.1875"), ("7/64", "0.109375"), ("2 1/2", "2.5")],
)
def test_a_fraction_as_a_ruler_has_it_is_the_same_number(typed: str, number: str) -> None:
    asked = Question("n", "t", "number", "How long?", unit="in", low=Decimal(0), high=Decimal(9), answer=Decimal(1))
    assert read_answer(asked, typed) == Decimal(number)
    assert write_answer(read_answer(asked, typed)) == number


@pytest.mark.parametrize("typed", ["1/3", "1/0", "3/", "1 2", "1 3/16 in", "-1/2", "12345 1/2"])
def test_what_is_no_fraction_of_a_ruler_is_refused(typed: str) -> None:
    asked = Question("n", "t", "number", "How long?", unit="in", low=Decimal(0), high=Decimal(9), answer=Decimal(1))
    with pytest.raises(QuizError, match=r"such as 0\.046 or 1 3/16"):
        read_answer(asked, typed)
