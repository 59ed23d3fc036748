"""Grading a second try: only the areas that were missed on the same day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.examining.digested import digest_of
from tinwright.examining.grading import grade

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tinwright.examining.form import ExamKey
    from tinwright.examining.grading import GradedSheet
    from tinwright.examining.responses import AnswerSheet
    from tinwright.examining.retakes import SecondTry
    from tinwright.quizzes.questions import Question

__all__ = ["grade_second_try"]


def grade_second_try(sheet: AnswerSheet, questions: Sequence[Question], key: ExamKey, found: SecondTry) -> GradedSheet:
    """Grade a second try.

    When its first sitting is graded anew with a corrected key, the second try counts only once it is graded again, too:
    other areas may have been missed.

    Args:
        sheet: what was answered.
        questions: the questions of the second try.
        key: its key.
        found: what it is to repair.
    """
    return grade(
        sheet,
        questions,
        key,
        only=found.areas,
        second_of=found.of.id,
        graded_with=digest_of({"key": key.digest, "first": found.of.graded_with}),
    )
