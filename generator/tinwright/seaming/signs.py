"""Signs of a fault, profiles of its causes, and how strongly each sign speaks for a cause.

The weights are our own judgement, in round decimals: no published counts exist for hand sealers. Each row is a
probability over the possible answers to one question, so that the rows may be multiplied. They are only ever shown as
words.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING

from tinwright.seaming.wording import DIMENSIONS

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

__all__ = ["ADJUSTERS", "CauseProfile", "Sign", "Signs", "list_signs", "weigh", "weigh_unknown"]

ADJUSTERS: tuple[str, ...] = (
    "chuck",
    "base-height",
    "base-pressure",
    "roller-height",
    "first-roller",
    "second-roller",
    "can-and-lid",
    "filling",
    "handling",
    "operation",
)
"""Order of adjustment: the sealer from the chuck to the second roller, then what is not set on the sealer."""

DEFECT_SEEN: Mapping[str, float] = MappingProxyType({"common": 0.6, "occasional": 0.3, "rare": 0.1, "": 0.02})
"""Probability that the defect shows, by its likelihood with the cause; the empty word is a defect not linked to it."""
DEFECT_ABSENT: Mapping[str, float] = MappingProxyType({"common": 0.4, "occasional": 0.7, "rare": 0.9, "": 0.98})
"""Probability that the defect does not show."""
UNKNOWN_SEEN, UNKNOWN_ABSENT = 0.05, 0.95
"""The same when the cause is none of those known."""

DIRECTION_ALONG: Mapping[str, tuple[float, float, float, float]] = MappingProxyType(
    {"common": (0.75, 0.2, 0.02, 0.03), "occasional": (0.6, 0.34, 0.02, 0.04), "rare": (0.4, 0.52, 0.03, 0.05)}
)
"""A dimension that the cause moves: probability to find it moved that way, normal, moved the other way, varying."""
DIRECTION_VARIES: Mapping[str, float] = MappingProxyType(
    {"larger": 0.15, "smaller": 0.15, "normal": 0.15, "varies": 0.55}
)
"""A dimension that the cause makes uneven."""
DIRECTION_UNCLAIMED: Mapping[str, float] = MappingProxyType(
    {"larger": 0.1, "smaller": 0.1, "normal": 0.75, "varies": 0.05}
)
"""A dimension that the cause is not known to move."""
DIRECTION_UNKNOWN: Mapping[str, float] = MappingProxyType(
    {"larger": 0.15, "smaller": 0.15, "normal": 0.6, "varies": 0.1}
)
"""The same when the cause is none of those known, or the sources disagree about it."""

PLACE_LISTED: tuple[float, ...] = (0.25, 0.79, 0.43, 0.31, 0.25)
"""One of four answers that the cause lists, by how many it lists; with none listed all four are alike."""
PLACE_OTHER: tuple[float, ...] = (0.25, 0.07, 0.07, 0.07, 0.07)
"""An answer that the cause does not list."""
PLACE_UNKNOWN = 0.25
"""The same when the cause is none of those known."""

CHANGE_LISTED, CHANGE_OTHER = 0.3, 0.1
"""A last change after which the cause is likeliest, and any other."""


@dataclass(frozen=True)
class CauseProfile:
    """What is known of a cause."""

    cause: str
    """Its id."""
    adjuster: str
    """What its correction acts on, one of `ADJUSTERS`."""
    minutes: float
    """How long it takes to confirm, above zero."""
    likelihoods: Mapping[str, str] = field(default_factory=dict)
    """How often it is behind a defect, by the defect's id: `common`, `occasional`, `rare`."""
    effects: Mapping[str, str] = field(default_factory=dict)
    """Which way it moves a dimension: `larger`, `smaller`, `varies`, `disputed`; left out: no claim."""
    effect_likelihoods: Mapping[str, str] = field(default_factory=dict)
    """How often it is behind that dimension being out, where known; `occasional` otherwise."""
    extents: tuple[str, ...] = ()
    """How far round its marks go: `all-round`, `part-round`, `one-place`, `side-seam`."""
    repeats: tuple[str, ...] = ()
    """How it shows from can to can: `every-can`, `same-place`, `wanders`, `one-can`."""
    after: tuple[str, ...] = ()
    """The last changes after which it is likeliest, such as `lid-lot`."""


