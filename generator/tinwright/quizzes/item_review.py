"""Review of items: what gives an answer away without knowledge, and what the bank lacks.

Rules of item writing from the field (Haladyna, Downing and Rodriguez 2002, Applied Measurement in Education 15,
309-333, remembered): no cue by length or grammar, no "all of the above", key positions balanced, items independent of
each other. The bounds are ours.
"""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from tinwright.quizzes.questions import letter_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tinwright.quizzes.questions import Question

__all__ = ["Finding", "Reviewed", "review_items"]

_LONGER, _FLOOR = 1.25, 12
"""The right option may be longer than the next by a quarter; less than twelve characters is never a cue."""
_MOST_LONGEST, _FEWEST = 0.40, 5
"""Share of items whose right option may be the longest, and the fewest items that such a share says anything of."""
_MOST_WORDS = 25
"""Words of an option."""
_IN_A_ROW = 3
"""Right options at one place, one after the other, that show a habit."""
_CHI_SQUARE = {2: 5.991, 3: 7.815, 4: 9.488}
"""Upper 5 percent points of chi-square by degrees of freedom (any table, such as NIST handbook 1.3.6.7.4)."""
_FEWEST_A_PLACE = 2
"""Right options expected at each place before their balance says anything."""
_SAME = 0.8
"""Shared words of two questions, over all their words, that make them near copies."""
_TELLING = 4
"""Words of a right answer that give it away when another question says them all, one after the other."""
_ABOVE = re.compile(
    r"\b(?:all|none|any|both|neither)(?: of)?(?: the)? (?:above|below|others|other answers|answers)\b"
    r"|^(?:all|none|both|neither) of (?:these|them)\b"
)
_ABSOLUTE = re.compile(r"\b(?:always|never|only)\b", re.IGNORECASE)
_ARTICLE = re.compile(r"\b(an?)\s*(?:_+|:|\.\.\.|…)?\s*$", re.IGNORECASE)
_WORD = re.compile(r"[a-z0-9/.']*[a-z0-9]")


@dataclass(frozen=True)
class Reviewed:
    """An item under review."""

    question: Question
    """What it asks."""
    use: str
    """`practice` or `examination`."""
    enemies: tuple[str, ...] = ()
    """Items that never stand in one form with it."""


@dataclass(frozen=True, order=True)
class Finding:
    """Something to mend."""

    item: str
    """The item it is about."""
    message: str
    """What is wrong with it, in plain words."""


def review_items(items: Sequence[Reviewed]) -> tuple[Finding, ...]:
    """Return what is wrong with the items, in their order; items of one topic and use in the order of their file."""
    found = [finding for item in items for finding in _alone(item.question)]
    groups: dict[tuple[str, str], list[Question]] = defaultdict(list)
    for item in items:
        groups[item.question.topic, item.use].append(item.question)
    for (_, use), questions in groups.items():
        found.extend(_together(questions, use))
    found.extend(_lopsided_enemies(items))
    found.extend(_giving_away(items))
    order = {item.question.id: place for place, item in enumerate(items)}
    return tuple(sorted(found, key=lambda finding: order[finding.item]))


def _alone(question: Question) -> Iterator[Finding]:
    """Yield what is wrong with an item by itself."""
    texts = [choice.text for choice in question.choices]
    for text in texts:
        if len(text.split()) > _MOST_WORDS:
            yield Finding(question.id, f"expected at most {_MOST_WORDS} words in an option, got {len(text.split())}")
        if _ABOVE.search(text.lower()):
            yield Finding(question.id, f"an option points at the others: {text!r}; say what it means instead")
    twice = [text for text, count in Counter(text.lower().strip(" .") for text in texts).items() if count > 1]
    if twice:
        yield Finding(question.id, f"two options say the same: {twice[0]!r}")
    if question.asks not in {"one-answer", "several-answers"}:
        return
    right = [texts[place] for place in question.key]
    wrong = [text for place, text in enumerate(texts) if place not in question.key]
    absolute = sorted({word.lower() for text in wrong for word in _ABSOLUTE.findall(text)})
    if absolute and not any(map(_ABSOLUTE.search, right)):
        yield Finding(question.id, f"{absolute[0]!r} stands in wrong options alone: such words give them away")
    yield from _grammar(question, right, wrong)
    if question.asks == "one-answer":
        next_longest = max(map(len, wrong))
        if len(right[0]) > max(_LONGER * next_longest, next_longest + _FLOOR):
            yield Finding(
                question.id,
                f"the right option is the longest by far: {len(right[0])} characters, the next {next_longest}",
            )


def _grammar(question: Question, right: Sequence[str], wrong: Sequence[str]) -> Iterator[Finding]:
    texts = [*right, *wrong]
    for what, of in (("end with a period", _has_period), ("begin with a capital letter", _has_capital)):
        kinds = {kind for kind in map(of, texts) if kind is not None}
        if len(kinds) > 1:
            yield Finding(question.id, f"some options {what} and some do not: write all of them alike")
    article = _ARTICLE.search(question.text.rstrip(" ?"))
    if article:
        an = article[1].lower() == "an"
        fits = [(text[:1].lower() in "aeiou") == an for text in texts]
        if not all(fits):
            yield Finding(question.id, f"the question ends in {article[1]!r}, which does not fit every option")


