"""The generated code says what the trees say."""

from __future__ import annotations

import pytest
import sympy

from codegen.generated import written
from tinwright.codegen import for_browser, for_python
from tinwright.codegen.equation import Equation
from tinwright.codegen.expressions import EQUATIONS
from tinwright.seaming import FORMULAS
from tinwright.seaming.generated_formulas import ARITHMETIC

SEAM = {"CH": 0.076, "BH": 0.078, "Te": 0.010, "Tb": 0.009, "W": 0.118, "S": 0.055, "G": 0.004}


@pytest.mark.parametrize(
    ("file", "text"),
    [
        (for_python.MODULE, for_python.module_text),
        (for_browser.SCRIPT, for_browser.script_text),
        (for_browser.SENTENCES_SCRIPT, for_browser.sentences_text),
    ],
    ids=["Python", "browser", "sentences"],
)
def test_what_is_printed_is_fresh(file, text) -> None:
    assert file.read_text(encoding="utf-8") == text(), "run: python -m tinwright.codegen"


def test_every_equation_has_its_formula_and_every_formula_its_equation() -> None:
    assert list(FORMULAS) == list(EQUATIONS)
    assert all(formula.arithmetic is ARITHMETIC[name] for name, formula in FORMULAS.items())


@pytest.mark.parametrize("name", EQUATIONS)
def test_what_is_printed_computes_what_sympy_computes_with_30_digits(name: str) -> None:
    equation, arithmetic = EQUATIONS[name], ARITHMETIC[name]
    given = [SEAM[symbol] for symbol in arithmetic.symbols]
    exact = {sympy.Symbol(symbol): sympy.Rational(str(SEAM[symbol])) for symbol in arithmetic.symbols}

    def by_sympy(tree: sympy.Expr) -> float:
        return float(tree.subs(exact).evalf(30))

    assert arithmetic.evaluate(*given) == pytest.approx(by_sympy(equation.tree), rel=1e-12)
    for symbol in arithmetic.symbols:
        slope = by_sympy(sympy.diff(equation.tree, sympy.Symbol(symbol)))
        assert arithmetic.partials[symbol](*given) == pytest.approx(slope, rel=1e-12)


@pytest.mark.parametrize("name", EQUATIONS)
def test_the_divisor_is_the_denominator_up_to_a_number(name: str) -> None:
    below = sympy.denom(sympy.together(EQUATIONS[name].tree.doit()))
    divisor = EQUATIONS[name].divisor
    assert below.is_number if divisor is None else sympy.simplify(divisor / below).is_number


def test_a_formula_of_one_symbol_has_one_symbol() -> None:
    assert written(Equation("W", 2 * sympy.Symbol("Te"))).symbols == ("Te",)
