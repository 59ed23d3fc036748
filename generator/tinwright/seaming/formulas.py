"""The formulas of a double seam by name: how each is known, and its arithmetic.

    from tinwright.seaming.formulas import FORMULAS

    FORMULAS["overlap-a"].value({"CH": 0.076, "BH": 0.078, "Te": 0.010, "W": 0.118})   # 0.046

What each computes is written once, as a tree in `tinwright.codegen.expressions`. The arithmetic here, the browser's and
the MathML are written from it, so that nothing needs the algebra to compute.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from tinwright.seaming.formula import Formula
from tinwright.seaming.generated_formulas import ARITHMETIC

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["FORMULAS", "SYMBOLS"]

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

_CODEX = "from memory of Codex CXC 23, not checked there"
_MEMORY = "from trade memory of {}, not checked in a published source"


def _formula(
    quantity: str,
    title: str,
    unit: str,
    variant: str = "",
    *,
    source: str = "",
    where: str = "",
    grade: str = "memory",
    grade_text: str,
) -> Formula:
    name = f"{quantity}-{variant.lower()}" if variant else quantity
    return Formula(name, quantity, title, unit, variant, ARITHMETIC[name], source, where, grade, grade_text)


_FORMULAS = (
    _formula(
        "overlap",
        "Overlap",
        "length",
        "A",
        source="cfr-21-113-60",
        where="(a)(1)(iii)",
        grade="source",
        grade_text="21 CFR 113.60(a)(1)(iii)",
    ),
    _formula("overlap", "Overlap", "length", "B", grade_text=_MEMORY.format("European, Spanish and Chinese practice")),
    _formula(
        "percent-overlap",
        "Percent overlap",
        "percent",
        "A",
        source="codex-cxc-23",
        where="7.4.8.1.2",
        grade_text=_CODEX,
    ),
    _formula("percent-overlap", "Percent overlap", "percent", "B", grade_text=_MEMORY.format("European practice")),
    _formula("percent-overlap", "Percent overlap", "percent", "C", grade_text=_MEMORY.format("Chinese practice")),
    _formula(
        "body-hook-butting", "Body hook butting", "percent", source="codex-cxc-23", where="7.4.8", grade_text=_CODEX
    ),
    _formula("free-space", "Free space", "length", source="codex-cxc-23", where="7.4.8", grade_text=_CODEX),
    _formula(
        "compactness",
        "Compactness",
        "percent",
        source="compactness-article",
        where="definition of compactness",
        grade="source",
        grade_text="an article on compactness; the copy read lost the division by S in its typesetting but names S",
    ),
    _formula(
        "thickness-aim",
        "Aim for seam thickness",
        "length",
        grade_text=_MEMORY.format("common practice") + "; the allowance is the can supplier's to state",
    ),
)

FORMULAS: Mapping[str, Formula] = MappingProxyType({formula.name: formula for formula in _FORMULAS})
"""Every formula by name."""
