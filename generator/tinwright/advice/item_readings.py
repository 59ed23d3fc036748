"""Readings in an item: as a table to show, and what the product itself says of them, to hold the key against."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.advice.profiles import cause_profiles, instrument_uncertainties
from tinwright.knowledge.models.item import NumberItem, OneAnswer
from tinwright.seaming import DIMENSIONS, Limit, Reading, SeamLimits, SeamReadings, Signs, find_directions, judge, rank
from tinwright.seaming.wording import LABELS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models.item import Item
    from tinwright.knowledge.models.item_readings import ReadingsTable
    from tinwright.measures import Length
    from tinwright.seaming import SeamVerdict

__all__ = ["readings_problems", "readings_rows", "verdict_on"]

_READ = ("countersink", "seam-width", "seam-thickness", "body-hook", "cover-hook")
_VERDICTS = ("Accept", "Measure again", "Reject")
"""Words that an option begins with where a verdict is asked for."""


def readings_rows(table: ReadingsTable) -> tuple[tuple[str, ...], ...]:
    """Return the rows of the table that the question shows, headings first; every number as it was written.

    The last row, on the plates, is one cell for the whole width.

    Limits stand before the readings, and only where the question gives any.
    """
    limits = {str(limit.dimension): limit for limit in table.limits}
    sheet = ("Least", "Most") if limits else ()
    points = tuple(f"Point {number}" for number, _ in enumerate(table.points, 1))
    rows = [("In inches", *sheet, *points)]
    for dimension in DIMENSIONS:
        read = [_read(table, point, dimension) for point in range(len(table.points))]
        limit = limits.get(dimension)
        if limit is None and not any(read):
            continue
        bounds = [_number(limit.min if limit else None), _number(limit.max if limit else None)] if sheet else []
        rows.append((LABELS[dimension], *bounds, *map(_number, read)))
    rows.append((f"Lid plate {_number(table.end_plate)}, body plate {_number(table.body_plate)}",))
    return tuple(rows)


def verdict_on(table: ReadingsTable, kb: KnowledgeBase) -> SeamVerdict:
    """Judge the readings with the instruments of the program, as the seam check does."""
    limits = SeamLimits(
        tuple(Limit(str(one.dimension), _inches(one.min), None, _inches(one.max)) for one in table.limits),
        overlap_variant=kb.programme.policy.overlap_variant,
    )
    readings = tuple(
        Reading(dimension, str(point + 1), float(read.inches), _step(read))
        for point in range(len(table.points))
        for dimension in _READ
        if (read := _read(table, point, dimension)) is not None
    )
    seam = SeamReadings(
        "micrometer",
        readings,
        float(table.end_plate.inches),
        float(table.body_plate.inches),
        _step(table.end_plate),
        _step(table.body_plate),
    )
    return judge(seam, limits if table.limits else None, instrument_uncertainties(kb))


def readings_problems(item: Item, kb: KnowledgeBase) -> Iterator[str]:
    """Yield where the key of an item with readings is not what the product's own verdict says."""
    table = item.readings
    if table is None:
        return
    verdict = verdict_on(table, kb)
    if verdict.outcome != table.verdict:
        said = "; ".join(verdict.reasons)
        yield f"the seam check says {verdict.outcome}, the item {table.verdict} ({said})"
    if isinstance(item, OneAnswer):
        says = {option.text: option.right for option in item.options if option.text.startswith(_VERDICTS)}
        wanted = table.verdict.replace("-", " ").capitalize()
        if says and not any(right and text.startswith(wanted) for text, right in says.items()):
            yield f"the verdict is {wanted!r}, and the right option says another one"
    if isinstance(item, NumberItem):
        found = [value for part in verdict.parts for value in (part.least, part.greatest) if value is not None]
        if not any(float(item.low) - _CLOSE <= value <= float(item.high) + _CLOSE for value in found):
            yield f"{item.answer} is none of the values that the seam check reads or works out"
    if table.cause is not None:
        first = rank(cause_profiles(kb), Signs(directions=find_directions(verdict))).causes[0].cause
        if first != table.cause:
            yield f"the cause finder names {first} first, the item {table.cause}"


_CLOSE = 1e-9
"""Rounding of the computer."""


def _read(table: ReadingsTable, point: int, dimension: str) -> Length | None:
    return getattr(table.points[point], dimension.replace("-", "_"), None)


def _number(length: Length | None) -> str:
    return "" if length is None else length.text.removesuffix(length.unit).strip()


def _inches(length: Length | None) -> float | None:
    return None if length is None else float(length.inches)


def _step(length: Length) -> float:
    """Return the unit of the last place that a decimal was written to."""
    _, _, places = _number(length).partition(".")
    return 10.0 ** -len(places)
