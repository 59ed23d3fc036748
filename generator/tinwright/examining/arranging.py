"""The order in which a form shows the choices of its questions.

The key moves about: over the questions with one answer, every letter is right about as often as every other. Numbers
stand in rising order, and the letters in a drawing stay where they are.
"""

from __future__ import annotations

import re
from collections import Counter
from decimal import Decimal
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import random
    from collections.abc import Sequence

    from tinwright.quizzes.questions import Question

__all__ = ["arranged", "rising"]

_NUMBER = re.compile(r"\s*(?:about\s+)?([+\-−]?)(?:(\d+)[ -])?(?:(\d+)/(\d+)|(\d+(?:\.\d+)?|\.\d+))(.*)", re.DOTALL)


def arranged(questions: Sequence[Question], rng: random.Random) -> tuple[Question, ...]:
    """Return the questions in the same order, each with its choices in the order to be shown.

    Args:
        questions: the questions of a form.
        rng: what chance there is; the same one gives the same order.
    """
    done: dict[str, Question] = {}
    loose = []
    for question in questions:
        if question.asks in {"number", "point"}:
            done[question.id] = question
        elif (order := rising([choice.text for choice in question.choices])) is not None and question.asks != "order":
            done[question.id] = question.rearranged(order)
        elif question.asks == "one-answer":
            loose.append(question)
        else:
            done[question.id] = question.rearranged(_mixed(question, rng))
    used = Counter(question.key[0] for question in done.values() if question.asks == "one-answer")
    # Those with the fewest choices first: the others can still make up for them. Chance decides between equals.
    rng.shuffle(loose)
    for question in sorted(loose, key=lambda question: len(question.choices)):
        places = list(range(len(question.choices)))
        rng.shuffle(places)
        place = min(places, key=lambda place: used[place])
        used[place] += 1
        others = [old for old in range(len(question.choices)) if old != question.key[0]]
        rng.shuffle(others)
        done[question.id] = question.rearranged((*others[:place], question.key[0], *others[place:]))
    return tuple(done[question.id] for question in questions)


def rising(texts: Sequence[str]) -> tuple[int, ...] | None:
    """Return the order that puts choices which are numbers of one unit in rising order; None for other choices.

    >>> rising(["0.12 in", "0.04 in", "1/16 in"])
    (1, 2, 0)
    >>> rising(["2 cans", "the second roller", "1 can"])
    """
    found = [_NUMBER.fullmatch(text) for text in texts]
    values = []
    units = set()
    for match in found:
        if match is None:
            return None
        sign, whole, over, under, plain, unit = match.groups()
        if under is not None and not int(under):
            return None
        value = Decimal(plain) if plain else Decimal(whole or 0) + Decimal(over) / Decimal(under)
        values.append(-value if sign in {"-", "−"} else value)
        units.add(re.sub(r"[^a-z%]", "", unit.casefold()).rstrip("s"))
    if len(units) > 1:
        return None
    return tuple(sorted(range(len(texts)), key=lambda place: values[place]))


def _mixed(question: Question, rng: random.Random) -> tuple[int, ...]:
    """Return an order by chance, but never one that is the answer as it stands."""
    places = list(range(len(question.choices)))
    while True:
        rng.shuffle(places)
        key = question.rearranged(tuple(places)).key
        told = question.asks in {"order", "match"} and key == tuple(range(len(key)))
        if not told:
            return tuple(places)
