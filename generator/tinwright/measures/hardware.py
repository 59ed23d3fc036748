"""Screws and wires: how far one turn of a screw goes, and how thick a wire of a gauge number is.

A screw's travel is not a roller's: an arm or an eccentric pin between them changes it. So the travel of the roller is
measured, and what stands here is only a help to check it.
"""

from __future__ import annotations

import re
from fractions import Fraction

from tinwright.errors import SeamingError
from tinwright.measures.lengths import MM_PER_INCH

__all__ = ["COARSE_PITCH_MM", "awg_diameter_in", "nearest_awg", "screw_travel_in"]

COARSE_PITCH_MM = {
    "M2": "0.4", "M2.5": "0.45", "M3": "0.5", "M4": "0.7", "M5": "0.8", "M6": "1", "M8": "1.25", "M10": "1.5",
    "M12": "1.75", "M14": "2", "M16": "2", "M18": "2.5", "M20": "2.5", "M24": "3",
}  # fmt: skip
"""Coarse pitch in millimeters by nominal size; a metric screw with no pitch named has this one."""

_INCH = re.compile(r"(?:No\. ?)?[\d/]+-(?P<threads>\d+)(?: UN[CF])?")
_METRIC = re.compile(r"(?P<size>M\d+(?:\.5)?)(?: ?[x×] ?(?P<pitch>\d+(?:\.\d+)?))?")


def screw_travel_in(thread: str) -> Fraction:
    """Return how far a screw moves along in one turn, in inches, exact.

    Source: thread tables such as Mechanical Engineer's Data Handbook, screw threads: one turn is 1/threads per inch,
    or one pitch.

    Args:
        thread: `1/4-20`, `No. 10-32 UNF`, `M6` (coarse) or `M6x0.75`.

    Raises:
        SeamingError: when the thread cannot be read, or a metric size has no coarse pitch here.

    >>> screw_travel_in("1/4-20 UNC"), screw_travel_in("M6")
    (Fraction(1, 20), Fraction(5, 127))
    """
    if match := _INCH.fullmatch(thread.strip()):
        if int(match["threads"]) == 0:
            raise SeamingError(f"expected threads per inch above zero, got {thread!r}")
        return Fraction(1, int(match["threads"]))
    match = _METRIC.fullmatch(thread.strip())
    pitch = match and (match["pitch"] or COARSE_PITCH_MM.get(match["size"]))
    if not pitch or Fraction(pitch) == 0:
        raise SeamingError(f"expected a thread such as 1/4-20, No. 10-32 or M6, got {thread!r}")
    return Fraction(pitch) / MM_PER_INCH


def awg_diameter_in(number: int) -> float:
    """Return the diameter of a wire of an American wire gauge number, in inches; 4/0 is -3.

    Source: ASTM B258: 36 is 0.005 in, 4/0 is 0.46 in, 39 equal steps between. Steel wire is not sold by this gauge.

    Raises:
        SeamingError: for a number outside -3 to 40.

    >>> round(awg_diameter_in(15), 4)
    0.0571
    """
    if not -3 <= number <= 40:
        raise SeamingError(f"expected a wire gauge number from -3 (4/0) to 40, got {number}")
    return float(0.005 * 92 ** ((36 - number) / 39))


def nearest_awg(diameter_in: float) -> int:
    """Return the gauge number whose wire is nearest to a diameter in inches; a label only, never a setting.

    >>> nearest_awg(0.057)
    15
    """
    return min(range(-3, 41), key=lambda number: abs(awg_diameter_in(number) - diameter_in))
