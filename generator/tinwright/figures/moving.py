"""Moving: which part a step of a procedure moves, and which way; a simple drawing with an arrow."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.figures.assembly import draw_base, draw_can, draw_head
from tinwright.figures.canvas import Canvas, Picture
from tinwright.figures.dimensions import GOOD_SEAM
from tinwright.figures.section import draw_plain_section
from tinwright.remembering import remembered

if TYPE_CHECKING:
    from collections.abc import Callable

    from tinwright.figures.canvas import Point

__all__ = ["MOVES", "Move", "moving_svg"]


@dataclass(frozen=True)
class Move:
    """A part, and which way it goes."""

    said: str
    """What moves which way, in words."""
    arrows: tuple[tuple[Point, Point], ...]
    """Start and tip of each arrow, in drawing units."""
    box: tuple[float, float, float, float]
    """What is seen: left, top, width and height."""
    scene: tuple[Callable[[Canvas], None], ...]
    """What is drawn, from behind to the front."""


def _seam(canvas: Canvas) -> None:
    draw_plain_section(canvas, GOOD_SEAM)


_BENCH = (draw_head, draw_base)
_ALL = (draw_head, draw_base, draw_can)
_ROLLERS = (100.0, 140.0, 240.0, 110.0)
_HEAD = (100.0, 140.0, 240.0, 150.0)
_BASE = (130.0, 250.0, 300.0, 225.0)
_LEVER = (120.0, 180.0, 310.0, 295.0)
MOVES: dict[str, Move] = {
    "can-on": Move("The can goes to the middle of the base plate.", (((114, 280), (174, 280)),), _LEVER, _ALL),
    "chuck-off": Move("The chuck comes off its shaft, downward.", (((220, 214), (220, 262)),), _HEAD, (draw_head,)),
    "chuck-on": Move("The chuck goes up onto its shaft.", (((220, 266), (220, 212)),), _HEAD, (draw_head,)),
    "first-roller-in": Move(
        "The first roller goes in, toward the chuck.", (((104, 212), (145, 212)),), _ROLLERS, (draw_head,)
    ),
    "hook-down": Move(
        "The cover hook goes down, off the body.", (((100, 300), (100, 372)),), (-100, -30, 320, 430), (_seam,)
    ),
    "lever-down": Move("The lift lever goes down.", (((384, 372), (384, 440)),), _LEVER, _ALL),
    "lever-up": Move("The lift lever goes up.", (((384, 440), (384, 372)),), _LEVER, _ALL),
    "panel-out": Move(
        "The middle of the lid comes out, upward.", (((-90, 236), (-90, 150)),), (-160, -30, 380, 430), (_seam,)
    ),
    "plate-off": Move("The base plate comes off, upward.", (((220, 338), (220, 278)),), _BASE, _BENCH),
    "plate-on": Move(
        "The spacers, the spring and the plate go down onto the seat.", (((220, 276), (220, 340)),), _BASE, _BENCH
    ),
    "rollers-away": Move(
        "Both rollers go away from the chuck.",
        (((147, 212), (106, 212)), ((293, 212), (334, 212))),
        _ROLLERS,
        (draw_head,),
    ),
    "second-roller-in": Move(
        "The second roller goes in, toward the chuck.", (((336, 212), (295, 212)),), _ROLLERS, (draw_head,)
    ),
    "second-roller-out": Move(
        "The second roller goes away from the chuck.", (((295, 212), (336, 212)),), _ROLLERS, (draw_head,)
    ),
}
"""What a step can move, by name. Screws and nuts are not among them: which way they turn is on the sealer's page."""


def moving_svg(name: str, *, title: str, description: str, id_prefix: str) -> str:
    """Draw what a step moves.

    Args:
        name: Which move; one of `MOVES`.
        title: Name of the drawing.
        description: What it shows, in words.
        id_prefix: Start of the ids in it; different for every drawing on a page.

    Raises:
        ValueError: when there is no such move.
    """
    if name not in MOVES:
        raise ValueError(f"expected a move among {', '.join(MOVES)}, got {name!r}")
    return _picture(name).svg(title=title, description=description, id_prefix=id_prefix)


@remembered
def _picture(name: str) -> Picture:
    move = MOVES[name]
    canvas = Canvas()
    canvas.group()
    for draw in move.scene:
        draw(canvas)
    canvas.group()
    for start, tip in move.arrows:
        canvas.arrow(start, tip, "fault", size=22)
    return canvas.picture(move.box)
