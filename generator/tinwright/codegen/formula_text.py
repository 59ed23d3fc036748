"""One walk over a formula's tree for code, plain text and MathML, so that all say the same thing in the same order.

Trees hold symbols, rational numbers, sums, products and whole powers, which is all that seam arithmetic needs. Nothing
is evaluated or re-ordered on the way: Python and JavaScript do the same additions in the same order and agree bit for
bit.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import sympy

from tinwright.errors import SeamingError

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

__all__ = ["code_text", "math_name", "math_row", "plain_text"]

_SUM, _PRODUCT, _ATOM = 1, 2, 3
_INVISIBLE_TIMES = "<mo>\N{INVISIBLE TIMES}</mo>"


def code_text(tree: sympy.Expr) -> str:
    """Write a tree as an expression that Python and JavaScript evaluate alike.

    Sums and products run from left to right; numbers that are not whole are written as one double literal.

    Raises:
        SeamingError: when the tree holds anything but symbols, numbers, sums, products and whole powers.

    >>> a, b = sympy.symbols("a b")
    >>> code_text(sympy.Mul(sympy.Rational(11, 10), sympy.Add(b, a, evaluate=False), evaluate=False))
    '1.1 * (b + a)'
    """
    return _line(tree, {}, (" * ", " - "), _SUM)


def plain_text(tree: sympy.Expr, numbers: Mapping[str, str] | None = None) -> str:
    """Write a tree as a line of text, with numbers in place of the symbols named in `numbers`.

    Raises:
        SeamingError: as `code_text`.

    >>> a, b = sympy.symbols("a b")
    >>> plain_text(sympy.Add(b, sympy.Mul(-1, a), evaluate=False), {"a": "0.118"})
    'b − 0.118'
    """
    return _line(tree, numbers or {}, (" × ", " − "), _SUM)


def _line(node: sympy.Expr, numbers: Mapping[str, str], signs: tuple[str, str], least: int) -> str:
    """Write one node; a node that binds less tightly than `least` is put in parentheses."""
    times, minus = signs
    if node.is_Symbol:
        return numbers.get(str(node), str(node))
    if node.is_Rational:
        text, binds = _number(node), _ATOM if node >= 0 else _SUM
    elif node.is_Add:
        binds = _SUM
        first, *others = (_signed(term) for term in node.args)
        text = ("-" if first[0] else "") + _line(first[1], numbers, signs, _PRODUCT)
        for negative, term in others:
            text += (minus if negative else " + ") + _line(term, numbers, signs, _PRODUCT)
    elif node.is_Mul:
        negative, positive = _signed(node)
        if negative:
            text, binds = "-" + _line(positive, numbers, signs, _PRODUCT), _SUM
        else:
            binds = _PRODUCT
            text = ""
            for factor in node.args:
                base, exponent = _power(factor)
                for _ in range(abs(exponent)):
                    sign = times if exponent > 0 else " / "
                    text += sign if text else ("" if exponent > 0 else "1 / ")
                    text += _line(base, numbers, signs, _ATOM)
    elif node.is_Pow:
        return _line(sympy.Mul(sympy.Integer(1), node, evaluate=False), numbers, signs, least)
    else:
        raise SeamingError(f"expected sums, products and whole powers in a formula, got {node!r}")
    return f"({text})" if binds < least else text


def math_row(tree: sympy.Expr) -> str:
    """Write a tree as the inside of a MathML `mrow` (presentation markup), in reading order.

    Raises:
        SeamingError: as `code_text`.

    >>> math_row(sympy.Symbol("Te"))
    '<msub><mi>T</mi><mi>e</mi></msub>'
    """
    return _math(tree, _SUM)


def _math(node: sympy.Expr, least: int) -> str:
    if node.is_Symbol:
        return math_name(str(node))
    if node.is_Rational:
        return f"<mn>{_number(node)}</mn>"
    if node.is_Add:
        row = ""
        for negative, term in map(_signed, node.args):
            sign = "<mo>−</mo>" if negative else "<mo>+</mo>" if row else ""
            row += sign + _math(term, _PRODUCT)
        return row if least <= _SUM else f"<mrow><mo>(</mo>{row}<mo>)</mo></mrow>"
    if node.is_Mul:
        above = [factor for factor in node.args if _power(factor)[1] > 0]
        below = [_power(factor)[0] for factor in node.args if _power(factor)[1] < 0]
        if not below:
            return _math_product(above)
        number, top = ([above[0]], above[1:]) if above[0].is_Rational and len(above) > 1 else ([], above)
        fraction = f"<mfrac><mrow>{_math_alone(top)}</mrow><mrow>{_math_alone(below)}</mrow></mfrac>"
        return f"{_math(number[0], _ATOM)}<mo>×</mo>{fraction}" if number else fraction
    raise SeamingError(f"expected sums, products and whole powers in a formula, got {node!r}")


def _math_alone(factors: Sequence[sympy.Expr]) -> str:
    return _math(factors[0], _SUM) if len(factors) == 1 else _math_product(factors)


def _math_product(factors: Sequence[sympy.Expr]) -> str:
    return _INVISIBLE_TIMES.join(_math(factor, _ATOM) for factor in factors)


def math_name(symbol: str) -> str:
    """Write a symbol as MathML: a small last letter is an index, as in `Te`.

    >>> math_name("CH")
    '<mi>CH</mi>'
    """
    if len(symbol) == 2 and symbol[1].islower():
        return f"<msub><mi>{symbol[0]}</mi><mi>{symbol[1]}</mi></msub>"
    return f"<mi>{symbol}</mi>"


def _number(number: sympy.Rational) -> str:
    return str(number.p) if number.q == 1 else repr(number.p / number.q)


def _signed(term: sympy.Expr) -> tuple[bool, sympy.Expr]:
    """Split a leading minus off a term."""
    if term.is_Rational and term < 0:
        return True, -term
    if not (term.is_Mul and term.args[0].is_Rational and term.args[0] < 0):
        return False, term
    number, *factors = term.args
    if number != -1:
        factors = [-number, *factors]
    return True, factors[0] if len(factors) == 1 else sympy.Mul(*factors, evaluate=False)


def _power(factor: sympy.Expr) -> tuple[sympy.Expr, int]:
    """Split a factor into its base and its whole exponent."""
    if not factor.is_Pow:
        return factor, 1
    base, exponent = factor.args
    if not exponent.is_Integer:
        raise SeamingError(f"expected whole powers in a formula, got {factor!r}")
    return base, int(exponent)
