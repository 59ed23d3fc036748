"""The formulas of a double seam by name.

From one expression each come the Python function, the vectorised one, the browser's, the MathML and the partial
derivatives. They are built when one is first asked for, since loading the algebra takes longer than most commands.

    from tinwright.seaming.formulas import FORMULAS

    FORMULAS["overlap-a"].value({"CH": 0.076, "BH": 0.078, "Te": 0.010, "W": 0.118})   # 0.046
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from importlib import import_module
from typing import TYPE_CHECKING

from tinwright.seaming.symbols import SYMBOLS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.seaming.formula import Formula

__all__ = ["FORMULAS", "SYMBOLS"]


class _Formulas(Mapping[str, "Formula"]):
    """The formulas, built at the first look."""

    @cached_property
    def _all(self) -> Mapping[str, Formula]:
        found: Mapping[str, Formula] = import_module("tinwright.seaming.expressions").ALL
        return found

    def __getitem__(self, name: str) -> Formula:
        return self._all[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._all)

    def __len__(self) -> int:
        return len(self._all)


FORMULAS: Mapping[str, Formula] = _Formulas()
"""Every formula by name."""
