"""Figures to point at: lettered, nameless, and with room for a finger."""

from __future__ import annotations

import re
from itertools import combinations
from typing import TYPE_CHECKING

import pytest

from tinwright.advice.drawings import unnamed
from tinwright.figures import POINTING_FIGURES, places_of, pointing_svg

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase


@pytest.mark.parametrize("figure", POINTING_FIGURES)
def test_a_figure_to_point_at_shows_letters_and_no_names(figure: str) -> None:
    svg = pointing_svg(figure, title="Where is it?", id_prefix="p")
    for place in places_of(figure):
        assert place.name.lower() not in svg.lower().replace("can body", "")
    letters = "ABCDEFGHJKLM"[: len(places_of(figure))]
    assert [letter for letter in letters if svg.count(f">{letter}</text>") != 1] == []


@pytest.mark.parametrize("figure", POINTING_FIGURES)
def test_badges_lie_far_enough_apart_for_a_finger(figure: str) -> None:
    # WCAG 2.2 success criterion 2.5.8: targets of 24 CSS px, or circles of 24 px on them that do not meet;
    # the figures are 440 units wide and shown at 300 px or more
    apart = 24 * 440 / 300
    for one, other in combinations(places_of(figure), 2):
        distance = ((one.badge[0] - other.badge[0]) ** 2 + (one.badge[1] - other.badge[1]) ** 2) ** 0.5
        assert distance >= apart, (one.id, other.id)


def test_an_unknown_figure_is_refused() -> None:
    with pytest.raises(ValueError, match="expected a drawing among seam-section, can-outside"):
        places_of("seam")


def test_a_drawing_for_a_question_does_not_say_what_it_shows(kb: KnowledgeBase) -> None:
    for defect in kb.defects.values():
        words = " ".join(text.lower() for text in re.findall(r">([^<>]+)<", unnamed(defect, id_prefix="q")))
        names = [part.strip(" )") for part in defect.title.split("(")]
        assert [name for name in names if re.search(rf"\b{re.escape(name.lower())}\b", words)] == [], defect.id
