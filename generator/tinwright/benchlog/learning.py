"""What the log teaches: which cause was really behind a defect, in counts, and how sure those can make anybody.

Confirmed causes are counts of a multinomial; what the content says before them (common, occasional, rare) is a
Dirichlet prior of `seaming.PRIOR_CASES` cases. Only the counts are ever published, and on pages only as counts.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.seaming import PRIOR_CASES, Confirmed, add_cases
from tinwright.seaming.signs import DEFECT_SEEN

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from tinwright.benchlog.events import Event

__all__ = ["CauseShare", "count_causes", "shares_behind"]


@dataclass(frozen=True)
class CauseShare:
    """What is to be thought of one cause of a defect, once the confirmed cases are added."""

    cause: str
    """Its id."""
    times: int
    """How often it was confirmed."""
    total: int
    """How many cases of the defect were confirmed."""
    mean: float
    """Its share of the cases to come, 0 to 1: the mean of the posterior."""
    low: float
    """Lower end of the interval of that share."""
    high: float
    """Upper end."""


def count_causes(events: Iterable[Event]) -> tuple[Confirmed, ...]:
    """Count the confirmed causes by sealer, defect and cause.

    A cause of a defect counts once in a session, however many people wrote it down; struck entries do not count.

    Args:
        events: events of any number of sessions, in any order.

    Returns:
        The counts, sorted by sealer, defect and cause.
    """
    cases = {
        (event.session, event.defect, event.cause) for event in events if event.kind == "cause" and not event.struck
    }
    times = Counter((session[2], defect, cause) for session, defect, cause in cases)
    return tuple(Confirmed(*key, number) for key, number in sorted(times.items()))


def shares_behind(words: Mapping[str, str], counts: Mapping[str, int], confidence: float = 0.95) -> list[CauseShare]:
    """Work out the share of each cause behind a defect, with its interval, the greatest first.

    Args:
        words: what the content says of each cause it names: `common`, `occasional` or `rare`. A confirmed cause that
            it does not name starts with the weight of a defect not linked to it.
        counts: how often each cause was confirmed.
        confidence: of each interval by itself: a quantile of the Beta margin at either end.

    >>> behind = shares_behind({"first-roller-loose": "common", "chuck-worn": "occasional"}, {"chuck-worn": 4})
    >>> [(share.cause, f"{share.times} of {share.total}", round(share.mean, 2)) for share in behind]
    [('chuck-worn', '4 of 4', 0.52), ('first-roller-loose', '0 of 4', 0.48)]
    """
    from scipy.stats import beta  # noqa: PLC0415 - counting must not wait for it

    causes = [*words, *sorted(counts.keys() - words.keys())]
    weights = [DEFECT_SEEN[words.get(cause, "")] for cause in causes]
    times = [counts.get(cause, 0) for cause in causes]
    total, weight = sum(times), sum(weights)
    means = add_cases([part / weight for part in weights], times)
    tail, cases = (1 - confidence) / 2, PRIOR_CASES + total
    found = [
        CauseShare(
            cause,
            number,
            total,
            mean,
            float(beta.ppf(tail, mean * cases, (1 - mean) * cases)) if mean < 1 else 1.0,
            float(beta.ppf(1 - tail, mean * cases, (1 - mean) * cases)) if mean < 1 else 1.0,
        )
        for cause, number, mean in zip(causes, times, means, strict=True)
    ]
    return sorted(found, key=lambda share: -share.mean)
