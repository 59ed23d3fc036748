"""Review of a programme's question bank beside its knowledge base, each finding with its place in the files."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.advice.item_fits import sealers_not_used
from tinwright.advice.item_questions import question_of
from tinwright.advice.item_readings import readings_problems
from tinwright.errors import ContentError, Problem, QuizError
from tinwright.knowledge.bank import load_bank
from tinwright.quizzes.bank_review import not_filled, not_taught, topics_without
from tinwright.quizzes.item_review import Reviewed, review_items
from tinwright.quizzes.test_wise import score_strategies
from tinwright.quizzes.twins import find_twins

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.bank import Bank
    from tinwright.quizzes.questions import Question
    from tinwright.quizzes.test_wise import StrategyScore

__all__ = ["BankReview", "GroupScore", "load_sound_practice", "review_bank"]

_MATTER = ("defect", "cause", "caution", "procedure")
"""Kinds of records of which every one has to be taught; parts, too, when a sealer names them."""


@dataclass(frozen=True)
class GroupScore:
    """What a strategy scores on some of the items."""

    group: str
    """Which items, in words: `practice`, `practice, critical`."""
    score: StrategyScore
    """What it scores."""


@dataclass(frozen=True)
class BankReview:
    """What the review of a bank found."""

    problems: tuple[Problem, ...]
    """Faults of items, sorted by place."""
    gaps: tuple[Problem, ...]
    """What the bank lacks: items on a topic, items that teach a record, items to fill a blueprint."""
    strategies: tuple[GroupScore, ...] = ()
    """What picking by the look of the options scores, for each use and its critical items."""


def load_sound_practice(root: Path, kb: KnowledgeBase, *, today: dt.date) -> Bank:
    """Read the practice items of a bank for a site, and refuse what `tinwright check` refuses.

    Args:
        root: the folder of the bank.
        kb: the knowledge base it teaches.
        today: the day it is.

    Raises:
        ContentError: with every problem.
    """
    bank = load_bank(root, kb, today=today)
    review = review_bank(bank, kb, with_examination=False)
    if review.problems:
        raise ContentError(review.problems)
    return bank


def review_bank(bank: Bank, kb: KnowledgeBase, *, with_examination: bool = True) -> BankReview:
    """Review a bank that was read without problems.

    Args:
        bank: the bank.
        kb: the knowledge base it teaches.
        with_examination: False when the examination items were not read, and so nothing is said about them.
    """
    items: list[Reviewed] = []
    problems: list[Problem] = []
    for item in [*bank.practice.values(), *bank.examination.values()]:
        try:
            items.append(Reviewed(question_of(item), item.use, item.enemies))
        except QuizError:
            problems.append(bank.placed[item.id].problem((), "the place is not in this drawing"))
    problems.extend(bank.placed[finding.item].problem((), finding.message) for finding in review_items(items))
    for item in [*bank.practice.values(), *bank.examination.values()]:
        problems.extend(bank.placed[item.id].problem(("readings",), said) for said in readings_problems(item, kb))
        problems.extend(
            bank.placed[item.id].problem(("teaches",), f"names the sealer {name}, which stands in no kitchen")
            for name in sealers_not_used(item, kb)
        )
    problems.extend(_twins(bank, [item.question for item in items]))
    gaps = _gaps(bank, kb, items, with_examination=with_examination)
    return BankReview(tuple(sorted(problems)), tuple(gaps), tuple(_strategies(items)))


def _strategies(items: Sequence[Reviewed]) -> Iterator[GroupScore]:
    for use in ("practice", "examination"):
        own = [item.question for item in items if item.use == use]
        for group, some in ((use, own), (f"{use}, critical", [question for question in own if question.critical])):
            for score in score_strategies(some):
                yield GroupScore(group, score)


def _twins(bank: Bank, questions: Sequence[Question]) -> Iterator[Problem]:
    """Yield pairs that ask the same; within practice, or on no form together, two may if they are named as enemies."""
    items = {**bank.practice, **bank.examination}
    for pair in find_twins(questions):
        one, other = items[pair.one], items[pair.other]
        if one.use == other.use and (other.id in one.enemies or one.id in other.enemies):
            continue
        end = "drop one" if one.use != other.use else "drop one, or name them as enemies"
        yield bank.placed[other.id].problem((), f"asks the same as {one.id} ({one.use}) {pair.why}: {end}")


def _gaps(bank: Bank, kb: KnowledgeBase, items: list[Reviewed], *, with_examination: bool) -> Iterator[Problem]:
    topics = f"{bank.root.name}/topics.yml"
    for use in ("practice", "examination") if with_examination else ("practice",):
        for topic in topics_without(bank.topics, items, use):
            yield Problem(topics, 1, 1, f"topic {topic}", f"has no {use} item")
    practised = [item.question for item in items if item.use == "practice"]
    missing = not_taught(_that_matter(kb), practised)
    if missing:
        from tinwright.advice.generated_questions import generate  # noqa: PLC0415 few banks need them, and they take long

        missing = not_taught(missing, generate(kb))
    for record in missing:
        yield Problem(topics, 1, 1, record.replace("/", " ", 1), "no practice item teaches it")
    if with_examination:
        for blueprint in bank.blueprints.values():
            wanted = {row.topic: row.items for row in blueprint.topics}
            file = f"{bank.root.name}/blueprints"
            areas = [(area.title, area.topics, area.items) for area in blueprint.critical_areas]
            for message in not_filled(wanted, areas, items):
                yield Problem(file, 1, 1, f"blueprint {blueprint.id}", message)


def _that_matter(kb: KnowledgeBase) -> Iterator[str]:
    for kind in _MATTER:
        for id_ in kb.of_kind(kind):
            yield f"{kind}/{id_}"
    named = {part for sealer in kb.sealers.values() for part in sealer.parts}
    for id_ in kb.parts:
        if id_ in named:
            yield f"part/{id_}"
