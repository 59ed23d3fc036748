"""Grading: points, pass or not, what to study; the same from the same answers and the same key, every time.

An item that is dropped by a correction counts as right for everybody, also for whoever left it blank, and is not
critical any more; the cut stays where it is. So nobody loses by it, and whoever had it right keeps the point.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import dataclass
from decimal import ROUND_FLOOR, Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from tinwright.examining.correcting import dropped_items
from tinwright.quizzes.intervals import wilson
from tinwright.quizzes.scoring import score, write_answer

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tinwright.examining.form import ExamKey
    from tinwright.examining.responses import AnswerSheet
    from tinwright.quizzes.intervals import Interval
    from tinwright.quizzes.questions import Question

__all__ = ["GradedSheet", "TopicResult", "grade", "points_text"]

_ITEM_PLACES, SCORE_PLACES = 6, 4
"""Decimals that are kept of points which no decimal number holds, such as 1/3."""


@dataclass(frozen=True)
class TopicResult:
    """How somebody did in one topic."""

    topic: str
    """Id of the topic."""
    points: Fraction
    """Points earned."""
    out_of: int
    """Points there were."""
    study: tuple[str, ...]
    """Records that teach what was missed, as `kind/id`, the one missed most first."""


@dataclass(frozen=True)
class GradedSheet:
    """The result of one sheet."""

    sheet: AnswerSheet
    """What was graded."""
    graded_with: str
    """Digest of the key."""
    points: tuple[Fraction, ...]
    """Points for each question, exact."""
    responses: tuple[tuple[str, str | None, Fraction], ...]
    """Item, answer as it is written (None when blank) and points, for each question."""
    cut: int
    """Fewest points that pass."""
    topics: tuple[TopicResult, ...]
    """How it went by topic, in the order of the form."""
    critical_wrong: tuple[int, ...]
    """Numbers of the critical questions that are wrong."""
    critical_must_be_right: bool
    """Whether one of them is enough to fail."""

    @property
    def score(self) -> Fraction:
        """Points in all, exact."""
        return sum(self.points, Fraction(0))

    @property
    def out_of(self) -> int:
        """Points there were."""
        return len(self.points)

    @property
    def enough(self) -> bool:
        """Whether the score reaches the cut."""
        return self.score >= self.cut

    @property
    def passed(self) -> bool:
        """Whether it is passed: enough points and, where the blueprint says so, every critical question right."""
        return self.enough and not (self.critical_must_be_right and self.critical_wrong)

    @property
    def interval(self) -> Interval:
        """95 % interval of the share of such questions the person can answer (Wilson); too wide with part credit."""
        return wilson(float(self.score), self.out_of)

    @property
    def topics_to_study(self) -> tuple[TopicResult, ...]:
        """Topics in which something was missed, the one with the most points missed first."""
        missed = [topic for topic in self.topics if topic.points < topic.out_of]
        return tuple(sorted(missed, key=lambda topic: topic.points - topic.out_of))


def grade(sheet: AnswerSheet, questions: Sequence[Question], key: ExamKey) -> GradedSheet:
    """Grade a sheet.

    Args:
        sheet: what was answered.
        questions: the questions of the form with the answers of the key, see `form.questions_of`.
        key: the key, for its cut, its pass rule and its corrections.
    """
    dropped = dropped_items(key)
    points = tuple(
        Fraction(1) if question.id in dropped else score(question, answer)
        for question, answer in zip(questions, sheet.answers, strict=True)
    )
    return GradedSheet(
        sheet=sheet,
        graded_with=key.digest,
        points=points,
        responses=tuple(
            (question.id, None if answer is None else write_answer(answer), earned)
            for question, answer, earned in zip(questions, sheet.answers, points, strict=True)
        ),
        cut=key.cut,
        topics=_topics(questions, points),
        critical_wrong=tuple(
            number
            for number, (question, earned) in enumerate(zip(questions, points, strict=True), 1)
            if question.critical and earned < 1
        ),
        critical_must_be_right=key.critical_must_be_right,
    )


def _topics(questions: Sequence[Question], points: Sequence[Fraction]) -> tuple[TopicResult, ...]:
    earned: dict[str, list[Fraction]] = defaultdict(list)
    missed: dict[str, Counter[str]] = defaultdict(Counter)
    for question, got in zip(questions, points, strict=True):
        earned[question.topic].append(got)
        if got < 1:
            missed[question.topic].update(question.teaches)
    return tuple(
        TopicResult(topic, sum(got, Fraction(0)), len(got), tuple(name for name, _ in missed[topic].most_common()))
        for topic, got in earned.items()
    )


def points_text(points: Fraction, places: int = _ITEM_PLACES) -> str:
    """Write points as a decimal number, cut off after some places where it has no end.

    >>> points_text(Fraction(3)), points_text(Fraction(1, 2)), points_text(Fraction(80, 3), 4)
    ('3', '0.5', '26.6666')
    """
    exact = Decimal(points.numerator) / Decimal(points.denominator)
    text = f"{exact.quantize(Decimal(1).scaleb(-places), rounding=ROUND_FLOOR):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
