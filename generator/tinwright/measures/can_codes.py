"""Can size codes: `307x409` is 3 7/16 in by 4 9/16 in, a nominal name and never a limit for a seam."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from tinwright.errors import SeamingError
from tinwright.measures.lengths import MM_PER_INCH
from tinwright.remembering import remembered

__all__ = ["CanCode", "parse_can_code", "parse_size"]

_SIZE = re.compile(r"(?P<inches>\d{1,2})(?P<sixteenths>\d\d(?:\.\d{1,3})?)")


@dataclass(frozen=True)
class CanCode:
    """A can size code read into inches."""

    code: str
    """As written, with a small x."""
    sizes: tuple[str, ...]
    """Its parts: diameter and height, or length, width and height of a rectangular can."""

    @property
    def diameter(self) -> str:
        """Diameter code of a round can, which also names its chuck: `307`.

        Raises:
            SeamingError: for a rectangular can.
        """
        if not self.is_round:
            raise SeamingError(f"{self.code} is a rectangular can: it has no diameter")
        return self.sizes[0]

    @property
    def is_round(self) -> bool:
        """A round can has two sizes, a rectangular one three."""
        return len(self.sizes) == 2

    @property
    def diameter_in(self) -> Fraction:
        """Diameter over the seam of a round can, in inches."""
        return parse_size(self.diameter)

    @property
    def height_in(self) -> Fraction:
        """Height, in inches."""
        return parse_size(self.sizes[-1])

    @property
    def height_mm(self) -> Fraction:
        """Height, in millimeters."""
        return self.height_in * MM_PER_INCH


@remembered
def parse_size(text: str) -> Fraction:
    """Read one size of a can code, in inches: all digits but the last two are inches, the last two sixteenths.

    A decimal part counts sixteenths too: `200.25` is 2 in and 0.25 sixteenth (an inference; no published sentence
    explains it).

    Raises:
        SeamingError: when it is not such a number, or has 16 sixteenths or more.

    >>> parse_size("1012"), parse_size("200.25")
    (Fraction(43, 4), Fraction(129, 64))
    """
    match = _SIZE.fullmatch(text)
    if match is None:
        raise SeamingError(f"expected a can size such as 307 or 1012, got {text!r}")
    sixteenths = Fraction(match["sixteenths"])
    if sixteenths >= 16:
        raise SeamingError(f"expected sixteenths below 16 in the can size {text!r}, got {match['sixteenths']}")
    return int(match["inches"]) + sixteenths / 16


@remembered
def parse_can_code(text: str) -> CanCode:
    """Read a can size code: diameter by height, or three sizes for a rectangular can.

    Source of the rule: Can Manufacturers Institute, Dimensional Food Can Standards.

    Raises:
        SeamingError: when it cannot be read.

    >>> float(parse_can_code("307x409").height_in)
    4.5625
    """
    sizes = tuple(part.strip() for part in re.split(r"[xX×]", text))
    if len(sizes) not in {2, 3}:
        raise SeamingError(f"expected a can code such as 307x409, got {text!r}")
    for size in sizes:
        parse_size(size)
    return CanCode("x".join(sizes), sizes)
