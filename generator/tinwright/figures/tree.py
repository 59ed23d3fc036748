"""Tree: a troubleshooting tree from left to right, for an overview of all its branches."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.figures.canvas import Canvas
from tinwright.figures.lettering import wrap
from tinwright.remembering import remembered

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

__all__ = ["TreeNode", "tree_svg"]

_WIDTH, _GAP = 190.0, 44.0
_PAD, _APART = 10.0, 14.0
_LETTERS, _ROW = 15.0, 17.25
_KIND = 12.0
_BOLD = 1.08
"""How much wider bold letters are."""


@dataclass(frozen=True)
class TreeNode:
    """One box of a tree, and those that follow from it."""

    label: str
    """What is written in it."""
    kind: str
    """What it is, in a word or two, written small above the label; `correction` gets a double frame."""
    href: str | None = None
    """Where it leads to."""
    children: tuple[TreeNode, ...] = ()
    """What follows from it, in order."""


@dataclass(frozen=True)
class _Measured:
    """A node with what it takes, worked out once."""

    node: TreeNode
    lines: tuple[str, ...]
    height: float
    children: tuple[_Measured, ...]
    below: float
    """Height of what follows from it."""

    @property
    def room(self) -> float:
        return max(self.height, self.below)


@dataclass(frozen=True)
class _Box:
    node: TreeNode
    x: float
    y: float
    height: float
    lines: tuple[str, ...]
    parent: tuple[float, float] | None


@remembered
def tree_svg(nodes: tuple[TreeNode, ...], *, title: str, description: str, id_prefix: str) -> str:
    """Draw trees one below the other, each from left to right.

    Args:
        nodes: The roots.
        title: Name of the drawing.
        description: What it shows, in words.
        id_prefix: Start of the ids in it; different for every drawing on a page.
    """
    canvas = Canvas(wide=True)
    boxes = _lay_out(nodes)
    canvas.group()
    for box in boxes:
        if box.parent:
            (x0, y0), (x1, y1) = box.parent, (box.x, box.y + box.height / 2)
            middle = x1 - _GAP / 2
            canvas.line(((x0, y0), (middle, y0), (middle, y1)))
            canvas.arrow((middle, y1), (x1, y1), size=9)
    for box in boxes:
        canvas.link(box.node.href)
        canvas.rect((box.x, box.y, _WIDTH, box.height), "paper", round_by=0 if box.node.kind == "correction" else 8)
        if box.node.kind == "correction":
            canvas.rect((box.x + 3.5, box.y + 3.5, _WIDTH - 7, box.height - 7), "thin")
        kind = wrap(box.node.kind, width=_WIDTH - 2 * _PAD, size=_KIND)[:1]
        canvas.text((box.x + _PAD, box.y + _PAD + _KIND), kind or "", size=_KIND)
        canvas.text((box.x + _PAD, box.y + _PAD + _KIND + 5 + _LETTERS), box.lines, size=_LETTERS, strong=True)
    right = max((box.x + _WIDTH for box in boxes), default=_WIDTH)
    bottom = max((box.y + box.height for box in boxes), default=_ROW)
    return canvas.picture((-4, -4, right + 8, bottom + 8)).svg(
        title=title, description=description, id_prefix=id_prefix
    )


def _lay_out(nodes: Sequence[TreeNode]) -> list[_Box]:
    boxes: list[_Box] = []
    top = 0.0
    for tree in map(_measured, nodes):
        boxes += _place(tree, depth=0, top=top, parent=None)
        top += tree.room + _APART
    return boxes


def _measured(node: TreeNode) -> _Measured:
    lines = wrap(node.label, width=_WIDTH - 2 * _PAD, size=_LETTERS * _BOLD) or ("",)
    children = tuple(map(_measured, node.children))
    below = sum(child.room for child in children) + _APART * max(0, len(children) - 1)
    return _Measured(node, lines, _KIND + 5 + _ROW * len(lines) + 2 * _PAD, children, below)


def _place(tree: _Measured, *, depth: int, top: float, parent: tuple[float, float] | None) -> Iterator[_Box]:
    x, y = depth * (_WIDTH + _GAP), top + (tree.room - tree.height) / 2
    yield _Box(tree.node, x, y, tree.height, tree.lines, parent)
    top += (tree.room - tree.below) / 2
    for child in tree.children:
        yield from _place(child, depth=depth + 1, top=top, parent=(x + _WIDTH, y + tree.height / 2))
        top += child.room + _APART
