"""What the programme's own counts say about causes: in what order to name them, and how often each was seen here."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.advice.profiles import most_likely_first, read_signs
from tinwright.seaming import Confirmed, Experience, Signs, add_cases, find_experience
from tinwright.seaming.sentences import sentence
from tinwright.seaming.signs import DEFECT_SEEN

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Defect
    from tinwright.knowledge.models.trouble import CauseLink

__all__ = [
    "SeenBehind",
    "causes_in_order",
    "confirmed_of",
    "experience_with",
    "link_shares",
    "say_times",
    "seen_behind",
    "seen_on",
]


@dataclass(frozen=True)
class SeenBehind:
    """What was confirmed behind one defect."""

    total: int
    """How many causes were confirmed, 1 or more."""
    times: Mapping[str, str]
    """In words, for each cause that was confirmed: `seen here 4 of 6 times`."""
    unlisted: tuple[str, ...]
    """Ids of causes confirmed here that the defect does not name."""
    through: int
    """The year up to which it was counted."""
    invented: bool
    """Whether the counts are made up for a demonstration."""


def confirmed_of(kb: KnowledgeBase) -> tuple[Confirmed, ...]:
    """Return the counts of the programme; none when there is no log."""
    counts = kb.seen_here.confirmed if kb.seen_here else ()
    return tuple(Confirmed(count.sealer, count.defect, count.cause, count.times) for count in counts)


def experience_with(kb: KnowledgeBase, signs: Signs, sealer: str | None = None) -> Experience | None:
    """Return what was confirmed before behind the defects that the signs tell of, or None when that is nothing."""
    measured = {defect.id: read for defect in kb.defects.values() if (read := read_signs(defect))}
    return find_experience(confirmed_of(kb), measured, signs, sealer)


def say_times(experience: Experience | None, cause: str) -> str:
    """Say how often a cause was confirmed, in counts: a percentage of six cases would claim too much.

    >>> others = {"droop": {"chuck-worn": 2, "chuck-loose": 2}}
    >>> say_times(Experience({"droop": {"chuck-worn": 2}}, others), "chuck-worn")
    'seen here 4 of 6 times, on this sealer 2 of 2'
    """
    times, total = experience.times(cause) if experience else (0, 0)
    if experience is None or not times:
        return ""
    here = sentence("times", times=times, total=total)
    own, own_total = experience.own_times(cause)
    if not experience.others or not own_total:
        return here
    return sentence("times-here", here=here, times=own, total=own_total)


def seen_behind(kb: KnowledgeBase, defect: Defect) -> SeenBehind | None:
    """Return what was confirmed behind a defect in the whole programme; None when that is nothing."""
    counts = _counts(kb, defect)
    if kb.seen_here is None or not counts:
        return None
    experience = Experience({}, {defect.id: counts})
    listed = {link.cause for link in defect.causes}
    return SeenBehind(
        sum(counts.values()),
        {cause: say_times(experience, cause) for cause in counts},
        tuple(sorted(counts.keys() - listed)),
        kb.seen_here.through,
        kb.seen_here.invented,
    )


def seen_on(kb: KnowledgeBase, sealer: str) -> tuple[Confirmed, ...]:
    """Return what was confirmed on one sealer, the most frequent first."""
    mine = [count for count in confirmed_of(kb) if count.sealer == sealer]
    return tuple(sorted(mine, key=lambda count: (-count.times, count.defect, count.cause)))


def link_shares(kb: KnowledgeBase, defect: Defect) -> dict[str, float]:
    """Return the weight of each cause a defect names: its likelihood as a number, or its share with the cases added."""
    links = {link.cause: DEFECT_SEEN[link.likelihood] for link in defect.causes}
    counts = _counts(kb, defect)
    if not counts:
        return links
    weight = sum(links.values())
    shares = add_cases([part / weight for part in links.values()], [counts.get(cause, 0) for cause in links])
    return dict(zip(links, shares, strict=True))


def causes_in_order(kb: KnowledgeBase, defect: Defect) -> list[CauseLink]:
    """Sort the links of a defect to its causes, the likeliest first, by likelihood and by what was confirmed here.

    Links of one likelihood, and of one share, stay in the educator's order.
    """
    links = most_likely_first(defect.causes)
    if not _counts(kb, defect):
        return links
    shares = link_shares(kb, defect)
    return sorted(links, key=lambda link: -shares[link.cause])


def _counts(kb: KnowledgeBase, defect: Defect) -> dict[str, int]:
    counts: dict[str, int] = {}
    for count in confirmed_of(kb):
        if count.defect == defect.id:
            counts[count.cause] = counts.get(count.cause, 0) + count.times
    return counts
