"""The symbols of the formulas."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["SYMBOLS"]

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
