"""A supplier's sheet is a safety record: what physics rules out in it, and whether it was read against the paper."""

from __future__ import annotations

import hashlib
import json
from enum import StrEnum
from typing import TYPE_CHECKING

from tinwright.knowledge.models.can import Dimension, DimensionLimits
from tinwright.measures import Length, parse_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.knowledge.models import SeamSpecification

__all__ = ["SheetState", "digest_of_sheet", "faults_of_sheet", "state_of_sheet", "unconfirmed_words"]

_Fault = tuple[tuple[str | int, ...], str]
_Places = dict[Dimension, tuple[int, DimensionLimits]]

_NEEDED: tuple[Dimension, ...] = tuple(dimension for dimension in Dimension if dimension is not Dimension.TIGHTNESS)
_COMPOUND = parse_length("0.010 in")
"""More than compound ever adds: 0.003 to 0.006 in is the custom for food ends (from memory, no source)."""
_ENDS = ("min", "aim", "max")

_BOUNDS: dict[Dimension, tuple[str, str]] = {
    Dimension.COUNTERSINK: ("0.03 in", "0.6 in"),
    Dimension.SEAM_WIDTH: ("0.04 in", "0.25 in"),
    Dimension.SEAM_THICKNESS: ("0.02 in", "0.25 in"),
    Dimension.BODY_HOOK: ("0.02 in", "0.2 in"),
    Dimension.COVER_HOOK: ("0.02 in", "0.2 in"),
    Dimension.OVERLAP: ("0.005 in", "0.15 in"),
}
"""The product's own bounds, so wide that only a slip of the pen lies beyond them; they are no limits for a seam."""


class SheetState(StrEnum):
    """Whether the numbers of a sheet can be relied on."""

    READ = "read"
    """Two people read it against the paper as it stands."""
    CHANGED = "changed"
    """It was changed since."""
    UNREAD = "unread"
    """Nobody is recorded to have read it."""
    INVENTED = "invented"
    """There is no paper: it was made up as an example."""


def digest_of_sheet(sheet: SeamSpecification) -> str:
    """Return 16 hexadecimal digits that change with every number of a sheet, its cans, plates or supplier."""
    numbers = sheet.model_dump(
        mode="json", exclude={"id", "title", "reviewed", "formerly", "evidence", "read_against_paper"}
    )
    canonical = json.dumps(numbers, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(canonical.encode()).hexdigest()[:16]


def state_of_sheet(sheet: SeamSpecification) -> SheetState:
    """Tell whether the numbers of a sheet can be relied on."""
    reading = sheet.read_against_paper
    if reading is not None:
        return SheetState.READ if reading.digest == digest_of_sheet(sheet) else SheetState.CHANGED
    return SheetState.INVENTED if sheet.evidence.grade == "invented" else SheetState.UNREAD


def unconfirmed_words(sheet: SeamSpecification) -> str:
    """Say that a sheet is not confirmed, for whoever is given a verdict by it; nothing when it is, or is made up."""
    return _UNCONFIRMED.get(state_of_sheet(sheet), "")


_UNCONFIRMED = {
    SheetState.CHANGED: "The seam specification was changed after two people had read it against the paper. No seam is "
    "accepted by it until it has been read again.",
    SheetState.UNREAD: "Nobody is recorded to have read the seam specification against the paper. No seam is "
    "accepted by it until two people have read it.",
}


def faults_of_sheet(sheet: SeamSpecification) -> Iterator[_Fault]:
    """Yield what is missing on a sheet, and what no seam can measure."""
    places: _Places = {limit.dimension: (number, limit) for number, limit in enumerate(sheet.limits)}
    for dimension in _NEEDED:
        if dimension not in places:
            yield ("limits",), f"expected both limits of every dimension, or 'no limit' in words, got no {dimension}"
    for dimension, (number, limit) in places.items():
        low, high = map(parse_length, _BOUNDS[dimension])
        for end in _ENDS:
            value = getattr(limit, end)
            if value is not None and not low <= value <= high:
                message = f"{end}: no {dimension} measures {value}: is a decimal point or the other unit meant?"
                yield ("limits", number, end), message
    yield from _against_the_plates(sheet, places)
    yield from _against_each_other(places)
    if sheet.read_against_paper is not None:
        readers = [" ".join(reader.who.lower().split()) for reader in sheet.read_against_paper.by]
        for number, reader in enumerate(readers):
            if reader in readers[:number]:
                yield ("read_against_paper", "by", number, "who"), "expected two people, got the same one twice"


def _against_the_plates(sheet: SeamSpecification, places: _Places) -> Iterator[_Fault]:
    """A seam is pressed from three end plates and two body plates; at a side seam from two body plates more."""
    if Dimension.SEAM_THICKNESS not in places:
        return
    number, limit = places[Dimension.SEAM_THICKNESS]
    five = 3 * sheet.end_plate.inches + 2 * sheet.body_plate.inches
    seven = five + 2 * sheet.body_plate.inches + _COMPOUND.inches
    for end in _ENDS:
        value = getattr(limit, end)
        if value is None:
            continue
        if value.inches < five and end != "min":  # `sheets` says more of the least thickness
            message = f"{end}: {value} is thinner than the five plates of a seam, {_inches(five)}"
        elif value.inches > seven:
            message = f"{end}: {value} is thicker than seven plates and their compound, {_inches(seven)}"
        else:
            continue
        yield ("limits", number, end), message


def _against_each_other(places: _Places) -> Iterator[_Fault]:
    """Compare what lies within the seam with the seam, and the overlap with the hooks that overlap."""
    for inner, outer, words in (
        (Dimension.BODY_HOOK, Dimension.SEAM_WIDTH, "as long as the seam is wide, or longer"),
        (Dimension.COVER_HOOK, Dimension.SEAM_WIDTH, "as long as the seam is wide, or longer"),
        (Dimension.OVERLAP, Dimension.BODY_HOOK, "as long as the body hook, or longer"),
        (Dimension.OVERLAP, Dimension.COVER_HOOK, "as long as the cover hook, or longer"),
    ):
        for end in _ENDS:
            value, around = _of(places, inner, end), _of(places, outer, end)
            if value is not None and around is not None and value >= around:
                yield ("limits", places[inner][0], end), f"{end}: a {inner} of {value} is {words} ({around})"
    width = _of(places, Dimension.SEAM_WIDTH, "min")
    for end in _ENDS:
        depth = _of(places, Dimension.COUNTERSINK, end)
        if depth is not None and width is not None and depth < width:
            message = f"{end}: a countersink of {depth} is shallower than the curl of the lid rolled flat ({width})"
            yield ("limits", places[Dimension.COUNTERSINK][0], end), message


def _of(places: _Places, dimension: Dimension, end: str) -> Length | None:
    value: Length | None = getattr(places[dimension][1], end) if dimension in places else None
    return value


def _inches(value: object) -> str:
    return f"{float(value):.4f} in"  # type: ignore[arg-type]
