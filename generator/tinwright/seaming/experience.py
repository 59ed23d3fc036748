"""What a programme's own log adds to the ranking: how often each cause was confirmed behind the defects told.

The ranking's shares for a defect are taken as ten cases that somebody has seen before, and the ones confirmed behind
this defect are added (Dirichlet prior and multinomial counts). What the other sealers of the programme taught comes
first and counts as ten cases in turn, so that a sealer's own cases soon outweigh it. Each defect has its own cases, and
those of a cause that another sign speaks against are not added at all: a history weighs before a sign, never over it.
As in `causes`, only sums, products and quotients in a fixed order.
"""

from __future__ import annotations

from dataclasses import dataclass, field
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

    own: Mapping[str, Mapping[str, int]]
    """On the sealer in question, by the key of the sign that tells the defect, then by cause."""
    others: Mapping[str, Mapping[str, int]]
    """On the other sealers of the programme; on all of them when no sealer is named."""
    behind: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Keys of the signs that each cause was confirmed behind: all the dimensions of a defect that is measured."""

    def times(self, cause: str) -> tuple[int, int]:
        """Return how often the cause was confirmed in the programme, and how many confirmed cases there were.

        >>> Experience({"droop": {"chuck-worn": 2}}, {"droop": {"chuck-worn": 1, "chuck-loose": 3}}).times("chuck-worn")
        (3, 6)
        """
        own, others = self.own_times(cause), _times(self.others, cause)
        return own[0] + others[0], own[1] + others[1]

    def own_times(self, cause: str) -> tuple[int, int]:
        """Return the same for the sealer in question alone."""
        return _times(self.own, cause)

    def is_behind(self, cause: str, sign: Sign) -> bool:
        """Say whether the cause was confirmed behind what this sign tells."""
        return sign.kind in {"defect", "direction"} and sign.key in self.behind.get(cause, ())

    def without(self, causes: Iterable[str]) -> Experience:
        """Return what is left when the cases of these causes are taken out."""
        left_out = set(causes)

        def left(rows: Mapping[str, Mapping[str, int]]) -> dict[str, dict[str, int]]:
            return {key: {cause: n for cause, n in row.items() if cause not in left_out} for key, row in rows.items()}

        behind = {cause: keys for cause, keys in self.behind.items() if cause not in left_out}
        return Experience(left(self.own), left(self.others), behind)


def _times(rows: Mapping[str, Mapping[str, int]], cause: str) -> tuple[int, int]:
    return sum(row.get(cause, 0) for row in rows.values()), sum(sum(row.values()) for row in rows.values())


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
    own: dict[str, dict[str, int]] = {}
    others: dict[str, dict[str, int]] = {}
    behind: dict[str, set[str]] = {}
    for count in confirmed:
        parts = measured.get(count.defect) or {}
        if parts:
            if any(signs.directions.get(dimension) != direction for dimension, direction in parts.items()):
                continue
        elif count.defect not in signs.defects:
            continue
        keys = sorted(parts) or [count.defect]
        # Several dimensions tell one defect: its cases count once, with the first of them.
        row = (own if count.sealer == sealer else others).setdefault(keys[0], {})
        row[count.cause] = row.get(count.cause, 0) + count.times
        behind.setdefault(count.cause, set()).update(keys)
    if not own and not others:
        return None
    return Experience(own, others, {cause: tuple(sorted(keys)) for cause, keys in behind.items()})


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
