"""An item is asked where it makes sense: the drive is in use and its parts are there."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tinwright.advice.item_fits import fits, sealers_of_programme
from tinwright.knowledge.models.machine import Drive

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.bank import Bank


@pytest.mark.parametrize(
    ("drives", "parts", "drive", "is_asked"),
    [
        ((), (), "crank-cam", True),
        (("motor",), (), "crank-cam", False),
        (("motor", "crank-cam"), (), "crank-cam", True),
        ((), ("belt-guard",), "crank-cam", False),
        ((), ("belt-guard",), "motor", True),
        (("hand-lever",), ("belt-guard",), "motor", False),
    ],
)
def test_drive_and_parts_decide(
    drives: tuple[str, ...], parts: tuple[str, ...], drive: str, is_asked: bool, kb: KnowledgeBase, bank: Bank
) -> None:
    item = next(iter(bank.practice.values())).model_copy(update={"drives": tuple(map(Drive, drives)), "parts": parts})
    sealers = [sealer for sealer in kb.sealers.values() if sealer.drive == drive]
    assert fits(item, sealers) == is_asked


def test_with_two_sealers_one_of_them_is_enough(kb: KnowledgeBase, bank: Bank) -> None:
    item = next(iter(bank.practice.values())).model_copy(update={"drives": (Drive.MOTOR,), "parts": ()})
    assert fits(item, sealers_of_programme(kb))
