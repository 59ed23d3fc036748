"""The browser and Python score the same answers alike."""

from __future__ import annotations

import random
from decimal import Decimal
from typing import TYPE_CHECKING, Any

import pytest

from tinwright.advice.item_questions import question_of
from tinwright.errors import QuizError
from tinwright.quizzes.questions import Choice, Question, letter_of
from tinwright.quizzes.scoring import read_answer, score

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import Page

    from tinwright.knowledge.bank import Bank

pytestmark = pytest.mark.browser

NUMBERS = (
    *("0.046", ".046", "0.0460", "46", "-0.046", "−0.046", "+.046", "0.046 in", "0,046", "1e-3", "1.", ".", "-", "+"),
    *("1 3/16", "3/16", "1-3/64", "0/8", "1/3", "1 2", "12345 1/2", "3/16 in"),
    *("", " ", "\u00a00.05\u2009", "\ufeff1", "\x1c2\x1f", "٣", "१.५", "NaN", "Infinity", "0x10", "1_000", "00000.1"),
    *("999999999999", "9999999999999", "0.000000000001", "0.0000000000001", "1.2.3", "--1", "½", "1/2", "1\n", "−−1"),
)
ODD_LETTERS = (
    "",
    "-",
    "I",
    "O",
    "Z",
    "ß",
    "ı",
    "ſ",
    "１",
    "a a",
    "A,B;C",
    " b ",
    "A-",
    "\u0085A",
    "é",
    "😀",
    "\ufeffA",
    "--",
)


def made_up(chance: random.Random, number: int) -> Question:
    """Make a question of a random kind, with thirds and sevenths among its scores."""
    asks = chance.choice(("one-answer", "several-answers", "order", "match", "number", "point"))
    common: dict[str, Any] = {
        "id": f"made-{number}",
        "topic": "t",
        "asks": asks,
        "text": "?",
        "critical": chance.random() < 0.3,
    }
    if asks == "number":
        numbers = sorted(Decimal(chance.randint(-500, 500)).scaleb(-chance.randint(0, 12)) for _ in range(3))
        return Question(**common, low=numbers[0], answer=numbers[1], high=numbers[2])
    size = chance.randint(3, 12 if asks == "point" else 7)
    places = list(range(size))
    choices = tuple(Choice(f"choice {place}") for place in places)
    if asks == "several-answers":
        return Question(
            **common, choices=choices, key=tuple(sorted(chance.sample(places, chance.randint(2, size - 1))))
        )
    if asks == "order":
        return Question(**common, choices=choices, key=tuple(chance.sample(places, size)))
    if asks == "match":
        lefts = tuple(f"left {place}" for place in range(chance.randint(3, 6)))
        return Question(**common, choices=choices, key=tuple(chance.choice(places) for _ in lefts), lefts=lefts)
    return Question(**common, choices=choices, key=(chance.choice(places),))


def typed(question: Question, chance: random.Random) -> str:
    """Type an answer: right, nearly right, wrong, or nothing that can be read."""
    if question.asks == "number":
        assert question.low is not None
        assert question.high is not None
        edges = [question.low, question.high, question.answer or question.low]
        way = chance.random()
        if way < 0.4:
            return chance.choice(NUMBERS)
        value = chance.choice(edges) + Decimal(chance.randint(-2, 2)).scaleb(-chance.randint(0, 12))
        return f"{value:f}" + ("0" * chance.randint(0, 2) if way < 0.7 and "." in f"{value:f}" else "")
    if chance.random() < 0.1:
        return chance.choice(ODD_LETTERS)
    size = len(question.choices)
    answer = list(question.key)
    for _ in range(chance.randint(0, 3)):
        way = chance.random()
        if way < 0.3 and answer:
            answer[chance.randrange(len(answer))] = chance.randint(-1, size)
        elif way < 0.6 and len(answer) > 1:
            a, b = chance.sample(range(len(answer)), 2)
            answer[a], answer[b] = answer[b], answer[a]
        elif way < 0.8 and answer:
            answer.pop(chance.randrange(len(answer)))
        else:
            answer.insert(chance.randint(0, len(answer)), chance.randrange(size))
    letters = ["-" if place < 0 else letter_of(place) for place in answer]
    text = chance.choice(("", " ", ", ", ";", "\u00a0", "\t")).join(letters)
    return text.lower() if chance.random() < 0.3 else text


