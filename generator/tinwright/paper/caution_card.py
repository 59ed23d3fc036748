"""The caution card: what can hurt, on one page beside the machine."""

from __future__ import annotations

from itertools import accumulate
from typing import TYPE_CHECKING

from tinwright.knowledge.models.caution_term import Signal

if TYPE_CHECKING:
    from tinwright.knowledge.models import Caution
    from tinwright.paper.press import Press, Printed

__all__ = ["caution_card"]

_FIRST = "botulism"
"""The caution that stands first, in full."""
_ORDERS = 2
"""How many orders of each other caution stand on the card."""
_A_LINE = 40
"""What the last line of each caution leaves empty, about, in letters."""


def caution_card(press: Press) -> Printed:
    """Print the caution card: every hazard to people, the gravest word first; notices are left to the handbook.

    Raises:
        PaperError: when the cautions are too many or too long for one page.
        MissingExtraError: when the libraries of the extra `paper` are not installed.
    """
    first = press.kb.cautions.get(_FIRST)
    others = [caution for caution in press.kb.cautions.values() if caution is not first]
    groups = [
        (word, _halves([caution for caution in others if caution.signal is word]))
        for word in (Signal.DANGER, Signal.WARNING, Signal.CAUTION)
    ]
    return press.print(
        "caution-card.pdf",
        "caution-card.html.j2",
        title="Caution card",
        cards=["caution-card"],
        first=first,
        orders=_ORDERS,
        groups=[(word, halves) for word, halves in groups if any(halves)],
    )


def _halves(cautions: list[Caution]) -> tuple[list[Caution], list[Caution]]:
    """Share cautions out to two columns of about the same length, in order."""
    lengths = list(accumulate(_length(caution) for caution in cautions))
    cut = min(range(len(cautions) + 1), key=lambda at: abs(2 * (lengths[at - 1] if at else 0) - sum(lengths[-1:])))
    return cautions[:cut], cautions[cut:]


def _length(caution: Caution) -> int:
    return len(caution.title) + sum(map(len, caution.avoid[:_ORDERS])) + _A_LINE
