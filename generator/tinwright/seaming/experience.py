"""What a programme's own log adds to the ranking: how often each cause was confirmed behind the defects told.

The ranking's shares for those defects are taken as ten cases that somebody has seen before, and the confirmed ones are
added (Dirichlet prior and multinomial counts). What the other sealers of the programme taught comes first and counts as
ten cases in turn, so that a sealer's own cases soon outweigh it. What was measured or told besides is weighed after
that: a history never outvotes a reading. As in `causes`, only sums, products and quotients in a fixed order.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from tinwright.seaming.signs import Sign, Signs

__all__ = ["PRIOR_CASES", "Confirmed", "Experience", "add_cases", "find_experience"]

PRIOR_CASES = 10.0
"""Weight of what was thought before, in cases. Our own judgment: enough that one case does not turn the order."""


@dataclass(frozen=True)
class Confirmed:
    """How often a cause was confirmed behind a defect on a sealer."""

    sealer: str
    """Id of the sealer."""
    defect: str
    """Id of the defect."""
    cause: str
    """Id of the cause."""
    times: int
    """How often, 1 or more."""


@dataclass(frozen=True)
class Experience:
    """The confirmed causes of the defects told."""

    own: Mapping[str, int]
    """On the sealer in question, by cause; empty when none is named."""
    others: Mapping[str, int]
    """On the other sealers of the programme, by cause; on all of them when none is named."""
    dimensions: tuple[str, ...] = ()
    """Measured dimensions that tell a defect which was counted; the counts stand for them, too."""

    def times(self, cause: str) -> tuple[int, int]:
        """Return how often the cause was confirmed in the programme, and how many confirmed cases there were.

        >>> Experience({"chuck-worn": 2}, {"chuck-worn": 1, "chuck-loose": 3}).times("chuck-worn")
        (3, 6)
        """
        found = self.own.get(cause, 0) + self.others.get(cause, 0)
        return found, sum(self.own.values()) + sum(self.others.values())

    def own_times(self, cause: str) -> tuple[int, int]:
        """Return the same for the sealer in question alone."""
        return self.own.get(cause, 0), sum(self.own.values())

    def is_about(self, sign: Sign) -> bool:
        """Say whether a sign is one of the defects that the counts are about."""
        return sign.kind == "defect" or (sign.kind == "direction" and sign.key in self.dimensions)


def find_experience(
    confirmed: Iterable[Confirmed],
    measured: Mapping[str, Mapping[str, str]],
    signs: Signs,
    sealer: str | None = None,
) -> Experience | None:
    """Collect what was confirmed behind the defects that the signs tell of; None when that is nothing.

    Args:
        confirmed: the counts of the programme.
        measured: defects that are dimensions out of their limits, with the directions that make them up.
        signs: what was seen, felt, measured and told.
        sealer: the sealer in question.
    """
    own: dict[str, int] = {}
    others: dict[str, int] = {}
    dimensions: dict[str, None] = {}
    for count in confirmed:
        parts = measured.get(count.defect)
        if parts:
            if any(signs.directions.get(dimension) != direction for dimension, direction in parts.items()):
                continue
            dimensions.update(dict.fromkeys(parts))
        elif count.defect not in signs.defects:
            continue
        counts = own if count.sealer == sealer else others
        counts[count.cause] = counts.get(count.cause, 0) + count.times
    return Experience(own, others, tuple(sorted(dimensions))) if own or others else None


def add_cases(shares: Sequence[float], counts: Sequence[int]) -> tuple[float, ...]:
    """Add confirmed cases to shares that stand for `PRIOR_CASES` cases: the mean of the Dirichlet posterior.

    Args:
        shares: the share of each cause before, in all 1.
        counts: how often each was confirmed.

    >>> [round(share, 4) for share in add_cases([0.4, 0.3, 0.2, 0.1], [1, 5, 0, 2])]
    [0.2778, 0.4444, 0.1111, 0.1667]
    """
    total = 0
    for count in counts:
        total = total + count
    return tuple(
        (PRIOR_CASES * share + count) / (PRIOR_CASES + total) for share, count in zip(shares, counts, strict=True)
    )
