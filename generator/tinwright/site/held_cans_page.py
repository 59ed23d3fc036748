"""Cans to hold: which cans, what becomes of them, and what a few good ones do not show."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.advice.held_cans import (
    HOW_TO_HOLD,
    defect_reaches,
    procedures_for_held_cans,
    what_to_do_with_held,
)
from tinwright.benchlog.checks import REACHES
from tinwright.benchlog.sampling import chance_of_passing, sampling_in_words, to_check
from tinwright.knowledge.models.procedure import HeldCan
from tinwright.site.pages_and_assets import Page

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Defect
    from tinwright.knowledge.models.base import Statement
    from tinwright.site.rendering import Renderer

__all__ = ["HELD_CANS", "held_cans_page"]

HELD_CANS = "cans-to-hold.md"
"""Where the page lies."""

_LOTS = (6, 12, 24, 36, 48)
"""Cans of a day at one sealer, for the table."""


def held_cans_page(kb: KnowledgeBase, renderer: Renderer) -> Iterator[Page]:
    """Yield the page of cans to hold."""
    procedures = procedures_for_held_cans(kb)
    yield Page(
        HELD_CANS,
        renderer.render(
            "cans-to-hold.md.j2",
            HELD_CANS,
            procedures=procedures,
            cautions=dict.fromkeys(id_ for procedure in procedures for id_ in procedure.cautions),
            how=HOW_TO_HOLD,
            found_by=_found_by(kb),
            rules=[_rule(kb, heated=heated) for heated in (False, True)],
            words=[sampling_in_words(24, 2), sampling_in_words(24, 8)],
            lots=[(lot, round(100 * chance_of_passing(lot, 2, 2)), to_check(lot)) for lot in _LOTS],
        ),
    )


def _found_by(kb: KnowledgeBase) -> list[tuple[str, list[Defect]]]:
    """Group the defects by the narrowest check that can find them."""
    reaches = defect_reaches(kb)
    groups = [(REACHES[reach], [kb.defects[id_] for id_ in reaches if reaches[id_] == reach]) for reach in REACHES]
    return [(words, sorted(found, key=lambda defect: defect.title)) for words, found in groups if found]


def _rule(kb: KnowledgeBase, *, heated: bool) -> tuple[tuple[Statement, ...], tuple[str, ...]]:
    """What to do with held cans, and the cautions of those steps."""
    state = HeldCan.HEATED if heated else HeldCan.NOT_HEATED
    steps = (step for procedure in procedures_for_held_cans(kb) for step in procedure.steps if state in step.held)
    return what_to_do_with_held(kb, heated=heated), tuple(dict.fromkeys(id_ for step in steps for id_ in step.cautions))
