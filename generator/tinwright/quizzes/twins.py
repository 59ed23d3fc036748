"""Items that ask the same thing twice: by wording, by answer and by numbers.

    from tinwright.quizzes.twins import find_twins

    find_twins(questions)   # pairs, each with what makes them twins

Wording is compared by the cosine of tf-idf weights (Manning, Raghavan and Schütze 2008, Introduction to Information
Retrieval, sections 6.2 and 6.3), over the question and its right answer; the weights are smoothed as scikit-learn's
TfidfVectorizer does it, and a test compares the two where that library is there. It is our own hand's work because
`check` loads no numerical library. The bounds are ours.
"""

from __future__ import annotations

import math
import re
from collections import Counter, defaultdict
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from tinwright.quizzes.questions import Question

__all__ = ["Twins", "cosines", "find_twins", "kept_apart"]

_ALIKE = 0.60
"""Cosine from which two items that ask in one way are the same one in other words."""
_ALIKE_ANSWER = 0.35
"""Cosine from which two items with the same answer, or the same numbers, are one."""
_NEAR = 0.42
"""Cosine from which two items stand too near each other for one form."""
_EVERYWHERE = 0.25
"""Words that stand in more of the texts than this say nothing of any of them."""
_FEWEST_NUMBERS = 3
"""Numbers that two questions share, all of them, before that says anything."""
_WORD = re.compile(r"[a-z0-9]+(?:[./'][a-z0-9]+)*")
_NUMBER = re.compile(r"(?<![\w.])\d*\.?\d+(?:/\d+)?(?![\w])")


@dataclass(frozen=True, order=True)
class Twins:
    """Two items that ask the same."""

    one: str
    """The item that stands first."""
    other: str
    """The item that stands later."""
    why: str
    """What makes them twins, in words."""


def kept_apart(questions: Sequence[Question]) -> Mapping[str, frozenset[str]]:
    """Return for each item those that must not stand in one form with it: twins, and what comes near to one."""
    apart: dict[str, set[str]] = defaultdict(set)
    for pair in find_twins(questions, alike=_NEAR):
        apart[pair.one].add(pair.other)
        apart[pair.other].add(pair.one)
    return {name: frozenset(others) for name, others in apart.items()}


def find_twins(questions: Sequence[Question], *, alike: float = _ALIKE) -> tuple[Twins, ...]:
    """Return the pairs that ask the same thing, in the order of the questions; those with different pictures are none.

    A pair is one by wording alone, by one answer in near wording, or by the same numbers in near wording.

    Args:
        questions: the items.
        alike: cosine from which wording alone makes two items one.
    """
    texts = [_words(question) for question in questions]
    answers = [_answer(question) for question in questions]
    numbers = [frozenset(_NUMBER.findall(_asked(question))) for question in questions]
    found = []
    for (one, other), cosine in sorted(cosines(_telling(texts), least=_ALIKE_ANSWER).items()):
        here, there = questions[one], questions[other]
        if (here.drawing, here.figure) != (there.drawing, there.figure):
            continue
        if cosine >= alike and here.asks == there.asks:
            why = f"in nearly the same words ({cosine:.2f})"
        elif answers[one] and answers[one] == answers[other]:
            why = f"with the same answer in like words ({cosine:.2f})"
        elif numbers[one] == numbers[other] and len(numbers[one]) >= _FEWEST_NUMBERS:
            why = f"with the same numbers in like words ({cosine:.2f})"
        else:
            continue
        found.append(Twins(here.id, there.id, why))
    return tuple(found)


def cosines(texts: Sequence[Sequence[str]], *, least: float = 0.0) -> Mapping[tuple[int, int], float]:
    """Return the cosine of the tf-idf weights of each pair of texts that reaches a bound, by their places.

    Args:
        texts: the words of each text.
        least: the smallest cosine worth returning, above zero or zero for every pair that shares a word.

    >>> found = cosines([["lid", "bent"], ["lid", "bent"], ["crank"]])
    >>> {pair: round(value, 6) for pair, value in found.items()}
    {(0, 1): 1.0}
    """
    seen = Counter(word for words in texts for word in set(words))
    rarity = {word: math.log((1 + len(texts)) / (1 + count)) + 1 for word, count in seen.items()}
    places: dict[str, list[tuple[int, float]]] = defaultdict(list)
    for place, words in enumerate(texts):
        weights = {word: count * rarity[word] for word, count in Counter(words).items()}
        length = math.hypot(*weights.values())
        for word, weight in weights.items():
            places[word].append((place, weight / length))
    found: dict[tuple[int, int], float] = defaultdict(float)
    for shared in places.values():
        for (one, weight), (other, weighed) in combinations(shared, 2):
            found[one, other] += weight * weighed
    return {pair: cosine for pair, cosine in found.items() if cosine >= least}


def _telling(texts: Sequence[Sequence[str]]) -> list[list[str]]:
    """Leave out the words that nearly every text has; of few texts none can be left out."""
    seen = Counter(word for words in texts for word in set(words))
    most = max(_EVERYWHERE * len(texts), 2)
    return [[word for word in words if seen[word] <= most] for words in texts]


def _words(question: Question) -> list[str]:
    return _WORD.findall(f"{_asked(question)} {' '.join(_right(question))}".lower())


def _asked(question: Question) -> str:
    """Return what is asked, with the numbers of a table; its headings and names stand in every table."""
    numbers = (cell for row in question.table[1:] for cell in row[1:])
    return " ".join([question.text, *question.lefts, *numbers])


def _right(question: Question) -> Iterable[str]:
    """Return what a right answer says; of a place in a drawing its name, of an order or pairs all of it."""
    return [question.choices[place].text for place in question.key]


def _answer(question: Question) -> str:
    """Return a right answer to compare: a number as written, or the right words; empty where they tell little."""
    if question.answer is not None:
        return f"{question.answer.normalize():f} {question.unit}"
    said = " ".join(_WORD.findall(" ".join(_right(question)).lower()))
    return said if question.asks in {"one-answer", "point"} else ""
