"""How far pass and fail can be trusted at a cut: would the same people pass again, and do the right ones pass?

Two methods for consistency, since each assumes something: the normal approximation takes scores for bell-shaped, the
beta-binomial method takes true scores for beta-distributed and errors for binomial. Two indices beside them weigh how
far people lie from the cut.

Peng & Subkoviak 1980; Subkoviak 1988, Journal of Educational Measurement 25:47-55; Livingston & Lewis 1995, Journal of
Educational Measurement 32:179-197; Livingston 1972; Brennan 1980 (abstracts read or from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, exp, log, sqrt
from typing import TYPE_CHECKING

from scipy.integrate import quad
from scipy.special import betainc, betaincc, betainccinv, betaincinv, ndtr, owens_t

from tinwright.errors import QuizError
from tinwright.quizzes.statistic import Statistic

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = [
    "Consistency",
    "Decisions",
    "TrueScores",
    "decide",
    "effective_length",
    "fit_true_scores",
    "livingston_k2",
    "normal_consistency",
    "phi_lambda",
]


@dataclass(frozen=True)
class Consistency:
    """How often two sittings of the same people would decide alike."""

    agreement: float
    """Share of people with the same decision twice."""
    chance: float
    """Share that would agree if the two sittings had nothing in common."""
    kappa: Statistic
    """What the sittings add to chance, as a share of what they could add."""


@dataclass(frozen=True)
class TrueScores:
    """The spread of true shares right: a beta distribution between two ends."""

    alpha: float
    """First shape, above zero."""
    beta: float
    """Second shape, above zero."""
    low: float = 0.0
    """Least true share."""
    high: float = 1.0
    """Greatest true share."""

    def __post_init__(self) -> None:
        if self.alpha <= 0 or self.beta <= 0:
            raise QuizError(f"expected shapes above zero, got {self.alpha:g} and {self.beta:g}")
        if not 0 <= self.low < self.high <= 1:
            raise QuizError(f"expected ends in order from 0 to 1, got {self.low:g} and {self.high:g}")


@dataclass(frozen=True)
class Decisions:
    """The four kinds of decision at a cut, as shares of all people, and what follows from them."""

    true_pass: float
    """Able, and passed."""
    false_fail: float
    """Able, and failed."""
    false_pass: float
    """Not able, and passed."""
    true_fail: float
    """Not able, and failed."""
    consistency: Consistency
    """Agreement of two sittings."""

    @property
    def accuracy(self) -> float:
        """Share of people decided rightly."""
        return self.true_pass + self.true_fail


def normal_consistency(mean: float, deviation: float, reliability: float, cut: float) -> Consistency:
    """Compute consistency as if the scores of two sittings were normal together.

    Args:
        mean: mean number right.
        deviation: standard deviation of the number right, above zero.
        reliability: 0 to 1, taken for the correlation of the two sittings.
        cut: fewest right answers that pass; the boundary is put half an item below.

    Raises:
        QuizError: when the numbers do not fit.

    Method: Peng & Subkoviak 1980.

    >>> found = normal_consistency(14, 2.5, 0.70, 16)
    >>> round(found.agreement, 4), round(found.kappa.value, 4)
    (0.7906, 0.4741)
    """
    if deviation <= 0:
        raise QuizError("everybody has the same score")
    _check_reliability(reliability)
    z = (cut - 0.5 - mean) / deviation
    below = float(ndtr(z))
    # P(both below z) = F(z) - 2 T(z, a) with Owen's T, so 1 - 2 [F(z) - P(both below)] = 1 - 4 T(z, a).
    both = float(owens_t(z, sqrt((1 - reliability) / (1 + reliability))))
    return _consistency(1 - 4 * both, 1 - 2 * below * (1 - below))


def effective_length(mean: float, variance: float, reliability: float, *, least: float = 0.0, greatest: float) -> float:
    """Compute how many items, right or wrong and equally hard, would be as precise as this examination.

    Args:
        mean: mean score.
        variance: variance of the scores, above zero.
        reliability: 0 to below 1.
        least: least score possible.
        greatest: greatest score possible.

    Raises:
        QuizError: when the numbers do not fit.

    Method: Livingston & Lewis 1995.

    >>> round(effective_length(14, 6.25, 0.7, greatest=20), 5)
    42.46667
    """
    if not least < mean < greatest or variance <= 0:
        raise QuizError("needs a mean inside the scores possible and scores that differ")
    if not 0 <= reliability < 1:
        raise QuizError(f"needs a reliability from 0 to below 1, has {reliability:.2f}")
    length = ((mean - least) * (greatest - mean) - reliability * variance) / (variance * (1 - reliability))
    if length < 1:
        raise QuizError("the scores spread more than any test of this reliability could make them")
    return length


def fit_true_scores(
    mean: float, variance: float, reliability: float, *, least: float = 0.0, greatest: float
) -> TrueScores:
    """Fit the spread of true shares to the mean and to the reliable part of the variance.

    Args:
        mean: mean score.
        variance: variance of the scores, above zero.
        reliability: above 0 to 1.
        least: least score possible.
        greatest: greatest score possible.

    Raises:
        QuizError: when the numbers do not fit, or nothing of the variance is reliable.

    >>> fitted = fit_true_scores(14, 6.25, 0.7, greatest=20)
    >>> round(fitted.alpha / (fitted.alpha + fitted.beta), 6)
    0.7
    """
    if not least < mean < greatest:
        raise QuizError("needs a mean inside the scores possible")
    _check_reliability(reliability)
    span = greatest - least
    share, spread = (mean - least) / span, reliability * variance / span**2
    if spread <= 0:
        raise QuizError("nothing of the spread of the scores is reliable")
    total = share * (1 - share) / spread - 1
    if total <= 0:
        raise QuizError("the true scores would spread more than scores between these ends can")
    return TrueScores(share * total, (1 - share) * total)


def decide(true: TrueScores, *, items: int, cut: int, length: float | None = None) -> Decisions:
    """Compute the four kinds of decision and the consistency under the beta-binomial model.

    Somebody is able whose true share reaches cut / items. A sitting is taken as `length` items of one difficulty,
    rounded to whole ones; it is passed above the boundary half an item of the examination below its cut.

    Args:
        true: the spread of true shares.
        items: how many items the examination has.
        cut: fewest right answers that pass, 1 to the number of items.
        length: effective length, one item or more; the number of items unless given.

    Raises:
        QuizError: when the numbers do not fit.

    Method: Hanson 1991; Livingston & Lewis 1995.

    >>> found = decide(TrueScores(5, 3, low=0.25), items=20, cut=16)
    >>> round(found.accuracy, 6), round(found.consistency.agreement, 6), round(found.false_pass, 6)
    (0.791213, 0.729642, 0.162778)
    """
    if not 1 <= cut <= items:
        raise QuizError(f"expected a cut from 1 to the number of items, got {cut} of {items}")
    trials = items if length is None else round(length)
    if trials < 1:
        raise QuizError(f"expected an effective length of one item or more, got {length:g}")
    needed = max(1, ceil(round((cut - 0.5) / items * trials, 9)))
    span = true.high - true.low
    boundary = min(1.0, max(0.0, (cut / items - true.low) / span))

    def passes(place: float) -> float:
        return float(betainc(needed, trials - needed + 1, true.low + span * place))

    def passes_twice(place: float) -> float:
        return passes(place) ** 2

    able_pass, unable_pass = _mean_over(true, passes, boundary, 1.0), _mean_over(true, passes, 0.0, boundary)
    twice = _mean_over(true, passes_twice, boundary, 1.0) + _mean_over(true, passes_twice, 0.0, boundary)
    passed = able_pass + unable_pass
    return Decisions(
        true_pass=able_pass,
        false_fail=float(betaincc(true.alpha, true.beta, boundary)) - able_pass,
        false_pass=unable_pass,
        true_fail=float(betainc(true.alpha, true.beta, boundary)) - unable_pass,
        consistency=_consistency(1 - 2 * (passed - twice), passed**2 + (1 - passed) ** 2),
    )


def livingston_k2(mean: float, variance: float, reliability: float, cut: float) -> float:
    """Compute Livingston's index: the reliability, raised by how far the mean lies from the cut.

    Args:
        mean: mean number right.
        variance: its variance, zero or more.
        reliability: 0 to 1.
        cut: the cut, in items.

    Raises:
        QuizError: when the numbers do not fit, or nobody's score differs from the cut.

    >>> livingston_k2(14, 6.25, 0.7, 14)
    0.7
    """
    if variance < 0:
        raise QuizError(f"expected a variance of zero or more, got {variance:g}")
    _check_reliability(reliability)
    away = (mean - cut) ** 2
    if variance + away == 0:
        raise QuizError("everybody's score is the cut")
    return (reliability * variance + away) / (variance + away)


def phi_lambda(items: int, mean: float, variance: float, cut: float) -> float:
    """Compute Brennan and Kane's dependability of a decision at a cut, with the items drawn at random from many.

    Args:
        items: how many items, two or more.
        mean: mean share right.
        variance: variance of the shares right, divisor n.
        cut: share right at the cut.

    Raises:
        QuizError: when the numbers do not fit, or nobody's score differs from the cut.

    At a cut equal to the mean it is Kuder-Richardson 21.

    >>> round(phi_lambda(10, 0.66, 0.0584, 0.8), 6)
    0.763533
    """
    if items < 2:
        raise QuizError(f"needs two items, has {items}")
    if not 0 <= mean <= 1 or variance < 0:
        raise QuizError(f"expected a mean from 0 to 1 and a variance of zero or more, got {mean:g} and {variance:g}")
    spread = (mean - cut) ** 2 + variance
    if spread == 0:
        raise QuizError("everybody's score is the cut")
    return 1 - (mean * (1 - mean) - variance) / (items - 1) / spread


def _check_reliability(reliability: float) -> None:
    if not 0 <= reliability <= 1:
        raise QuizError(f"needs a reliability from 0 to 1, has {reliability:.2f}")


def _consistency(agreement: float, chance: float) -> Consistency:
    if 1 - chance < 1e-12:
        return Consistency(agreement, chance, Statistic(None, "everybody passes, or nobody does"))
    return Consistency(agreement, chance, Statistic((agreement - chance) / (1 - chance)))


def _mean_over(true: TrueScores, of: Callable[[float], float], low: float, high: float) -> float:
    """Integrate over the people between two places of the beta distribution, each from 0 to 1."""
    shapes = (true.alpha, true.beta)
    # The integral runs over the rank of a person instead of the place, which takes out the density: it may be infinite
    # at the ends, or a needle. Ranks are counted from below and from above to the middle, and by their logarithm, so
    # that places near either end are told apart. Who ranks below one in 10^16 does not show in the result.
    total = 0.0
    for rank_of, place_of, start, end in (
        (betainc, betaincinv, low, high),
        (betaincc, betainccinv, high, low),
    ):
        first, last = max(1e-16, float(rank_of(*shapes, start))), min(0.5, float(rank_of(*shapes, end)))

        def share(logarithm: float, place_of: Callable[..., float] = place_of) -> float:
            rank = exp(logarithm)
            return rank * of(float(place_of(*shapes, rank)))

        # Ends that differ by rounding alone leave nothing to divide.
        if last - first > 1e-14:
            total += float(quad(share, log(first), log(last), epsabs=1e-10, limit=200)[0])
    return total
