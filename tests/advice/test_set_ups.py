"""The set-up sheet and the procedures agree on the order of work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.advice.set_ups import SET_UP_ORDER

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
