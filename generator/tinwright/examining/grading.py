"""Grading: points, pass or not, what to study; the same from the same answers and the same key, every time.

Passed is who has enough points and enough critical questions right in every critical area. The sheet of a second try
has no cut of its own: only the areas that were missed before are graded.

An item that is dropped by a correction counts as right for everybody, also for whoever left it blank, in its critical
area too; the cuts stay where they are. So nobody loses by it, and whoever had it right keeps the point.
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
    from collections.abc import Collection, Sequence

    from tinwright.examining.form import ExamKey
    from tinwright.examining.responses import AnswerSheet
    from tinwright.quizzes.intervals import Interval
    from tinwright.quizzes.questions import Question

__all__ = ["AreaResult", "GradedSheet", "TopicResult", "grade", "points_text"]

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
class AreaResult:
    """How somebody did in one critical area."""

    title: str
    """What is to be mastered."""
    right: int
    """How many of its questions are right."""
    out_of: int
    """How many there are."""
    needed: int
    """How many must be right."""

    @property
    def passed(self) -> bool:
        """Whether enough are right."""
        return self.right >= self.needed


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
    """Numbers of the critical questions that are wrong: to be talked over, also with who passed."""
    areas: tuple[AreaResult, ...]
    """How it went in each critical area."""
    second_of: str | None = None
    """For a second try, the sitting it repairs."""
    allowed: str | None = None
    """What was allowed at the sitting, such as extra time."""

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
        """Whether it is passed: enough points, and every critical area."""
        return self.enough and not self.missed_areas

    @property
    def missed_areas(self) -> tuple[str, ...]:
        """Critical areas with too few right."""
        return tuple(area.title for area in self.areas if not area.passed)

    @property
    def may_try_again(self) -> bool:
        """Whether a second try on the same day can still pass it: enough points, and an area missed."""
        return self.enough and bool(self.missed_areas) and self.second_of is None

    @property
    def interval(self) -> Interval:
        """95 % interval of the share of such questions the person can answer (Wilson); too wide with part credit."""
        return wilson(float(self.score), self.out_of)

    @property
    def topics_to_study(self) -> tuple[TopicResult, ...]:
        """Topics in which something was missed, the one with the most points missed first."""
        missed = [topic for topic in self.topics if topic.points < topic.out_of]
        return tuple(sorted(missed, key=lambda topic: topic.points - topic.out_of))


def grade(
    sheet: AnswerSheet,
    questions: Sequence[Question],
    key: ExamKey,
    *,
    only: Collection[str] | None = None,
    second_of: str | None = None,
    graded_with: str | None = None,
) -> GradedSheet:
    """Grade a sheet.

    Args:
        sheet: what was answered.
        questions: the questions of the form with the answers of the key, see `form.questions_of`.
        key: the key, for its cuts and its corrections.
        only: critical areas to grade, all others left aside; everything when left out.
        second_of: for a second try, the sitting it repairs.
        graded_with: what tells this grading from another one; the digest of the key when left out.
    """
    dropped = dropped_items(key)
    areas = [area for area in key.areas if only is None or area.title in only]
    graded = {question.id for question in questions} if only is None else {id_ for area in areas for id_ in area.items}
    rows = [
        (number, question, answer, Fraction(1) if question.id in dropped else score(question, answer))
        for number, (question, answer) in enumerate(zip(questions, sheet.answers, strict=True), 1)
        if question.id in graded
    ]
    earned = {question.id: points for _, question, _, points in rows}
    return GradedSheet(
        sheet=sheet,
        graded_with=graded_with or key.digest,
        points=tuple(earned.values()),
        responses=tuple(
            (question.id, None if answer is None else write_answer(answer), points)
            for _, question, answer, points in rows
        ),
        cut=key.cut,
        topics=_topics([question for _, question, _, _ in rows], tuple(earned.values())),
        critical_wrong=tuple(number for number, question, _, points in rows if question.critical and points < 1),
        areas=tuple(
            AreaResult(area.title, sum(earned[id_] == 1 for id_ in area.items), len(area.items), area.right)
            for area in areas
        ),
        second_of=second_of,
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
