"""Ranking of causes from any mix of signs, in words, with the reasons for and against each.

    from tinwright.seaming.causes import rank
    from tinwright.seaming.signs import CauseProfile, Signs

    rank(causes, Signs(directions={"body-hook": "larger", "cover-hook": "smaller", "countersink": "normal"}))

One cause is taken to be at work, and the signs to be independent of each other given the cause (Bayes' rule). A cause
that no sign speaks for has no share. Only products, sums and quotients of fixed decimals in a fixed order, so that
Python and the browser agree bit for bit.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.seaming.experience import add_cases
from tinwright.seaming.signs import (
    ADJUSTERS,
    Sign,
    is_against,
    is_fault,
    list_signs,
    speaks_for,
    weigh,
    weigh_unknown,
)
from tinwright.seaming.wording import DIMENSIONS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tinwright.seaming.experience import Experience
    from tinwright.seaming.signs import CauseProfile, Signs

__all__ = [
    "Distinction",
    "Ranked",
    "Ranking",
    "Reason",
    "find_distinctions",
    "find_posterior",
    "find_shares",
    "guess_shares",
    "order_of",
    "rank",
]

LIKELY, POSSIBLE, UNLIKELY = "likely", "possible", "unlikely"
LIKELY_PART, POSSIBLE_PART = 2.0, 10.0
"""A cause is likely down to a half of the top share, possible down to a tenth."""
FINEST = 1e12
"""Shares are kept to one part in so many: what differs by less is a tie, not a matter of rounding."""
CLOSE = 1e-9
"""A share this near to a bound reaches it."""


@dataclass(frozen=True)
class Reason:
    """What one sign says about one cause."""

    sign: Sign
    """The sign."""
    stance: str
    """`supports`, `contradicts` or `neutral`, measured against an unknown cause; a defect that the cause was confirmed
    behind here supports it."""


@dataclass(frozen=True)
class Ranked:
    """One cause in its place."""

    cause: str
    """Its id."""
    word: str
    """`likely`, `possible` or `unlikely`."""
    share: float
    """Its share of the probability, 0 to 1. For ordering and tests: no counts support it as a number on a page."""
    reasons: tuple[Reason, ...]
    """What each sign says about it."""


@dataclass(frozen=True)
class Distinction:
    """A sign not yet given that would tell two causes apart."""

    kind: str
    """`defect`, `direction`, `extent` or `repeats`."""
    key: str
    """The defect or dimension; empty for the other kinds."""
    first: tuple[str, ...]
    """What to expect with the first cause."""
    second: tuple[str, ...]
    """What to expect with the second."""


@dataclass(frozen=True)
class Ranking:
    """The causes from the likeliest to the least likely."""

    causes: tuple[Ranked, ...]
    """All of them; causes of one share in the order of adjustment, then by id."""
    unknown_share: float
    """Share of a cause that is none of these."""
    explained: bool
    """False when no fault was told, or none of the causes explains the signs: stop, ask, discard."""
    apart: tuple[Distinction, ...]
    """What would tell the first two apart, the clearest first; nothing when no second one is offered."""


def find_posterior(priors: Sequence[float], likelihoods: Sequence[Sequence[float]]) -> tuple[float, ...]:
    """Compute the probability of each cause by Bayes' rule, for signs independent of each other given the cause.

    Args:
        priors: probability of each cause before the signs, or any numbers in that proportion.
        likelihoods: for each cause, the probability of each sign found.

    >>> [round(share, 7) for share in find_posterior([0.1, 0.9], [[0.8, 0.7], [0.2, 0.3]])]
    [0.5090909, 0.4909091]
    """
    products = []
    for prior, row in zip(priors, likelihoods, strict=True):
        product = prior
        for likelihood in row:
            product = product * likelihood
        products.append(product)
    total = 0.0
    for product in products:
        total = total + product
    return tuple(product / total for product in products)


def find_shares(
    causes: Sequence[CauseProfile], found: Sequence[Sign], experience: Experience | None = None
) -> tuple[float, ...]:
    """Compute the share of each cause, in the order given, and last that of a cause which is none of them.

    A cause has a share where a sign speaks for it, or where it was confirmed here behind one of the defects found.

    Args:
        causes: the causes, each as likely as the others before the signs.
        found: the signs, in the order of `list_signs`.
        experience: what was confirmed before behind the defects among the signs; None: nothing.
    """
    standing = _standing(causes, found, experience)
    cases = standing.behind if standing else {}
    named = [cause.cause in cases or any(speaks_for(cause, sign) for sign in found) for cause in causes]
    return _weighed([*(1.0 if each else 0.0 for each in named), 1.0], causes, found, standing)


def guess_shares(causes: Sequence[CauseProfile], found: Sequence[Sign]) -> tuple[float, ...]:
    """Compute the same as if a sign spoke for every cause: for guessing at answers that are not yet known."""
    return _weighed([1.0] * (len(causes) + 1), causes, found, None)


def _weighed(
    priors: Sequence[float], causes: Sequence[CauseProfile], found: Sequence[Sign], experience: Experience | None
) -> tuple[float, ...]:
    columns = [_column(causes, sign, experience) for sign in found]
    rows = [[column[place] for column in columns] for place in range(len(priors))]
    return tuple(math.floor(share * FINEST + 0.5) / FINEST for share in find_posterior(priors, rows))


def _column(causes: Sequence[CauseProfile], sign: Sign, experience: Experience | None) -> tuple[float, ...]:
    """Weigh a sign for each cause and for an unknown one, with the cases confirmed behind it added."""
    column = (*(weigh(cause, sign) for cause in causes), weigh_unknown(sign))
    if experience is None or not is_fault(sign):
        return column
    rows = [rows[sign.key] for rows in (experience.others, experience.own) if sign.key in rows]
    if rows:
        column = find_posterior([1.0] * len(column), [[weight] for weight in column])
    for row in rows:
        column = add_cases(column, [*(row.get(cause.cause, 0) for cause in causes), 0])
    return column


def _standing(
    causes: Sequence[CauseProfile], found: Sequence[Sign], experience: Experience | None
) -> Experience | None:
    """Take out the cases of causes that a sign speaks against, unless they were confirmed behind that very sign."""
    if experience is None:
        return None
    return experience.without(
        cause.cause
        for cause in causes
        if any(is_against(cause, sign) and not experience.is_behind(cause.cause, sign) for sign in found)
    )


def order_of(cause: CauseProfile) -> tuple[int, str]:
    """Give the place of a cause among equals: the order of adjustment, then its id."""
    return ADJUSTERS.index(cause.adjuster), cause.cause


def rank(causes: Sequence[CauseProfile], signs: Signs, experience: Experience | None = None) -> Ranking:
    """Rank causes by the signs; each is as likely as the others before them.

    Args:
        causes: the causes in question.
        signs: what was seen, felt, measured and told.
        experience: what was confirmed before behind the defects told; None: nothing.

    >>> from tinwright.seaming.signs import CauseProfile, Signs
    >>> loose = CauseProfile("first-roller-loose", "first-roller", 5, effects={"body-hook": "larger"})
    >>> tight = CauseProfile("first-roller-tight", "first-roller", 5, effects={"body-hook": "smaller"})
    >>> ranking = rank([tight, loose], Signs(directions={"body-hook": "larger"}))
    >>> [(ranked.cause, ranked.word) for ranked in ranking.causes]
    [('first-roller-loose', 'likely'), ('first-roller-tight', 'unlikely')]
    """
    ordered = sorted(causes, key=order_of)
    found = list_signs(signs)
    *shares, unknown = find_shares(ordered, found, experience)
    top = max([*shares, unknown])
    standing = _standing(ordered, found, experience)
    # Sorting is stable: equal shares stay in the order of adjustment.
    placed = sorted(zip(ordered, shares, strict=True), key=lambda entry: -entry[1])
    ranked = tuple(
        Ranked(cause.cause, _word(share, top), share, tuple(_reason(cause, sign, standing) for sign in found))
        for cause, share in placed
    )
    explained = bool(placed) and placed[0][1] > unknown
    are_two = len(ranked) > 1 and ranked[1].word != UNLIKELY
    apart = find_distinctions(placed[0][0], placed[1][0], signs) if are_two else ()
    return Ranking(ranked, unknown, explained, apart)


def _word(share: float, top: float) -> str:
    if share * LIKELY_PART >= top - CLOSE:
        return LIKELY
    return POSSIBLE if share * POSSIBLE_PART >= top - CLOSE else UNLIKELY


def _reason(cause: CauseProfile, sign: Sign, experience: Experience | None) -> Reason:
    one, other = weigh(cause, sign), weigh_unknown(sign)
    if one > other or (experience is not None and experience.is_behind(cause.cause, sign)):
        return Reason(sign, "supports")
    return Reason(sign, "contradicts" if one < other else "neutral")


def find_distinctions(first: CauseProfile, second: CauseProfile, signs: Signs) -> tuple[Distinction, ...]:
    """Find the signs not yet given that the two causes differ in, the clearest first.

    How clear: the greatest quotient of the two probabilities over the answers.
    """
    found: list[tuple[float, Distinction]] = []
    for dimension in DIMENSIONS:
        if dimension not in signs.directions:
            one, other = first.effects.get(dimension), second.effects.get(dimension)
            if one != other and "disputed" not in {one, other}:
                distinction = Distinction("direction", dimension, (one or "normal",), (other or "normal",))
                found.append((_clarity(first, second, distinction), distinction))
    for defect in sorted({*first.likelihoods, *second.likelihoods} - {*signs.defects, *signs.absent}):
        one, other = first.likelihoods.get(defect), second.likelihoods.get(defect)
        if one != other:
            distinction = Distinction("defect", defect, (one or "not-seen",), (other or "not-seen",))
            found.append((_clarity(first, second, distinction), distinction))
    for kind, answer, ones, others in (
        ("extent", signs.extent, first.extents, second.extents),
        ("repeats", signs.repeats, first.repeats, second.repeats),
    ):
        if not answer and ones and others and not set(ones) & set(others):
            distinction = Distinction(kind, "", ones, others)
            found.append((_clarity(first, second, distinction), distinction))
    found.sort(key=lambda entry: -entry[0])
    return tuple(distinction for _, distinction in found)


def _clarity(first: CauseProfile, second: CauseProfile, distinction: Distinction) -> float:
    answers = ("seen",) if distinction.kind == "defect" else (*distinction.first, *distinction.second)
    clarity = 1.0
    for answer in answers:
        sign = Sign(distinction.kind, distinction.key, answer)
        one, other = weigh(first, sign), weigh(second, sign)
        clarity = max(clarity, one / other, other / one)
    return clarity
