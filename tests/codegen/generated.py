"""Equations of the tests, printed as those of the seam are."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.codegen.for_python import arithmetic_text
from tinwright.seaming.formula import Arithmetic

if TYPE_CHECKING:
    from tinwright.codegen.equation import Equation


def printed(equation: Equation) -> Arithmetic:
    """Print an equation and run what was printed."""
    found: Arithmetic = eval(arithmetic_text(equation), {"Arithmetic": Arithmetic})  # noqa: S307 - our own text
    return found
