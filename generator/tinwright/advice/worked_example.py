"""One seam worked out by the formulas, for practice."""

from __future__ import annotations

from tinwright.seaming import FORMULAS, inches_text, percent_text

__all__ = ["worked_example"]

_EXAMPLE = {"CH": 0.076, "BH": 0.078, "Te": 0.010, "Tb": 0.010, "W": 0.118, "S": 0.055}
"""A seam worked out here, for practice; no publisher."""
_EXAMPLE_FORMULAS = ("overlap-a", "percent-overlap-a", "body-hook-butting", "free-space", "compactness")


def worked_example() -> list[tuple[str, str, str]]:
    """Work out the example; give name, numbers put in, and result of each formula."""
    rows = []
    numbers = {symbol: f"{value:.3f}" for symbol, value in _EXAMPLE.items()}
    for name in _EXAMPLE_FORMULAS:
        formula = FORMULAS[name]
        value = formula.value(_EXAMPLE)
        shown = percent_text(value) if formula.unit == "percent" else inches_text(value)
        rows.append((formula.title, f"{formula.symbol} = {formula.plain(numbers)}", shown))
    return rows