def _has_period(text: str) -> bool | None:
    return text.rstrip().endswith(".")


def _has_capital(text: str) -> bool | None:
    """Say whether a text begins with a capital letter; None for a number or a sign, which has none."""
    return text[:1].isupper() if text[:1].isalpha() else None


def _together(questions: Sequence[Question], use: str) -> Iterator[Finding]:
    """Yield what is wrong with the one-answer items of a topic and use taken together, at the item where it shows."""
    asked = [question for question in questions if question.asks == "one-answer"]
    row = 1
    for before, here in pairwise(asked):
        row = row + 1 if here.key == before.key else 1
        if row == _IN_A_ROW:
            letter = letter_of(here.key[0])
            yield Finding(here.id, f"the right option stands at {letter} {_IN_A_ROW} times running")
    if len(asked) < _FEWEST:
        return
    where = f"in the {use} items on {asked[0].topic}"
    longest = [question for question in asked if _right_is_longest(question)]
    if len(longest) > _MOST_LONGEST * len(asked):
        share = f"{len(longest)} of {len(asked)}"
        yield Finding(longest[-1].id, f"{where} the right option is the longest in {share}: shorten it in some")
    size = max(len(question.choices) for question in asked)
    expected = [sum(1 / len(q.choices) for q in asked if place < len(q.choices)) for place in range(size)]
    counts = Counter(question.key[0] for question in asked)
    lopsided = sum((counts[place] - mean) ** 2 / mean for place, mean in enumerate(expected))
    if min(expected) >= _FEWEST_A_PLACE and lopsided > _CHI_SQUARE.get(size - 1, float("inf")):
        stands = ", ".join(f"{letter_of(place)} {counts[place]}" for place in range(size))
        yield Finding(asked[0].id, f"{where} the right option does not stand equally often at each place: {stands}")


def _right_is_longest(question: Question) -> bool:
    lengths = [len(choice.text) for choice in question.choices]
    return lengths[question.key[0]] == max(lengths) and lengths.count(max(lengths)) == 1


def _lopsided_enemies(items: Sequence[Reviewed]) -> Iterator[Finding]:
    by_id = {item.question.id: item for item in items}
    for item in items:
        for enemy in item.enemies:
            other = by_id.get(enemy)
            if other is not None and item.question.id not in other.enemies:
                yield Finding(enemy, f"{item.question.id} names it as an enemy: name {item.question.id} there, too")


def _giving_away(items: Sequence[Reviewed]) -> Iterator[Finding]:
    """Yield pairs of items of one use that are near copies or say each other's answer, and are no declared enemies."""
    said = [_Said.of(place, item) for place, item in enumerate(items)]
    copies = dict.fromkeys(_near_copies(said))  # in their order
    for one, other in copies:
        if one.may_meet(other):
            name = one.item.question.id
            yield Finding(other.item.question.id, f"asks nearly the same as {name}: name them as enemies, or drop one")
    for told in said:
        for telling in said if told.answer else ():
            if told.answer in telling.text and told.may_meet(telling):
                if (told, telling) in copies or (telling, told) in copies:
                    continue
                question = told.item.question
                shown = question.choices[question.key[0]].text
                yield Finding(
                    telling.item.question.id,
                    f"its question gives away the answer of {question.id} ({shown!r}): name them as enemies, or "
                    "change one",
                )


def _near_copies(said: Sequence[_Said]) -> Iterator[tuple[_Said, _Said]]:
    """Yield pairs that ask nearly the same of one drawing, the earlier item first."""
    by_length = sorted(said, key=lambda one: len(one.words))
    for at, one in enumerate(by_length, 1):
        for other in by_length[at:]:
            if len(one.words) <= _SAME * len(other.words):
                break  # so much shorter than this one, and than all that follow, that it cannot be a copy
            shared = len(one.words & other.words)
            if shared > _SAME * (len(one.words) + len(other.words) - shared) and one.shows == other.shows:
                yield (one, other) if one.place < other.place else (other, one)


@dataclass(frozen=True, eq=False)
class _Said:
    """What an item says, as words to compare."""

    place: int
    """Its place among the items."""
    item: Reviewed
    """The item."""
    text: str
    """The words of its question, with a space around each."""
    words: frozenset[str]
    """The same as a set."""
    answer: str
    """The words of its one right answer, likewise; empty when there is none, or when it is too short to tell."""

    @classmethod
    def of(cls, place: int, item: Reviewed) -> _Said:
        question = item.question
        words = _WORD.findall(question.text.lower())
        answer = _WORD.findall(question.choices[question.key[0]].text.lower()) if question.asks == "one-answer" else []
        told = f" {' '.join(answer)} " if len(answer) >= _TELLING else ""
        return cls(place, item, f" {' '.join(words)} ", frozenset(words), told)

    @property
    def shows(self) -> tuple[str | None, str | None]:
        """The drawings beside its question."""
        return self.item.question.drawing, self.item.question.figure

    def may_meet(self, other: _Said) -> bool:
        """Tell whether the two may stand in one form."""
        one, two = self.item, other.item
        are_enemies = two.question.id in one.enemies or one.question.id in two.enemies
        return self is not other and one.use == two.use and not are_enemies
