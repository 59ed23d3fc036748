"""What can be wrong on the practice bench, and what puts it right.

Each kind is named by the id of its cause record. What it does to the metal stands in `setting.EFFECTS`.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from tinwright.errors import PracticeError

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["REMEDIES", "SCREWS", "SIGNED", "WANDERING", "Fault", "Remedy"]


@dataclass(frozen=True)
class Remedy:
    """What puts a fault right."""

    verb: str
    """`turn`, `restack`, `clean`, `refit`, `swap` or `redo`."""
    target: str
    """What it is done to: an adjuster, a part, `can-lot`, `lid-lot` or `operation`."""


SCREWS: tuple[str, ...] = ("base-pressure", "first-roller", "second-roller")
"""Adjusters turned in eighths."""

SIGNED: frozenset[str] = frozenset({"plate-changed", "roller-height-wrong"})
"""Kinds whose amount may be below zero: thinner plate, roller too low."""

WANDERING: frozenset[str] = frozenset(
    {
        *("can-slips", "chuck-loose", "flange-bent", "lid-curl-bent"),
        *("lid-misplaced", "product-in-seam", "roller-end-play", "too-few-turns"),
    }
)
"""Kinds that show at another place on each can, unless the fault says where."""


def _remedies() -> dict[str, Remedy]:
    rows = {
        ("turn", "base-pressure"): "base-pressure-high base-pressure-low",
        ("turn", "first-roller"): "first-roller-loose first-roller-tight",
        ("turn", "second-roller"): "second-roller-loose second-roller-tight",
        ("restack", "base-height"): "chuck-base-distance-large chuck-base-distance-small",
        ("clean", "base-plate"): "base-plate-out-of-parallel",
        ("clean", "chuck"): "can-slips",
        ("refit", "chuck"): "chuck-loose chuck-not-seated",
        ("swap", "chuck"): "chuck-broken chuck-lip-too-high chuck-worn chuck-wrong-size",
        ("swap", "chuck-shaft"): "spindle-play",
        ("refit", "roller-height"): "roller-end-play roller-height-wrong",
        ("swap", "first-roller"): "first-roller-worn",
        ("swap", "second-roller"): "second-roller-worn",
        ("swap", "can-lot"): "flange-bent flange-mushroomed flange-short side-seam-lap-thick",
        ("swap", "lid-lot"): "lid-curl-bent lid-curl-not-formed lid-curl-wrinkled plate-changed",
        ("redo", "operation"): "lid-misplaced product-in-seam second-operation-skipped too-few-turns two-lids",
    }
    return {kind: Remedy(*remedy) for remedy, kinds in rows.items() for kind in kinds.split()}


REMEDIES: Mapping[str, Remedy] = MappingProxyType(_remedies())
"""Every kind of fault, with what puts it right."""


@dataclass(frozen=True)
class Fault:
    """One thing that is wrong.

    Raises:
        PracticeError: the kind is unknown, the amount is not one to twelve steps, or the place not on the can.

    >>> Fault("first-roller-loose", 4).amount
    4
    """

    kind: str
    """Id of its cause record, one of `REMEDIES`."""
    amount: int = 4
    """How far off, in the model's steps (an eighth of a turn at a screw); below zero only for the kinds in `SIGNED`."""
    at: int | None = None
    """Where on the can, in degrees from the side seam, for what does not go all around; None: as the kind does."""

    def __post_init__(self) -> None:
        if self.kind not in REMEDIES:
            raise PracticeError(f"expected a fault that the practice bench knows, got {self.kind!r}")
        size = abs(self.amount) if self.kind in SIGNED else self.amount
        if not 1 <= size <= 12:
            raise PracticeError(f"{self.kind}: expected an amount from 1 to 12 steps, got {self.amount}")
        if self.at is not None and not 0 <= self.at < 360:
            raise PracticeError(f"{self.kind}: expected a place from 0 to 359 degrees, got {self.at}")
