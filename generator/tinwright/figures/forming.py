"""Forming: the two operations as still frames, from flange and curl to the finished seam, all from the same numbers."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import cos, dist, radians, sin
from typing import TYPE_CHECKING

from tinwright.figures.canvas import Canvas, Picture
from tinwright.figures.dimensions import GOOD_SEAM
from tinwright.figures.layers import good_layers, lid_from_panel, spacing
from tinwright.figures.open_faults import OPEN_FAULTS, good_flange
from tinwright.figures.operation import draw_tools
from tinwright.remembering import remembered

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tinwright.figures.canvas import Point
    from tinwright.figures.track import Track

__all__ = ["FRAMES", "Frame", "forming_svg"]

_SCALE = 1500.0
_PIECES = 160
_CLEAR = 0.030
"""How far a roller stands away from the seam before it touches, in inches."""


@dataclass(frozen=True)
class Frame:
    """One still of the two operations."""

    said: str
    """What happens in it."""
    formed: float
    """How far the edges are formed: 0 before, 1 after the first operation, 2 after the second."""
    first: bool
    """Whether it is the first roller that is shown, or the second."""
    touching: bool
    """Whether the roller touches the edges."""


FRAMES = (
    Frame("The lid lies on the can: its curl hangs over the flange. The first roller stands clear.", 0, True, False),
    Frame("The first roller comes in and starts to tuck the curl under the flange.", 0.35, True, True),
    Frame("Curl and flange turn down together: two hooks begin to form.", 0.7, True, True),
    Frame("The first operation is done: the hooks lie behind each other, rounded and loose.", 1, True, True),
    Frame("The first roller is away. The second roller, with its flat groove, comes in.", 1, False, False),
    Frame("The second roller presses the folds together. It does not fold anything.", 1.5, False, True),
    Frame("The second operation is done: five layers, flat and tight.", 2, False, True),
)
"""The frames in their order."""


def forming_svg(number: int, *, title: str, description: str, id_prefix: str) -> str:
    """Draw one frame: lid and body in section between chuck and roller.

    Args:
        number: Which frame, counted from 0.
        title: Name of the drawing.
        description: What it shows, in words.
        id_prefix: Start of the ids in it; different for every drawing on a page.
    """
    return _picture(number).svg(title=title, description=description, id_prefix=id_prefix)


@remembered
def _picture(number: int) -> Picture:
    frame = FRAMES[number]
    canvas = Canvas()
    canvas.group()
    lid, body = _edges(frame.formed)
    plates = spacing(GOOD_SEAM)
    outer = max(x for x, _ in lid) + plates.lid / 2
    draw_tools(canvas, first=frame.first, seam_right=outer + (0 if frame.touching else _CLEAR))
    canvas.polygon(_plate(body, plates.body), "body", hatch="body")
    canvas.polygon(_plate(lid, plates.lid), "lid")
    if frame.touching:
        canvas.arrow((310, 102), (_SCALE * outer + 84, 102), "fault", size=22)
    return canvas.picture((-112, -66, 440, 352))


def _edges(formed: float) -> tuple[list[Point], list[Point]]:
    """Return the middle lines of lid and body, formed so far."""
    stage = min(int(formed), 1)
    (lid_from, body_from), (lid_to, body_to) = _stages()[stage : stage + 2]
    share = formed - stage
    return _between(lid_from, lid_to, share), _between(body_from, body_to, share)


def _stages() -> tuple[tuple[Track, Track], ...]:
    """Return lid and body before the first operation, after it and after the second."""
    before = lid_from_panel(GOOD_SEAM, spacing(GOOD_SEAM).lid)
    before.forward(before.end[1] - 0.020).turn(0.012, 85).forward(0.052).turn(0.014, 95).forward(0.012)
    flange = good_flange(GOOD_SEAM).metal[0].track
    pressed = {metal.part: metal.track for metal in good_layers(GOOD_SEAM).metal}
    rolled = {metal.part: metal.track for metal in OPEN_FAULTS["unpressed"](GOOD_SEAM).metal}
    return (before, flange), (rolled["lid"], rolled["body"]), (pressed["lid"], pressed["body"])


def _between(one: Track, other: Track, share: float) -> list[Point]:
    """Bend a plate a share of the way from one shape to another.

    Up to the top of its wall it stays where it is; from there its length and the way it heads change evenly.
    """
    tops = [_wall_top(track) for track in (one, other)]
    (x, top), (_, other_top) = one.points[tops[0]], other.points[tops[1]]
    points = [*one.points[: tops[0]], (x, top + (other_top - top) * share)]
    lengths = [_length(track.points[index:]) for track, index in zip((one, other), tops, strict=True)]
    step = (lengths[0] + (lengths[1] - lengths[0]) * share) / _PIECES
    for a, b in zip(_headings(one, tops[0]), _headings(other, tops[1]), strict=True):
        heading = radians(a + (b - a) * share)
        x, y = points[-1]
        points.append((x + step * cos(heading), y + step * sin(heading)))
    return points


def _wall_top(track: Track) -> int:
    """Return which of its points ends the straight that goes up beside the chuck."""
    upright = [abs(heading + 90) < 1e-6 for heading in track.headings]
    start = upright.index(True)
    return next(index for index in range(start, len(upright)) if not upright[index]) - 1


def _length(points: Sequence[Point]) -> float:
    return sum(dist(here, there) for here, there in pairwise(points))


def _headings(track: Track, start: int) -> list[float]:
    """Return the way a line heads at the middle of each of many pieces of one length, in degrees."""
    points, headings = track.points[start:], track.headings[start:]
    places = [0.0]
    for here, there in pairwise(points):
        places.append(places[-1] + dist(here, there))
    found, index = [], 0
    for piece in range(_PIECES):
        at = places[-1] * (piece + 0.5) / _PIECES
        while places[index + 1] < at:
            index += 1
        share = (at - places[index]) / (places[index + 1] - places[index])
        found.append(headings[index] + (headings[index + 1] - headings[index]) * share)
    return found


def _plate(points: list[Point], thickness: float) -> list[Point]:
    left: list[Point] = []
    right: list[Point] = []
    ahead = [*points[1:], points[-1]]
    behind = [points[0], *points[:-1]]
    for (x, y), there, here in zip(points, ahead, behind, strict=True):
        length = dist(here, there) or 1.0
        across = (thickness / 2 * (there[1] - here[1]) / length, thickness / 2 * (there[0] - here[0]) / length)
        left.append(((x + across[0]) * _SCALE, (y - across[1]) * _SCALE))
        right.append(((x - across[0]) * _SCALE, (y + across[1]) * _SCALE))
    return [*left, *reversed(right)]
