"""Ranking of causes and order of checks against published figures, exact enumeration and other libraries."""

from __future__ import annotations

import itertools

import pytest

from tinwright.seaming import find_posterior

# Four causes and three signs; project's own numbers, run in pgmpy 1.1.2: .00783737 .49375459 .49375459 .00465344
PRIORS = [0.4, 0.3, 0.2, 0.1]
SIGNS = {"s1": [0.9, 0.2, 0.3, 0.05], "s2": [0.1, 0.7, 0.4, 0.05], "s3": [0.2, 0.3, 0.9, 0.1]}
FOUND = {"s1": False, "s2": True, "s3": True}
EXPECTED = [0.00783737, 0.49375459, 0.49375459, 0.00465344]


def likelihoods() -> list[list[float]]:
    return [
        [SIGNS[name][cause] if present else 1 - SIGNS[name][cause] for name, present in FOUND.items()]
        for cause in range(4)
    ]


def test_published_bayes_with_two_signs() -> None:
    # A. Koubaa, lecture on Bayesian networks, inference by enumeration: prior .1, .8 and .7 against .2 and .3;
    # .056 / .110 = .5090909
    assert find_posterior([0.1, 0.9], [[0.8, 0.7], [0.2, 0.3]])[0] == pytest.approx(0.5090909, abs=5e-8)


def test_posterior_against_the_figures_of_pgmpy() -> None:
    # pgmpy 1.1.2, VariableElimination, printed these; the library is too large to install for one test
    assert list(find_posterior(PRIORS, likelihoods())) == pytest.approx(EXPECTED, abs=5e-9)


def test_posterior_against_exact_enumeration() -> None:
    joint = dict.fromkeys(range(4), 0.0)
    for cause, *present in itertools.product(range(4), *([[False, True]] * 3)):
        weight = PRIORS[cause]
        for (_, row), seen in zip(SIGNS.items(), present, strict=True):
            weight *= row[cause] if seen else 1 - row[cause]
        if present == list(FOUND.values()):
            joint[cause] += weight
    total = sum(joint.values())
    assert list(find_posterior(PRIORS, likelihoods())) == pytest.approx([joint[cause] / total for cause in range(4)])
