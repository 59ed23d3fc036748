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


def not_filled(wanted: Mapping[str, int], critical: int, items: Collection[Reviewed]) -> Iterator[str]:
    """Yield why examination items cannot fill a form: too few of a topic, or too few critical ones.

    This only counts: whether a form can be made without enemies meeting is for `forms.assemble_forms` to say.

    Args:
        wanted: how many items of each topic a form has.
        critical: least number of critical items in it.
        items: all items.
    """
    have = Counter(item.question.topic for item in items if item.use == "examination")
    for topic, count in wanted.items():
        if have[topic] < count:
            yield f"a form has {count} examination items on {topic}, the bank {have[topic]}"
    has = Counter(item.question.topic for item in items if item.use == "examination" and item.question.critical)
    reachable = sum(min(has[topic], count) for topic, count in wanted.items())
    if reachable < critical:
        yield f"a form has at least {critical} critical items, the bank gives at most {reachable} within its topics"
