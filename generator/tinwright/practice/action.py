"""What the learner does at the practice bench, and what comes of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tinwright.practice.seam import Seam
    from tinwright.practice.showing import Shown
    from tinwright.seaming.readings import Reading

__all__ = ["VERBS", "Action", "BenchedCan", "Outcome"]

VERBS: tuple[str, ...] = (
    *("test-can", "first-operation", "look", "measure", "tear-down"),
    *("gauge", "look-at-part"),
    *("turn", "restack", "clean", "refit", "swap", "redo"),
    *("unplug", "plug-in"),
    *("seal-food", "hold", "throw-away", "let-go"),
    *("declare-cause", "declare-fit", "give-up"),
)
"""What can be done: make a can, look at the last one; look at the sealer; change it; power; food; decide.

`look`, `measure` and `tear-down` are about the last can. `gauge` is the gap gauge of a roller or the lift lever.
`look-at-part` and the changes name a target as `fault.Remedy` does. `turn` takes eighths, above zero: tighten.
"""


@dataclass(frozen=True)
class Action:
    """One thing done."""

    verb: str
    """One of `VERBS`."""
    target: str = ""
    """Adjuster, part, lot or cause it is about; empty where the verb needs none."""
    amount: int = 0
    """Eighths of a turn to tighten by, below zero to loosen; number of food cans; number of the can to decide about."""


@dataclass(frozen=True)
class BenchedCan:
    """A can made at the bench."""

    number: int
    """From 1, in the order made."""
    seam: Seam
    """Its seam as it truly is."""
    is_good: bool
    """Whether the seam is within the sheet all around and shows no fault."""
    is_food: bool = False
    """Whether it was sealed with food in it."""
    is_finished: bool = True
    """False after the first operation only."""
    is_torn: bool = False
    """Whether it was torn down."""
    fate: str = ""
    """`held`, `thrown-away`, `let-go`; empty: nothing decided."""


@dataclass(frozen=True)
class Outcome:
    """What came of an action."""

    action: Action
    """What was done."""
    minutes: float = 0.0
    """What it took."""
    cans: int = 0
    """Cans it used up."""
    can: int | None = None
    """Number of the can it is about."""
    readings: tuple[Reading, ...] = ()
    """What the instruments showed, with their uncertainty."""
    shown: tuple[Shown, ...] = ()
    """What was seen and felt."""
    feel: str = ""
    """What a gauge said: `loose`, `drags` or `tight`."""
    found: tuple[str, ...] = ()
    """Ids of causes that looking at a part showed."""
    caution: str = ""
    """Id of the caution that this went against; the round is over."""
    refused: str = ""
    """Why it could not be done; nothing was used up. `no-can`, `no-budget`, `unplugged`, `finished` or `unknown`."""