def as_data(question: Question) -> dict[str, Any]:
    """The question as the site's data script has it."""
    data: dict[str, Any] = {
        "id": question.id,
        "asks": question.asks,
        "critical": question.critical,
        "choices": [{"text": choice.text, "why": choice.why} for choice in question.choices],
        "key": list(question.key),
        "lefts": list(question.lefts),
    }
    if question.low is not None and question.high is not None:
        data |= {"low": f"{question.low:f}", "high": f"{question.high:f}"}
    return data


def in_python(question: Question, text: str) -> list[int] | None:
    try:
        share = score(question, read_answer(question, text))
    except QuizError:
        return None
    return [share.numerator, share.denominator]


def test_browser_and_python_score_answers_alike(
    page: Page, over_http: str, bank: Bank, cases_of: Callable[[int], int]
) -> None:
    responses = cases_of(10_000)
    chance = random.Random(20261125)  # noqa: S311 nothing secret
    questions = [question_of(item) for item in (*bank.practice.values(), *bank.examination.values())]
    questions += [made_up(chance, number) for number in range(400)]
    asked = [chance.choice(questions) for _ in range(responses)]
    pairs = [(question, typed(question, chance)) for question in asked]
    expected = [in_python(question, text) for question, text in pairs]
    refused = sum(each is None for each in expected)
    partly = sum(each is not None and each[1] > 1 for each in expected)
    assert responses / 20 < refused < responses / 2
    assert partly > responses / 20
    assert sum(each == [1, 1] for each in expected) > responses * 3 / 20

    places = {question.id: place for place, question in enumerate(questions)}
    page.goto(f"{over_http}quizzes/parts.html")
    found = page.evaluate(
        """([questions, pairs]) => {
            const { AnswerError, readAnswer, score } = tinwrightScoring;
            return pairs.map(([place, text]) => {
                try {
                    return score(questions[place], readAnswer(questions[place], text));
                } catch (error) {
                    if (!(error instanceof AnswerError)) throw error;
                    return null;
                }
            });
        }""",
        [
            [as_data(question) for question in questions],
            [(places[question.id], text) for question, text in pairs],
        ],
    )
    differing = [
        (question.id, question.asks, text, ours, theirs)
        for (question, text), ours, theirs in zip(pairs, expected, found, strict=True)
        if ours != theirs
    ]
    assert differing == []


def test_the_pass_mark_is_reached_exactly(page: Page, over_http: str) -> None:
    """Twelve of fifteen points are 80 percent; thirds that add up to it are too, and a hair less is not."""
    page.goto(f"{over_http}quizzes/parts.html")
    rows = [
        [[1, 1]] * 12 + [[0, 1]] * 3,
        [[1, 3]] * 3 + [[1, 1]] * 3 + [[0, 1]],
        [[1, 1]] * 11 + [[6, 7]] + [[0, 1]] * 3,
    ]
    found = page.evaluate("rows => rows.map(shares => tinwrightScoring.passes(shares, 80))", rows)
    assert found == [True, False, False]
    assert page.evaluate("tinwrightScoring.passes([[1,3],[2,3],[1,1],[1,1],[1,1]], 80)") is True
    assert page.evaluate("tinwrightScoring.percentOf([[1,1],[1,1],[2,3]])") == 88
    assert page.evaluate("tinwrightScoring.points([[1,3],[1,3],[1,3]])") == "1"
