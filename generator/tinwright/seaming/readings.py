"""Readings of a seam: read as people write them, kept point by point, never averaged.

Rules of points: three or more about 120 degrees apart with the micrometer, two or more with the optical method, side
seam left out (21 CFR 113.60(a)(1)(ii)); greatest and least recorded, at least 1/2 in from the side seam (former 9 CFR
318.301(b)); never averaged (CFIA metal can manual, chapter 4).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import TYPE_CHECKING

from tinwright.measures import MM_PER_INCH

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

__all__ = [
    "POINTS_NEEDED",
    "SIDE_SEAM_NOTE",
    "Entry",
    "Extremes",
    "Reading",
    "SeamReadings",
    "find_unit",
    "parse_percent",
    "parse_reading",
]

POINTS_NEEDED: Mapping[str, int] = MappingProxyType({"micrometer": 3, "optical": 2})
"""Fewest points round the can, by method."""

SIDE_SEAM_NOTE = (
    "Where the can has a side seam, take no reading on it and stay at least 1/2 in away from it. "
    "Spread the points evenly around the can."
)
"""What to say beside the form."""

_DIGITS = 9
_BLANK = "[ \\t\\r\\n\u00a0]"
_WRITTEN = re.compile(
    rf"{_BLANK}*(?:(?P<whole>[0-9]+)(?:{_BLANK}+|-)(?P<top>[0-9]+)/(?P<bottom>[0-9]+)|(?P<top2>[0-9]+)/(?P<bottom2>[0-9]+)"
    rf"|(?P<units>[0-9]*)(?P<part>[.][0-9]*)?){_BLANK}*(?P<unit>[A-Za-z\"″%]*)[.]?{_BLANK}*"
)
UNITS: Mapping[str, str] = MappingProxyType(
    {
        "in": "in",
        "inch": "in",
        "inches": "in",
        '"': "in",
        "″": "in",
        "thou": "thou",
        "thousandth": "thou",
        "thousandths": "thou",
        "mm": "mm",
        "millimeter": "mm",
        "millimeters": "mm",
        "millimetre": "mm",
        "millimetres": "mm",
    }
)
"""Units as people write them."""
_UNREADABLE = "This cannot be read as a measurement. Write it like .055, 55 thou or 1.40 mm."


@dataclass(frozen=True)
class Entry:
    """One box of the form, read."""

    text: str
    """As it was written."""
    value: Fraction | None
    """Inches, or percent for a rating; None when there is a question instead."""
    question: str = ""
    """What to ask the person, in plain words; empty when all is clear."""
    suggestion: Fraction | None = None
    """What was probably meant, to be taken with one touch; never taken by itself."""
    step: Fraction | None = None
    """Unit of the last place written, in inches: .08 is written to the hundredth; None for a rating or a question."""
    unit: str = ""
    """`in` or `mm`, the unit it is in; empty for a rating or a question."""


@dataclass(frozen=True)
class Reading:
    """One reading at one point of one can."""

    dimension: str
    """What was read: one of `wording.DIMENSIONS`."""
    point: str
    """Where round the can, as marked there: `1`, `2`, `3`."""
    value: float
    """Inches, above zero; percent for tightness."""
    step: float = 0.0
    """Unit of the last place written, in inches; zero when it is not known."""


@dataclass(frozen=True)
class Extremes:
    """Least and greatest reading of a dimension; there is no average on purpose."""

    least: float
    """Least reading."""
    greatest: float
    """Greatest reading."""
    least_at: str
    """Point of the least reading, the first when there are more."""
    greatest_at: str
    """Point of the greatest reading, the first when there are more."""
    points: int
    """How many different points were read."""
    least_step: float
    """Unit of the last place the least reading was written to, the coarsest when there are more."""
    greatest_step: float
    """The same of the greatest reading."""
    coarsest_step: float
    """The same of all readings."""


@dataclass(frozen=True)
class SeamReadings:
    """All that was read on one can."""

    method: str
    """`micrometer` or `optical`."""
    readings: tuple[Reading, ...]
    """The readings, in the order they were taken."""
    end_plate_in: float | None = None
    """Thickness of the end plate in inches; None when it is not known."""
    body_plate_in: float | None = None
    """Thickness of the body plate in inches; None when it is not known."""
    end_plate_step: float = 0.0
    """Unit of the last place the end plate was written to, in inches; zero when it is not known."""
    body_plate_step: float = 0.0
    """The same of the body plate."""
    unit: str = "in"
    """`in` or `mm`: what the readings were written in, and are spoken of in."""

    def extremes(self, dimension: str) -> Extremes | None:
        """Return the least and greatest reading of a dimension, or None when it was not read.

        >>> seam = SeamReadings("micrometer", (Reading("body-hook", "1", 0.078), Reading("body-hook", "2", 0.076)))
        >>> seam.extremes("body-hook").least
        0.076
        """
        found = [reading for reading in self.readings if reading.dimension == dimension]
        if not found:
            return None
        least = min(found, key=lambda reading: reading.value)
        greatest = max(found, key=lambda reading: reading.value)
        points = len({reading.point for reading in found})
        return Extremes(
            least.value,
            greatest.value,
            least.point,
            greatest.point,
            points,
            max(reading.step for reading in found if reading.value == least.value),
            max(reading.step for reading in found if reading.value == greatest.value),
            max(reading.step for reading in found),
        )

    def points_needed(self, dimension: str) -> int:
        """Return how many points a dimension must be read at: tightness is rated once, at its worst place."""
        return 1 if dimension == "tightness" else POINTS_NEEDED[self.method]


def find_unit(written: Iterable[str], sheet: str) -> str:
    """Return the unit that most readings were written in; the sheet's own when there are as many of both.

    >>> find_unit(["mm", "mm", "in"], "in"), find_unit([], "mm")
    ('mm', 'mm')
    """
    units = list(written)
    inches, millimeters = units.count("in"), units.count("mm")
    if inches == millimeters:
        return sheet
    return "in" if inches > millimeters else "mm"


def parse_reading(text: str, unit: str = "in") -> Entry:
    """Read a length as people write it: `.055`, `0.055`, `55 thou`, `0.055 in`, `1.40 mm`, `3/64 in`.

    A number without a unit is in `unit` (`in` or `mm`), the unit of the sheet. What is not clear gives a question
    and, where it can be guessed, a suggestion; nothing is refused and nothing is guessed in silence.

    >>> float(parse_reading("55 thou").value)
    0.055
    >>> parse_reading("55").question
    'Is this 55 thousandths of an inch (.055)?'
    """
    if text.count(",") == 1:
        inner = parse_reading(text.replace(",", "."), unit)
        if inner.value is not None:
            return Entry(text, None, "Is the comma a decimal point? Write a point.", inner.value)
    match = _WRITTEN.fullmatch(text)
    number = None if match is None else _number(match)
    if match is None or number is None:
        return Entry(text, None, _UNREADABLE)
    word = match["unit"].lower()
    if word and word not in UNITS:
        return Entry(text, None, _UNREADABLE)
    if number == 0:
        return Entry(text, None, "Is this zero? Leave the box empty when it was not measured.")
    if not word and match["units"] is not None and not match["part"]:
        return _bare_whole(text, number, unit)
    known = UNITS.get(word, unit)
    return Entry(text, number * _scale(known), step=_step(match) * _scale(known), unit="mm" if known == "mm" else "in")


def parse_percent(text: str) -> Entry:
    """Read a rating in percent, such as `70` or `70 %`.

    >>> parse_percent("70 %").value
    Fraction(70, 1)
    """
    match = _WRITTEN.fullmatch(text)
    number = None if match is None else _number(match)
    if match is None or number is None or match["unit"] not in {"", "%"} or match["units"] is None:
        return Entry(text, None, "This cannot be read as a rating. Write a number from 0 to 100.")
    if number > 100:
        return Entry(text, None, "A rating goes from 0 to 100. Is there a digit too many?")
    if 0 < number <= 1:
        return Entry(text, None, "Is this a part of one? Write it in percent, from 0 to 100.", number * 100)
    return Entry(text, number)


def _number(match: re.Match[str]) -> Fraction | None:
    """Return the number written, exact, or None when there is none or it is too long to be meant."""
    if match["units"] is None:
        whole, top, bottom = match["whole"] or "0", match["top"] or match["top2"], match["bottom"] or match["bottom2"]
        if len(whole + top + bottom) > _DIGITS or int(bottom) == 0:
            return None
        return Fraction(int(whole) * int(bottom) + int(top), int(bottom))
    part = (match["part"] or "")[1:]
    digits = match["units"] + part
    if not digits or len(digits) > _DIGITS:
        return None
    return Fraction(int(digits), 10 ** len(part))


def _step(match: re.Match[str]) -> Fraction:
    """Return the unit of the last place written: a hundredth for .08, a sixty-fourth for 5/64."""
    if match["units"] is None:
        return Fraction(1, int(match["bottom"] or match["bottom2"]))
    return Fraction(1, 10 ** len((match["part"] or "")[1:]))


def _bare_whole(text: str, number: Fraction, unit: str) -> Entry:
    """Judge a whole number without a unit: on a sheet in inches it is nearly always thousandths."""
    thou = f"{int(number):03d}"
    if unit == "in" and len(thou) == 3:
        return Entry(text, None, f"Is this {int(number)} thousandths of an inch (.{thou})?", number / 1000)
    if unit == "in":
        return Entry(text, None, "This is far too much for a seam. Which unit is it in?")
    if number >= 20:
        question = f"Is this {int(number)} thousandths of an inch, or is a decimal point missing?"
        return Entry(text, None, question, number / 1000)
    return Entry(text, number / MM_PER_INCH, step=1 / MM_PER_INCH, unit="mm")


def _scale(unit: str) -> Fraction:
    return {"in": Fraction(1), "thou": Fraction(1, 1000), "mm": 1 / MM_PER_INCH}[unit]
