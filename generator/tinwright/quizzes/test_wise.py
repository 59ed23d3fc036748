"""What somebody scores who knows nothing of seams and picks by the look of the options.

    from tinwright.quizzes.test_wise import score_strategies

    for score in score_strategies(questions):
        print(score.strategy, score.share, score.chance)

Cues of this kind are named in the literature on test-wiseness (Millman, Bishop and Ebel 1965, Educational and
Psychological Measurement 25, 707-726; remembered). How each is told by a program, and the margin, are ours.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from statistics import median_low
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence

    from tinwright.quizzes.questions import Question

__all__ = ["MARGIN", "STRATEGIES", "StrategyScore", "score_strategies"]

MARGIN = 0.10
"""How far a strategy may score above blind guessing."""
_FEWEST_NUMBERS = 3
"""Options that hold a number before one of them is the middle one."""
_WORD = re.compile(r"[a-z0-9]+(?:[./'][a-z0-9]+)*")
_NUMBER = re.compile(r"(?<![\w.])(?:(\d+) )?(\d+/\d+|\d*\.?\d+)(?!\w)")
_CAREFUL = re.compile(
    r"\b(?:stop(?:s|ped)?|hold|held|keep|leave|reject|discard|throw|thrown out|apart|aside|mark(?:ed)?|shut|ask|call"
    r"|no|not|none|nobody|nothing|never|without|until|unless|again|first|test cans?|tear|torn|check|look over|look for"
    r"|out of use|pull the plug|unplug|educator|extension|new|every|each|full|before)\b"
)
"""Words that sound careful: somebody who knows nothing but fears the worst goes by them."""
_HASTY = re.compile(
    r"\b(?:go on|now|go ahead|use|pass(?:es)?|accept|fill|seal(?:s|ed)? (?:the|them|one|half|and)|taste|serve[ds]?|eat"
    r"|load|send|run it|harder|force|press|push|file[ds]?|tape|bend|back again|since|enough|anyway|later|one more)\b"
)
"""Words that sound hasty."""
_EXACT = re.compile(
    r"\b(?:one|two|three|four|half|quarter|eighth|third|each|every|just|until|before|after|within|between|at|by|with|from"
    r"|since|than|small|full|very|same|own)\b"
)
"""Words that narrow a sentence down."""


@dataclass(frozen=True)
class StrategyScore:
    """What one way of picking scores."""

    strategy: str
    """Its name, in words."""
    items: int
    """How many items it says anything of."""
    share: float
    """The share that it has right; where it cannot choose between some options, it draws among them."""
    chance: float
    """The share that blind guessing has right in the same items."""

    @property
    def is_too_good(self) -> bool:
        """Whether it beats guessing by more than the margin."""
        return self.share > self.chance + MARGIN


def score_strategies(questions: Iterable[Question]) -> tuple[StrategyScore, ...]:
    """Score each strategy on the items with one right answer; one that says nothing of any item has none.

    >>> from tinwright.quizzes.questions import Choice, Question
    >>> options = (Choice("Go on"), Choice("Stop, and hold the cans"), Choice("Taste it"))
    >>> scores = score_strategies([Question("q", "t", "one-answer", "What now?", options, (1,))])
    >>> [(score.strategy, score.share) for score in scores][:2]
    [('most cautious', 1.0), ('least cautious', 0.0)]
    """
    asked = [question for question in questions if question.asks == "one-answer"]
    found = []
    for name, pick in STRATEGIES.items():
        rows = []
        for question in asked:
            texts = [choice.text for choice in question.choices]
            picked = pick(texts)
            if picked:
                rows.append(((question.key[0] in picked) / len(picked), 1 / len(texts)))
        if rows:
            share, chance = (sum(column) / len(rows) for column in zip(*rows, strict=True))
            found.append(StrategyScore(name, len(rows), share, chance))
    return tuple(found)


def _most_cautious(texts: Sequence[str]) -> tuple[int, ...]:
    return _highest([len(_CAREFUL.findall(text.lower())) - len(_HASTY.findall(text.lower())) for text in texts])


def _least_cautious(texts: Sequence[str]) -> tuple[int, ...]:
    return _highest([len(_HASTY.findall(text.lower())) - len(_CAREFUL.findall(text.lower())) for text in texts])


def _shortest(texts: Sequence[str]) -> tuple[int, ...]:
    return _highest([-len(text) for text in texts])


def _longest(texts: Sequence[str]) -> tuple[int, ...]:
    return _highest([len(text) for text in texts])


def _most_precise(texts: Sequence[str]) -> tuple[int, ...]:
    return _highest([len(_EXACT.findall(text.lower())) + len(_NUMBER.findall(text)) for text in texts])


def _odd_one_out(texts: Sequence[str]) -> tuple[int, ...]:
    """Pick the option that shares fewest words with the others (least sum of Jaccard indexes)."""
    words = [frozenset(_WORD.findall(text.lower())) for text in texts]
    shared = [
        sum(len(own & other) / len(own | other) for place, other in enumerate(words) if place != at and own | other)
        for at, own in enumerate(words)
    ]
    return _highest([-share for share in shared])


def _middle_number(texts: Sequence[str]) -> tuple[int, ...]:
    """Pick the option with the middle number, of an even count the lower one; none where few have a number."""
    values = {place: _value(found) for place, text in enumerate(texts) if (found := _NUMBER.search(text))}
    if len(set(values.values())) < _FEWEST_NUMBERS:
        return ()
    middle = median_low(values.values())
    return tuple(place for place, value in values.items() if value == middle)


def _value(number: re.Match[str]) -> float:
    """Read a decimal, a fraction or a mixed number, such as 3 7/16."""
    top, _, bottom = number[2].partition("/")
    return float(number[1] or 0) + (float(top) / float(bottom) if bottom and float(bottom) else float(top))


def _highest(scores: Sequence[float]) -> tuple[int, ...]:
    """Return the places of the highest score; nothing where all are alike, for then it tells nothing."""
    top = max(scores)
    places = tuple(place for place, score in enumerate(scores) if abs(score - top) <= _CLOSE)
    return places if len(places) < len(scores) else ()


_CLOSE = 1e-9
"""Rounding of the computer."""

STRATEGIES: Mapping[str, Callable[[Sequence[str]], tuple[int, ...]]] = MappingProxyType(
    {
        "most cautious": _most_cautious,
        "least cautious": _least_cautious,
        "longest": _longest,
        "shortest": _shortest,
        "most precise": _most_precise,
        "odd one out": _odd_one_out,
        "middle number": _middle_number,
    }
)
"""The strategies by name: each returns the places it draws from, none where it says nothing.

Careful and long have their opposites: a bank mended against one habit must not reward the other.
"""
