"""Order of checks: least expected minutes, under the order of adjustment.

One fault is at work and every suspect is checked or mended and a test can sealed, the last one too; so the expected
time of an order is the sum of probability times the minutes up to and including that check. Without precedence the
falling quotient of probability and minutes is best (Smith 1956). With it, whole beginnings of a chain are moved
together by their best quotient (Sidney 1975).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.errors import SeamingError
from tinwright.seaming.signs import ADJUSTERS

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

__all__ = ["STAGES", "Check", "expected_minutes", "order_checks"]

STAGES: Mapping[str, int] = {
    "chuck": 0,
    "base-height": 0,
    "base-pressure": 0,
    "roller-height": 0,
    "first-roller": 1,
    "second-roller": 2,
}
"""Stage of each adjuster that is set on the sealer: set-up, first roller, second roller. The others are free."""


@dataclass(frozen=True)
class Check:
    """Something to check or mend, followed by a test can."""

    cause: str
    """Id of the cause it is about."""
    adjuster: str
    """What it acts on, one of `signs.ADJUSTERS`."""
    minutes: float
    """How long it takes, above zero."""
    share: float
    """Probability that this is the cause, or any number in that proportion, zero or more."""


@dataclass(frozen=True)
class _Block:
    """Checks that stay together."""

    checks: tuple[Check, ...]
    share: float
    minutes: float


def expected_minutes(order: Sequence[Check]) -> float:
    """Compute the expected time to the fault for checks in the order given.

    >>> order = [Check("a", "operation", 2, 0.25), Check("b", "operation", 1, 0.1)]
    >>> expected_minutes(order)
    0.8
    """
    total, elapsed = 0.0, 0.0
    for check in order:
        elapsed = elapsed + check.minutes
        total = total + check.share * elapsed
    return total


def order_checks(checks: Sequence[Check]) -> tuple[Check, ...]:
    """Put checks in the order of least expected minutes: set-up before first roller before second roller.

    Raises:
        SeamingError: when minutes are not above zero, a share is negative, or an adjuster is unknown.

    >>> trap = [Check("a", "chuck", 4, 0.05), Check("b", "first-roller", 1, 0.60), Check("c", "operation", 3, 0.35)]
    >>> [check.cause for check in order_checks(trap)]
    ['a', 'b', 'c']
    """
    for check in checks:
        if check.minutes <= 0 or check.share < 0 or check.adjuster not in ADJUSTERS:
            raise SeamingError(
                f"expected a check with minutes above zero, a share of zero or more and a known adjuster, got {check}"
            )
    ordered = sorted(checks, key=lambda check: (ADJUSTERS.index(check.adjuster), check.cause))
    chain: list[_Block] = []
    for stage in range(3):
        inside = [_single(check) for check in ordered if STAGES.get(check.adjuster) == stage]
        chain.extend(_by_quotient(inside))
    free = [_single(check) for check in ordered if check.adjuster not in STAGES]
    blocks = _by_quotient([*_best_prefixes(chain), *free])
    return tuple(check for block in blocks for check in block.checks)


def _single(check: Check) -> _Block:
    return _Block((check,), check.share, check.minutes)


def _best_prefixes(chain: Sequence[_Block]) -> list[_Block]:
    """Cut a chain into blocks, each the longest beginning of what is left with the greatest quotient.

    Joining a check to the block before it whenever its quotient is no smaller gives just these blocks.
    """
    blocks: list[_Block] = []
    for block in chain:
        last = block
        while blocks and _is_ahead(last, blocks[-1], or_level=True):
            before = blocks.pop()
            last = _Block(before.checks + last.checks, before.share + last.share, before.minutes + last.minutes)
        blocks.append(last)
    return blocks


def _by_quotient(blocks: Sequence[_Block]) -> list[_Block]:
    """Sort by falling quotient; level blocks keep their order, so a chain stays a chain."""
    placed: list[_Block] = []
    for block in blocks:
        place = len(placed)
        while place and _is_ahead(block, placed[place - 1], or_level=False):
            place -= 1
        placed.insert(place, block)
    return placed


def _is_ahead(one: _Block, other: _Block, *, or_level: bool) -> bool:
    """Compare quotients of share and minutes without dividing."""
    left, right = one.share * other.minutes, other.share * one.minutes
    return left >= right if or_level else left > right
