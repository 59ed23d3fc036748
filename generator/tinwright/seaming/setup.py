"""Set-up of a sealer for a can: chuck, roller position and the exact stack of spacers."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import reduce
from math import lcm
from typing import TYPE_CHECKING

from tinwright.errors import SeamingError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tinwright.seaming.can_codes import CanCode

__all__ = ["SealerSetup", "SetUp", "Spacer", "SpacerSize", "Stack", "StackSearch", "find_stacks", "set_up"]

_MOST_UNITS = 200_000
"""Greatest total height, in units of the common denominator, that is searched."""


@dataclass(frozen=True)
class SpacerSize:
    """Spacers of one thickness that a sealer has."""

    name: str
    """What they are called."""
    size_in: Fraction
    """Thickness in inches, more than zero."""
    count: int
    """How many there are."""


@dataclass(frozen=True)
class Spacer:
    """One spacer in a stack."""

    name: str
    size_in: Fraction


@dataclass(frozen=True)
class Stack:
    """Spacers laid on one another, thickest first; none is a stack too, of height zero."""

    spacers: tuple[Spacer, ...]
    """The spacers."""
    height_in: Fraction
    """Their total thickness in inches."""


@dataclass(frozen=True)
class StackSearch:
    """What the spacers of a sealer give for one height."""

    exact: Stack | None
    """The stack of just that height with the fewest spacers, or None."""
    below: Stack | None
    """The highest stack that is lower, when there is no exact one."""
    above: Stack | None
    """The lowest stack that is higher, when there is no exact one."""


@dataclass(frozen=True)
class SealerSetup:
    """What setting up needs to know of a sealer."""

    seat_height_in: Fraction
    """From the chuck's seat to the bare base, in inches."""
    chucks: tuple[str, ...]
    """Diameter codes of its chucks."""
    slots: tuple[tuple[str, tuple[str, ...]], ...]
    """Roller positions with the diameter codes each is for; empty when the rollers need no moving."""
    spacers: tuple[SpacerSize, ...]
    """Its spacers."""


@dataclass(frozen=True)
class SetUp:
    """How a sealer is set up for a can, as far as it can be."""

    chuck: str | None
    """Diameter code of the chuck, or None when the sealer has none for this can."""
    slot: str | None
    """Roller position, or None when there is none for this can, or the rollers need no moving."""
    needed_in: Fraction
    """Height the stack must have, in inches; negative when the can is too tall."""
    stack: Stack | None
    """The exact stack, or None."""
    below: Stack | None
    """The highest stack that is too low, when none is exact."""
    above: Stack | None
    """The lowest stack that is too high, when none is exact."""


def find_stacks(needed: Fraction, spacers: Sequence[SpacerSize]) -> StackSearch:
    """Find the stack of exactly one height by a bounded subset sum over whole units; never rounded, never greedy.

    Of several exact stacks, the one with the fewest spacers is taken, then the one with the thickest spacers first.

    Args:
        needed: height in inches, zero or more.
        spacers: the spacers at hand.

    Raises:
        SeamingError: when a spacer has no thickness, or the numbers have no sensible common denominator.

    >>> found = find_stacks(Fraction(6), [SpacerSize("a", Fraction(n), 2) for n in (1, 3, 4)])
    >>> [str(spacer.size_in) for spacer in found.exact.spacers]
    ['3', '3']
    """
    if any(spacer.size_in <= 0 or spacer.count < 0 for spacer in spacers):
        raise SeamingError("expected spacers thicker than zero, and none or more of each")
    unit = reduce(lcm, (spacer.size_in.denominator for spacer in spacers), needed.denominator)
    sizes = sorted(spacers, key=lambda spacer: (-spacer.size_in, spacer.name))
    total = sum(int(spacer.size_in * unit) * spacer.count for spacer in sizes)
    if total > _MOST_UNITS:
        raise SeamingError(f"expected spacer sizes with a small common denominator, got 1/{unit} in")
    best: dict[int, tuple[int, ...]] = {0: (0,) * len(sizes)}
    for index, spacer in enumerate(sizes):
        step = int(spacer.size_in * unit)
        grown = dict(best)
        for height, counts in best.items():
            for number in range(1, spacer.count + 1):
                taken = (*counts[:index], number, *counts[index + 1 :])
                known = grown.get(height + number * step)
                if known is None or _better(taken, known):
                    grown[height + number * step] = taken
        best = grown
    goal = int(needed * unit)

    def stack(height: int) -> Stack:
        pieces = [Spacer(s.name, s.size_in) for s, n in zip(sizes, best[height], strict=True) for _ in range(n)]
        return Stack(tuple(pieces), Fraction(height, unit))

    if goal in best:
        return StackSearch(stack(goal), None, None)
    lower = [height for height in best if height < goal]
    higher = [height for height in best if height > goal]
    return StackSearch(None, stack(max(lower)) if lower else None, stack(min(higher)) if higher else None)


def _better(counts: tuple[int, ...], other: tuple[int, ...]) -> bool:
    return (-sum(counts), counts) > (-sum(other), other)


def set_up(code: CanCode, sealer: SealerSetup) -> SetUp:
    """Work out chuck, roller position and spacers for a round can on a sealer.

    The stack fills what the can leaves free: seat height of the sealer less height of the can.

    Raises:
        SeamingError: for a rectangular can.
    """
    chuck = code.diameter if code.diameter in sealer.chucks else None
    slot = next((name for name, sizes in sealer.slots if code.diameter in sizes), None)
    needed = sealer.seat_height_in - code.height_in
    if needed < 0:
        return SetUp(chuck, slot, needed, None, None, None)
    found = find_stacks(needed, sealer.spacers)
    return SetUp(chuck, slot, needed, found.exact, found.below, found.above)
