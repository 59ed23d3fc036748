"""What follows from the readings of a seam: overlap, percent overlap, butting, free space, compactness, at their worst.

The worst case of the overlap takes the shortest cover hook, the shortest body hook and the widest seam (trade practice;
points of different places, so on the safe side).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.errors import SeamingError
from tinwright.seaming.formulas import FORMULAS

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tinwright.seaming.formula import Formula
    from tinwright.seaming.readings import SeamReadings

__all__ = ["VARIANTS", "Computed", "compute"]

VARIANTS = ("A", "B", "C")
"""Formulas for percent overlap in use; a limit is meant for one of them."""

DIMENSION_OF = {
    "CH": "cover-hook",
    "BH": "body-hook",
    "W": "seam-width",
    "S": "seam-thickness",
    "Te": "end-plate",
    "Tb": "body-plate",
}
"""What is read for each symbol."""
RAISES = {
    "overlap": ("CH", "BH"),
    "percent-overlap": ("CH", "BH"),
    "body-hook-butting": ("BH",),
    "free-space": ("S",),
    "compactness": (),
}
"""Of each value, the readings that make it larger when they are larger."""


@dataclass(frozen=True)
class Computed:
    """A value that was computed, with its spread over the readings."""

    quantity: str
    """What it is, as in `wording.LABELS`."""
    formula: str
    """Name of the formula, or empty when it was read on the section itself."""
    least: float | None
    """Least value the readings allow, inches or percent; None when something is missing or it is not defined."""
    greatest: float | None
    """Greatest value the readings allow."""
    uncertainty: float
    """Combined standard uncertainty at the least value, same unit."""
    enough_points: bool
    """True when every reading that went in was taken at enough points."""
    inputs: tuple[tuple[str, float], ...] = ()
    """What was put in for the least value, by symbol."""


def compute(seam: SeamReadings, variant: str, uncertainties: Mapping[str, float]) -> tuple[Computed, ...]:
    """Compute everything that follows from the readings, in the order shown.

    Args:
        seam: the readings.
        variant: formula for percent overlap, `A`, `B` or `C`; the overlap length is always by formula A.
        uncertainties: standard uncertainty by dimension, inches; also `end-plate` and `body-plate`.

    Raises:
        SeamingError: when the variant is unknown.

    >>> from tinwright.seaming.readings import Reading, SeamReadings
    >>> values = {"cover-hook": 0.060, "body-hook": 0.078, "seam-width": 0.122}
    >>> readings = tuple(Reading(name, point, value) for name, value in values.items() for point in "123")
    >>> seam = SeamReadings("micrometer", readings, 0.010, 0.010)
    >>> [round(value.least, 3) for value in compute(seam, "A", {}) if value.least is not None]
    [0.026, 28.261, 75.281]
    """
    if variant not in VARIANTS:
        raise SeamingError(f"expected percent overlap by formula A, B or C, got {variant!r}")
    names = ("overlap-a", f"percent-overlap-{variant.lower()}", "body-hook-butting", "free-space", "compactness")
    return tuple(_compute(seam, FORMULAS[name], uncertainties) for name in names)


def _compute(seam: SeamReadings, formula: Formula, uncertainties: Mapping[str, float]) -> Computed:
    quantity = formula.quantity
    read = seam.extremes(quantity) if quantity == "overlap" else None
    if read is not None:
        error = uncertainties.get(quantity, 0.0)
        return Computed(quantity, "", read.least, read.greatest, error, read.points >= seam.points_needed(quantity))
    worst: dict[str, float] = {}
    best: dict[str, float] = {}
    enough = True
    for symbol in formula.symbols:
        least, greatest, points = _span(seam, symbol)
        if least is None or greatest is None:
            return Computed(quantity, formula.name, None, None, 0.0, enough)
        rising = symbol in RAISES[quantity] or symbol in {"Te", "Tb"}
        worst[symbol], best[symbol] = (least, greatest) if rising else (greatest, least)
        enough = enough and points
    if not (formula.is_defined(worst) and formula.is_defined(best)):
        # Percentages of the room inside the seam mean nothing when there is no room.
        return Computed(quantity, formula.name, None, None, 0.0, enough)
    errors = {symbol: uncertainties.get(DIMENSION_OF[symbol], 0.0) for symbol in formula.symbols}
    return Computed(
        quantity,
        formula.name,
        formula.value(worst),
        formula.value(best),
        formula.uncertainty(worst, errors),
        enough,
        tuple(worst.items()),
    )


def _span(seam: SeamReadings, symbol: str) -> tuple[float | None, float | None, bool]:
    if symbol in {"Te", "Tb"}:
        plate = seam.end_plate_in if symbol == "Te" else seam.body_plate_in
        return plate, plate, True
    found = seam.extremes(DIMENSION_OF[symbol])
    if found is None:
        return None, None, True
    return found.least, found.greatest, found.points >= seam.points_needed(DIMENSION_OF[symbol])
