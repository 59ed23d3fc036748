"""An equation as it is written down: a sign, and the tree of what it stands for."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import TYPE_CHECKING

import sympy

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

__all__ = ["Equation"]


@dataclass(frozen=True)
class Equation:
    """An equation, and the trees that follow from it.

    >>> S, Te, Tb = sympy.symbols("S Te Tb")
    >>> Equation("FS", S - (3 * Te + 2 * Tb)).partials["Te"]
    -3
    """

    sign: str
    """The left-hand side, such as `O`."""
    tree: sympy.Expr
    """The right-hand side, unevaluated, in reading order."""

    @cached_property
    def symbols(self) -> tuple[str, ...]:
        """Names of what must be put in, in reading order."""
        return tuple(dict.fromkeys(_names(self.tree)))

    @cached_property
    def divisor(self) -> sympy.Expr | None:
        """What is divided by; None when nothing is."""
        below = [factor.args[0] for factor in self.tree.args if factor.is_Pow]
        return below[0] if self.tree.is_Mul and below else None

    @cached_property
    def partials(self) -> Mapping[str, sympy.Expr]:
        """Partial derivative by each symbol."""
        return MappingProxyType({name: sympy.diff(self.tree, sympy.Symbol(name)) for name in self.symbols})


def _names(node: sympy.Expr) -> Iterator[str]:
    if node.is_Symbol:
        yield str(node)
    for part in node.args:
        yield from _names(part)
