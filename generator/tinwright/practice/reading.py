"""What the instruments show of a seam: at three points, with their uncertainty, as marked on them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.practice.setting import ANGLES
from tinwright.seaming.readings import Reading

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tinwright.practice.chance import Chance
    from tinwright.practice.seam import Seam

__all__ = ["POINTS", "read_seam"]

POINTS: tuple[int, ...] = (3, 11, 19)
"""Angles read: 120 degrees apart, none on the side seam (21 CFR 113.60(a)(1)(ii))."""
_PER_INCH = 1000.0
"""The instruments show thousandths of an inch."""


def read_seam(
    seam: Seam, dimensions: Sequence[str], uncertainties: Mapping[str, float], chance: Chance, worst: int | None = None
) -> tuple[Reading, ...]:
    """Read dimensions of a seam.

    Args:
        seam: the seam.
        dimensions: what to read, in order.
        uncertainties: standard uncertainty by dimension, in inches; left out: none. Tightness is rated in tens.
        chance: where the errors come from.
        worst: where the seam looks worst, in degrees: read there as well, as point 4.
    """
    angles = POINTS if worst is None else (*POINTS, (worst * ANGLES // 360 + 1) % ANGLES)
    found: list[Reading] = []
    for dimension in dimensions:
        around = seam.around(dimension)
        if dimension == "tightness":
            found.append(Reading(dimension, "1", max(1.0, int(min(around) / 10.0 + 0.5) * 10.0)))
            continue
        for point, angle in enumerate(angles):
            shown = around[angle] + chance.error(uncertainties.get(dimension, 0.0))
            thousandths = max(1, int(shown * _PER_INCH + 0.5))
            found.append(Reading(dimension, str(point + 1), thousandths / _PER_INCH, 1 / _PER_INCH))
    return tuple(found)
