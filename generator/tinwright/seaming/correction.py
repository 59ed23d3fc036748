"""The correction: which adjuster, which way, how far at most, and the test can that always follows."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.errors import SeamingError
from tinwright.seaming.sentences import sentence
from tinwright.seaming.signs import ADJUSTERS

if TYPE_CHECKING:
    from fractions import Fraction

__all__ = ["RETEST", "SECOND_CANNOT_MEND", "CorrectionAdvice", "Screw", "correct", "turns_text"]

RETEST = sentence("retest")
"""What follows every correction."""
SECOND_CANNOT_MEND = sentence("second-cannot-mend")
"""The first operation decides how much metal is in the seam."""
CHECK_FIRST = sentence("check-after-first")
"""How to see that it was fixed."""
ALL_AFTER = sentence("all-after")
"""What follows a change of the set-up."""
LOCK = sentence("lock")
"""What goes before any adjustment."""

SET_IN_STEPS = frozenset({"base-height", "base-pressure", "roller-height", "first-roller", "second-roller"})
"""What is moved a little at a time; the screw of a loose chuck is tightened all the way."""
_NEARER = frozenset({"tighten", "raise"})
_FARTHER = frozenset({"loosen", "lower"})
_OTHERS = frozenset({"replace", "refit", "clean", "sort-out", "redo"})
_ROUNDING = 1e-9


@dataclass(frozen=True)
class Screw:
    """An adjuster of a sealer."""

    adjuster: str
    """What it sets."""
    tighten: str | None = None
    """How to bring the roller nearer, raise the pressure or lift the base."""
    loosen: str | None = None
    """How to go the other way."""
    travel_per_turn_in: float | None = None
    """Measured movement of the roller, not of the screw, for one turn, in inches; None when it was not measured."""
    safe_step: Fraction | None = None
    """Largest part of a turn before a test can; None when the sealer's record has none."""


@dataclass(frozen=True)
class CorrectionAdvice:
    """What to do about a cause."""

    adjuster: str
    """What is acted on."""
    direction: str
    """Which way, such as `tighten`."""
    how: str | None
    """How this sealer is moved that way; None when its record does not say, or nothing is turned."""
    turns: Fraction | None
    """Part of a turn to take now; None when the sealer's record does not support a number."""
    amount: str
    """The same in words; empty when nothing is turned."""
    notes: tuple[str, ...]
    """What else matters, such as that the second operation cannot fix the first."""
    retest: str
    """What follows."""


def turns_text(turns: Fraction) -> str:
    """Write a part of a turn.

    >>> from fractions import Fraction
    >>> turns_text(Fraction(1, 8)), turns_text(Fraction(2))
    ('1/8 turn', '2 turns')
    """
    return f"{turns} turn" if turns <= 1 else f"{turns} turns"


def correct(
    adjuster: str, direction: str, screw: Screw | None = None, out_by_in: float | None = None
) -> CorrectionAdvice:
    """Say how far and in what order to correct a cause; what to do in words is the cause's own.

    Turns are given only when the sealer's record has both the measured travel and the
    safe step: as many as the amount asks for, rounded down to whole safe steps, and never more than one safe step. How
    far a hook follows a roller is not published, so this is the most to try before the next test can, not the cure.

    Args:
        adjuster: what is acted on, such as `first-roller`.
        direction: `tighten`, `loosen`, `raise`, `lower`, `replace`, `refit`, `clean`, `sort-out` or `redo`.
        screw: the sealer's adjuster for it; None when it has none.
        out_by_in: how far the dimension is out of its limits, in inches, zero or more; None when not known.

    Raises:
        SeamingError: when adjuster or direction is unknown, or an amount is negative or travel or step not above zero.

    >>> from fractions import Fraction
    >>> screw = Screw("first-roller", "Turn the screw clockwise.", None, 0.05, Fraction(1, 8))
    >>> advice = correct("first-roller", "tighten", screw, 0.010)
    >>> advice.turns, advice.amount
    (Fraction(1, 8), 'Move it 1/8 turn, no more.')
    """
    if adjuster not in ADJUSTERS or direction not in _NEARER | _FARTHER | _OTHERS:
        raise SeamingError(f"expected a known adjuster and direction, got {adjuster!r} and {direction!r}")
    turned = adjuster in SET_IN_STEPS and direction not in _OTHERS
    how = None
    turns, amount = None, ""
    if turned and screw is not None:
        how = screw.tighten if direction in _NEARER else screw.loosen
        turns, amount = _amount(screw, out_by_in)
    elif turned:
        amount = sentence("move-least")
    return CorrectionAdvice(adjuster, direction, how, turns, amount, _notes(adjuster, turned), RETEST)


def _amount(screw: Screw, out_by_in: float | None) -> tuple[Fraction | None, str]:
    travel, step = screw.travel_per_turn_in, screw.safe_step
    if (travel is not None and travel <= 0) or (step is not None and step <= 0):
        raise SeamingError("expected travel and safe step above zero")
    if out_by_in is not None and out_by_in < 0:
        raise SeamingError(f"expected an amount of zero or more, got {out_by_in}")
    if step is None:
        return None, sentence("move-least")
    if travel is None or out_by_in is None or out_by_in == 0:
        return None, sentence("move-at-most", turns=turns_text(step))
    steps = math.floor(out_by_in / travel / float(step) + _ROUNDING)
    if steps < 1:
        return None, sentence("move-less", turns=turns_text(step))
    return step, sentence("move", turns=turns_text(step))


def _notes(adjuster: str, turned: bool) -> tuple[str, ...]:
    notes: list[str] = []
    if turned:
        notes.append(LOCK)
    if adjuster == "first-roller":
        notes += [SECOND_CANNOT_MEND, CHECK_FIRST]
    elif adjuster in {"chuck", "base-height", "base-pressure", "roller-height"}:
        notes.append(ALL_AFTER)
    return tuple(notes)
