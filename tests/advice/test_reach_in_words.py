"""A page holds cans back to a check that could have found its fault, in words, as the rule of the bench log does."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from tinwright.advice.held_cans import defect_reaches
from tinwright.benchlog.checks import LOOKED_AT

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase

_ANY_CHECK = re.compile(r"since\s+the\s+last\s+good\s+check\b(?!\s+that\s+could)")


def test_no_page_lets_a_look_clear_cans_of_a_fault_that_no_look_finds(kb: KnowledgeBase) -> None:
    reaches = defect_reaches(kb)
    hidden = [defect for defect in kb.defects.values() if reaches[defect.id] > LOOKED_AT]
    assert [d.id for d in hidden for step in d.can_action.steps if _ANY_CHECK.search(step.text)] == []
