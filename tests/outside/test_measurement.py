"""Uncertainty and guard band against the GUM, JCGM 106 and the `uncertainties` library."""

from __future__ import annotations

import pytest
import sympy
from uncertainties import ufloat

from codegen.generated import written
from tinwright.codegen.equation import Equation
from tinwright.seaming import (
    FORMULAS,
    Formula,
    compare,
    conformance_probability,
    parse_reading,
    reading_uncertainty,
)

# GUM H.1, calibration of an end gauge: estimates and standard uncertainties as in the data set GUM.H.1 of the R package
# metRology (written by NIST authors).
END_GAUGE = {
    "ls": (50_000_623.0, 25.0),
    "d": (215.0, 5.8),
    "c1": (0.0, 3.9),
    "c2": (0.0, 6.7),
    "a": (11.5e-6, 1.2e-6),
    "da": (0.0, 0.58e-6),
    "t": (-0.1, 0.2),
    "D": (0.0, 0.35),
    "dt": (0.0, 0.029),
}


def end_gauge_formula() -> Formula:
    ls, d, c1, c2, a, da, t, big, dt = sympy.symbols("ls d c1 c2 a da t D dt")
    expression = (ls * (1 + a * (t + big + dt)) + d + c1 + c2) / (1 + (a + da) * (t + big))
    return Formula(
        name="end-gauge",
        quantity="length",
        title="Length of the end gauge",
        unit="length",
        variant="",
        arithmetic=written(Equation("l", expression)),
        source="jcgm-100",
        where="H.1",
        grade="source",
        grade_text="GUM H.1",
    )


def test_gum_h_1_end_gauge() -> None:
    # GUM H.1: 50.000 838 mm, combined standard uncertainty 32 nm; unrounded 31.705 (R metRology, GTC)
    formula = end_gauge_formula()
    values = {name: value for name, (value, _) in END_GAUGE.items()}
    errors = {name: error for name, (_, error) in END_GAUGE.items()}
    assert formula.value(values) == pytest.approx(50_000_838, abs=0.5)
    found = formula.uncertainty(values, errors)
    assert round(found) == 32
    assert found == pytest.approx(31.70511, abs=5e-6)


def test_gum_h_1_is_first_order_as_it_says() -> None:
    # GUM H.1.7: second-order terms raise it to 34 nm; ours leaves them out, as 5.1.2 does
    formula = end_gauge_formula()
    values = {name: value for name, (value, _) in END_GAUGE.items()}
    errors = {name: error for name, (_, error) in END_GAUGE.items()}
    assert formula.uncertainty(values, errors) < 33


def test_gum_h_1_against_the_uncertainties_library() -> None:
    given = {name: ufloat(*pair) for name, pair in END_GAUGE.items()}
    ls, d, c1, c2, a, da, t, big, dt = (given[name] for name in END_GAUGE)
    result = (ls * (1 + a * (t + big + dt)) + d + c1 + c2) / (1 + (a + da) * (t + big))
    values = {name: value for name, (value, _) in END_GAUGE.items()}
    errors = {name: error for name, (_, error) in END_GAUGE.items()}
    assert end_gauge_formula().uncertainty(values, errors) == pytest.approx(result.std_dev, rel=1e-9)


@pytest.mark.parametrize("formula", FORMULAS.values(), ids=FORMULAS)
def test_every_seam_formula_against_the_uncertainties_library(formula: Formula) -> None:
    values = {"CH": 0.076, "BH": 0.078, "Te": 0.010, "Tb": 0.009, "W": 0.118, "S": 0.055, "G": 0.004}
    errors = {"CH": 0.001, "BH": 0.001, "Te": 0.0005, "Tb": 0.0004, "W": 0.001, "S": 0.0005, "G": 0.0002}
    result = formula.arithmetic.evaluate(*(ufloat(values[name], errors[name]) for name in formula.symbols))
    assert formula.value(values) == pytest.approx(result.nominal_value, rel=1e-12)
    assert formula.uncertainty(values, errors) == pytest.approx(result.std_dev, rel=1e-9)


def test_the_error_of_an_overlap_is_1_8_times_that_of_a_reading() -> None:
    # facts file 4.1, checked there with uncertainties: .0018 in
    errors = {"CH": 0.001, "BH": 0.001, "W": 0.001, "Te": 0.0005}
    values = {"CH": 0.080, "BH": 0.080, "Te": 0.010, "W": 0.120}
    assert round(FORMULAS["overlap-a"].uncertainty(values, errors), 4) == 0.0018


# JCGM 106:2012, examples of 7.3.3 and 7.4: value, low, high, standard uncertainty, probability
EXAMPLES = {
    "7.3.3 example 1, breakdown voltage of a diode": (-5.47, None, -5.40, 0.05, 0.9192),
    "7.3.3 example 2, burst of a container": (509.7, 490.0, None, 8.6, 0.9890),
    "7.4, kinematic viscosity of oil": (13.6, 12.5, 16.3, 1.8, 0.6626),
}


@pytest.mark.parametrize("name", EXAMPLES)
def test_conformance_probability_against_jcgm_106(name: str) -> None:
    value, low, high, uncertainty, expected = EXAMPLES[name]
    assert round(conformance_probability(value, low, high, uncertainty), 4) == expected


def test_the_guard_band_lets_at_most_5_percent_through_at_the_limit() -> None:
    # JCGM 106:2012, 8.3: w = 1.645 u; a value that is just accepted conforms with 95 percent
    edge = 0.072 + 1.645 * 0.001
    assert compare(edge, 0.072, None, 0.001) == "accept"
    assert conformance_probability(edge, 0.072, None, 0.001) == pytest.approx(0.95, abs=1e-4)


def test_the_rounding_of_a_reading_against_the_gum() -> None:
    # JCGM 100:2008, F.2.2.1: resolution d gives u = 0.29 d (d/sqrt(12) is 0.2887 d)
    assert round(reading_uncertainty(0.0, 1.0), 2) == 0.29
    # JCGM 100:2008, 4.3.7, example: an error of at most 0.40e-6, so u = 0.23e-6 (numbers from memory of the example)
    assert round(reading_uncertainty(0.0, 2 * 0.40), 2) == 0.23
    # and with an instrument of its own error, as independent contributions (5.1.2, equation 10)
    both = ufloat(0.0, 0.0005) + ufloat(0.0, 0.01 / 12**0.5)
    assert reading_uncertainty(0.0005, 0.01) == pytest.approx(both.std_dev, rel=1e-12)


def test_the_rounding_is_that_of_the_last_place_written() -> None:
    steps = {".08": 0.01, ".080": 0.001, "80 thou": 0.001, "2.0 mm": 0.1 / 25.4, "2.03 mm": 0.01 / 25.4, "5/64": 1 / 64}
    for text, step in steps.items():
        found = parse_reading(text).step
        assert found is not None
        assert float(found) == pytest.approx(step, rel=1e-12)
