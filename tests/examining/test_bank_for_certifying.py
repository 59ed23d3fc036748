"""The examination bank of the demonstration: three forms for each drive, and no prize for test-wise guessing."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tinwright.advice.item_checks import review_bank
from tinwright.advice.item_fits import sealers_of_programme
from tinwright.examining.making import make_forms
from tinwright.examining.ratings import read_ratings

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.bank import Bank

QUIZZES = Path(__file__).parents[2] / "quizzes"


def test_there_are_items_enough_and_a_third_asks_about_pictures_and_readings(bank: Bank) -> None:
    items = bank.examination.values()
    seen = [item for item in items if item.drawing or item.readings or item.asks == "point"]
    assert len(items) >= 160
    assert len(seen) >= len(items) / 3


def test_picking_by_the_look_of_the_options_is_no_better_than_guessing(bank: Bank, kb: KnowledgeBase) -> None:
    too_good = [
        f"{group.group}, {group.score.strategy}: {group.score.share:.0%}"
        for group in review_bank(bank, kb).strategies
        if group.score.is_too_good
    ]
    assert too_good == []


@pytest.mark.parametrize("drive", ["crank-cam", "hand-lever", "motor"])
def test_three_forms_without_a_common_item_for_each_drive(drive: str, bank: Bank, kb: KnowledgeBase) -> None:
    blueprint = bank.blueprints["volunteer"]
    ratings = read_ratings(QUIZZES / "blueprints" / blueprint.standard_setting.ratings)
    sealers = [sealer for sealer in sealers_of_programme(kb) if sealer.drive == drive]
    made = make_forms(
        kb,
        bank,
        blueprint,
        ratings,
        forms=3,
        seed=2027,
        salt="0f" * 16,
        made_on=dt.date(2026, 11, 25),
        sealers=sealers,
    )
    ids = [item.id for one in made for item in one.form.items]
    assert len(ids) == len(set(ids))
    asked = [bank.examination[id_] for id_ in ids]
    assert [item.id for item in asked if item.drives and drive not in item.drives] == []
