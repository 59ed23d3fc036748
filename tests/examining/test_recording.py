"""A sheet that was typed in again takes the place of the one sitting that still counts for the same person, form and day."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

from examining.sat_exams import a_plain_exam
from tinwright.examining.form import questions_of
from tinwright.examining.grading import GradedSheet, grade
from tinwright.examining.recording import sittings_to_record
from tinwright.examining.responses import AnswerSheet
from tinwright.examining.results import sitting_of

if TYPE_CHECKING:
    from tinwright.register import Sitting

FORM, KEY = a_plain_exam()
QUESTIONS = questions_of(FORM, KEY)
DAY = dt.date(2026, 11, 26)


def a_sheet(*answers: int, person: str = "V0001", day: dt.date = DAY) -> GradedSheet:
    """A graded sheet with the answers given, the rest left blank."""
    told = tuple((answer,) for answer in answers) + (None,) * (len(QUESTIONS) - len(answers))
    sheet = AnswerSheet(FORM.exam, FORM.code, FORM.digest, person, day, told, "a.csv:3:1")  # type: ignore[arg-type]
    return grade(sheet, QUESTIONS, KEY)


def recorded(row: GradedSheet, id_: str, *, supersedes: str | None = None) -> Sitting:
    """The sitting of a sheet as the register keeps it."""
    return replace(sitting_of(row, supersedes=supersedes)[0], id=id_)


def replaced(row: GradedSheet, *before: Sitting, retyped: bool = True) -> str | None:
    ((sitting, _),) = sittings_to_record([row], before, retyped=retyped)
    return sitting.supersedes


def test_other_answers_of_the_same_person_form_and_day_take_the_place_of_the_earlier() -> None:
    earlier = recorded(a_sheet(0, 1), "S0001")
    assert replaced(a_sheet(0, 2), earlier) == "S0001"
    assert replaced(a_sheet(0, 2), earlier, retyped=False) is None


def test_the_same_answers_another_day_and_another_person_take_no_place() -> None:
    earlier = recorded(a_sheet(0, 1), "S0001")
    assert replaced(a_sheet(0, 1), earlier) is None
    assert replaced(a_sheet(0, 2, day=dt.date(2026, 11, 27)), earlier) is None
    assert replaced(a_sheet(0, 2, person="V0002"), earlier) is None


def test_only_the_sitting_that_still_counts_is_replaced() -> None:
    first = recorded(a_sheet(0, 1), "S0001")
    second = recorded(a_sheet(0, 2), "S0002", supersedes="S0001")
    assert replaced(a_sheet(0, 3), first, second) == "S0002"
