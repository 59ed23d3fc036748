"""Equations of the tests, written as those of the seam are."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.codegen.for_python import arithmetic_text
from tinwright.seaming.formula import Arithmetic

if TYPE_CHECKING:
    from tinwright.codegen.equation import Equation


def written(equation: Equation) -> Arithmetic:
    """Write an equation and run what was written."""
    found: Arithmetic = eval(arithmetic_text(equation), {"Arithmetic": Arithmetic})  # noqa: S307 - our own text
    return found
