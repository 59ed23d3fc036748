"""Layers of a double seam: the lid's plate, the body's plate and the compound between them, in inches.

Zero is the inside face of the seam (the chuck wall) at the top of the seam; right is away from the can, down is down.
From the inside out the layers are chuck wall (lid), body wall, cover hook (lid), body hook (body), outer wall (lid).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import acos, cos, degrees, radians, sin
from typing import TYPE_CHECKING

from tinwright.figures.track import Track

if TYPE_CHECKING:
    from tinwright.figures.canvas import Point
    from tinwright.figures.dimensions import SectionDimensions

__all__ = ["Callout", "Layers", "Metal", "good_layers", "hook_up", "lid_from_panel", "spacing"]

PANEL_RISE = 0.028
"""How far the lid's flat stands above the lowest point beside the chuck wall; for drawing only."""
PANEL_LENGTH = 0.035
BODY_BELOW = 0.050
"""How much of the body is drawn below the seam and the lowest point of the lid."""


@dataclass(frozen=True)
class Metal:
    """One bent plate."""

    part: str
    """`lid` or `body`."""
    track: Track
    """Its middle line."""
    thickness: float
    """Drawn thickness, in inches."""
    shape: tuple[Point, ...] = ()
    """Outline, where it is not the plate along the track."""

    @property
    def outline(self) -> tuple[Point, ...]:
        """The outline of the plate, in inches."""
        return self.shape or self.track.ribbon(self.thickness)


@dataclass(frozen=True)
class Callout:
    """Words and what they point at."""

    words: str
    """What is to be seen."""
    at: Point
    """Where it is."""
    corner: str = "top"
    """Where the words stand: `top` (over the lid), `bottom` (beside the body) or `right` (beside the seam)."""


@dataclass(frozen=True)
class Layers:
    """All that a section shows."""

    metal: tuple[Metal, ...]
    """Plates, drawn in this order."""
    compound: tuple[tuple[Point, ...], ...] = ()
    """Shapes of sealing compound, drawn below the metal."""
    matter: tuple[tuple[Point, ...], ...] = ()
    """Shapes of trapped matter, drawn over the metal."""
    marks: tuple[tuple[Point, ...], ...] = ()
    """Fault lines: cracks."""
    ghosts: tuple[tuple[Point, ...], ...] = ()
    """Dashed lines that show where a good part would be."""
    gaps: tuple[tuple[Point, ...], ...] = ()
    """Shapes taken out of the metal."""
    slack: tuple[tuple[Point, ...], ...] = ()
    """Room between the plates that should not be there: filled with the accent, below the metal."""
    lacks: tuple[tuple[Point, ...], ...] = ()
    """Where metal of a good seam is missing: outlined in the accent, empty."""
    extras: tuple[tuple[Point, ...], ...] = ()
    """Metal that a good seam does not have: filled with the accent."""
    left: float | None = None
    """Left edge of what is shown, in inches, where that is more than one side of a can."""
    callouts: tuple[Callout, ...] = ()
    """Words with leader lines."""

    def calling(self, words: str, at: Point, corner: str = "top") -> Layers:
        """Return the same with one more callout."""
        return replace(self, callouts=(*self.callouts, Callout(words, at, corner)))

    @property
    def right(self) -> float:
        """Right edge of the metal, in inches."""
        return max(x for metal in self.metal for x, _ in metal.outline)


@dataclass(frozen=True)
class Spacing:
    """Plates and the gaps between them as drawn."""

    lid: float
    """Thickness of the lid's plate as drawn, in inches."""
    body: float
    """Thickness of the body's plate as drawn, in inches."""
    gap: float
    """Gap between neighboring layers, in inches."""


def spacing(dims: SectionDimensions, *, gaps: int = 4) -> Spacing:
    """Share the free space of a seam between its layers.

    A seam measured thinner than its five plates is drawn with its plates pressed thinner by the same ratio.
    """
    metal = 3 * dims.end_plate + 2 * dims.body_plate
    squeeze = min(1.0, dims.seam_thickness / metal)
    return Spacing(dims.end_plate * squeeze, dims.body_plate * squeeze, max(0.0, dims.free_space) / gaps)


