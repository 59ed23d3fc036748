"""The set-up sheet and the procedures agree on the order of work."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

import pytest

from tinwright.advice.set_ups import SET_UP_ORDER, Sheet
from tinwright.measures import parse_can_code
from tinwright.seaming import SealerSetup, Slot, set_up

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase


def test_each_step_of_the_set_up_comes_before_the_step_that_its_procedure_leads_to(kb: KnowledgeBase) -> None:
    place = {id_: number for number, id_ in enumerate(SET_UP_ORDER)}
    turned = [
        (id_, following)
        for id_ in SET_UP_ORDER
        for following in kb.procedures[id_].then
        if following in place and place[following] < place[id_]
    ]
    assert turned == []


@pytest.mark.parametrize(("code", "why"), [("301x408", "no roller position"), ("301x409", "can too tall")])
def test_a_can_as_high_as_the_seat_is_not_too_tall(code: str, why: str) -> None:
    """4 8/16 in is the height of a seat that needs no spacer; 1/16 in more is too much."""
    sealer = SealerSetup(("301",), Fraction(9, 2), (), (Slot("2", ("307",)),))
    nothing: Any = None
    assert Sheet(nothing, nothing, parse_can_code(code), set_up(code, sealer)).short_why_not == why
