"""Scores of answers, exact, by one stated rule for each way of asking.

One answer, a number and a place count 1 or 0. Several answers: right ones ticked less wrong ones ticked, over the right
ones there are, never below 0 (plus/minus scoring: Betts, Muntean, Kim and Kao 2022, Educational and Psychological
Measurement 82, 151-176). Order: the share of steps that come straight after the step they should. Pairs: the share
of pairs that are right. In a critical question only the whole answer counts. The browser scores by the same rules in
`browser/quiz/quiz-scoring.js`.
"""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING

from tinwright.errors import QuizError
from tinwright.quizzes.questions import letter_of

if TYPE_CHECKING:
    from tinwright.quizzes.questions import Question

__all__ = ["RULES", "Answer", "read_answer", "score", "write_answer"]

Answer = tuple[int, ...] | Decimal | None
"""Places in the choices, a number, or None for no answer. For an order the steps as they were put, for pairs the choice
given to each thing on the left (-1 for none)."""

RULES = {
    "one-answer": "One point for the right answer.",
    "several-answers": (
        "Each right answer ticked counts, each wrong one ticked takes as much away; never less than nothing."
    ),
    "order": "Each step that comes straight after the right one counts.",
    "match": "Each right pair counts.",
    "number": "One point for a number in the range.",
    "point": "One point for the right place.",
}
"""The rule of each way of asking, in words for the reader."""

_NUMBER = re.compile(r"[+-]?(?:\d{1,12}(?:\.\d{0,12})?|\.\d{1,12})", re.ASCII)


_FRACTION = re.compile(r"(?:(\d{1,4})[ -]+)?(\d{1,4})/(2|4|8|16|32|64)", re.ASCII)
"""A part of an inch or of a turn as a ruler has it, with or without whole ones before it."""


def score(question: Question, answer: Answer) -> Fraction:
    """Return the share of a point that an answer earns, from 0 to 1, exact.

    Raises:
        QuizError: when the answer is of another kind than the question, or names choices there are not.

    >>> from tinwright.quizzes.questions import Choice, Question
    >>> asked = Question("q", "t", "several-answers", "Which?", tuple(map(Choice, "abcd")), (0, 2))
    >>> score(asked, (0, 1, 2)), score(asked, (0,)), score(asked, (1, 3))
    (Fraction(1, 2), Fraction(1, 2), Fraction(0, 1))
    """
    if answer is None:
        return Fraction(0)
    earned = _earned(question, answer)
    return Fraction(int(earned == 1)) if question.critical else earned


def _earned(question: Question, answer: tuple[int, ...] | Decimal) -> Fraction:
    if question.asks == "number":
        if not isinstance(answer, Decimal) or question.low is None or question.high is None:
            raise QuizError(f"{question.id}: expected a number, got {answer}")
        return Fraction(int(question.low <= answer <= question.high))
    if isinstance(answer, Decimal):
        raise QuizError(f"{question.id}: expected choices, got the number {answer}")
    _check(question, answer)
    key = question.key
    if question.asks == "several-answers":
        hits = len(set(answer) & set(key))
        return max(Fraction(0), Fraction(2 * hits - len(answer), len(key)))
    if question.asks == "order":
        wanted = set(pairwise(key))
        return Fraction(sum(pair in wanted for pair in pairwise(answer)), len(key) - 1)
    if question.asks == "match":
        return Fraction(sum(a == k for a, k in zip(answer, key, strict=True)), len(key))
    return Fraction(int(answer == key))


def _check(question: Question, answer: tuple[int, ...]) -> None:
    size, asks = len(question.choices), question.asks
    lowest = -1 if asks == "match" else 0
    if not all(lowest <= place < size for place in answer):
        raise QuizError(f"{question.id}: expected choices from A to {letter_of(size - 1)}, got another")
    if asks == "match" and len(answer) != len(question.lefts):
        raise QuizError(f"{question.id}: expected {len(question.lefts)} letters, got {len(answer)}")
    if asks in {"one-answer", "point"} and len(answer) != 1:
        raise QuizError(f"{question.id}: expected one letter, got {len(answer)}")
    if asks in {"several-answers", "order"} and len(set(answer)) != len(answer):
        raise QuizError(f"{question.id}: expected each letter once, got one twice")
    if asks == "order" and len(answer) != size:
        raise QuizError(f"{question.id}: expected each of {size} letters once, got {len(answer)}")


def read_answer(question: Question, text: str) -> Answer:
    """Read an answer as typed: letters with or without spaces and commas, `-` for a pair left out, or a number.

    A number may be a fraction as a ruler has it, such as `1 3/16`. Empty text is no answer.

    Raises:
        QuizError: when it cannot be read as an answer to this question.

    >>> from tinwright.quizzes.questions import Choice, Question
    >>> asked = Question("q", "t", "order", "Order?", tuple(map(Choice, "abc")), (1, 0, 2))
    >>> read_answer(asked, "b a,C")
    (1, 0, 2)
    """
    text = text.strip()
    if not text:
        return None
    if question.asks == "number":
        number = text.replace("−", "-")
        if part := _FRACTION.fullmatch(number):
            return Decimal(part[1] or 0) + Decimal(part[2]) / Decimal(part[3])
        if not _NUMBER.fullmatch(number):
            raise QuizError(f"{question.id}: expected a number such as 0.046 or 1 3/16, got {text[:40]!r}")
        return Decimal(number)
    letters = re.sub(r"[\s,;]+", "", text).upper()
    names = [letter_of(place) for place in range(len(question.choices))]
    known = {name: place for place, name in enumerate(names)} | ({"-": -1} if question.asks == "match" else {})
    wrong = next((letter for letter in letters if letter not in known), None)
    if wrong is not None:
        raise QuizError(f"{question.id}: expected letters from {names[0]} to {names[-1]}, got {wrong!r}")
    places = tuple(known[letter] for letter in letters)
    answer = tuple(sorted(places)) if question.asks == "several-answers" else places
    _check(question, answer)
    return answer


def write_answer(answer: Answer) -> str:
    """Write an answer as it would be typed; empty for none.

    >>> write_answer((1,)), write_answer((2, -1)), write_answer(Decimal("0.046"))
    ('B', 'C -', '0.046')
    """
    if answer is None:
        return ""
    if isinstance(answer, Decimal):
        return f"{answer:f}"
    return " ".join(letter_of(place) if place >= 0 else "-" for place in answer)
