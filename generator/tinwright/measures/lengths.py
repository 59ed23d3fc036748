"""Lengths and turns of a screw, exact, as people write them: `3/16 in`, `2 11/64 in`, `1.40 mm`, `1/8 turn`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import total_ordering

from tinwright.errors import MeasureError

__all__ = ["MM_PER_INCH", "Length", "mixed_number", "parse_length", "parse_number", "parse_turns"]

MM_PER_INCH = Fraction(127, 5)
"""Exact since 1959: 1 in = 25.4 mm (NIST SP 811, appendix B)."""

_NUMBER = re.compile(
    r"(?P<whole>\d+)(?:[ -](?P<top>\d+)/(?P<bottom>\d+))?|(?P<top2>\d+)/(?P<bottom2>\d+)|\d*\.\d+|\d+\."
)
_QUANTITY = re.compile(r"\s*(?P<number>[\d./ -]*?)\s*(?P<unit>[A-Za-zµ\"'″′”“’][A-Za-z.\"'″′”“’]*)?\s*")
_DECIMAL_COMMA = re.compile(r"\s*(\d*),(\d+)\s*(in|mm)\s*")
_MEANT = {
    **dict.fromkeys(('"', "″", "”", "“", "''", "in.", "inch", "inches"), "in"),
    **dict.fromkeys(("mm.", "millimeter", "millimeters", "millimetre", "millimetres"), "mm"),
}
"""Units as people write them, in small letters, and how the records do."""
_RULE = 64
"""A rule for fine work is divided into 64ths of an inch."""


@total_ordering
@dataclass(frozen=True, eq=False)
class Length:
    """An exact length that remembers the unit and the text it was written in."""

    value: Fraction
    """Amount in `unit`."""
    unit: str
    """`in` or `mm`."""
    text: str
    """As written, for showing."""

    @property
    def inches(self) -> Fraction:
        """The length in inches, exact."""
        return self.value if self.unit == "in" else self.value / MM_PER_INCH

    @property
    def mm(self) -> Fraction:
        """The length in millimeters, exact."""
        return self.value * MM_PER_INCH if self.unit == "in" else self.value

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Length) and self.inches == other.inches

    def __lt__(self, other: Length) -> bool:
        return self.inches < other.inches

    def __hash__(self) -> int:
        return hash(self.inches)

    def __str__(self) -> str:
        return self.text


def parse_number(text: str) -> Fraction:
    """Read a whole number, a decimal, a fraction or a mixed number without loss.

    Raises:
        MeasureError: when the text is anything else, or a fraction has zero below the line.

    >>> parse_number("2 11/64")
    Fraction(139, 64)
    """
    text = text.strip()
    match = _NUMBER.fullmatch(text)
    if match is None:
        raise MeasureError(f"expected a number such as 3/16, 2 11/64 or 0.055, got {text!r}")
    top, bottom = match["top"] or match["top2"], match["bottom"] or match["bottom2"]
    if bottom is not None:
        if int(bottom) == 0:
            raise MeasureError(f"expected a fraction with a number above zero below the line, got {text!r}")
        return int(match["whole"] or 0) + Fraction(int(top), int(bottom))
    return Fraction(text)


def parse_length(text: str) -> Length:
    """Read a length in inches or millimeters without loss.

    A fraction that no rule shows is most likely a slip: `51/16 in` for `5 1/16 in`, `5 1/16 mm` for `5 1/16 in`.

    Raises:
        MeasureError: when the number cannot be read, the unit is missing or not `in` or `mm`, or it is such a fraction.

    >>> parse_length("3/16 in").mm
    Fraction(381, 80)
    """
    match = _QUANTITY.fullmatch(text)
    if match is None or match["unit"] not in {"in", "mm"}:
        raise MeasureError(_no_unit(text, match))
    number, unit = match["number"], match["unit"]
    value = parse_number(number)
    if "/" in number:
        _refuse_slip(number.strip(), unit, value)
    return Length(value, unit, text.strip())


def _no_unit(text: str, match: re.Match[str] | None) -> str:
    if comma := _DECIMAL_COMMA.fullmatch(text):
        return f"expected a decimal point, got {text!r}: write {comma[1] or 0}.{comma[2]} {comma[3]}"
    got = match and match["unit"]
    if match and got and got.lower() in _MEANT and match["number"]:
        return f"expected the unit in or mm, got {got!r}: write {_spaced(match['number'])} {_MEANT[got.lower()]}"
    unit = f"the unit {got!r}" if got else "no unit"
    return f"expected a length in inches (in) or millimeters (mm), got {text!r} with {unit}"


def _spaced(number: str) -> str:
    """Write a mixed number with a space.

    >>> _spaced("5-1/16")
    '5 1/16'
    """
    return re.sub(r"(\d)\s*-\s*(\d)", r"\1 \2", number.strip())


def _refuse_slip(number: str, unit: str, value: Fraction) -> None:
    match = _NUMBER.fullmatch(number)
    top, bottom = (match["top"] or match["top2"], match["bottom"] or match["bottom2"]) if match else ("0", "1")
    whole = match and match["whole"]
    if unit == "mm":
        raise MeasureError(f"expected millimeters with a decimal point, got the fraction {number!r}: is it in inches?")
    if int(top) > int(bottom) or (whole and int(top) == int(bottom)):
        spaced = "" if whole or len(top) == 1 else f", or {top[0]} {top[1:]}/{bottom} in if a space is missing"
        raise MeasureError(f"expected a fraction below one, got {number!r}: write {mixed_number(value)} in{spaced}")
    if _RULE % int(bottom):
        raise MeasureError(f"expected halves, quarters and so on to 64ths, or a decimal number, got {number!r}")


def parse_turns(text: str) -> Fraction:
    """Read a part of a turn of an adjusting screw, such as `1/8 turn` or `2 turns`.

    Raises:
        MeasureError: when the text is not a number followed by `turn` or `turns`.

    >>> parse_turns("1/8 turn")
    Fraction(1, 8)
    """
    match = _QUANTITY.fullmatch(text)
    if match is None or match["unit"] not in {"turn", "turns"}:
        raise MeasureError(f"expected a part of a turn such as '1/8 turn', got {text!r}")
    return parse_number(match["number"])


def mixed_number(value: Fraction) -> str:
    """Write an exact number of inches as people read it on a rule.

    >>> from fractions import Fraction
    >>> mixed_number(Fraction(139, 64)), mixed_number(Fraction(3)), mixed_number(Fraction(1001, 1000))
    ('2 11/64', '3', '1.001')
    """
    whole, rest = divmod(abs(value), 1)
    sign = "−" if value < 0 else ""
    if rest == 0:
        return f"{sign}{whole}"
    if rest.denominator > 64 or rest.denominator & (rest.denominator - 1):
        return f"{sign}{float(abs(value)):.4f}".rstrip("0")
    return f"{sign}{whole} {rest}" if whole else f"{sign}{rest}"
