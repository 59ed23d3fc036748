"""Learning from confirmed causes, against the conjugate arithmetic of a general-purpose library.

Dirichlet prior and multinomial counts: Gelman et al., Bayesian Data Analysis, 3rd ed., section 3.4 (from memory); the
worked numbers (prior 4 3 2 1, counts 1 5 0 2) are our own, worked with scipy.stats.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from tinwright.benchlog.learning import shares_behind
from tinwright.seaming import PRIOR_CASES, add_cases
from tinwright.seaming.signs import DEFECT_SEEN

PRIOR, COUNTS = [4.0, 3.0, 2.0, 1.0], [1, 5, 0, 2]
WORDS = st.lists(st.sampled_from(["common", "occasional", "rare"]), min_size=2, max_size=9)


def test_the_worked_example() -> None:
    means = add_cases([part / sum(PRIOR) for part in PRIOR], COUNTS)
    assert means == pytest.approx([0.27777778, 0.44444444, 0.11111111, 0.16666667])
    assert means == pytest.approx(stats.dirichlet([a + n for a, n in zip(PRIOR, COUNTS, strict=True)]).mean())


def test_the_means_are_the_chances_of_the_next_case() -> None:
    """The chance of counts with one more case, over that without: what the Dirichlet-multinomial says comes next."""
    means = add_cases([part / sum(PRIOR) for part in PRIOR], COUNTS)
    assert stats.dirichlet_multinomial.pmf(COUNTS, PRIOR, 8) == pytest.approx(0.0034553682)
    for place, mean in enumerate(means):
        after = [prior + count for prior, count in zip(PRIOR, COUNTS, strict=True)]
        next_one = [int(place == other) for other in range(4)]
        assert stats.dirichlet_multinomial.pmf(next_one, after, 1) == pytest.approx(mean)


def test_the_interval_of_the_worked_example() -> None:
    """Cause 2 of the worked example has 8 of 18: 95 percent lie in .2298 to .6708.."""
    found = {
        share.cause: share for share in shares_behind({"a": "common", "b": "occasional", "c": "rare"}, {"b": 5, "c": 3})
    }
    assert found["b"].mean == pytest.approx(8 / 18)
    assert (found["b"].low, found["b"].high) == pytest.approx((0.2298, 0.6708), abs=5e-5)


@given(WORDS, st.data())
def test_shares_and_intervals_are_those_of_scipy(words: list[str], data: st.DataObject) -> None:
    counts = data.draw(st.lists(st.integers(0, 40), min_size=len(words), max_size=len(words)))
    names = [f"c{place}" for place in range(len(words))]
    weights = [DEFECT_SEEN[word] for word in words]
    alpha = [PRIOR_CASES * w / sum(weights) + n for w, n in zip(weights, counts, strict=True)]
    found = {
        s.cause: s for s in shares_behind(dict(zip(names, words, strict=True)), dict(zip(names, counts, strict=True)))
    }
    mean = stats.dirichlet(alpha).mean()
    for place, name in enumerate(names):
        margin = stats.beta(alpha[place], sum(alpha) - alpha[place])
        assert found[name].mean == pytest.approx(mean[place])
        assert (found[name].low, found[name].high) == pytest.approx(margin.interval(0.95))
