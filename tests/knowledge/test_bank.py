"""The question bank: what is read, and what is told of a file that is wrong."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tinwright.advice.item_questions import question_of
from tinwright.errors import ContentError
from tinwright.knowledge.bank import Bank, find_bank_problems, load_bank
from tinwright.quizzes.scoring import score

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase

ROOT = Path(__file__).parents[2]
TOPICS = "- {id: hooks, title: Hooks, about: Know hooks., reviewed: 2026-11-20}\n"
ITEM = """\
- id: hooks-one
  topic: hooks
  use: practice
  asks: one-answer
  difficulty: 0.7
  question: Which hook is bent from the lid?
  options:
    - {text: The cover hook, right: true, why: The lid covers.}
    - {text: The body hook, why: That one is bent from the can.}
    - {text: The overlap, why: That is where both lie side by side.}
  why: The lid is the cover.
  teaches: [term/cover-hook]
  reviewed: 2026-11-20
"""


@pytest.fixture(scope="session")
def bank(kb: KnowledgeBase) -> Bank:
    return load_bank(ROOT / "quizzes", kb, examination=ROOT / "quizzes" / "examination")


def problems(tmp_path: Path, kb: KnowledgeBase, practice: str, **files: str) -> list[str]:
    root = tmp_path / "quizzes"
    for path, text in {"topics.yml": TOPICS, "practice/hooks.yml": practice, **files}.items():
        target = root / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, encoding="utf-8")
    return [str(problem) for problem in find_bank_problems(root, kb, examination=root / "practice" if files else None)]


def test_a_sound_bank_has_no_problems(tmp_path: Path, kb: KnowledgeBase) -> None:
    assert problems(tmp_path, kb, ITEM) == []


@pytest.mark.parametrize(
    ("was", "becomes", "told"),
    [
        (
            "asks: one-answer",
            "asks: one-anser",
            "item hooks-one: asks: expected one of one-answer, several-answers, order, match, number, point, got 'one-anser'; did you mean 'one-answer'?",
        ),
        ("topic: hooks", "topic: hoks", "item hooks-one: no topic is called 'hoks'; did you mean 'hooks'?"),
        (
            "term/cover-hook",
            "term/cover-hok",
            "item hooks-one: no term is called 'cover-hok'; did you mean 'cover-hook'?",
        ),
        ("term/cover-hook", "trem/cover-hook", "item hooks-one: unknown kind 'trem' in a link; did you mean 'term'?"),
        ("use: practice", "use: examination", "item hooks-one: use: expected practice in this folder, got examination"),
        (", right: true", "", "item hooks-one: expected one option with 'right: true', got 0"),
        ("difficulty: 0.7", "difficulty: 7", "item hooks-one: difficulty: expected at most 0.98, got 7"),
        ("  why: The lid is the cover.\n", "", "item hooks-one: the key 'why' is missing"),
    ],
)
def test_each_fault_of_an_item_is_told_with_its_place(
    tmp_path: Path, kb: KnowledgeBase, was: str, becomes: str, told: str
) -> None:
    assert was in ITEM
    found = problems(tmp_path, kb, ITEM.replace(was, becomes))
    assert [line.split(": ", 1)[1] for line in found] == [told]
    assert found[0].startswith("quizzes/practice/hooks.yml:")


def test_an_id_that_stands_twice_is_told(tmp_path: Path, kb: KnowledgeBase) -> None:
    assert "duplicate id; it already stands in quizzes/practice/hooks.yml:1" in problems(tmp_path, kb, ITEM + ITEM)[0]


def test_a_bank_without_topics_is_told(tmp_path: Path, kb: KnowledgeBase) -> None:
    with pytest.raises(ContentError, match=r"quizzes/topics\.yml:1:1: expected the list of topics, found no file"):
        load_bank(tmp_path / "quizzes", kb)


def test_the_bank_is_large_enough_and_covers_every_topic(bank: Bank) -> None:
    assert len(bank.practice) + len(bank.examination) >= 180
    assert len(bank.examination) >= 60
    for items in (bank.practice, bank.examination):
        assert {item.topic for item in items.values()} == set(bank.topics)
        assert {item.asks for item in items.values()} == {
            "one-answer",
            "several-answers",
            "order",
            "match",
            "number",
            "point",
        }  # type: ignore[attr-defined]


def test_examination_items_are_read_only_when_their_folder_is_named(kb: KnowledgeBase) -> None:
    assert load_bank(ROOT / "quizzes", kb).examination == {}


def test_every_item_asks_a_question_whose_own_answer_is_right(bank: Bank) -> None:
    for item in [*bank.practice.values(), *bank.examination.values()]:
        question = question_of(item)
        assert score(question, question.answer if question.asks == "number" else question.key) == 1, item.id