@dataclass(frozen=True)
class Signs:
    """What was seen, felt, measured and told; everything left out counts neither way."""

    defects: tuple[str, ...] = ()
    """Ids of defects seen or felt. A dimension out of its limits goes into `directions`, not here as well."""
    absent: tuple[str, ...] = ()
    """Ids of defects looked for and not found."""
    directions: Mapping[str, str] = field(default_factory=dict)
    """Measured dimensions: `larger`, `smaller`, `normal`, `varies`."""
    extent: str | None = None
    """How far round the can it goes."""
    repeats: str | None = None
    """How it shows from can to can."""
    last_change: str | None = None
    """What was changed last; `nothing` counts neither way."""


@dataclass(frozen=True)
class Sign:
    """One sign."""

    kind: str
    """`defect`, `absent`, `direction`, `extent`, `repeats` or `last-change`."""
    key: str
    """The defect or dimension; empty for the other kinds."""
    answer: str
    """What was found: `seen`, `not-seen`, a direction, an extent, how it repeats, or a change."""


def list_signs(signs: Signs) -> tuple[Sign, ...]:
    """List the signs one by one, in the one order in which they are reckoned.

    >>> [sign.key for sign in list_signs(Signs(directions={"cover-hook": "smaller", "body-hook": "larger"}))]
    ['body-hook', 'cover-hook']
    """
    return tuple(_each(signs))


def _each(signs: Signs) -> Iterator[Sign]:
    for defect in signs.defects:
        yield Sign("defect", defect, "seen")
    for defect in signs.absent:
        yield Sign("absent", defect, "not-seen")
    for dimension in DIMENSIONS:
        if dimension in signs.directions:
            yield Sign("direction", dimension, signs.directions[dimension])
    if signs.extent:
        yield Sign("extent", "", signs.extent)
    if signs.repeats:
        yield Sign("repeats", "", signs.repeats)
    if signs.last_change and signs.last_change != "nothing":
        yield Sign("last-change", "", signs.last_change)


def weigh(cause: CauseProfile, sign: Sign) -> float:
    """Give the probability of a sign when this is the cause.

    >>> loose = CauseProfile("first-roller-loose", "first-roller", 5, effects={"body-hook": "larger"})
    >>> weigh(loose, Sign("direction", "body-hook", "larger")), weigh(loose, Sign("direction", "body-hook", "smaller"))
    (0.6, 0.02)
    """
    if sign.kind == "defect":
        return DEFECT_SEEN[cause.likelihoods.get(sign.key, "")]
    if sign.kind == "absent":
        return DEFECT_ABSENT[cause.likelihoods.get(sign.key, "")]
    if sign.kind == "direction":
        return _weigh_direction(cause, sign)
    if sign.kind == "last-change":
        return CHANGE_LISTED if sign.answer in cause.after else CHANGE_OTHER
    listed = cause.extents if sign.kind == "extent" else cause.repeats
    return PLACE_LISTED[len(listed)] if not listed or sign.answer in listed else PLACE_OTHER[len(listed)]


def _weigh_direction(cause: CauseProfile, sign: Sign) -> float:
    effect = cause.effects.get(sign.key)
    if effect is None:
        return DIRECTION_UNCLAIMED[sign.answer]
    if effect == "disputed":
        return DIRECTION_UNKNOWN[sign.answer]
    if effect == "varies":
        return DIRECTION_VARIES[sign.answer]
    along, normal, against, varies = DIRECTION_ALONG[cause.effect_likelihoods.get(sign.key, "occasional")]
    if sign.answer == effect:
        return along
    return {"normal": normal, "varies": varies}.get(sign.answer, against)


def weigh_unknown(sign: Sign) -> float:
    """Give the probability of a sign when the cause is none of those known."""
    if sign.kind == "defect":
        return UNKNOWN_SEEN
    if sign.kind == "absent":
        return UNKNOWN_ABSENT
    if sign.kind == "direction":
        return DIRECTION_UNKNOWN[sign.answer]
    return CHANGE_OTHER if sign.kind == "last-change" else PLACE_UNKNOWN
