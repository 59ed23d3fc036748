"""The seam that a setting makes: a small teaching model that keeps the length of the metal.

    from tinwright.practice import Chance, Fault, make_seam, set_around

    make_seam(set_around([Fault("first-roller-loose")], {}, Chance(7)), can).sections[0].overlap

A healthy seam is what the can's sheet aims for. From there:

- **Lid.** The metal from the panel to the cut edge goes up the chuck wall, down the outside and, around the bottom
  bend, up into the cover hook. Its length is given, so countersink + width + cover hook + (pi - 2) x radius of the
  bend stays the same: a half circle is pi radii long and stands in two of the heights, a radius in each. A deeper
  countersink or a wider bend takes from the cover hook. A looser first roller leaves the bend wider by its gap.
- **Body.** The body hook is the flange and what is drawn in with it. The base plate drives metal in. A slack first
  roller lets metal run in, a tight one holds it back, and a chuck lip that stands deep takes from both hooks.
- **Thickness** is three end plates, two body plates, what is packed in with them and the free space, which the second
  roller closes. What it irons beyond that comes out below: the seam is wider.
- **Neutral.** Sources dispute what the second roller does to the body hook; here it does nothing.

How much metal each move draws in (`_DRAWN_*`) is chosen, not measured, so that each dimension goes the way that the
cause records say. Only + - * / in a fixed order, so that the browser gets the same bits.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from tinwright.practice.setting import STEP_IN

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tinwright.practice.scenario import BenchCan
    from tinwright.practice.setting import Setting

__all__ = ["Seam", "Section", "make_seam", "shape_section"]

_BEND = 1.1415926535897931
"""Pi less two."""
_DRAWN_BY_PRESS, _HELD_BY_PRESS = 0.6, 1.2
"""Body metal driven in for each inch of base plate too far up; missing for each inch too little."""
_DRAWN_BY_FIRST, _HELD_BY_FIRST = 0.6, 1.6
"""Body metal that runs in for each inch of first-roller gap too wide; held back for each inch too narrow."""
_LIFTED = 0.4
"""Countersink lost for each inch that the can is pressed too little."""
_SPREAD = 0.2
"""Width gained for each inch that the second roller irons away."""
_HEALTHY_TIGHTNESS = 90.0
_TIGHTNESS_PER_SECOND, _TIGHTNESS_PER_FIRST = 4000.0, 2000.0
"""Percent of tightness lost for each inch of gap too wide."""


class Section(NamedTuple):
    """The seam at one angle; inches, tightness in percent."""

    countersink: float
    """Depth of the countersink."""
    width: float
    """Width of the seam, as the trade calls its height."""
    thickness: float
    """Thickness of the seam."""
    body_hook: float
    """Body hook."""
    cover_hook: float
    """Cover hook."""
    overlap: float
    """How far the hooks lie behind each other (21 CFR 113.60(a)(1)(iii)); below zero when they do not meet."""
    tightness: float
    """How free of wrinkles the cover hook is, from 0 to 100."""
    ridge: str
    """Pressure ridge inside the body: `none`, `light`, `even` or `heavy`."""


@dataclass(frozen=True)
class Seam:
    """A seam all around a can."""

    settings: tuple[Setting, ...]
    """What it was made with, angle by angle."""
    sections: tuple[Section, ...]
    """What it came to be, angle by angle."""

    def around(self, dimension: str) -> tuple[float, ...]:
        """Return a dimension at each angle.

        Args:
            dimension: one of `seaming.DIMENSIONS`, or `overlap`.
        """
        place = Section._fields.index(dimension.removeprefix("seam-").replace("-", "_"))
        return tuple(section[place] for section in self.sections)  # type: ignore[misc]


def make_seam(settings: Sequence[Setting], can: BenchCan) -> Seam:
    """Return the seam that these settings make on a can."""
    made: dict[Setting, Section] = {}
    for setting in settings:
        if setting not in made:
            made[setting] = shape_section(setting, can)
    return Seam(tuple(settings), tuple(made[setting] for setting in settings))


def shape_section(setting: Setting, can: BenchCan) -> Section:
    """Return the seam at one angle."""
    aims, end, body = can.aims, can.end_plate_in, can.body_plate_in
    press, first, second = setting.press, setting.first, setting.second
    countersink = aims["countersink"] + (press if press > 0.0 else press * _LIFTED) + setting.seat
    cover_hook = _cover_hook(setting, aims, countersink)
    drawn = press * (_DRAWN_BY_PRESS if press > 0.0 else _HELD_BY_PRESS)
    drawn = drawn + first * (_DRAWN_BY_FIRST if first > 0.0 else _HELD_BY_FIRST) - setting.seat
    body_hook = _not_below_zero(aims["body-hook"] + setting.flange + drawn)
    plates = 3.0 * end + 2.0 * body
    free = aims["seam-thickness"] - plates + second
    thickness = plates + setting.packed + setting.slack + free
    width = aims["seam-width"] + (-free * _SPREAD if free < 0.0 else 0.0)
    return Section(
        countersink,
        width,
        thickness,
        body_hook,
        cover_hook,
        cover_hook + body_hook + end - width,
        _tightness(setting),
        _ridge(second / STEP_IN),
    )


def _cover_hook(setting: Setting, aims: dict[str, float], countersink: float) -> float:
    """Return what is left of the lid's metal for the cover hook; the second roller moves none of it along the lid."""
    metal = aims["countersink"] + aims["seam-width"] + aims["cover-hook"] + setting.curl
    return _not_below_zero(metal - countersink - aims["seam-width"] - _BEND * setting.first)


def _not_below_zero(value: float) -> float:
    return value if value > 0.0 else 0.0


def _tightness(setting: Setting) -> float:
    second = _not_below_zero(setting.second) * _TIGHTNESS_PER_SECOND
    first = _not_below_zero(setting.first) * _TIGHTNESS_PER_FIRST
    return _not_below_zero(_HEALTHY_TIGHTNESS - second - first - setting.wrinkle - setting.broken)


def _ridge(second_steps: float) -> str:
    if second_steps >= 2.5:
        return "none"
    if second_steps >= 1.0:
        return "light"
    return "heavy" if second_steps <= -2.0 else "even"
