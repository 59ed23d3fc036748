from __future__ import annotations

import pytest
import sympy

from tinwright.codegen.expressions import EQUATIONS
from tinwright.codegen.formula_text import code_text, math_row, plain_text
from tinwright.errors import SeamingError


def test_overlap_is_computed_as_the_regulation_writes_it() -> None:
    # 21 CFR 113.60(a)(1)(iii): the optional measurement CH + BH + T - W
    assert code_text(EQUATIONS["overlap-a"].tree) == "CH + BH + Te - W"


def test_decimal_constants_are_the_double_literals() -> None:
    code = code_text(EQUATIONS["percent-overlap-c"].tree)
    assert code == "100 * (CH + BH + 1.1 * Te - W) / (W - (2.6 * Te + 1.1 * Tb))"


@pytest.mark.parametrize("write", [code_text, plain_text, math_row])
def test_other_functions_are_refused(write) -> None:
    with pytest.raises(SeamingError, match="sums, products and whole powers"):
        write(sympy.sin(sympy.Symbol("x")))
    with pytest.raises(SeamingError, match="whole powers"):
        write(sympy.Mul(2, sympy.sqrt(sympy.Symbol("x"))))


def test_code_keeps_parentheses_where_they_matter() -> None:
    a, b, c = sympy.symbols("a b c")
    minus = sympy.Mul(-1, sympy.Add(b, c, evaluate=False), evaluate=False)
    assert code_text(sympy.Add(a, minus, evaluate=False)) == "a - (b + c)"
    assert code_text(1 / a) == "1 / a"
    assert code_text(-a) == "-a"
    assert code_text(sympy.Add(sympy.Integer(-2), a, evaluate=False)) == "-2 + a"
    assert code_text(sympy.Mul(a, sympy.Integer(-3), evaluate=False)) == "a * (-3)"
    assert math_row(sympy.Add(sympy.Mul(-1, a), b, evaluate=False)) == "<mo>−</mo><mi>a</mi><mo>+</mo><mi>b</mi>"
