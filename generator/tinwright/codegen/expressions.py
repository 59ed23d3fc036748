"""The formulas of a double seam, each written once: built from symbols, never read from text.

What is said about each, its source above all, stands in `seaming.formulas` under the same name.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

import sympy

from tinwright.codegen.equation import Equation

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["EQUATIONS"]

CH, BH, W, S, Te, Tb, G = sympy.symbols("CH BH W S Te Tb G")


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

EQUATIONS: Mapping[str, Equation] = MappingProxyType(
    {
        "overlap-a": Equation("O", _OVERLAP_A),
        "overlap-b": Equation("O", _OVERLAP_B),
        "percent-overlap-a": Equation("%O", _percent(_OVERLAP_A, _SPACE_A)),
        "percent-overlap-b": Equation("%O", _percent(_OVERLAP_B, _SPACE_B)),
        "percent-overlap-c": Equation("%O", _percent(_OVERLAP_B, _SPACE_C)),
        "body-hook-butting": Equation("%BHB", _percent(_sum(BH, _less(_times(_1_1, Tb))), _SPACE_B)),
        "free-space": Equation("FS", _sum(S, _less(_METAL))),
        "compactness": Equation("C", _percent(_METAL, S)),
        "thickness-aim": Equation("Sa", _sum(_times(3, Te), _times(2, Tb), G)),
    }
)
"""Every equation by the name of its formula."""
