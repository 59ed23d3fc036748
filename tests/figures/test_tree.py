from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from figures.drawing import SVG, read, texts_of
from tinwright.figures import TreeNode, tree_svg

if TYPE_CHECKING:
    import xml.etree.ElementTree as ET

LABELS = st.text(st.characters(codec="utf-8"), max_size=90)
NODES = st.recursive(
    st.builds(TreeNode, LABELS, st.sampled_from(["check", "cause", "correction"])),
    lambda below: st.builds(
        TreeNode, LABELS, st.just("check"), st.none(), st.lists(below, min_size=1, max_size=4).map(tuple)
    ),
    max_leaves=12,
)


def drawn(*nodes: TreeNode) -> ET.Element:
    return read(tree_svg(nodes, title="t", description="d", id_prefix="x"))


def boxes(root: ET.Element) -> list[tuple[float, float, float, float]]:
    """Return left, top, right and bottom of every box."""
    found = []
    for rect in root.iter(f"{SVG}rect"):
        if rect.attrib["class"] == "tw-svg-paper":
            x, y, width, height = (float(rect.attrib[key]) for key in ("x", "y", "width", "height"))
            found.append((x, y, x + width, y + height))
    return found


@given(st.lists(NODES, min_size=1, max_size=4))
@settings(max_examples=60, deadline=None)
def test_boxes_never_overlap_and_lie_within_the_drawing(nodes: list[TreeNode]) -> None:
    root = drawn(*nodes)
    known = sorted(boxes(root))
    left, top, width, height = map(float, root.attrib["viewBox"].split())
    for index, (x0, y0, x1, y1) in enumerate(known):
        assert left <= x0
        assert top <= y0
        assert x1 <= left + width
        assert y1 <= top + height
        for other_x0, other_y0, other_x1, other_y1 in known[index + 1 :]:
            assert other_x0 >= x1 or other_x1 <= x0 or other_y0 >= y1 or other_y1 <= y0


@given(LABELS)
@settings(max_examples=60)
def test_words_stay_within_their_box(label: str) -> None:
    root = drawn(TreeNode(label, "check"))
    ((_, _, _, bottom),) = boxes(root)
    words = list(root.iter(f"{SVG}text"))[-1]
    foot = float(words.attrib["y"]) + sum(float(span.get("dy", 0)) for span in words)
    assert foot < bottom


def test_every_node_is_drawn_with_its_kind() -> None:
    root = drawn(TreeNode("Droop", "defect", None, (TreeNode("Tighten it", "correction"),)))
    assert texts_of(root) == "defect Droop correction Tighten it"
    assert len(boxes(root)) == 2


def test_a_node_with_an_address_is_a_link() -> None:
    (link,) = drawn(TreeNode("Droop", "defect", "../droop/#causes")).iter(f"{SVG}a")
    assert link.attrib["href"] == "../droop/#causes"


@pytest.mark.parametrize(
    "href",
    ["javascript:alert(1)", " JavaScript:alert(1)", "java\x00script:alert(1)", "java\nscript:x", "data:text/html,x"],
)
def test_an_address_that_could_run_a_script_is_no_link(href: str) -> None:
    root = drawn(TreeNode("Droop", "defect", href))
    assert not list(root.iter(f"{SVG}a"))
    assert root.attrib["role"] == "img"
