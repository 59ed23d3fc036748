"""What is wrong with a can supplier's sheet although each number can be read: limits that contradict each other.

    from tinwright.knowledge.sheets import sheet_faults

    for place, message in sheet_faults(kb.seam_specifications["demo-307"]):
        print(message)

A check is a function in `CHECKS`: it yields the place in the record and the message.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.knowledge.models.can import Dimension, SeamSpecification
from tinwright.knowledge.sheet_rules import faults_of_sheet

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from tinwright.errors import Problem
    from tinwright.knowledge.models.can import DimensionLimits
    from tinwright.knowledge.record_files import PlacedRecord

    Fault = tuple[tuple[str | int, ...], str]

__all__ = ["CHECKS", "sheet_faults", "sheet_problems"]


def sheet_faults(sheet: SeamSpecification) -> Iterator[Fault]:
    """Yield the place in the record and the message of each fault of a sheet."""
    for check in CHECKS:
        yield from check(sheet)


def sheet_problems(placed: Iterable[PlacedRecord]) -> Iterator[Problem]:
    """Yield every fault of the sheets among some records, each with its line."""
    for item in placed:
        if isinstance(item.record, SeamSpecification):
            yield from (item.problem(place, message) for place, message in sheet_faults(item.record))


def _limits(sheet: SeamSpecification, dimension: Dimension) -> Iterator[tuple[int, DimensionLimits]]:
    return ((index, limit) for index, limit in enumerate(sheet.limits) if limit.dimension is dimension)


def _five_plates(sheet: SeamSpecification) -> Iterator[Fault]:
    """A seam cannot be thinner than its five plates: with such a least thickness no thin seam is ever found."""
    plates = 3 * sheet.end_plate.inches + 2 * sheet.body_plate.inches
    for index, limit in _limits(sheet, Dimension.SEAM_THICKNESS):
        if limit.min is not None and limit.min.inches <= plates:
            message = (
                f"expected a least seam thickness above its five plates ({float(plates):.4g} in), got {limit.min}: "
                "no seam measures less, so a thin one would never be found; check the plates, and ask the supplier"
            )
            yield ("limits", index, "min"), message


CHECKS: tuple[Callable[[SeamSpecification], Iterator[Fault]], ...] = (_five_plates, faults_of_sheet)
"""Every check of a sheet."""
