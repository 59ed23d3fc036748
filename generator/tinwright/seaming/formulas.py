"""The formulas of a double seam by name: how each is known, and its arithmetic.

    from tinwright.seaming.formulas import FORMULAS

    FORMULAS["overlap-a"].value({"CH": 0.076, "BH": 0.078, "Te": 0.010, "W": 0.118})   # 0.046

What each computes is written once, as a tree in `tinwright.algebra.expressions`. The arithmetic here, the browser's and
the MathML are printed from it, so that nothing needs the algebra to compute.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from tinwright.seaming.formula import Formula
from tinwright.seaming.printed_formulas import ARITHMETIC

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

_FORMULAS = (
    Formula(
        name="overlap-a",
        quantity="overlap",
        title="Overlap",
        unit="length",
        variant="A",
        arithmetic=ARITHMETIC["overlap-a"],
        source="cfr-21-113-60",
        where="(a)(1)(iii)",
        grade="source",
        grade_text="21 CFR 113.60(a)(1)(iii)",
    ),
    Formula(
        name="overlap-b",
        quantity="overlap",
        title="Overlap",
        unit="length",
        variant="B",
        arithmetic=ARITHMETIC["overlap-b"],
        source="",
        where="",
        grade="memory",
        grade_text=_MEMORY.format("European, Spanish and Chinese practice"),
    ),
    Formula(
        name="percent-overlap-a",
        quantity="percent-overlap",
        title="Percent overlap",
        unit="percent",
        variant="A",
        arithmetic=ARITHMETIC["percent-overlap-a"],
        source="codex-cxc-23",
        where="7.4.8.1.2",
        grade="memory",
        grade_text=_CODEX,
    ),
    Formula(
        name="percent-overlap-b",
        quantity="percent-overlap",
        title="Percent overlap",
        unit="percent",
        variant="B",
        arithmetic=ARITHMETIC["percent-overlap-b"],
        source="",
        where="",
        grade="memory",
        grade_text=_MEMORY.format("European practice"),
    ),
    Formula(
        name="percent-overlap-c",
        quantity="percent-overlap",
        title="Percent overlap",
        unit="percent",
        variant="C",
        arithmetic=ARITHMETIC["percent-overlap-c"],
        source="",
        where="",
        grade="memory",
        grade_text=_MEMORY.format("Chinese practice"),
    ),
    Formula(
        name="body-hook-butting",
        quantity="body-hook-butting",
        title="Body hook butting",
        unit="percent",
        variant="",
        arithmetic=ARITHMETIC["body-hook-butting"],
        source="codex-cxc-23",
        where="7.4.8",
        grade="memory",
        grade_text=_CODEX,
    ),
    Formula(
        name="free-space",
        quantity="free-space",
        title="Free space",
        unit="length",
        variant="",
        arithmetic=ARITHMETIC["free-space"],
        source="codex-cxc-23",
        where="7.4.8",
        grade="memory",
        grade_text=_CODEX,
    ),
    Formula(
        name="compactness",
        quantity="compactness",
        title="Compactness",
        unit="percent",
        variant="",
        arithmetic=ARITHMETIC["compactness"],
        source="compactness-article",
        where="definition of compactness",
        grade="source",
        grade_text="an article on compactness; the copy read lost the division by S in its typesetting but names S",
    ),
    Formula(
        name="thickness-aim",
        quantity="thickness-aim",
        title="Aim for seam thickness",
        unit="length",
        variant="",
        arithmetic=ARITHMETIC["thickness-aim"],
        source="",
        where="",
        grade="memory",
        grade_text=_MEMORY.format("common practice") + "; the allowance is the can supplier's to state",
    ),
)

FORMULAS: Mapping[str, Formula] = MappingProxyType({formula.name: formula for formula in _FORMULAS})
"""Every formula by name."""
