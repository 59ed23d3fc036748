"""Signs of a fault, profiles of its causes, and how strongly each sign speaks for a cause.

The weights are our own judgement, in round decimals: no published counts exist for hand sealers. They are only ever
shown as words. Each is the probability of an answer, so that they may be multiplied, with three rules laid over:

- What is as it should be, or was looked for and not found, can only rule a cause out. A cause that says nothing of it
  gets the weight of an unknown cause, or many good readings would add up to an accusation.
- Where a fault shows and how it repeats is listed or not; how many answers a cause lists says nothing.
- Only the fault itself speaks for a cause: a defect seen, or a dimension that is out. Where, how often and after what
  change make a cause that is spoken for likelier.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING

from tinwright.seaming.wording import DIMENSIONS

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

__all__ = [
    "ADJUSTERS",
    "CauseProfile",
    "Sign",
    "Signs",
    "in_order",
    "is_against",
    "is_fault",
    "list_signs",
    "speaks_for",
    "weigh",
    "weigh_unknown",
]

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
DEFECT_ABSENT: Mapping[str, float] = MappingProxyType({"common": 0.4, "occasional": 0.7, "rare": 0.9, "": 0.95})
"""Probability that the defect does not show; with a defect not linked to it, as for an unknown cause."""
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
    {"larger": 0.1, "smaller": 0.1, "normal": 0.6, "varies": 0.05}
)
"""A dimension that the cause is not known to move: out, it speaks against; as it should be, neither way."""
DIRECTION_UNKNOWN: Mapping[str, float] = MappingProxyType(
    {"larger": 0.15, "smaller": 0.15, "normal": 0.6, "varies": 0.1}
)
"""The same when the cause is none of those known, or the sources disagree about it."""

PLACE_LISTED, PLACE_OTHER = 0.5, 0.07
"""One of four answers that the cause lists, and one that it does not."""
PLACE_UNKNOWN = 0.25
"""The same when the cause is none of those known, or lists none."""

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
    effect_likelihoods: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    """How often it is behind a dimension being out in a direction, where a defect names it; effects: `occasional`."""
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
    """List the signs one by one, each once, in the one order in which they are reckoned.

    >>> [sign.key for sign in list_signs(Signs(directions={"cover-hook": "smaller", "body-hook": "larger"}))]
    ['body-hook', 'cover-hook']
    """
    return in_order(_each(signs))


_KINDS = ("defect", "absent", "direction", "extent", "repeats", "last-change")


def in_order(signs: Iterable[Sign]) -> tuple[Sign, ...]:
    """Put signs in the one order in which they are reckoned, each once, whatever the order they were told in."""

    def place(sign: Sign) -> tuple[int, int, str]:
        return _KINDS.index(sign.kind), DIMENSIONS.index(sign.key) if sign.kind == "direction" else 0, sign.key

    return tuple(sorted(set(signs), key=place))


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
    if not listed:
        return PLACE_UNKNOWN
    return PLACE_LISTED if sign.answer in listed else PLACE_OTHER


def _weigh_direction(cause: CauseProfile, sign: Sign) -> float:
    likelihoods = cause.effect_likelihoods.get(sign.key, {})
    if sign.answer in likelihoods:
        return DIRECTION_ALONG[likelihoods[sign.answer]][0]
    effect = cause.effects.get(sign.key)
    if effect is None:
        return DIRECTION_UNCLAIMED[sign.answer]
    if effect == "disputed":
        return DIRECTION_UNKNOWN[sign.answer]
    if effect == "varies":
        return DIRECTION_VARIES[sign.answer]
    along, normal, against, varies = DIRECTION_ALONG[likelihoods.get(effect, "occasional")]
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


def is_fault(sign: Sign) -> bool:
    """Say whether a sign is the fault itself: a defect seen, or a dimension that is not as it should be."""
    return sign.kind == "defect" or (sign.kind == "direction" and sign.answer != "normal")


def speaks_for(cause: CauseProfile, sign: Sign) -> bool:
    """Say whether a sign is a reason to offer the cause at all.

    >>> loose = CauseProfile("first-roller-loose", "first-roller", 5, effects={"body-hook": "larger"})
    >>> [speaks_for(loose, Sign("direction", "body-hook", answer)) for answer in ("larger", "normal")]
    [True, False]
    """
    return is_fault(sign) and weigh(cause, sign) > weigh_unknown(sign)


def is_against(cause: CauseProfile, sign: Sign) -> bool:
    """Say whether a sign makes the cause less likely than an unknown one."""
    return weigh(cause, sign) < weigh_unknown(sign)
