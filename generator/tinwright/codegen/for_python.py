"""The Python half of the generated code: the arithmetic that `seaming.formulas` computes with.

Nothing of the room `seaming` is needed to write it: it can be written anew when it is missing or broken.
"""

from __future__ import annotations

from pathlib import Path
from textwrap import indent
from typing import TYPE_CHECKING

from tinwright.codegen.expressions import EQUATIONS
from tinwright.codegen.formula_text import code_text, math_name, math_row, plain_text

if TYPE_CHECKING:
    import sympy

    from tinwright.codegen.equation import Equation

__all__ = ["MODULE", "arithmetic_text", "module_text"]

MODULE = Path(__file__).parents[1] / "seaming" / "generated_formulas.py"
"""The file that is written; a test keeps it fresh."""

_HEAD = '''\
"""The arithmetic of every formula, written from its tree by `python -m tinwright.codegen`: do not edit."""

# Every function takes all symbols of its formula, by their names in the trade, and stands in one line.
# ruff: noqa: ARG005, E501, N803
# fmt: off

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from tinwright.seaming.formula import Arithmetic

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["ARITHMETIC"]

ARITHMETIC: Mapping[str, Arithmetic] = MappingProxyType({
'''
_FOOT = '''\
})
"""The arithmetic of every formula by its name."""
'''


def module_text() -> str:
    """Write the whole module."""
    entries = (f'"{name}": {arithmetic_text(equation)},\n' for name, equation in EQUATIONS.items())
    return _HEAD + indent("".join(entries), "    ") + _FOOT


def arithmetic_text(equation: Equation) -> str:
    """Write an equation as an expression of Python that makes its `Arithmetic`.

    >>> print(arithmetic_text(EQUATIONS["free-space"]))  # doctest: +ELLIPSIS
    Arithmetic(
        sign="FS",
        symbols=("S", "Te", "Tb",),
        evaluate=lambda S, Te, Tb: S - (3 * Te + 2 * Tb),
        divisor=None,
        partials={
            "S": lambda S, Te, Tb: 1,
            "Te": lambda S, Te, Tb: -3,
            "Tb": lambda S, Te, Tb: -2,
        },
        template="{S} − (3 × {Te} + 2 × {Tb})",
        math_row="...",
    )
    """

    def function(tree: sympy.Expr) -> str:
        return f"lambda {', '.join(equation.symbols)}: {code_text(tree)}"

    partials = "".join(f"        {_quoted(name)}: {function(tree)},\n" for name, tree in equation.partials.items())
    template = plain_text(equation.tree, {name: f"{{{name}}}" for name in equation.symbols})
    row = f"{math_name(equation.sign)}<mo>=</mo>{math_row(equation.tree)}"
    return f"""\
Arithmetic(
    sign={_quoted(equation.sign)},
    symbols=({", ".join(map(_quoted, equation.symbols))},),
    evaluate={function(equation.tree)},
    divisor={None if equation.divisor is None else function(equation.divisor)},
    partials={{
{partials}    }},
    template={_quoted(template)},
    math_row={_quoted(row)},
)"""


def _quoted(text: str) -> str:
    """Write a text that holds no quotes in double quotes; what would not show is escaped."""
    return f'"{repr(text)[1:-1]}"'
