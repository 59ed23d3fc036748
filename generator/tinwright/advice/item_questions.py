"""From an item of the bank to a question as plain values."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.advice.item_readings import readings_rows
from tinwright.figures import places_of
from tinwright.knowledge.models.item import (
    Match,
    NumberItem,
    OneAnswer,
    OrderSteps,
    PointAt,
    SeveralAnswers,
)
from tinwright.quizzes.questions import Choice, Question

if TYPE_CHECKING:
    from tinwright.knowledge.models.item import Item

__all__ = ["question_of"]


def question_of(item: Item) -> Question:
    """Return the question an item asks, its choices in the order of the file (places in the order of their letters).

    Raises:
        QuizError: when a place to point at is not in the drawing.
    """
    common = {
        "id": item.id,
        "topic": item.topic,
        "text": item.question,
        "drawing": item.drawing,
        "table": readings_rows(item.readings) if item.readings else (),
        "critical": item.critical,
        "difficulty": item.difficulty,
        "why": item.why,
        "teaches": item.teaches,
    }
    if isinstance(item, OneAnswer | SeveralAnswers):
        choices = tuple(Choice(option.text, option.why) for option in item.options)
        key = tuple(place for place, option in enumerate(item.options) if option.right)
        return Question(**common, asks=item.asks, choices=choices, key=key)
    if isinstance(item, OrderSteps):
        choices = tuple(Choice(step) for step in item.steps)
        return Question(**common, asks="order", choices=choices, key=tuple(range(len(choices))))
    if isinstance(item, Match):
        rights = {pair.right: pair.why for pair in reversed(item.pairs)}
        rights |= {spare.answer: spare.why for spare in item.spare}
        texts = list(dict.fromkeys([pair.right for pair in item.pairs] + [spare.answer for spare in item.spare]))
        return Question(
            **common,
            asks="match",
            choices=tuple(Choice(text, rights[text]) for text in texts),
            key=tuple(texts.index(pair.right) for pair in item.pairs),
            lefts=tuple(pair.left for pair in item.pairs),
        )
    if isinstance(item, NumberItem):
        return Question(
            **common,
            asks="number",
            unit=item.unit,
            answer=item.answer,
            low=item.low,
            high=item.high,
            wrong_numbers=tuple((mistake.number, mistake.why) for mistake in item.mistakes),
        )
    if isinstance(item, PointAt):
        places = places_of(item.figure)
        whys = {mistake.place: mistake.why for mistake in item.mistakes}
        known = [place.id for place in places]
        return Question(
            **common,
            asks="point",
            figure=item.figure,
            choices=tuple(Choice(place.name, whys.get(place.id, "")) for place in places),
            key=(known.index(item.place),) if item.place in known else (),
        )
    raise TypeError(f"expected an item of the bank, got {type(item).__name__}")