def lid_from_panel(dims: SectionDimensions, plate: float, *, wall_x: float | None = None) -> Track:
    """Begin the lid: flat, down into the countersink, round its radius, heading up the chuck wall.

    The upper face of the lid is `dims.countersink` below the top of the seam at its lowest point.

    Args:
        dims: The seam.
        plate: Thickness of the lid as drawn, in inches.
        wall_x: Middle of the chuck wall; left out, its inside face is at zero.
    """
    wall_x = plate / 2 if wall_x is None else wall_x
    knee, bowl, lean = 0.012, 0.017, 65.0
    slope = radians(lean)
    straight = max(0.0, (PANEL_RISE - (knee + bowl) * (1 - cos(slope))) / sin(slope))
    run = (knee + bowl) * sin(slope) + straight * cos(slope) + bowl
    low = dims.countersink + plate / 2
    high = low - (knee + bowl) * (1 - cos(slope)) - straight * sin(slope)
    track = Track((wall_x - run - PANEL_LENGTH, high), heading=0).forward(PANEL_LENGTH)
    return track.turn(knee, lean).forward(straight).turn(bowl, -lean - 90)


def good_layers(dims: SectionDimensions) -> Layers:
    """Draw a whole seam from its dimensions.

    The body hook's top lies one lid plate below the top of the seam, so that its tip is at `end_plate + body_hook`; the
    cover hook's foot is the bottom of the seam, so that its tip is at `seam_width - cover_hook`. The overlap drawn is
    therefore CH + BH + T - W, also when it is below zero.
    """
    plates = spacing(dims)
    lid, body, gap = plates.lid, plates.body, plates.gap
    arch = (dims.seam_thickness - lid) / 2
    end = lid_from_panel(dims, lid)
    end.forward(end.end[1] - lid / 2 - arch).turn(arch, 180)
    heel = (lid + body) / 2 + gap
    foot = dims.seam_width - lid / 2 - heel
    end.forward(foot - end.end[1])
    hook_up(end, heel, length=dims.cover_hook - lid / 2)

    bend = (dims.seam_thickness - 2 * lid - 2 * gap - body) / 2
    wall = lid + gap + body / 2
    can = Track((wall, max(dims.countersink, dims.seam_width) + BODY_BELOW), heading=-90)
    can.forward(can.end[1] - dims.end_plate - body / 2 - bend)
    hook_up(can, bend, length=dims.body_hook - body / 2)
    return Layers((Metal("body", can, body), Metal("lid", end, lid)), (_lining(dims, plates, cover_tip=end.end[1]),))


def hook_up(track: Track, radius: float, *, length: float) -> None:
    """Bend a plate back on itself, so far that its tip is `length` past the crown of the bend's middle line.

    A hook shorter than its bend ends within the bend.
    """
    if length >= radius:
        track.turn(radius, 180).forward(length - radius)
        return
    track.turn(radius, 90).turn(radius, degrees(acos(max(-1.0, min(1.0, 1 - length / radius)))))


def _lining(dims: SectionDimensions, plates: Spacing, *, cover_tip: float) -> tuple[Point, ...]:
    """Outline the compound: inside the lid's curl, from the chuck wall over the top round to the cover hook's tip."""
    lid, body, gap = plates.lid, plates.body, plates.gap
    arch = (dims.seam_thickness - lid) / 2
    heel = (lid + body) / 2 + gap
    start = (lid / 2, 0.45 * dims.seam_width)
    line = Track(start, heading=-90).forward(start[1] - lid / 2 - arch).turn(arch, 180)
    line.forward(dims.seam_width - lid / 2 - heel - line.end[1]).turn(heel, 180).forward(line.end[1] - cover_tip)
    wall = lid + gap + body / 2
    return (*line.points, (wall, cover_tip), (wall, start[1]))
