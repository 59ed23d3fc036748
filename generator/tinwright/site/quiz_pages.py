"""Practice quizzes: a page for each topic, a mixed one, the way in, and the data their scripts need."""

from __future__ import annotations

import random
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any

from tinwright.advice import drawings
from tinwright.advice.generated_questions import generate
from tinwright.advice.item_questions import question_of
from tinwright.browser import needed_scripts
from tinwright.exchange import quiz_data
from tinwright.figures import places_of, pointing_svg, standalone
from tinwright.knowledge.linking import plain_text
from tinwright.knowledge.models.item import Match, OrderSteps
from tinwright.quizzes.questions import letter_of
from tinwright.quizzes.scoring import RULES
from tinwright.site.pages_and_assets import Asset, Page
from tinwright.site.rendering import script_json, uri_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from tinwright.figures import StandaloneDrawing
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.bank import Bank
    from tinwright.knowledge.models.examination import Topic
    from tinwright.knowledge.models.item import Item
    from tinwright.quizzes.questions import Question
    from tinwright.site.rendering import Renderer

__all__ = ["Practice", "practice_lines", "practice_of", "quiz_assets", "quiz_descriptions", "quiz_pages"]

QUIZ_INDEX = "quizzes/index.md"
_MIXED = "quizzes/mixed.md"
_INDEX_SCRIPT = "quiz-index.js"
_FIGURE_TITLES = {"seam-section": "A seam cut through, with letters", "can-outside": "A closed can, with letters"}


@dataclass(frozen=True)
class Practice:
    """A question for practice, with what a page shows beside it."""

    question: Question
    """The question, its choices in the order a page without script lists them."""
    drawing: str | None = None
    """Defect whose drawing is shown with it, unnamed."""
    slips: tuple[tuple[str, str], ...] = ()
    """For an order, wrong orders that tempt, in words, each with the reason."""
    pair_whys: tuple[str, ...] = ()
    """For pairs, why each belongs together."""


def practice_of(bank: Bank, kb: KnowledgeBase) -> tuple[Practice, ...]:
    """Return the questions for practice by topic: the bank's own, and those made from the records.

    No item of the examination is among them.
    """
    made = [Practice(_unsorted(question), question.drawing) for question in generate(kb)]
    found = [*(_practice(item) for item in bank.practice.values()), *made]
    return tuple(each for topic in bank.topics for each in found if each.question.topic == topic)


def _practice(item: Item) -> Practice:
    question = _unsorted(question_of(item))
    slips = tuple((slip.answer, slip.why) for slip in item.mistakes) if isinstance(item, OrderSteps) else ()
    whys = tuple(pair.why for pair in item.pairs) if isinstance(item, Match) else ()
    return Practice(question, item.drawing, slips, whys)


def _unsorted(question: Question) -> Question:
    return _mixed(question) if question.asks in {"order", "match"} else question


def _mixed(question: Question) -> Question:
    """Mix what is asked for its order; the same way in every build, and never into the right order."""
    order = list(range(len(question.choices)))
    chance = random.Random(question.id)  # noqa: S311 nothing secret
    mixed = question
    while order == sorted(order) or mixed.key == tuple(range(len(question.choices))):
        chance.shuffle(order)
        mixed = question.rearranged(tuple(order))
    return mixed


def practice_lines(practice: Iterable[Practice]) -> dict[str, tuple[int, str]]:
    """Count the questions that teach each record, as `kind/id`, with the place of the first of them."""
    lines: dict[str, tuple[int, str]] = {}
    best_first = sorted(
        ((place, each.question, name) for each in practice for place, name in enumerate(each.question.teaches)),
        key=lambda row: row[0],
    )
    for _, question, name in best_first:
        count, start = lines.get(name, (0, f"quizzes/{question.topic}.md#q-{question.id}"))
        lines[name] = (count + 1, start)
    return lines


def quiz_pages(kb: KnowledgeBase, bank: Bank, practice: Sequence[Practice], renderer: Renderer) -> Iterator[Page]:
    """Yield the way in, a quiz for each topic that has questions, and the mixed one."""
    topics = _by_topic(bank, practice)
    rules = [(say, RULES[asks]) for asks, say in _ASKS.items()]
    common = {"rules": rules, "percent": kb.programme.policy.practice_pass_percent}
    counts = [(topic, len(questions)) for topic, questions in topics]
    yield Page(
        QUIZ_INDEX,
        renderer.render(
            "quizzes.md.j2",
            QUIZ_INDEX,
            topics=counts,
            total=len(practice),
            scripts=[_INDEX_SCRIPT, *needed_scripts("quiz-record.js")],
            **common,
        ),
    )
    for topic, questions in topics:
        here = f"quizzes/{topic.id}.md"
        yield Page(
            here,
            renderer.render(
                "quiz.md.j2",
                here,
                topic=topic,
                title=topic.title,
                lead=topic.about,
                questions=[_shown(kb, each) for each in questions],
                topics=(),
                scripts=[f"quiz-{topic.id}.js", *needed_scripts("quiz.js")],
                **common,
            ),
        )
    yield Page(
        _MIXED,
        renderer.render(
            "quiz.md.j2",
            _MIXED,
            topic=None,
            title="Mixed quiz",
            lead="Questions from every topic, as they come at the sealer: not sorted for you.",
            questions=(),
            topics=counts,
            scripts=[_INDEX_SCRIPT, *needed_scripts("quiz.js")],
            **common,
        ),
    )


