"""How numbers and dimensions are put in words; the browser's half does the very same."""

from __future__ import annotations

import math
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["DIMENSIONS", "LABELS", "MM_PER_IN", "inches_text", "length_text", "percent_text", "span_text", "value_text"]

MM_PER_IN = 25.4
"""Millimeters in an inch, exact."""

DIMENSIONS: tuple[str, ...] = (
    "countersink",
    "seam-width",
    "seam-thickness",
    "body-hook",
    "cover-hook",
    "overlap",
    "tightness",
)
"""What is measured or rated on a seam, in the order in which it is shown and reckoned."""

LABELS: Mapping[str, str] = MappingProxyType(
    {
        "countersink": "Countersink depth",
        "seam-width": "Seam width",
        "seam-thickness": "Seam thickness",
        "body-hook": "Body hook",
        "cover-hook": "Cover hook",
        "overlap": "Overlap",
        "percent-overlap": "Percent overlap",
        "body-hook-butting": "Body hook butting",
        "free-space": "Free space",
        "compactness": "Compactness",
        "tightness": "Tightness",
    }
)
"""The standards' names of the dimensions and of what is computed from them."""

PERCENTS = frozenset({"percent-overlap", "body-hook-butting", "compactness", "tightness"})
"""What is given in percent; everything else is a length."""


def is_percent(dimension: str) -> bool:
    """True for what is given in percent, false for lengths."""
    return dimension in PERCENTS


def inches_text(value: float) -> str:
    """Write a length in inches with three decimals, or four where the fourth is not zero.

    Halves go up. Not the language's own rounding, so that Python and the browser write the same.

    >>> inches_text(0.055), inches_text(0.0125), inches_text(-0.004)
    ('0.055 in', '0.0125 in', '-0.004 in')
    """
    return f"{_decimal(value, 4, 3)} in"


def length_text(value: float, unit: str = "in") -> str:
    """Write a length given in inches in the unit of the readings: inches, or millimeters with two or three decimals.

    >>> length_text(0.055), length_text(1.4 / 25.4, "mm"), length_text(0.070, "mm")
    ('0.055 in', '1.40 mm', '1.778 mm')
    """
    return f"{_decimal(value * MM_PER_IN, 3, 2)} mm" if unit == "mm" else inches_text(value)


def percent_text(value: float) -> str:
    """Write a percentage with one decimal, or none where it is zero.

    >>> percent_text(52.27), percent_text(70.0)
    ('52.3%', '70%')
    """
    return f"{_decimal(value, 1, 0)}%"


def span_text(dimension: str, least: float, greatest: float, unit: str = "in") -> str:
    """Write the least and greatest value of a dimension, or one number when they are written alike.

    Args:
        dimension: what it is, as in `LABELS`.
        least: least value, inches or percent.
        greatest: greatest value.
        unit: what lengths are written in, `in` or `mm`.

    >>> span_text("body-hook", 0.076, 0.078)
    '0.076 to 0.078 in'
    """
    low, high = value_text(dimension, least, unit), value_text(dimension, greatest, unit)
    if low == high:
        return low
    return f"{low.removesuffix(f' {unit}').removesuffix('%')} to {high}"


def value_text(dimension: str, value: float, unit: str = "in") -> str:
    """Write one value of a dimension with its unit."""
    return percent_text(value) if is_percent(dimension) else length_text(value, unit)


def _decimal(value: float, places: int, least: int) -> str:
    scale = 10**places
    units = math.floor(abs(value) * scale + 0.5)
    sign = "-" if value < 0 and units else ""
    whole, part = divmod(units, scale)
    digits = str(part).rjust(places, "0")
    while len(digits) > least and digits.endswith("0"):
        digits = digits[:-1]
    return f"{sign}{whole}.{digits}" if digits else f"{sign}{whole}"
