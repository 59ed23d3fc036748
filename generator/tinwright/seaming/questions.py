"""Questions about readings that look like slips: a plain question each, never a refusal.

The bounds in this module are only there to catch slips of the pen. They are not limits of a seam.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.seaming.formulas import FORMULAS
from tinwright.seaming.wording import DIMENSIONS, LABELS, inches_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.seaming.readings import Extremes, SeamReadings

__all__ = ["MM_PER_IN", "Question", "find_questions"]

MM_PER_IN = 25.4
"""Millimeters in an inch, exact."""
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


def find_questions(seam: SeamReadings) -> tuple[Question, ...]:
    """Find what a person should look at again before the verdict is trusted.

    >>> from tinwright.seaming.readings import Reading, SeamReadings
    >>> seam = SeamReadings("micrometer", (Reading("body-hook", "1", 1.98),), 0.010, 0.010)
    >>> [question.kind for question in find_questions(seam)]
    ['millimeters', 'too-few-points']
    """
    return (*_slips(seam), *_plates(seam), *_too_few_points(seam), *_contradictions(seam))


def _slips(seam: SeamReadings) -> Iterator[Question]:
    for reading in seam.readings:
        if reading.dimension == "tightness":
            continue
        label, value = LABELS[reading.dimension], reading.value
        at = f"{label}, point {reading.point}: {inches_text(value)}"
        if value >= MM_FROM:
            text = f"{at} is far too much. Was it read in millimeters ({inches_text(value / MM_PER_IN)})?"
            yield Question("millimeters", reading.dimension, reading.point, text)
        elif value > MOST_IN:
            text = f"{at} is far too much. Is the decimal point in the right place ({inches_text(value / 10)})?"
            yield Question("decimal-point", reading.dimension, reading.point, text)
        elif value < LEAST_IN:
            text = f"{at} is hardly anything. Is the decimal point in the right place ({inches_text(value * 10)})?"
            yield Question("decimal-point", reading.dimension, reading.point, text)
    for dimension in DIMENSIONS:
        found = seam.extremes(dimension)
        if found is None or dimension == "tightness" or found.least < LEAST_IN or found.greatest > MOST_IN:
            continue
        if found.greatest >= SPREAD * found.least:
            text = (
                f"{LABELS[dimension]} is {inches_text(found.least)} at one point and "
                f"{inches_text(found.greatest)} at another. Is one of them a slip?"
            )
            yield Question("spread", dimension, "", text)


def _plates(seam: SeamReadings) -> Iterator[Question]:
    for name, value in (("end", seam.end_plate_in), ("body", seam.body_plate_in)):
        if value is None:
            text = f"How thick is the {name} plate? Without it some values cannot be computed."
            yield Question("plate-missing", f"{name}-plate", "", text)
        elif not PLATE_LEAST_IN <= value <= PLATE_MOST_IN:
            text = f"The {name} plate is given as {inches_text(value)}. Is that right for can plate?"
            yield Question("plate-odd", f"{name}-plate", "", text)


def _too_few_points(seam: SeamReadings) -> Iterator[Question]:
    for dimension in DIMENSIONS:
        found, needed = seam.extremes(dimension), seam.points_needed(dimension)
        if found and found.points < needed:
            text = (
                f"{LABELS[dimension]} was read at {found.points} of {needed} points. Can you read it at "
                f"{needed} points spread evenly round the can?"
            )
            yield Question("too-few-points", dimension, "", text)


def _contradictions(seam: SeamReadings) -> Iterator[Question]:
    width = seam.extremes("seam-width")
    for dimension in ("body-hook", "cover-hook"):
        hook = seam.extremes(dimension)
        if hook and width and hook.greatest > width.least:
            text = (
                f"{LABELS[dimension]} is {inches_text(hook.greatest)}, longer than the seam is wide "
                f"({inches_text(width.least)}). Is one of the two a slip?"
            )
            yield Question("hook-longer-than-seam", dimension, "", text)
    end, body = seam.end_plate_in, seam.body_plate_in
    if end is None or body is None:
        return
    yield from _no_room(width, seam.extremes("seam-thickness"), end, body)


def _no_room(width: Extremes | None, thickness: Extremes | None, end: float, body: float) -> Iterator[Question]:
    if width and width.least <= 2 * end + body:
        text = (
            f"Seam width is {inches_text(width.least)}, no more than three sheets of plate. "
            "Are width and plate thickness right?"
        )
        yield Question("width-too-small", "seam-width", "", text)
    if thickness:
        metal = FORMULAS["free-space"].value({"S": thickness.least, "Te": end, "Tb": body})
        if metal < 0:
            text = (
                f"Seam thickness is {inches_text(thickness.least)}, thinner than its five sheets of plate. "
                "Are thickness and plate thickness right?"
            )
            yield Question("free-space-negative", "seam-thickness", "", text)
