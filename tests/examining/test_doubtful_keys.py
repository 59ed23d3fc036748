"""A question that more people answered alike and wrong than right is pointed out, from five sheets on."""

from __future__ import annotations

import datetime as dt

from examining.sat_exams import a_plain_exam
from tinwright.examining.doubtful_keys import doubtful_keys
from tinwright.examining.form import questions_of
from tinwright.examining.grading import GradedSheet, grade
from tinwright.examining.responses import AnswerSheet

FORM, KEY = a_plain_exam()
QUESTIONS = questions_of(FORM, KEY)
RIGHT = [question.key[0] for question in QUESTIONS]


def sat(*second: int | None) -> list[GradedSheet]:
    """Sheets with every question right but the second, which is answered as given."""
    sheets = []
    for number, answer in enumerate(second, 1):
        answers = [(place,) for place in RIGHT]
        told = (*answers[:1], None if answer is None else (answer,), *answers[2:])  # type: ignore[list-item]
        person = f"V{number:04d}"
        sheets.append(AnswerSheet(FORM.exam, FORM.code, FORM.digest, person, dt.date(2026, 11, 26), told, person))
    return [grade(sheet, QUESTIONS, KEY) for sheet in sheets]


def test_a_wrong_answer_that_beats_the_key_is_pointed_out() -> None:
    assert RIGHT[1] == 1
    assert list(doubtful_keys(sat(1, 1, 2, 2, 2, 0))) == [
        "look at question 2 (q-02) and its key: 3 of 6 answered C, 2 gave the right answer"
    ]


def test_wrong_answers_that_differ_or_do_not_outnumber_the_key_are_not() -> None:
    assert list(doubtful_keys(sat(1, 1, 2, 2, 0, 3))) == []
    assert list(doubtful_keys(sat(1, None, None, None, None, None))) == []


def test_of_fewer_than_five_sheets_nothing_is_said() -> None:
    assert list(doubtful_keys(sat(2, 2, 2, 2))) == []
    assert list(doubtful_keys(sat(2, 2, 2, 2, 2))) != []
