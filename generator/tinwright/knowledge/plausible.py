"""Sizes that no sealer, can or instrument of this trade has.

No published table gives these bounds. They are the product's own, drawn so wide that only a slip of the pen lies beyond
them (a decimal point, a missing space, the other unit); inside them nothing is said to be right.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from tinwright.measures import mixed_number, parse_can_code, parse_length

if TYPE_CHECKING:
    from tinwright.measures import Length

__all__ = ["fault_of_code", "fault_of_length"]

_BOUNDS = {
    ("Sealer", "seat_height"): ("1 in", "20 in"),
    ("Sealer", "spring_travel"): ("0.005 in", "2 in"),
    ("SpacerKind", "size"): ("0.005 in", "12 in"),
    ("AdjusterScrew", "travel_per_turn"): ("0.0005 in", "1/4 in"),
    ("Gauge", "diameter"): ("0.003 in", "1/4 in"),
    ("SeamSpecification", "end_plate"): ("0.004 in", "0.030 in"),
    ("SeamSpecification", "body_plate"): ("0.004 in", "0.030 in"),
    ("Instrument", "standard_uncertainty"): ("0.00002 in", "0.003 in"),
    **{
        ("SectionFigure", name): ("0 in", "1/2 in")
        for name in ("body_hook", "cover_hook", "seam_width", "seam_thickness", "countersink")
    },
}
_PARSED = {key: (parse_length(low), parse_length(high)) for key, (low, high) in _BOUNDS.items()}
_DIAMETER_IN = (Fraction(1), Fraction(13))
_HEIGHT_IN = (Fraction(1, 2), Fraction(20))


def fault_of_length(model: str, field: str, length: Length) -> str | None:
    """Say that a length in a field of a model is none that such a thing has, or None.

    >>> fault_of_length("SpacerKind", "size", parse_length("38 in"))
    'expected 0.005 in to 12 in, got 38 in: is a fraction, a decimal point or the other unit meant?'
    """
    bounds = _PARSED.get((model, field))
    if bounds is None or bounds[0] <= length <= bounds[1]:
        return None
    low, high = bounds
    return f"expected {low} to {high}, got {length}: is a fraction, a decimal point or the other unit meant?"


def fault_of_code(code: str) -> str | None:
    """Say that no can has the size a code gives, or None.

    >>> fault_of_code("3007x409")
    'expected a diameter of 1 to 13 in, got 30 7/16 in: a can code is whole inches, then two digits of sixteenths'
    """
    sizes = parse_can_code(code)
    named = [("height", sizes.height_in, _HEIGHT_IN)]
    if sizes.is_round:
        named.insert(0, ("diameter", sizes.diameter_in, _DIAMETER_IN))
    for name, inches, (low, high) in named:
        if not low <= inches <= high:
            told = f"expected a {name} of {mixed_number(low)} to {mixed_number(high)} in, got {mixed_number(inches)} in"
            return f"{told}: a can code is whole inches, then two digits of sixteenths"
    return None
