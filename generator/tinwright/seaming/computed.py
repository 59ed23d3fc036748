"""What follows from the readings of a seam: overlap, percent overlap, butting, free space, compactness, at their worst.

The worst case of the overlap takes the shortest cover hook, the shortest body hook and the widest seam (trade practice;
points of different places, so on the safe side).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.errors import SeamingError
from tinwright.seaming.formulas import FORMULAS
from tinwright.seaming.guard import reading_uncertainty
from tinwright.seaming.readings import Extremes

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tinwright.seaming.formula import Formula
    from tinwright.seaming.readings import SeamReadings

__all__ = ["VARIANTS", "Computed", "compute", "compute_overlap"]

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
    uncertainty_most: float
    """The same with the coarsest reading of each dimension in place of the one that was put in."""
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
    return tuple(
        (_read_overlap(seam, uncertainties) if name == "overlap-a" else None)
        or _compute(seam, FORMULAS[name], uncertainties)
        for name in names
    )


def compute_overlap(seam: SeamReadings, uncertainties: Mapping[str, float]) -> Computed:
    """Compute the overlap from hooks, width and plate, even where it was read on the section as well."""
    return _compute(seam, FORMULAS["overlap-a"], uncertainties)


def _read_overlap(seam: SeamReadings, uncertainties: Mapping[str, float]) -> Computed | None:
    read = seam.extremes("overlap")
    if read is None:
        return None
    stated = uncertainties.get("overlap", 0.0)
    error, most = (reading_uncertainty(stated, step) for step in (read.least_step, read.coarsest_step))
    enough = read.points >= seam.points_needed("overlap")
    return Computed("overlap", "", read.least, read.greatest, error, most, enough)


def _compute(seam: SeamReadings, formula: Formula, uncertainties: Mapping[str, float]) -> Computed:
    quantity = formula.quantity
    worst: dict[str, float] = {}
    best: dict[str, float] = {}
    errors: dict[str, float] = {}
    most: dict[str, float] = {}
    enough = True
    for symbol in formula.symbols:
        span = _span(seam, symbol)
        if span is None:
            return Computed(quantity, formula.name, None, None, 0.0, 0.0, enough)
        rising = symbol in RAISES[quantity] or symbol in {"Te", "Tb"}
        worst[symbol], best[symbol] = (span.least, span.greatest) if rising else (span.greatest, span.least)
        stated = uncertainties.get(DIMENSION_OF[symbol], 0.0)
        errors[symbol] = reading_uncertainty(stated, span.least_step if rising else span.greatest_step)
        most[symbol] = reading_uncertainty(stated, span.coarsest_step)
        needed = 1 if symbol in {"Te", "Tb"} else seam.points_needed(DIMENSION_OF[symbol])
        enough = enough and span.points >= needed
    if not (formula.is_defined(worst) and formula.is_defined(best)):
        # Percentages of the room inside the seam mean nothing when there is no room.
        return Computed(quantity, formula.name, None, None, 0.0, 0.0, enough)
    return Computed(
        quantity,
        formula.name,
        formula.value(worst),
        formula.value(best),
        formula.uncertainty(worst, errors),
        formula.uncertainty(worst, most),
        enough,
        tuple(worst.items()),
    )


def _span(seam: SeamReadings, symbol: str) -> Extremes | None:
    if symbol not in {"Te", "Tb"}:
        return seam.extremes(DIMENSION_OF[symbol])
    plate, step = (
        (seam.end_plate_in, seam.end_plate_step) if symbol == "Te" else (seam.body_plate_in, seam.body_plate_step)
    )
    return None if plate is None else Extremes(plate, plate, "", "", 1, step, step, step)
