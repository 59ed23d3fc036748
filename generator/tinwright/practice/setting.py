"""How far off everything stands that the metal of a seam meets, at each angle around the can.

Angles are counted from the side seam, in `ANGLES` equal steps. Everything is a teaching model's: amounts are in its own
steps, and no figure here is a real sealer's.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

from tinwright.practice.fault import WANDERING, Fault

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tinwright.practice.chance import Chance

__all__ = ["ANGLES", "EFFECTS", "STEP_IN", "Effect", "Setting", "set_around"]

ANGLES = 24
"""Places around the can."""
STEP_IN = 0.0025
"""The model's step in inches: what an eighth of a turn does. Chosen so that a few steps show."""
_SCATTER_IN = 0.00015
"""Most by which a can differs from the next, in inches."""
_ROCKED = 0.5
"""Thickness gained on one side and lost on the other for each inch that a can held too loosely can rock."""

_COSINES = (
    *(1.0, 0.9659258262890683, 0.8660254037844386, 0.7071067811865476, 0.5, 0.25881904510252074, 0.0),
    *(-0.25881904510252074, -0.5, -0.7071067811865476, -0.8660254037844386, -0.9659258262890683),
    *(-1.0, -0.9659258262890683, -0.8660254037844386, -0.7071067811865476, -0.5, -0.25881904510252074, 0.0),
    *(0.25881904510252074, 0.5, 0.7071067811865476, 0.8660254037844386, 0.9659258262890683),
)
_PART = tuple(1.0 if cosine >= 0.0 else 0.0 for cosine in _COSINES)
_PLACE = tuple(1.0 if cosine > 0.9 else 0.0 for cosine in _COSINES)
SPREADS: Mapping[str, tuple[float, ...]] = MappingProxyType(
    {"all": (1.0,) * ANGLES, "tilt": _COSINES, "part": _PART, "place": _PLACE}
)
"""How an effect goes around from its place: everywhere alike, more here and less across, half around, here alone."""


class Setting(NamedTuple):
    """How far from right everything stands at one angle; zero is right. Inches, unless told otherwise."""

    press: float = 0.0
    """How much farther the base plate drives the can up."""
    first: float = 0.0
    """How much wider the first roller's gap is."""
    second: float = 0.0
    """How much wider the second roller's gap is."""
    slack: float = 0.0
    """Seam left thick because the can did not run true past the rollers."""
    seat: float = 0.0
    """How much deeper the chuck's lip stands in the lid."""
    flange: float = 0.0
    """How much longer the flange is."""
    curl: float = 0.0
    """How much more of the curl turns in."""
    packed: float = 0.0
    """Metal or food in the seam beyond the five plates."""
    bump: float = 0.0
    """Metal that finds no room in the seam and hangs below it."""
    wrinkle: float = 0.0
    """Percent of tightness lost to wrinkles."""
    broken: float = 0.0
    """Percent of tightness lost where nothing backs up the seam."""


class Effect(NamedTuple):
    """What one step of a fault does to the setting."""

    part: str
    """A field of `Setting`."""
    factor: float
    """How many of the model's steps, or how many percent."""
    spread: str = "all"
    """One of `SPREADS`."""


