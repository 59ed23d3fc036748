"""The demonstration's own blueprint: its bank is large enough, its ratings whole, its claims honest.

The claims are checked against the binomial distribution of scipy, which the product does not use for them.
"""

from __future__ import annotations

import datetime as dt
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from scipy.stats import binom

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
    assert sum(row.items for row in blueprint.topics) == 30


def test_every_examination_item_is_rated_by_three_judges_and_no_other_item_is(bank: Bank) -> None:
    ratings = read_ratings(QUIZZES / "blueprints" / "volunteer-ratings.csv")
    assert set(ratings) == set(bank.examination)
    assert {tuple(sorted(rated)) for rated in ratings.values()} == {("judge 1", "judge 2", "judge 3")}


def test_two_forms_of_thirty_can_be_made(made: tuple[MadeForm, ...], bank: Bank) -> None:
    blueprint = bank.blueprints["volunteer"]
    wanted = {row.topic: row.items for row in blueprint.topics}
    for one in made:
        assert Counter(item.topic for item in one.key.items) == wanted
        assert sum(item.critical for item in one.key.items) == blueprint.critical
        positions = Counter(item.key[0] for item in one.key.items if item.asks == "one-answer")
        assert max(positions[place] for place in range(3)) - min(positions[place] for place in range(3)) <= 1
    assert not {item.id for item in made[0].form.items} & {item.id for item in made[1].form.items}


def test_no_form_errs_more_often_than_the_blueprint_claims(made: tuple[MadeForm, ...], bank: Bank) -> None:
    """Whoever passes by luck has every critical item right, and makes up the cut with the rest."""
    claims = bank.blueprints["volunteer"].claims
    for one in made:
        items, cut = one.form.out_of, one.key.cut
        critical = sum(item.critical for item in one.key.items)
        lucky = claims.not_ready**critical * binom.sf(cut - critical - 1, items - critical, claims.not_ready)
        assert lucky <= claims.false_pass
        assert binom.cdf(cut - 1, items, claims.ready) <= claims.false_fail


def test_the_practical_check_has_all_its_parts(bank: Bank, kb: KnowledgeBase) -> None:
    parts = observed_parts([kb.procedures[id_] for id_ in bank.blueprints["volunteer"].practical])
    assert {part.title: [one.id for one in part.procedures] for part in parts} == {
        "Put the sealer together": ["clamp-and-assemble"],
        "Set both rollers": ["set-first-roller", "set-second-roller"],
        "Make a test can": ["make-test-can"],
        "Judge the test can": ["look-and-feel", "tear-down-and-measure"],
        "Correct a fault that the examiner set": ["when-a-check-fails"],
    }
