"""Threads, wires, fractions and units against published tables and a units library."""

from __future__ import annotations

from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tinwright.errors import SeamingError
from tinwright.measures import awg_diameter_in, nearest_awg, parse_length, screw_travel_in

# Thread: travel for one turn in inches, millimeters, a quarter turn in inches. UNC and UNF threads per inch:
# Mechanical Engineer's Data Handbook, p. 301 (read); travel is 1/threads.
INCH_THREADS = {
    "No. 4-40 UNC": (0.02500, 0.6350, 0.00625), "No. 6-32 UNC": (0.03125, 0.7937, 0.00781),
    "No. 8-36 UNF": (0.02778, 0.7056, 0.00694), "No. 10-24 UNC": (0.04167, 1.0583, 0.01042),
    "No. 10-32 UNF": (0.03125, 0.7937, 0.00781), "1/4-20 UNC": (0.05000, 1.2700, 0.01250),
    "1/4-28 UNF": (0.03571, 0.9071, 0.00893), "5/16-18 UNC": (0.05556, 1.4111, 0.01389),
    "3/8-24 UNF": (0.04167, 1.0583, 0.01042), "1/2-13 UNC": (0.07692, 1.9538, 0.01923),
    "5/8-11 UNC": (0.09091, 2.3091, 0.02273),
}  # fmt: skip

# Size: coarse pitch in mm, in inches. ISO coarse series as printed in metric thread pitch charts (read).
METRIC_THREADS = {
    "M3": (0.5, 0.01969),
    "M5": (0.8, 0.03150),
    "M6": (1, 0.03937),
    "M8": (1.25, 0.04921),
    "M10": (1.5, 0.05906),
}

# Gauge number: inches. ASTM B258 as tabulated in general references (read), four places.
AWG = {
    -3: 0.4600,
    0: 0.3249,
    10: 0.1019,
    14: 0.0641,
    15: 0.0571,
    16: 0.0508,
    17: 0.0453,
    18: 0.0403,
    20: 0.0320,
    24: 0.0201,
    30: 0.0100,
    36: 0.0050,
}


@pytest.mark.parametrize(("thread", "expected"), INCH_THREADS.items())
def test_one_turn_of_an_inch_screw(thread: str, expected: tuple[float, float, float]) -> None:
    travel = screw_travel_in(thread)
    assert float(travel) == pytest.approx(expected[0], abs=5e-6)
    assert float(travel * Fraction(127, 5)) == pytest.approx(expected[1], abs=6e-5)
    assert float(travel / 4) == pytest.approx(expected[2], abs=6e-6)


@pytest.mark.parametrize(("thread", "expected"), METRIC_THREADS.items())
def test_one_turn_of_a_metric_screw(thread: str, expected: tuple[float, float]) -> None:
    assert float(screw_travel_in(thread) * Fraction(127, 5)) == expected[0]
    assert float(screw_travel_in(thread)) == pytest.approx(expected[1], abs=6e-6)


@pytest.mark.parametrize(("number", "inches"), AWG.items())
def test_a_wire_of_a_gauge_number_is_as_thick_as_the_standard_says(number: int, inches: float) -> None:
    assert awg_diameter_in(number) == pytest.approx(inches, abs=6e-5)
    assert nearest_awg(inches) == number


@pytest.mark.parametrize("thread", ["", "M7.3", "1/4", "20", "M6x0", "1/4-0"])
def test_a_thread_that_cannot_be_read_is_refused(thread: str) -> None:
    with pytest.raises(SeamingError):
        screw_travel_in(thread)


UNITS = pint.UnitRegistry(non_int_type=Fraction)


@given(st.integers(0, 12), st.integers(0, 63), st.sampled_from(["in", "mm"]))
def test_lengths_convert_as_the_units_library_does(whole: int, top: int, unit: str) -> None:
    # pint keeps the exact factor 25.4 (NIST SP 811, appendix B)
    written = f"{whole} {top}/64" if unit == "in" else f"{whole + top / 64:.6f}"
    length = parse_length(f"{written} {unit}")
    quantity = (whole + Fraction(top, 64)) * UNITS(unit)
    assert length.inches == quantity.to("in").magnitude
    assert length.mm == quantity.to("mm").magnitude


# Fraction of an inch: millimeters, exact. Common conversion table; 1 in = 25.4 mm (NIST SP 811, appendix B).
@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("1/64 in", "0.396875"),
        ("1/32 in", "0.79375"),
        ("3/16 in", "4.7625"),
        ("5/16 in", "7.9375"),
        ("11/16 in", "17.4625"),
    ],
)
def test_fractions_of_an_inch_are_exact_millimeters(text: str, mm: str) -> None:
    assert parse_length(text).mm == Fraction(mm)
