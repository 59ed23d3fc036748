"""Grading against a second reading of the rules, and against the error rates that a length and a cut promise."""

from __future__ import annotations

import datetime as dt
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from examining.exam_forms import a_form, a_key
from examining.sat_exams import a_plain_exam
from tinwright.examining.digested import digest_of
from tinwright.examining.form import questions_of
from tinwright.examining.grading import grade
from tinwright.examining.responses import AnswerSheet
from tinwright.quizzes.guessing import error_rates
from tinwright.quizzes.simulation import simulate_answers

if TYPE_CHECKING:
    from tinwright.examining.form import ExamForm
    from tinwright.quizzes.scoring import Answer

MIXED = a_form()
MIXED_KEY = a_key(MIXED)
MIXED_QUESTIONS = questions_of(MIXED, MIXED_KEY)


def a_sheet(form: ExamForm, answers: tuple[Answer, ...]) -> AnswerSheet:
    return AnswerSheet(form.exam, form.code, form.digest, "V0001", dt.date(2026, 11, 26), answers, "sheet")


def maybe(strategy: st.SearchStrategy[Answer]) -> st.SearchStrategy[Answer]:
    return st.none() | strategy


@given(
    one=maybe(st.integers(0, 2).map(lambda place: (place,))),
    several=maybe(st.sets(st.integers(0, 3), min_size=1).map(lambda ticked: tuple(sorted(ticked)))),
    order=maybe(st.permutations([0, 1, 2]).map(tuple)),
    pairs=maybe(st.tuples(st.integers(-1, 2), st.integers(-1, 2))),
    number=maybe(st.sampled_from([Decimal(text) for text in ("0.0354", "0.0355", "0.036", "0.0365", "0.0366")])),
)
def test_a_sheet_of_every_way_of_asking_is_graded_as_the_stated_rules_say(
    one: Answer, several: Answer, order: Answer, pairs: Answer, number: Answer
) -> None:
    graded = grade(a_sheet(MIXED, (one, several, order, pairs, number)), MIXED_QUESTIONS, MIXED_KEY)
    ticked = set(several) if isinstance(several, tuple) else set()
    expected = [
        Fraction(one == (0,)),
        max(Fraction(0), Fraction(len(ticked & {0, 2}) - len(ticked - {0, 2}), 2)),
        # The right order is 2, 1, 0: its pairs of neighbors are 2-1 and 1-0.
        Fraction(sum(tuple(pair) in {(2, 1), (1, 0)} for pair in pairwise(order)), 2)
        if isinstance(order, tuple)
        else Fraction(0),
        Fraction((pairs[0] == 0) + (pairs[1] == 1), 2) if isinstance(pairs, tuple) else Fraction(0),
        Fraction(number in {Decimal("0.0355"), Decimal("0.036"), Decimal("0.0365")}),
    ]
    assert list(graded.points) == expected
    assert graded.score == sum(expected)
    assert graded.passed == (sum(expected) >= 4 and one == (0,))
    assert {topic.topic: (topic.points, topic.out_of) for topic in graded.topics} == {
        "first-roller": (expected[0], 1),
        "parts": (expected[1] + expected[3], 2),
        "set-up": (expected[2], 1),
        "measuring": (expected[4], 1),
    }


def test_the_digest_of_a_sheet_tells_everything_but_where_it_was_read() -> None:
    sheet = a_sheet(MIXED, ((0,), None, None, None, Decimal("0.036")))
    same = AnswerSheet(**{**vars(sheet), "place": "elsewhere"})
    assert sheet.digest == same.digest
    changes = {"person": "V0002", "taken_on": dt.date(2026, 11, 27), "answers": ((1,), None, None, None, None)}
    others = {AnswerSheet(**{**vars(sheet), name: value}).digest for name, value in changes.items()}
    assert len(others | {sheet.digest}) == 4


def test_the_digest_of_a_sheet_is_that_of_the_file_the_page_saves() -> None:
    sheet = a_sheet(MIXED, ((0,), None, None, (1, -1), Decimal("0.036")))
    saved = {
        "tinwright": "responses",
        "exam": "volunteer",
        "form": "A",
        "form_digest": MIXED.digest,
        "person": "V0001",
        "taken_on": "2026-11-26",
        "answers": {"1": "A", "4": "B -", "5": "0.036"},
    }
    assert sheet.digest == digest_of(saved)


def test_a_cohort_of_known_ability_is_decided_as_wrongly_as_the_binomial_says() -> None:
    """30 items, cut 23: false passes .0435, false fails .0698 (binomial tails, common statistical tables)."""
    people, form_and_key = 3000, a_plain_exam(30, cut=23, choices=2)
    form, key = form_and_key
    questions = questions_of(form, key)
    promised = error_rates(30, 23, non_master=0.60, master=0.85)
    assert (round(promised.false_pass, 3), round(promised.false_fail, 3)) == (0.044, 0.070)
    for chance, expected, wrongly in ((0.60, promised.false_pass, True), (0.85, promised.false_fail, False)):
        right = simulate_answers(np.full((people, 30), chance), seed=11)
        wrong = 0
        for row in right.tolist():
            answers = tuple(
                question.key if known else (1 - question.key[0],)
                for question, known in zip(questions, row, strict=True)
            )
            wrong += grade(a_sheet(form, answers), questions, key).passed is wrongly
        error = (expected * (1 - expected) / people) ** 0.5
        assert abs(wrong / people - expected) < 4 * error
