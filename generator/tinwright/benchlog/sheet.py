"""The form of the bench log on paper: what stands at its head and in its columns, printed and typed in alike."""

from __future__ import annotations

__all__ = ["COLUMNS", "LINES", "SETTINGS"]

SETTINGS: tuple[str, ...] = (
    "sheet",
    "date",
    "kitchen",
    "sealer",
    "can",
    "lid lot",
    "supervisor",
    "product",
    "method",
    "specification",
    "unit",
    "revision",
    "follows",
)
"""What stands at the head of a sheet."""

COLUMNS: tuple[str, ...] = (
    "line",
    "time",
    "what",
    "can no",
    "to",
    "result",
    "defect",
    "which",
    "way",
    "turns",
    "who",
    "readings",
    "note",
    "struck",
)
"""The headings, in this order; the last ones may be left out."""

LINES = 20
"""Lines of one sheet."""
