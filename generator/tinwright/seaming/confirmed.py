"""A verdict by a sheet that nobody stands by: it is no reason to let a can go."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tinwright.seaming.guard import ACCEPT, MEASURE_AGAIN

if TYPE_CHECKING:
    from tinwright.seaming.verdict import SeamVerdict

__all__ = ["hold_unconfirmed"]


def hold_unconfirmed(verdict: SeamVerdict, said: str) -> SeamVerdict:
    """Hold back acceptance by limits that were not read against the paper they come from, and say so first.

    Args:
        verdict: the verdict by those limits.
        said: what is to be said of them; nothing when they were read as they stand.

    >>> from tinwright.seaming.verdict import SeamVerdict
    >>> hold_unconfirmed(SeamVerdict("accept", (), ("All is inside.",)), "The sheet was changed.").outcome
    'measure-again'
    """
    if not said:
        return verdict
    outcome = MEASURE_AGAIN if verdict.outcome == ACCEPT else verdict.outcome
    return replace(verdict, outcome=outcome, reasons=(said, *verdict.reasons))
