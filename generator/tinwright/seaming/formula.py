"""A formula of the seam: one expression, and everything that is made from it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from tinwright.errors import SeamingError
from tinwright.seaming.late import late
from tinwright.seaming.printing import code_text, math_name, math_row, plain_text

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    import sympy
    from sympy import Expr
else:
    sympy = late("sympy")

__all__ = ["Formula"]


@dataclass(frozen=True)
class Formula:
    """A formula of the seam, how it is known, and everything that is made from it."""

    name: str
    """Its name in code, such as `percent-overlap-a`."""
    quantity: str
    """What it gives, such as `percent-overlap`."""
    title: str
    """What it gives, in words."""
    symbol: str
    """Short sign of what it gives, such as `O`."""
    unit: str
    """`length`, in the unit of what is put in, or `percent`."""
    variant: str
    """`A`, `B` or `C` where several are in use, else empty."""
    expression: Expr
    """The right-hand side, unevaluated, in reading order."""
    source: str
    """Id of the source it stands in or is remembered from; empty when there is none to name."""
    where: str
    """Section in that source."""
    grade: str
    """`source` when it was read there, `memory` when it was not, as in `knowledge`."""
    grade_text: str
    """How it is known, in words for the page."""

    @cached_property
    def symbols(self) -> tuple[str, ...]:
        """Names of what must be put in, in reading order."""
        found: list[str] = []
        _collect(self.expression, found)
        return tuple(found)

    @cached_property
    def function(self) -> Callable[..., float]:
        """The formula on floats, called with `symbols` in order."""
        return self._compiled(self.expression, "math")

    @cached_property
    def vectorised(self) -> Callable[..., Any]:
        """The formula on numpy arrays, called with `symbols` in order; needs numpy."""
        return self._compiled(self.expression, "numpy")

    @cached_property
    def derivatives(self) -> Mapping[str, sympy.Expr]:
        """Partial derivative by each symbol."""
        return MappingProxyType({name: sympy.diff(self.expression, sympy.Symbol(name)) for name in self.symbols})

    @cached_property
    def partials(self) -> Mapping[str, Callable[..., float]]:
        """The partial derivatives on floats, each called with `symbols` in order."""
        return MappingProxyType({name: self._compiled(tree, "math") for name, tree in self.derivatives.items()})

    @cached_property
    def denominator(self) -> sympy.Expr | None:
        """What is divided by; None when nothing is."""
        below = [factor.args[0] for factor in self.expression.args if factor.is_Pow]
        return below[0] if self.expression.is_Mul and below else None

    @cached_property
    def _divisor(self) -> Callable[..., float] | None:
        return None if self.denominator is None else self._compiled(self.denominator, "math")

    def is_defined(self, values: Mapping[str, float]) -> bool:
        """True when what is divided by is above zero: a percentage of no room at all means nothing.

        >>> from tinwright.seaming.formulas import FORMULAS
        >>> FORMULAS["percent-overlap-a"].is_defined({"CH": 1, "BH": 1, "Te": 1, "W": 3, "Tb": 1})
        False
        """
        return self._divisor is None or self._divisor(*self._in_order(values)) > 0

    def value(self, values: Mapping[str, float]) -> float:
        """Compute the formula from values by symbol; lengths all in one unit.

        Raises:
            SeamingError: when a symbol has no value, or the values make a denominator zero.

        >>> from tinwright.seaming.formulas import FORMULAS
        >>> round(FORMULAS["free-space"].value({"S": 0.055, "Te": 0.010, "Tb": 0.010}), 6)
        0.005
        """
        try:
            return self.function(*self._in_order(values))
        except ZeroDivisionError:
            raise SeamingError(f"{self.title} is not defined for {self.plain(_texts(values))}") from None

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
                term = self.partials[name](*ordered) * uncertainties.get(name, 0.0)
            except ZeroDivisionError:
                raise SeamingError(f"{self.title} is not defined for {self.plain(_texts(values))}") from None
            total = total + term * term
        return math.sqrt(total)

    def plain(self, numbers: Mapping[str, str] | None = None) -> str:
        """Write the right-hand side in one line, with numbers in place of the symbols given.

        >>> from tinwright.seaming.formulas import FORMULAS
        >>> FORMULAS["overlap-a"].plain({"CH": "0.076", "BH": "0.078", "Te": "0.010", "W": "0.118"})
        '0.076 + 0.078 + 0.010 − 0.118'
        """
        return plain_text(self.expression, numbers)

    @property
    def text(self) -> str:
        """The whole formula in one line, such as `O = CH + BH + Te − W`."""
        return f"{self.symbol} = {self.plain()}"

    @property
    def code(self) -> str:
        """The right-hand side as an expression of Python and of JavaScript."""
        return code_text(self.expression)

    @property
    def mathml(self) -> str:
        """The whole formula as a MathML element in presentation markup, with its text for readers without MathML."""
        return (
            f'<math xmlns="http://www.w3.org/1998/Math/MathML" display="block" alttext="{self.text}">'
            f"<mrow>{math_name(self.symbol)}<mo>=</mo>{math_row(self.expression)}</mrow></math>"
        )

    def _compiled(self, tree: sympy.Expr, modules: str) -> Callable[..., Any]:
        # Our own printer, not sympy's, so that the order of operations is the one JavaScript gets.
        compiled: Callable[..., Any] = sympy.lambdify(
            [sympy.Symbol(name) for name in self.symbols], tree, modules=modules, printer=code_text
        )
        return compiled

    def _in_order(self, values: Mapping[str, float]) -> list[float]:
        missing = [name for name in self.symbols if name not in values]
        if missing:
            raise SeamingError(f"{self.title} needs {', '.join(missing)}")
        return [values[name] for name in self.symbols]


def _collect(node: sympy.Expr, found: list[str]) -> None:
    if node.is_Symbol and str(node) not in found:
        found.append(str(node))
    for part in node.args:
        _collect(part, found)


def _texts(values: Mapping[str, float]) -> dict[str, str]:
    return {name: repr(value) for name, value in values.items()}
