"""Questions about readings that look like slips: a plain question each, never a refusal.

The bounds in this module are only there to catch slips of the pen. They are not limits of a seam.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.seaming.computed import compute, compute_overlap
from tinwright.seaming.formulas import FORMULAS
from tinwright.seaming.guard import CLOSE, reading_uncertainty
from tinwright.seaming.limits import SeamLimits
from tinwright.seaming.wording import (
    DIMENSIONS,
    LABELS,
    MM_PER_IN,
    inches_text,
    length_text,
    percent_text,
    span_text,
)

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tinwright.seaming.readings import Extremes, Reading, SeamReadings

__all__ = ["MM_PER_IN", "Question", "find_questions"]

MOST_IN = 0.5
"""No part of a double seam on a food can is as large as this; a slip of the pen is."""
MM_FROM = 1.0
"""A number as large as this, taken for inches, was probably read in millimeters."""
LEAST_IN = 0.01
"""No dimension of a seam is as small as one sheet of plate."""
SPREAD = 3.0
"""Points of one can that differ by this factor hold a slip, or a seam that needs no ruler."""
PLATE_MOST_IN = 0.02
"""Plate for food cans is thinner than this: ISO 24021-1 stops at 0.49 mm."""
PLATE_LEAST_IN = 0.003
"""Plate for food cans is thicker than this."""
PLATE_PART = 0.1
"""A plate this part away from the specification's, our own judgment, is a slip or another plate."""
WRONG_UNIT = 3
"""From so many readings on, when most fit the other unit: one question about the unit, none about decimal points."""
FULL = 100.0
"""In percent: no hook fills more than the room there is."""
APART = 2.0
"""Two values of one thing further apart than this many standard uncertainties contradict each other."""
_UNITS = {"in": "inches", "mm": "millimeters"}


@dataclass(frozen=True)
class Question:
    """Something odd about the readings."""

    kind: str
    """What looks odd, such as `hook-longer-than-seam`."""
    dimension: str
    """The dimension asked about; `end-plate` or `body-plate` for a plate."""
    point: str
    """The point asked about; empty when it is not one point."""
    text: str
    """The question, in plain words."""


def find_questions(
    seam: SeamReadings, limits: SeamLimits | None = None, uncertainties: Mapping[str, float] | None = None
) -> tuple[Question, ...]:
    """Find what a person should look at again; no seam is accepted while one of these is open.

    Args:
        seam: the readings.
        limits: the specification, for its plates and its variant of the percent overlap; None: there is none.
        uncertainties: standard uncertainty of the instrument by dimension, as for `judge`.

    >>> from tinwright.seaming.readings import Reading, SeamReadings
    >>> seam = SeamReadings("micrometer", (Reading("body-hook", "1", 1.98),), 0.010, 0.010)
    >>> [question.kind for question in find_questions(seam)]
    ['millimeters', 'too-few-points']
    """
    given = limits or SeamLimits()
    lengths = [reading for reading in seam.readings if reading.dimension != "tightness"]
    strange = [reading for reading in lengths if _fits_other_unit(reading, seam.unit)]
    if len(strange) >= WRONG_UNIT and 2 * len(strange) > len(lengths):
        return (_unit(seam, strange), *_too_few_points(seam))
    stated = uncertainties or {}
    return (
        *_slips(seam),
        *_plates(seam, given),
        *_too_few_points(seam),
        *_contradictions(seam),
        *_overlaps(seam, given.overlap_variant, stated),
    )


def _fits_other_unit(reading: Reading, unit: str) -> bool:
    """Say whether a reading is no dimension of a seam as it stands, but would be one in the other unit."""
    if unit == "mm":
        return reading.value < LEAST_IN and LEAST_IN <= reading.value * MM_PER_IN <= MOST_IN
    return reading.value >= MM_FROM and LEAST_IN <= reading.value / MM_PER_IN <= MOST_IN


def _unit(seam: SeamReadings, strange: list[Reading]) -> Question:
    first = strange[0]
    much = "hardly anything" if seam.unit == "mm" else "far too much"
    here, there = ("mm", "in") if seam.unit == "mm" else ("in", "mm")
    text = (
        f"{len(strange)} readings are {much} in {_UNITS[here]}, such as {LABELS[first.dimension]}, point "
        f"{first.point}: {length_text(first.value, here)}. Were they read in {_UNITS[there]}? Then set the unit to "
        f"{_UNITS[there]}."
    )
    return Question("unit", "", "", text)


