"""Review of a whole bank: topics that lack items, records that no item teaches, blueprints that cannot be filled."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Mapping

    from tinwright.quizzes.item_review import Reviewed
    from tinwright.quizzes.questions import Question

__all__ = ["not_filled", "not_taught", "topics_without"]


def topics_without(topics: Iterable[str], items: Iterable[Reviewed], use: str) -> tuple[str, ...]:
    """Return the topics that have no item of a use, in their order."""
    have = {item.question.topic for item in items if item.use == use}
    return tuple(topic for topic in topics if topic not in have)


def not_taught(records: Iterable[str], questions: Iterable[Question]) -> tuple[str, ...]:
    """Return the records, as `kind/id`, that no question teaches, in their order."""
    taught = {reference for question in questions for reference in question.teaches}
    return tuple(record for record in records if record not in taught)


def not_filled(
    wanted: Mapping[str, int], areas: Iterable[tuple[str, Collection[str], int]], items: Collection[Reviewed]
) -> Iterator[str]:
    """Yield why examination items cannot fill a form: too few of a topic, or too few critical ones of an area.

    This only counts: whether a form can be made without enemies meeting is for `forms.assemble_forms` to say.

    Args:
        wanted: how many items of each topic a form has.
        areas: critical areas, each with its title, its topics, and how many of their critical items a form has; its
            second try needs as many again.
        items: all items.
    """
    have = Counter(item.question.topic for item in items if item.use == "examination")
    for topic, count in wanted.items():
        if have[topic] < count:
            yield f"a form has {count} examination items on {topic}, the bank {have[topic]}"
    has = Counter(item.question.topic for item in items if item.use == "examination" and item.question.critical)
    for title, topics, count in areas:
        there = sum(has[topic] for topic in topics)
        if there < 2 * count:
            yield f"a form and its second try have {2 * count} critical items of {title!r}, the bank {there}"
