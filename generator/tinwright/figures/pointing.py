"""Drawings to point at: lettered places without names, for questions that ask where something is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.figures.assembly import assembly_places, draw_sealer
from tinwright.figures.canvas import Canvas
from tinwright.figures.dimensions import GOOD_SEAM
from tinwright.figures.outside import draw_plain_can
from tinwright.figures.section import draw_plain_section
from tinwright.remembering import remembered

if TYPE_CHECKING:
    from collections.abc import Callable

    from tinwright.figures.canvas import Point

__all__ = ["POINTING_FIGURES", "Place", "places_of", "pointing_svg"]

_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"


@dataclass(frozen=True)
class Place:
    """A place in a drawing that can be pointed at."""

    id: str
    """Name of the place, as items call it."""
    name: str
    """What it is; not shown before the answer."""
    lies: str
    """Where it lies, in words that do not give its name away, for somebody who cannot see the drawing."""
    at: Point
    """The spot meant."""
    badge: Point
    """Where its letter stands."""


def _section_places() -> tuple[Place, ...]:
    scale = 2400.0

    def at(x: float, y: float) -> Point:
        return (x * scale, y * scale)

    seam = GOOD_SEAM
    middle = seam.seam_width / 2
    return (
        Place(
            "body-hook",
            "Body hook",
            "an inner layer that hangs down under the topmost fold, open at its lower end",
            at(0.0375, 0.030),
            (196, 44),
        ),
        Place(
            "cover-hook",
            "Cover hook",
            "an inner layer that stands up from the lowest fold, open at its upper end",
            at(0.0275, 0.1),
            (196, 250),
        ),
        Place(
            "overlap",
            "Overlap",
            "halfway up the seam, where two inner layers lie side by side",
            at(0.0325, middle),
            (196, 146),
        ),
        Place(
            "chuck-wall",
            "Chuck wall",
            "the innermost layer, on the side of the food, beside the seam",
            at(0.005, 0.066),
            (-96, 120),
        ),
        Place(
            "seam-top", "Top of the seam", "the fold at the very top, over all the layers", at(0.027, 0.005), (64, -54)
        ),
        Place(
            "can-body", "Can body", "the single layer below the seam, on the way down", at(0.0155, 0.148), (110, 372)
        ),
    )


def _can_places() -> tuple[Place, ...]:
    return (
        Place(
            "seam-face",
            "Face of the seam",
            "the upright band around the top of the can, outside",
            (120, 138),
            (36, 120),
        ),
        Place("seam-top", "Top of the seam", "the upper edge of the rim", (360, 56), (410, 30)),
        Place(
            "chuck-wall", "Chuck wall", "the slope inside the rim, from its edge down to the flat", (146, 60), (64, 36)
        ),
        Place(
            "side-seam-crossover",
            "Crossing of the side seam",
            "where the upright line in the can's wall meets the rim",
            (220, 142),
            (274, 216),
        ),
        Place("below-seam", "Just under the seam", "the can's wall, right under the band", (318, 160), (400, 176)),
        Place("end-panel", "Flat of the lid", "the sunk round area in the middle of the lid", (220, 82), (220, 34)),
        Place("can-body", "Can body", "the can's wall, well below the rim", (130, 196), (36, 214)),
    )


def _sealer_places(drive: str) -> tuple[Place, ...]:
    return tuple(
        Place(id_, name, _LIES.get(id_, "on the sealer"), at, badge) for id_, name, at, badge in assembly_places(drive)
    )


_LIES = {
    "frame": "the upright that carries everything, on the left",
    "chuck": "above the can, fits into the lid",
    "first-roller": "beside the rim of the can, on the left; its groove is the deeper one",
    "second-roller": "beside the rim of the can, on the right; its groove is the shallower one",
    "base-plate": "right under the can",
    "spacer": "in the stack below what the can stands on",
    "base-spring": "the coil below the stack",
    "lift-lever": "at the bottom, with a grip on the right",
    "table-clamp": "under the bench top, on the left",
    "crank": "at the top right, with a grip",
    "drive-gear": "at the top, on the shaft that comes from the right",
    "cam": "the disk around the middle shaft, above the can",
    "roller-lever": "slopes down to the right from beside the shaft, with a grip",
    "motor": "the ribbed block at the top right",
    "belt-guard": "the long cover at the very top",
    "stop-switch": "on the upright, on the left, within reach",
}


def _draw_section(canvas: Canvas) -> None:
    draw_plain_section(canvas, GOOD_SEAM)


_DRAWINGS: dict[
    str, tuple[Callable[[Canvas], None], Callable[[], tuple[Place, ...]], tuple[float, float, float, float]]
] = {
    "seam-section": (_draw_section, _section_places, (-140, -76, 440, 484)),
    "can-outside": (draw_plain_can, _can_places, (0, 10, 440, 230)),
    **{
        f"sealer-{drive}": (
            lambda canvas, drive=drive: draw_sealer(canvas, drive),  # type: ignore[misc]
            lambda drive=drive: _sealer_places(drive),  # type: ignore[misc]
            (0.0, 0.0, 440.0, 528.0),
        )
        for drive in ("crank-cam", "hand-lever", "motor")
    },
}
POINTING_FIGURES = tuple(_DRAWINGS)
"""Names of the drawings that can be pointed at."""


def places_of(figure: str) -> tuple[Place, ...]:
    """List the places of a drawing, in the order of their letters.

    Raises:
        ValueError: when there is no such drawing.

    >>> [place.id for place in places_of("seam-section")][:2]
    ['body-hook', 'cover-hook']
    """
    if figure not in _DRAWINGS:
        raise ValueError(f"expected a drawing among {', '.join(POINTING_FIGURES)}, got {figure!r}")
    return _DRAWINGS[figure][1]()


@remembered
def pointing_svg(figure: str, *, title: str, id_prefix: str) -> str:
    """Draw a figure with a letter at each of its places and no names.

    Args:
        figure: one of `POINTING_FIGURES`.
        title: Name of the drawing.
        id_prefix: Start of the ids in it; different for every drawing on a page.

    Raises:
        ValueError: when there is no such drawing.
    """
    places = places_of(figure)
    draw, _, box = _DRAWINGS[figure]
    said = "; ".join(f"{letter}: {place.lies}" for letter, place in zip(_LETTERS, places, strict=False))
    canvas = Canvas()
    draw(canvas)
    canvas.group()
    for letter, place in zip(_LETTERS, places, strict=False):
        canvas.pointer(place.badge, place.at)
        canvas.circle(place.badge, 14, "paper")
        canvas.text((place.badge[0], place.badge[1] + 6), letter, size=17, anchor="middle", strong=True)
    return canvas.picture(box).svg(title=title, description=f"Lettered places. {said}.", id_prefix=id_prefix)
