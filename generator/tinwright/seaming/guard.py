"""Guarded comparison of one value with its limits, after JCGM 106:2012."""

from __future__ import annotations

import math
from statistics import NormalDist

__all__ = [
    "ACCEPT",
    "GUARD_FACTOR",
    "MEASURE_AGAIN",
    "REJECT",
    "compare",
    "conformance_probability",
    "reading_uncertainty",
]

ACCEPT, MEASURE_AGAIN, REJECT = "accept", "measure-again", "reject"

GUARD_FACTOR = 1.645
"""Guard band in standard uncertainties: at most 5 percent are wrongly accepted at a limit (JCGM 106:2012, 8.3)."""
CLOSE = 1e-9
"""Rounding of the computer, far below what any gauge shows: a value this close to a limit is at the limit."""


def reading_uncertainty(stated: float, step: float) -> float:
    """Combine the standard uncertainty of an instrument with the rounding of what was written down.

    A reading written to a step may lie anywhere half a step to either side: a uniform distribution of half-width a,
    whose standard uncertainty is a/sqrt(3) (JCGM 100:2008, 4.3.7 and F.2.2.1: 0.29 of the step).

    Args:
        stated: standard uncertainty of the instrument, zero or more.
        step: unit of the last place written, in the same unit; zero when it is not known.

    >>> round(reading_uncertainty(0.0, 0.01), 5), round(reading_uncertainty(0.0005, 0.001), 5)
    (0.00289, 0.00058)
    """
    return math.sqrt(stated * stated + step * step / 12)


def compare(value: float, low: float | None, high: float | None, uncertainty: float) -> str:
    """Compare a value with its limits: accept, measure again or reject.

    Accept only inside the limits by the guard band, reject only outside them by the guard band (JCGM 106:2012, 8.3).

    Args:
        value: what was measured.
        low: least value allowed, in the same unit; None for no limit.
        high: greatest value allowed.
        uncertainty: standard uncertainty of the value, zero or more, in the same unit.

    >>> compare(0.0735, 0.072, 0.084, 0.0005), compare(0.0725, 0.072, 0.084, 0.0005)
    ('accept', 'measure-again')
    """
    guard = GUARD_FACTOR * uncertainty
    if (low is not None and value < low - guard - CLOSE) or (high is not None and value > high + guard + CLOSE):
        return REJECT
    if (low is not None and value < low + guard - CLOSE) or (high is not None and value > high - guard + CLOSE):
        return MEASURE_AGAIN
    return ACCEPT


def conformance_probability(value: float, low: float | None, high: float | None, uncertainty: float) -> float:
    """Compute the probability that the true value lies within the limits, for an error of normal distribution.

    Source: JCGM 106:2012, 7.2 to 7.4. With an uncertainty of zero it is 0 or 1.

    >>> round(conformance_probability(13.6, 12.5, 16.3, 1.8), 4)
    0.6626
    """
    if uncertainty == 0:
        return 1.0 if compare(value, low, high, 0.0) == ACCEPT else 0.0
    below = 1.0 if high is None else _normal((high - value) / uncertainty)
    above = 0.0 if low is None else _normal((low - value) / uncertainty)
    return below - above


def _normal(z: float) -> float:
    return NormalDist().cdf(z)
