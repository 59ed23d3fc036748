"""Chance that is the same in Python and in the browser."""

from __future__ import annotations

__all__ = ["Chance"]

_BITS = 0xFFFFFFFF


class Chance:
    """Numbers in no order that anybody sees, the same for the same seed.

    The generator is the 32-bit one with shifts 13, 17 and 5 (Marsaglia 2003, "Xorshift RNGs", Journal of Statistical
    Software 8(14), section 3). Good enough for practice, for nothing else.

    Args:
        seed: from 1 to 4294967295.

    >>> Chance(2463534242).whole(1000)
    168
    """

    def __init__(self, seed: int) -> None:
        self._state = seed

    def draw(self) -> float:
        """Return a number from zero up to, and without, one."""
        state = self._state
        state = state ^ (state << 13) & _BITS
        state = state ^ (state >> 17)
        state = state ^ (state << 5) & _BITS
        self._state = state
        return state / 4294967296.0

    def whole(self, count: int) -> int:
        """Return a whole number from zero up to, and without, `count`."""
        return int(self.draw() * count)

    def error(self, uncertainty: float) -> float:
        """Return an error of reading with a standard uncertainty.

        Three draws together have a variance of a quarter: each has 1/12 (JCGM 100:2008, 4.3.7).
        """
        return (self.draw() + self.draw() + self.draw() - 1.5) * 2.0 * uncertainty
