"""The demonstration's own blueprint: its bank is large enough, its ratings whole. Its claims are in `test_claims`."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tinwright.examining.making import make_forms
from tinwright.examining.practical_sheet import observed_parts
from tinwright.examining.ratings import read_ratings
from tinwright.knowledge.bank import load_bank

if TYPE_CHECKING:
    from tinwright.examining.making import MadeForm
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.bank import Bank

QUIZZES = Path(__file__).parents[2] / "quizzes"


@pytest.fixture(scope="module")
def bank(kb: KnowledgeBase) -> Bank:
    return load_bank(QUIZZES, kb, examination=QUIZZES / "examination")


@pytest.fixture(scope="module")
def made(kb: KnowledgeBase, bank: Bank) -> tuple[MadeForm, ...]:
    blueprint = bank.blueprints["volunteer"]
    ratings = read_ratings(QUIZZES / "blueprints" / blueprint.standard_setting.ratings)
    return make_forms(kb, bank, blueprint, ratings, forms=2, seed=2026, salt="0f" * 16, made_on=dt.date(2026, 11, 25))


def test_every_topic_has_items_in_the_blueprint(bank: Bank) -> None:
    blueprint = bank.blueprints["volunteer"]
    assert {row.topic for row in blueprint.topics} == set(bank.topics)
    assert sum(row.items for row in blueprint.topics) == 36


def test_every_examination_item_is_rated_by_three_judges_and_no_other_item_is(bank: Bank) -> None:
    ratings = read_ratings(QUIZZES / "blueprints" / "volunteer-ratings.csv")
    assert set(ratings) == set(bank.examination)
    assert {tuple(sorted(rated)) for rated in ratings.values()} == {("judge 1", "judge 2", "judge 3")}


def test_two_forms_and_a_second_try_can_be_made(made: tuple[MadeForm, ...], bank: Bank) -> None:
    blueprint = bank.blueprints["volunteer"]
    wanted = {row.topic: row.items for row in blueprint.topics}
    for one in made[:2]:
        assert Counter(item.topic for item in one.key.items) == wanted
        assert [len(area.items) for area in one.key.areas] == [area.items for area in blueprint.critical_areas]
        positions = Counter(item.key[0] for item in one.key.items if item.asks == "one-answer")
        assert max(positions[place] for place in range(3)) - min(positions[place] for place in range(3)) <= 1
    assert not {item.id for item in made[0].form.items} & {item.id for item in made[1].form.items}
    seconds = [one for one in made if one.is_second_try]
    assert seconds
    for one in seconds:
        own = {item.id for item in one.form.items}
        assert {first.code for first in one.key.second_try_of} <= {form.form.code for form in made[:2]}
        assert not any(own & {item.id for item in form.form.items} for form in made[:2])
        assert all(item.critical for item in one.key.items)


def test_the_two_forms_have_one_cut(made: tuple[MadeForm, ...]) -> None:
    assert made[0].key.cut == made[1].key.cut


def test_the_practical_check_has_all_its_parts(bank: Bank, kb: KnowledgeBase) -> None:
    parts = observed_parts([kb.procedures[id_] for id_ in bank.blueprints["volunteer"].practical])
    assert {part.title: [one.id for one in part.procedures] for part in parts} == {
        "Put the sealer together": ["clamp-and-assemble"],
        "Set both rollers": ["set-first-roller", "set-second-roller"],
        "Make a test can": ["make-test-can"],
        "Judge the test can": ["look-and-feel", "tear-down-and-measure"],
        "Correct a fault that the examiner set": ["when-a-check-fails"],
    }