EFFECTS: Mapping[str, tuple[Effect, ...]] = MappingProxyType(
    {
        "base-plate-out-of-parallel": (Effect("press", 1.0, "tilt"),),
        "base-pressure-high": (Effect("press", 1.0),),
        "base-pressure-low": (Effect("press", -1.0),),
        "can-slips": (Effect("slack", 1.5, "part"),),
        "chuck-base-distance-large": (Effect("press", -1.0),),
        "chuck-base-distance-small": (Effect("press", 1.0),),
        "chuck-broken": (Effect("broken", 8.0, "place"),),
        "chuck-lip-too-high": (Effect("seat", 1.0),),
        "chuck-loose": (Effect("slack", 0.7, "tilt"), Effect("first", 0.5, "tilt")),
        "chuck-not-seated": (Effect("seat", 0.8),),
        "chuck-worn": (Effect("slack", 1.0), Effect("first", 0.5, "tilt")),
        "chuck-wrong-size": (Effect("flange", -0.6), Effect("flange", -0.6, "tilt"), Effect("packed", 0.6, "tilt")),
        "first-roller-loose": (Effect("first", 1.0),),
        "first-roller-tight": (Effect("first", -1.0),),
        "first-roller-worn": (Effect("curl", -1.0),),
        "flange-bent": (Effect("flange", -1.0, "place"), Effect("bump", 1.0, "place")),
        "flange-mushroomed": (Effect("flange", 1.0),),
        "flange-short": (Effect("flange", -1.0),),
        "lid-curl-bent": (Effect("curl", -1.0, "place"), Effect("bump", 1.0, "place")),
        "lid-curl-not-formed": (Effect("curl", -1.0),),
        "lid-curl-wrinkled": (Effect("wrinkle", 6.0),),
        "lid-misplaced": (Effect("curl", 1.0, "tilt"),),
        "plate-changed": (Effect("packed", 1.0),),
        "product-in-seam": (
            Effect("packed", 1.0, "place"),
            Effect("curl", -1.0, "place"),
            Effect("bump", 1.0, "place"),
        ),
        "roller-end-play": (Effect("curl", 0.8, "tilt"),),
        "roller-height-wrong": (Effect("curl", 1.0),),
        "second-operation-skipped": (Effect("second", 4.0),),
        "second-roller-loose": (Effect("second", 1.0),),
        "second-roller-tight": (Effect("second", -1.0),),
        "second-roller-worn": (Effect("second", 0.8),),
        "side-seam-lap-thick": (Effect("packed", 1.0, "place"), Effect("bump", 1.0, "place")),
        "spindle-play": (Effect("slack", 0.7, "tilt"), Effect("curl", 0.6, "tilt")),
        "too-few-turns": (Effect("second", 1.2, "part"),),
        "two-lids": (Effect("packed", 12.0),),
    }
)
"""What each kind of fault does. Which dimensions then move follows from the geometry in `seam`."""

_TURNS = {"base-pressure": ("press", 1.0), "first-roller": ("first", -1.0), "second-roller": ("second", -1.0)}
_PERCENT = frozenset({"wrinkle", "broken"})


def set_around(faults: Sequence[Fault], turned: Mapping[str, int], chance: Chance) -> tuple[Setting, ...]:
    """Return the setting at each angle of the next can.

    Args:
        faults: what is wrong.
        turned: eighths of a turn that each screw was tightened by, below zero: loosened.
        chance: which can it is; each differs a little, and some faults show at another place.
    """
    everywhere = dict.fromkeys(Setting._fields, 0.0)
    for part in ("press", "first", "second"):
        everywhere[part] = (chance.draw() * 2.0 - 1.0) * _SCATTER_IN
    for screw, (part, way) in _TURNS.items():
        everywhere[part] = everywhere[part] + turned.get(screw, 0) * way * STEP_IN
    here: dict[str, list[float]] = {}
    for fault in faults:
        place = _place_of(fault, chance)
        for effect in EFFECTS[fault.kind]:
            size = effect.factor * fault.amount * (1.0 if effect.part in _PERCENT else STEP_IN)
            if effect.spread == "all":
                everywhere[effect.part] = everywhere[effect.part] + size
            else:
                spread, sizes = SPREADS[effect.spread], here.setdefault(effect.part, [0.0] * ANGLES)
                for angle in range(ANGLES):
                    sizes[angle] = sizes[angle] + size * spread[(angle - place) % ANGLES]
    loose = -everywhere["press"] - STEP_IN
    if loose > 0.0:
        rocked = here.setdefault("packed", [0.0] * ANGLES)
        for angle in range(ANGLES):
            rocked[angle] = rocked[angle] + _ROCKED * loose * _COSINES[angle]
    if not here:
        return (Setting(**everywhere),) * ANGLES
    return tuple(
        Setting(**{**everywhere, **{part: everywhere[part] + sizes[angle] for part, sizes in here.items()}})
        for angle in range(ANGLES)
    )


def _place_of(fault: Fault, chance: Chance) -> int:
    """Return the angle at which a fault is worst."""
    if fault.at is not None:
        return (fault.at * ANGLES + 180) // 360 % ANGLES
    return chance.whole(ANGLES) if fault.kind in WANDERING else 0