def _slips(seam: SeamReadings) -> Iterator[Question]:
    unit = seam.unit
    for reading in seam.readings:
        if reading.dimension == "tightness":
            continue
        label, value = LABELS[reading.dimension], reading.value
        at = f"{label}, point {reading.point}: {length_text(value, unit)}"
        if value >= MM_FROM and unit == "in":
            text = f"{at} is far too much. Was it read in millimeters ({inches_text(value / MM_PER_IN)})?"
            yield Question("millimeters", reading.dimension, reading.point, text)
        elif value > MOST_IN:
            meant = length_text(value / 10, unit)
            text = f"{at} is far too much. Is the decimal point in the right place ({meant})?"
            yield Question("decimal-point", reading.dimension, reading.point, text)
        elif value < LEAST_IN:
            meant = length_text(value * 10, unit)
            text = f"{at} is hardly anything. Is the decimal point in the right place ({meant})?"
            yield Question("decimal-point", reading.dimension, reading.point, text)
    for dimension in DIMENSIONS:
        found = seam.extremes(dimension)
        if found is None or dimension == "tightness" or found.least < LEAST_IN or found.greatest > MOST_IN:
            continue
        if found.greatest >= SPREAD * found.least:
            text = (
                f"{LABELS[dimension]} is {length_text(found.least, unit)} at one point and "
                f"{length_text(found.greatest, unit)} at another. Is one of them a slip?"
            )
            yield Question("spread", dimension, "", text)


def _plates(seam: SeamReadings, limits: SeamLimits) -> Iterator[Question]:
    for name, value, sheet in (
        ("end", seam.end_plate_in, limits.end_plate_in),
        ("body", seam.body_plate_in, limits.body_plate_in),
    ):
        if value is None:
            text = f"How thick is the {name} plate? Without it some values cannot be computed."
            yield Question("plate-missing", f"{name}-plate", "", text)
            continue
        given = f"The {name} plate is given as {length_text(value, seam.unit)}"
        if not PLATE_LEAST_IN <= value <= PLATE_MOST_IN:
            yield Question("plate-odd", f"{name}-plate", "", f"{given}. Is that right for can plate?")
        elif sheet is not None and abs(value - sheet) > PLATE_PART * sheet + CLOSE:
            text = (
                f"{given}; the specification is for {length_text(sheet, seam.unit)}. Is it a slip? If the plate is "
                "another one, this specification is not for these cans: ask the supplier."
            )
            yield Question("plate-differs", f"{name}-plate", "", text)


def _too_few_points(seam: SeamReadings) -> Iterator[Question]:
    for dimension in DIMENSIONS:
        found, needed = seam.extremes(dimension), seam.points_needed(dimension)
        if found and found.points < needed:
            text = (
                f"{LABELS[dimension]} was read at {found.points} of {needed} points. Can you read it at "
                f"{needed} points spread evenly around the can?"
            )
            yield Question("too-few-points", dimension, "", text)


def _contradictions(seam: SeamReadings) -> Iterator[Question]:
    width = seam.extremes("seam-width")
    for dimension in ("body-hook", "cover-hook"):
        hook = seam.extremes(dimension)
        if hook and width and hook.greatest > width.least:
            text = (
                f"{LABELS[dimension]} is {length_text(hook.greatest, seam.unit)}, longer than the seam is wide "
                f"({length_text(width.least, seam.unit)}). Is one of the two a slip?"
            )
            yield Question("hook-longer-than-seam", dimension, "", text)
    end, body = seam.end_plate_in, seam.body_plate_in
    if end is None or body is None:
        return
    yield from _no_room(width, seam.extremes("seam-thickness"), end, body, seam.unit)


def _no_room(
    width: Extremes | None, thickness: Extremes | None, end: float, body: float, unit: str
) -> Iterator[Question]:
    if width and width.least <= 2 * end + body:
        text = (
            f"Seam width is {length_text(width.least, unit)}, no more than three sheets of plate. "
            "Are width and plate thickness right?"
        )
        yield Question("width-too-small", "seam-width", "", text)
    if thickness:
        free = FORMULAS["free-space"].value({"S": thickness.least, "Te": end, "Tb": body})
        if free < -CLOSE:
            text = (
                f"Seam thickness is {length_text(thickness.least, unit)}, thinner than its five sheets of plate. "
                "Are thickness and plate thickness right?"
            )
            yield Question("free-space-negative", "seam-thickness", "", text)


def _overlaps(seam: SeamReadings, variant: str, uncertainties: Mapping[str, float]) -> Iterator[Question]:
    for found in compute(seam, variant, uncertainties):
        most = found.greatest or 0.0
        if found.quantity in {"percent-overlap", "body-hook-butting"} and most > FULL + CLOSE:
            text = (
                f"{LABELS[found.quantity]} comes to {percent_text(most)}, more than there is room for. "
                "Are hooks, width and plate thickness right?"
            )
            yield Question("more-than-room", found.quantity, "", text)
    read, formula = seam.extremes("overlap"), compute_overlap(seam, uncertainties)
    if read is None or formula.least is None or formula.greatest is None:
        return
    gap = max(read.least - formula.greatest, formula.least - read.greatest)
    one = reading_uncertainty(uncertainties.get("overlap", 0.0), read.coarsest_step)
    other = formula.uncertainty_most
    if gap > APART * math.sqrt(one * one + other * other) + CLOSE:
        seen = span_text("overlap", read.least, read.greatest, seam.unit)
        due = span_text("overlap", formula.least, formula.greatest, seam.unit)
        text = f"Overlap was read as {seen}, but hooks, width and plate give {due}. Which of them is a slip?"
        yield Question("overlap-contradicts", "overlap", "", text)