_ASKS = {
    "one-answer": "One answer",
    "several-answers": "Several answers",
    "order": "Order",
    "match": "Pairs",
    "number": "A number",
    "point": "A place in a drawing",
}


def _by_topic(bank: Bank, practice: Iterable[Practice]) -> list[tuple[Topic, list[Practice]]]:
    found: dict[str, list[Practice]] = {id_: [] for id_ in bank.topics}
    for each in practice:
        found[each.question.topic].append(each)
    return [(bank.topics[id_], questions) for id_, questions in found.items() if questions]


def _shown(kb: KnowledgeBase, practice: Practice) -> dict[str, Any]:
    """Return what a page shows of a question when there is no script."""
    question = practice.question
    return {
        "question": question,
        "practice": practice,
        "lettered": [(letter_of(place), choice) for place, choice in enumerate(question.choices)],
        "letters": [letter_of(place) for place in question.key],
        "places": places_of(question.figure) if question.figure else (),
        "figure": _figure(kb, practice),
        "figure_uri": _figure_uri(question),
        "teaches": [kb.records[_key(name)] for name in question.teaches if _key(name) in kb.records],
    }


@cache
def _figure(kb: KnowledgeBase, practice: Practice) -> StandaloneDrawing | None:
    question = practice.question
    if question.figure is not None:
        title = _FIGURE_TITLES.get(question.figure, "A sealer, with letters")
        return standalone(pointing_svg(question.figure, title=title, id_prefix="fig"))
    return standalone(drawings.unnamed(kb.defects[practice.drawing], "fig")) if practice.drawing else None


def _figure_uri(question: Question) -> str:
    """Where a question's drawing lies; its name does not tell what is drawn."""
    return f"assets/quiz/{question.id}.svg"


def _key(name: str) -> tuple[str, str]:
    kind, _, id_ = name.partition("/")
    return kind, id_


def quiz_descriptions(kb: KnowledgeBase, bank: Bank, practice: Iterable[Practice]) -> dict[str, dict[str, Any]]:
    """Return what other programs are told of each topic's quiz, by the uri of its page; no answer is in it."""
    return {
        f"quizzes/{topic.id}.md": quiz_data(
            kb, title=f"Quiz: {topic.title}", about=topic.about, questions=[each.question for each in questions]
        )
        for topic, questions in _by_topic(bank, practice)
    }


def quiz_assets(kb: KnowledgeBase, bank: Bank, practice: Iterable[Practice], renderer: Renderer) -> Iterator[Asset]:
    """Yield a script that names every question, one for each topic with its questions in full, and the drawings."""
    topics = _by_topic(bank, practice)
    told = [
        {**_topic(kb, topic, renderer), "items": [each.question.id for each in questions]}
        for topic, questions in topics
    ]
    yield Asset(f"assets/{_INDEX_SCRIPT}", f"globalThis.tinwrightQuizIndex = {script_json(told)};\n".encode())
    for topic, questions in topics:
        whole = {**_topic(kb, topic, renderer), "items": [_item(kb, each, renderer) for each in questions]}
        text = f"(globalThis.tinwrightQuizData = globalThis.tinwrightQuizData || []).push({script_json(whole)});\n"
        yield Asset(f"assets/quiz-{topic.id}.js", text.encode())
        for each in questions:
            if figure := _figure(kb, each):
                yield Asset(_figure_uri(each.question), figure.content)


def _topic(kb: KnowledgeBase, topic: Topic, renderer: Renderer) -> dict[str, Any]:
    return {
        "topic": topic.id,
        "title": topic.title,
        "page": renderer.address(f"quizzes/{topic.id}.md", _MIXED),
        "office": kb.programme.office,
        "passPercent": kb.programme.policy.practice_pass_percent,
        "rules": RULES,
    }


def _item(kb: KnowledgeBase, practice: Practice, renderer: Renderer) -> Mapping[str, Any]:
    question = practice.question
    item: dict[str, Any] = {
        "id": question.id,
        "topic": question.topic,
        "asks": question.asks,
        "critical": question.critical,
        "text": plain_text(kb, question.text),
        "choices": [{"text": plain_text(kb, c.text), "why": plain_text(kb, c.why)} for c in question.choices],
        "key": question.key,
        "lefts": [plain_text(kb, left) for left in question.lefts],
        "table": question.table,
        "pairWhys": [plain_text(kb, why) for why in practice.pair_whys],
        "slips": [[plain_text(kb, answer), plain_text(kb, why)] for answer, why in practice.slips],
        "why": plain_text(kb, question.why),
        "teaches": [
            {
                "title": kb.records[_key(name)].name,
                "page": renderer.address(uri_of(kb.records[_key(name)]), _MIXED),
            }
            for name in question.teaches
            if _key(name) in kb.records
        ],
    }
    if question.asks == "number":
        item |= {name: f"{getattr(question, name):f}" for name in ("answer", "low", "high")}
        item |= {
            "unit": question.unit,
            "wrongNumbers": [[f"{number:f}", plain_text(kb, why)] for number, why in question.wrong_numbers],
        }
    if figure := _figure(kb, practice):
        address = renderer.address(_figure_uri(question), _MIXED)
        item["figure"] = {"address": address, "said": figure.said, "box": figure.box}
    if question.figure is not None:
        item["places"] = [[place.lies, *place.badge] for place in places_of(question.figure)]
    return item
