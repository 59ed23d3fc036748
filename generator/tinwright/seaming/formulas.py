"""The formulas of a double seam, each written once.

From the one expression come the Python function, the vectorised one, the browser's, the MathML and the partial
derivatives. The expressions are built from symbols, never read from text.

    from tinwright.seaming.formulas import FORMULAS

    FORMULAS["overlap-a"].value({"CH": 0.076, "BH": 0.078, "Te": 0.010, "W": 0.118})   # 0.046
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

import sympy

from tinwright.errors import SeamingError
from tinwright.seaming.printing import code_text, math_name, math_row, plain_text

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

__all__ = ["FORMULAS", "SYMBOLS", "Formula"]

SYMBOLS: Mapping[str, str] = MappingProxyType(
    {
        "CH": "cover hook",
        "BH": "body hook",
        "W": "seam width",
        "S": "seam thickness",
        "Te": "thickness of the end plate",
        "Tb": "thickness of the body plate",
        "G": "allowance for the compound",
    }
)
"""What each symbol means; all are lengths in one unit."""

CH, BH, W, S, Te, Tb, G = sympy.symbols(" ".join(SYMBOLS))


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
    expression: sympy.Expr
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

        >>> FORMULAS["percent-overlap-a"].is_defined({"CH": 1, "BH": 1, "Te": 1, "W": 3, "Tb": 1})
        False
        """
        return self._divisor is None or self._divisor(*self._in_order(values)) > 0

    def value(self, values: Mapping[str, float]) -> float:
        """Compute the formula from values by symbol; lengths all in one unit.

        Raises:
            SeamingError: when a symbol has no value, or the values make a denominator zero.

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


def _sum(*terms: sympy.Expr) -> sympy.Expr:
    return sympy.Add(*terms, evaluate=False)


def _times(*factors: sympy.Expr | int) -> sympy.Expr:
    return sympy.Mul(*map(sympy.sympify, factors), evaluate=False)


def _less(term: sympy.Expr) -> sympy.Expr:
    return sympy.Mul(sympy.Integer(-1), term, evaluate=False)


def _percent(part: sympy.Expr, whole: sympy.Expr) -> sympy.Expr:
    return _times(100, part, sympy.Pow(whole, sympy.Integer(-1), evaluate=False))


_1_1 = sympy.Rational(11, 10)
_2_6 = sympy.Rational(26, 10)
_OVERLAP_A = _sum(CH, BH, Te, _less(W))
_OVERLAP_B = _sum(CH, BH, _times(_1_1, Te), _less(W))
_SPACE_A = _sum(W, _less(_sum(_times(2, Te), Tb)))
_SPACE_B = _sum(W, _less(_times(_1_1, _sum(_times(2, Te), Tb))))
_SPACE_C = _sum(W, _less(_sum(_times(_2_6, Te), _times(_1_1, Tb))))
_METAL = _sum(_times(3, Te), _times(2, Tb))

_CODEX = "from memory of Codex CXC 23, not checked there"
_MEMORY = "from trade memory of {}, not checked in a published source"

_FORMULAS = (
    Formula(
        name="overlap-a",
        quantity="overlap",
        title="Overlap",
        symbol="O",
        unit="length",
        variant="A",
        expression=_OVERLAP_A,
        source="cfr-21-113-60",
        where="(a)(1)(iii)",
        grade="source",
        grade_text="21 CFR 113.60(a)(1)(iii)",
    ),
    Formula(
        name="overlap-b",
        quantity="overlap",
        title="Overlap",
        symbol="O",
        unit="length",
        variant="B",
        expression=_OVERLAP_B,
        source="",
        where="",
        grade="memory",
        grade_text=_MEMORY.format("European, Spanish and Chinese practice"),
    ),
    Formula(
        name="percent-overlap-a",
        quantity="percent-overlap",
        title="Percent overlap",
        symbol="%O",
        unit="percent",
        variant="A",
        expression=_percent(_OVERLAP_A, _SPACE_A),
        source="codex-cxc-23",
        where="7.4.8.1.2",
        grade="memory",
        grade_text=_CODEX,
    ),
    Formula(
        name="percent-overlap-b",
        quantity="percent-overlap",
        title="Percent overlap",
        symbol="%O",
        unit="percent",
        variant="B",
        expression=_percent(_OVERLAP_B, _SPACE_B),
        source="",
        where="",
        grade="memory",
        grade_text=_MEMORY.format("European practice"),
    ),
    Formula(
        name="percent-overlap-c",
        quantity="percent-overlap",
        title="Percent overlap",
        symbol="%O",
        unit="percent",
        variant="C",
        expression=_percent(_OVERLAP_B, _SPACE_C),
        source="",
        where="",
        grade="memory",
        grade_text=_MEMORY.format("Chinese practice"),
    ),
    Formula(
        name="body-hook-butting",
        quantity="body-hook-butting",
        title="Body hook butting",
        symbol="%BHB",
        unit="percent",
        variant="",
        expression=_percent(_sum(BH, _less(_times(_1_1, Tb))), _SPACE_B),
        source="codex-cxc-23",
        where="7.4.8",
        grade="memory",
        grade_text=_CODEX,
    ),
    Formula(
        name="free-space",
        quantity="free-space",
        title="Free space",
        symbol="FS",
        unit="length",
        variant="",
        expression=_sum(S, _less(_METAL)),
        source="codex-cxc-23",
        where="7.4.8",
        grade="memory",
        grade_text=_CODEX,
    ),
    Formula(
        name="compactness",
        quantity="compactness",
        title="Compactness",
        symbol="C",
        unit="percent",
        variant="",
        expression=_percent(_METAL, S),
        source="compactness-article",
        where="definition of compactness",
        grade="source",
        grade_text="an article on compactness; the copy read lost the division by S in its typesetting but names S",
    ),
    Formula(
        name="thickness-aim",
        quantity="thickness-aim",
        title="Aim for seam thickness",
        symbol="Sa",
        unit="length",
        variant="",
        expression=_sum(_times(3, Te), _times(2, Tb), G),
        source="",
        where="",
        grade="memory",
        grade_text=_MEMORY.format("common practice") + "; the allowance is the can supplier's to state",
    ),
)

FORMULAS: Mapping[str, Formula] = MappingProxyType({formula.name: formula for formula in _FORMULAS})
"""Every formula by name."""
