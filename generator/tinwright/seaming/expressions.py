"""The formulas of a double seam, each written once: built from symbols, never read from text.

`formulas.FORMULAS` is the way in; this module is loaded when a formula is first asked for.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

import sympy

from tinwright.seaming.formula import Formula
from tinwright.seaming.symbols import SYMBOLS

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["ALL"]

CH, BH, W, S, Te, Tb, G = sympy.symbols(" ".join(SYMBOLS))


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

ALL: Mapping[str, Formula] = MappingProxyType({formula.name: formula for formula in _FORMULAS})
"""Every formula by name."""
