"""A formula of the seam: what is known about it, and its arithmetic."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tinwright.errors import SeamingError

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

__all__ = ["Arithmetic", "Formula"]


@dataclass(frozen=True)
class Arithmetic:
    """What a formula computes and how it reads, written from its tree in `tinwright.codegen`.

    The browser's `evaluate`, `divisor` and `partials` are written from the same tree, to the same operations.
    """

    sign: str
    """Short sign of what it gives, such as `O`."""
    symbols: tuple[str, ...]
    """Names of what must be put in, in reading order; the functions take their values in this order."""
    evaluate: Callable[..., Any]
    """The formula, on floats or on numpy arrays of one shape."""
    divisor: Callable[..., float] | None
    """What is divided by; None when nothing is."""
    partials: Mapping[str, Callable[..., float]]
    """Partial derivative by each symbol."""
    template: str
    """The right-hand side in one line, such as `{CH} + {BH}`, for `str.format`."""
    math_row: str
    """The whole formula as the inside of a MathML `mrow`."""


@dataclass(frozen=True)
class Formula:
    """A formula of the seam, how it is known, and everything that is made from it."""

    name: str
    """Its name in code, such as `percent-overlap-a`."""
    quantity: str
    """What it gives, such as `percent-overlap`."""
    title: str
    """What it gives, in words."""
    unit: str
    """`length`, in the unit of what is put in, or `percent`."""
    variant: str
    """`A`, `B` or `C` where several are in use, else empty."""
    arithmetic: Arithmetic
    """What it computes and how it reads."""
    source: str
    """Id of the source it stands in or is remembered from; empty when there is none to name."""
    where: str
    """Section in that source."""
    grade: str
    """`source` when it was read there, `memory` when it was not, as in `knowledge`."""
    grade_text: str
    """How it is known, in words for the page."""

    @property
    def symbol(self) -> str:
        """Short sign of what it gives, such as `O`."""
        return self.arithmetic.sign

    @property
    def symbols(self) -> tuple[str, ...]:
        """Names of what must be put in, in reading order."""
        return self.arithmetic.symbols

    def is_defined(self, values: Mapping[str, float]) -> bool:
        """True when what is divided by is above zero: a percentage of no room at all means nothing.

        >>> from tinwright.seaming.formulas import FORMULAS
        >>> FORMULAS["percent-overlap-a"].is_defined({"CH": 1, "BH": 1, "Te": 1, "W": 3, "Tb": 1})
        False
        """
        divisor = self.arithmetic.divisor
        return divisor is None or divisor(*self._in_order(values)) > 0

    def value(self, values: Mapping[str, float]) -> float:
        """Compute the formula from values by symbol; lengths all in one unit.

        Raises:
            SeamingError: when a symbol has no value, or the values make a denominator zero.

        >>> from tinwright.seaming.formulas import FORMULAS
        >>> round(FORMULAS["free-space"].value({"S": 0.055, "Te": 0.010, "Tb": 0.010}), 6)
        0.005
        """
        try:
            value: float = self.arithmetic.evaluate(*self._in_order(values))
        except ZeroDivisionError:
            raise self._not_defined(values) from None
        return value

    def uncertainty(self, values: Mapping[str, float], uncertainties: Mapping[str, float]) -> float:
        """Compute the combined standard uncertainty, first order, inputs taken as uncorrelated.

        Source: JCGM 100:2008, 5.1.2, equation (10). A symbol without an uncertainty counts as exact.

        Raises:
            SeamingError: as `value`.

        >>> from tinwright.seaming.formulas import FORMULAS
        >>> seam = {"CH": 0.076, "BH": 0.078, "Te": 0.010, "W": 0.118}
        >>> u = FORMULAS["overlap-a"].uncertainty(seam, {"CH": 0.001, "BH": 0.001, "W": 0.001, "Te": 0.0005})
        >>> round(u, 4)
        0.0018
        """
        ordered = self._in_order(values)
        total = 0.0
        for name in self.symbols:
            try:
                term = self.arithmetic.partials[name](*ordered) * uncertainties.get(name, 0.0)
            except ZeroDivisionError:
                raise self._not_defined(values) from None
            total = total + term * term
        return math.sqrt(total)

    def plain(self, numbers: Mapping[str, str] | None = None) -> str:
        """Write the right-hand side in one line, with numbers in place of the symbols given.

        >>> from tinwright.seaming.formulas import FORMULAS
        >>> FORMULAS["overlap-a"].plain({"CH": "0.076", "BH": "0.078", "Te": "0.010", "W": "0.118"})
        '0.076 + 0.078 + 0.010 − 0.118'
        """
        return self.arithmetic.template.format_map({name: name for name in self.symbols} | dict(numbers or {}))

    @property
    def text(self) -> str:
        """The whole formula in one line, such as `O = CH + BH + Te − W`."""
        return f"{self.symbol} = {self.plain()}"

    @property
    def mathml(self) -> str:
        """The whole formula as a MathML element in presentation markup, with its text for readers without MathML."""
        return (
            f'<math xmlns="http://www.w3.org/1998/Math/MathML" display="block" alttext="{self.text}">'
            f"<mrow>{self.arithmetic.math_row}</mrow></math>"
        )

    def _in_order(self, values: Mapping[str, float]) -> list[float]:
        missing = [name for name in self.symbols if name not in values]
        if missing:
            raise SeamingError(f"{self.title} needs {', '.join(missing)}")
        return [values[name] for name in self.symbols]

    def _not_defined(self, values: Mapping[str, float]) -> SeamingError:
        numbers = {name: repr(value) for name, value in values.items()}
        return SeamingError(f"{self.title} is not defined for {self.plain(numbers)}")
