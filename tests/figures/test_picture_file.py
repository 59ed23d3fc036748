"""A drawing as a file of its own needs nothing of a page: its letters and its ink are in it."""

from __future__ import annotations

import pytest
from markupsafe import Markup

from figures.drawing import SVG, draw, every_drawing, read
from tinwright.figures import standalone

CALLS = every_drawing()


@pytest.mark.parametrize("name", ["section", "hook-pleat", "outside-droop-one-place", "tree"])
@pytest.mark.parametrize("kind", [str, Markup])
def test_it_is_a_file_with_letters_and_ink_of_its_own(name: str, kind: type[str]) -> None:
    alone = standalone(kind(draw(CALLS[name], title='font-family="inherit"', description="2 < 3 é")))
    root = read(alone.content.decode())
    assert root.tag == f"{SVG}svg"
    assert (root.attrib["font-family"], root.attrib["color"]) == ("sans-serif", "#1d252c")
    assert root.findtext(f"{SVG}title") == 'font-family="inherit"'
    assert alone.said == 'font-family="inherit". 2 < 3 é'
    assert alone.box == tuple(map(float, root.attrib["viewBox"].split()))


def test_a_question_for_a_name_ends_in_its_own_mark() -> None:
    assert standalone(draw(CALLS["hook"], title="What is drawn here?")).said == "What is drawn here? Words."


@pytest.mark.parametrize("lost", ["A title", "Words.", "viewBox"])
def test_a_drawing_that_does_not_tell_what_it_is_is_refused(lost: str) -> None:
    with pytest.raises(ValueError, match="a title, a description and a box"):
        standalone(draw(CALLS["hook"]).replace(lost, "data-box" if lost == "viewBox" else " "))
