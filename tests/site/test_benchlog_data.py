"""What the page of the bench log hands to its scripts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.knowledge.models.trouble import Turn
from tinwright.knowledge.plain_words import say, say_adjusted
from tinwright.seaming import ADJUSTERS
from tinwright.site.benchlog_page import adjusted_words

if TYPE_CHECKING:
    from collections.abc import Mapping


def on_the_phone(known: Mapping[str, str], adjuster: str, turn: Turn) -> str:
    """As `adjusted` of `bench-log-words.js` puts it together."""
    return known.get(turn) or known.get("") or f"{say(turn)} the {say(adjuster)}"


def test_the_phone_says_each_adjustment_as_the_office_does() -> None:
    for adjuster in ADJUSTERS:
        known = adjusted_words(adjuster)
        assert len(known) < len(Turn), adjuster
        for turn in Turn:
            assert on_the_phone(known, adjuster, turn) == say_adjusted(adjuster, turn)
