"""Setting up a sealer for a can: its chuck, its roller slot, and the spacers that bring the base to the right height.

from tinwright.seaming import Spacer, find_stacks

find_stacks(Fraction(3, 8), [Spacer("thin spacer", Fraction(3, 16), 2)]).exact
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import lcm
from typing import TYPE_CHECKING

from tinwright.errors import SeamingError
from tinwright.measures import CanCode, parse_can_code, parse_size
from tinwright.remembering import remembered

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

__all__ = [
    "SealerSetup",
    "SetUp",
    "Slot",
    "Spacer",
    "Stack",
    "StackSearch",
    "find_stacks",
    "reachable_stacks",
    "set_up",
]

_MOST_HEIGHTS = 200_000
"""A set of spacers that reaches more heights than this is a slip of the pen, not a box of spacers."""


@dataclass(frozen=True)
class Spacer:
    """Spacers of one kind."""

    name: str
    """What they are called."""
    size_in: Fraction
    """Thickness in inches, above zero."""
    count: int
    """How many there are, zero or more."""


@dataclass(frozen=True)
class Stack:
    """Some spacers put together."""

    pieces: tuple[tuple[Spacer, int], ...]
    """Each kind used and how many of it, thickest first; empty for the bare base."""
    height_in: Fraction
    """Their height together, in inches."""

    @property
    def count(self) -> int:
        """How many pieces it takes."""
        return sum(number for _, number in self.pieces)


@dataclass(frozen=True)
class StackSearch:
    """What can be stacked for a height."""

    needed_in: Fraction
    """The height needed, in inches; negative when the can is too tall for the bare base."""
    exact: Stack | None
    """The stack of just that height, of fewest pieces; of those the one with more of the thickest."""
    below: Stack | None
    """The nearest lower stack, where there is no exact one."""
    above: Stack | None
    """The nearest higher stack, where there is no exact one."""

    @property
    def gap_below_in(self) -> Fraction | None:
        """How much the nearest lower stack falls short, in inches."""
        return None if self.below is None else self.needed_in - self.below.height_in

    @property
    def gap_above_in(self) -> Fraction | None:
        """By how much the nearest higher stack is too high, in inches."""
        return None if self.above is None else self.above.height_in - self.needed_in


@dataclass(frozen=True)
class Slot:
    """A position of the rollers."""

    slot: str
    """How it is marked."""
    sizes: tuple[str, ...]
    """Diameter codes it is for."""


@dataclass(frozen=True)
class SealerSetup:
    """What of a sealer matters for setting it up."""

    chucks: tuple[str, ...]
    """Diameter codes of the chucks it has."""
    seat_height_in: Fraction | None
    """From the chuck's seat to the bare base, lever home, in inches: the height of a can that needs no spacer; None
    when nobody has measured it."""
    spacers: tuple[Spacer, ...] = ()
    """The spacers it has."""
    slots: tuple[Slot, ...] = ()
    """Its roller positions; none when the rollers need no moving."""


@dataclass(frozen=True)
class SetUp:
    """How a sealer is set up for a can, or why it cannot be."""

    can: CanCode
    """The can."""
    chuck: str | None
    """Diameter code of the chuck; None when the sealer lacks it."""
    slot: str | None
    """Mark of the roller slot; None when the rollers need no moving, or no slot is for this can."""
    needed_in: Fraction
    """Height to fill with spacers, in inches; negative when the can is too tall, 0 while the seat is not measured."""
    stack: StackSearch
    """The spacers to fill it."""
    problems: tuple[str, ...]
    """Why the can cannot be sealed on this sealer, in plain words; empty when it can."""
    measured: bool = True
    """False while nobody has measured the height of the seat."""

    @property
    def fits(self) -> bool:
        """True when chuck, slot and stack are all there."""
        return not self.problems


def reachable_stacks(spacers: Sequence[Spacer]) -> dict[Fraction, Stack]:
    """Find the best stack for every height that can be reached, by height in inches, rising.

    Exact: heights are counted in whole units of the common denominator. The best stack is of fewest pieces, then with
    more of the thickest kind. Spacers of one thickness under two names stay two kinds.

    Raises:
        SeamingError: when a thickness is not above zero, a count is negative, or the heights are more than 200,000.

    >>> spacers = [Spacer("thin", Fraction(3, 16), 2)]
    >>> [str(height) for height in reachable_stacks(spacers)]
    ['0', '3/16', '3/8']
    """
    return dict(_reachable(tuple(spacers)))


@remembered
def _reachable(spacers: tuple[Spacer, ...]) -> Mapping[Fraction, Stack]:
    for spacer in spacers:
        if spacer.size_in <= 0 or spacer.count < 0:
            raise SeamingError(
                f"expected a spacer with a thickness above zero and a count of zero or more, got {spacer.count} of "
                f"{spacer.size_in} in ({spacer.name})"
            )
    kinds = sorted(spacers, key=lambda spacer: (-spacer.size_in, spacer.name))
    unit = lcm(*(kind.size_in.denominator for kind in kinds))
    # Height in units -> counts of the kinds so far. Fewest pieces first, then the greatest counts in the order of
    # kinds: a better beginning of the same height stays better whatever is put on it.
    best: dict[int, tuple[int, ...]] = {0: ()}
    for kind in kinds:
        size = int(kind.size_in * unit)
        grown: dict[int, tuple[int, ...]] = {}
        for height, counts in best.items():
            for number in range(kind.count + 1):
                total, candidate = height + number * size, (*counts, number)
                present = grown.get(total)
                if present is None or _is_better(candidate, present):
                    grown[total] = candidate
            if len(grown) > _MOST_HEIGHTS:
                raise SeamingError(f"expected spacers that reach at most {_MOST_HEIGHTS} heights, got more")
        best = grown
    stacks: dict[Fraction, Stack] = {}
    for height in sorted(best):
        pieces = tuple((kind, number) for kind, number in zip(kinds, best[height], strict=True) if number)
        stacks[Fraction(height, unit)] = Stack(pieces, Fraction(height, unit))
    return stacks


def _is_better(one: tuple[int, ...], other: tuple[int, ...]) -> bool:
    return (sum(one), tuple(-number for number in one)) < (sum(other), tuple(-number for number in other))


def find_stacks(needed: Fraction, spacers: Sequence[Spacer]) -> StackSearch:
    """Find the spacers that make up a height in inches exactly, or the nearest stacks below and above.

    Nothing is rounded. A bounded subset sum by dynamic programming; taking the thickest first would miss stacks.

    Raises:
        SeamingError: as `reachable_stacks`.

    >>> found = find_stacks(Fraction(10), [Spacer("a", Fraction(6), 1), Spacer("b", Fraction(5), 2)])
    >>> [(spacer.name, number) for spacer, number in found.exact.pieces]
    [('b', 2)]
    """
    stacks = reachable_stacks(spacers)
    if needed in stacks:
        return StackSearch(needed, stacks[needed], None, None)
    below = max((height for height in stacks if height < needed), default=None)
    above = min((height for height in stacks if height > needed), default=None)
    return StackSearch(
        needed,
        None,
        None if below is None else stacks[below],
        None if above is None or needed < 0 else stacks[above],
    )


def set_up(can_code: CanCode | str, sealer: SealerSetup) -> SetUp:
    """Work out chuck, roller slot and spacers for a round can on a sealer.

    Raises:
        SeamingError: when the can code cannot be read or the can is not round, or as `reachable_stacks`.

    >>> sealer = SealerSetup(("301",), Fraction(39, 8), (Spacer("thin spacer", Fraction(3, 16), 2),))
    >>> set_up("301x408", sealer).stack.exact.count
    2
    """
    can = can_code if isinstance(can_code, CanCode) else parse_can_code(can_code)
    problems: list[str] = []
    diameter = can.diameter_in
    chuck = next((chuck for chuck in sealer.chucks if parse_size(chuck) == diameter), None)
    if chuck is None:
        problems.append(f"This sealer has no {can.diameter} chuck.")
    slot = next((slot.slot for slot in sealer.slots if diameter in map(parse_size, slot.sizes)), None)
    if slot is None and sealer.slots:
        problems.append(f"No roller slot of this sealer is for {can.diameter} cans.")
    if sealer.seat_height_in is None:
        problems.append("Measure this sealer first: from the chuck's seat to the bare base, lever home.")
        return SetUp(can, chuck, slot, Fraction(0), StackSearch(Fraction(0), None, None, None), tuple(problems), False)
    needed = sealer.seat_height_in - can.height_in
    stack = find_stacks(needed, sealer.spacers)
    if needed < 0:
        problems.append("The can is too tall: it does not go in even on the bare base.")
    elif stack.exact is None:
        problems.append("No stack of this sealer's spacers is just as high as needed.")
    return SetUp(can, chuck, slot, needed, stack, tuple(problems))
