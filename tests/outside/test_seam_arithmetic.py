"""Seam formulas, set-up and units against published definitions, worked vectors and other libraries."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pint
import pytest

from tinwright.measures import parse_can_code, parse_length, parse_size
from tinwright.seaming import FORMULAS, SealerSetup, Spacer, set_up

# Worked vectors of the project, marked derived: calculated from the definitions, no publisher.
VECTORS = {
    "T1": (
        {"CH": 0.076, "BH": 0.078, "Te": 0.010, "Tb": 0.010, "W": 0.118, "S": 0.055},
        {
            "overlap-a": 0.0460,
            "percent-overlap-a": 52.27,
            "percent-overlap-b": 55.29,
            "percent-overlap-c": 58.02,
            "body-hook-butting": 78.82,
            "free-space": 0.0050,
            "compactness": 90.91,
        },
    ),
    "T3": (
        {"CH": 0.060, "BH": 0.078, "Te": 0.010, "Tb": 0.010, "W": 0.122, "S": 0.060},
        {
            "overlap-a": 0.0260,
            "percent-overlap-a": 28.26,
            "percent-overlap-b": 30.34,
            "percent-overlap-c": 31.76,
            "body-hook-butting": 75.28,
            "free-space": 0.0100,
            "compactness": 83.33,
        },
    ),
}


@pytest.mark.parametrize("vector", VECTORS)
def test_worked_vectors(vector: str) -> None:
    seam, expected = VECTORS[vector]
    for name, value in expected.items():
        places = 4 if FORMULAS[name].unit == "length" else 2
        assert round(FORMULAS[name].value(seam), places) == value, name


def test_overlap_is_the_regulations_theoretical_overlap_length() -> None:
    # 21 CFR 113.60(a)(1)(iii), 2015 edition, read whole: CH + BH + T - W, T the cover thickness, W the seam width
    exact = Decimal("0.076") + Decimal("0.078") + Decimal("0.010") - Decimal("0.118")
    found = FORMULAS["overlap-a"].value({"CH": 0.076, "BH": 0.078, "Te": 0.010, "W": 0.118})
    assert found == pytest.approx(float(exact), abs=1e-15)
    assert FORMULAS["overlap-a"].text == "O = CH + BH + Te − W"


def test_free_space_and_compactness_are_one_fact() -> None:
    # by definition C = 100 (1 - FS/S)
    for seam, _ in VECTORS.values():
        free, compact = FORMULAS["free-space"].value(seam), FORMULAS["compactness"].value(seam)
        assert compact == pytest.approx(100 * (1 - free / seam["S"]))


def test_setup_of_the_two_demonstration_cans() -> None:
    # common practice: the tall can takes two 3/16 in spacers, the flat one those, a 5/16 in one and an extension
    sealer = SealerSetup(
        ("301", "307"),
        Fraction(39, 8),
        (
            Spacer("thin spacer", Fraction(3, 16), 2),
            Spacer("thick spacer", Fraction(5, 16), 1),
            Spacer("extension", Fraction(139, 64), 1),
        ),
    )
    stacks = {}
    for code in ("301x408", "307x200.25"):
        found = set_up(code, sealer).stack.exact
        assert found is not None
        stacks[code] = {spacer.name: number for spacer, number in found.pieces}
    assert stacks == {
        "301x408": {"thin spacer": 2},
        "307x200.25": {"thin spacer": 2, "thick spacer": 1, "extension": 1},
    }


# Can code -> inches, mm to four places: Can Manufacturers Institute's rule (inches and sixteenths), 1 in = 25.4 mm.
# 200.25 is an inference from trade use.
CODES = {
    "113": ("1.812500", "46.0375"),
    "200": ("2.000000", "50.8000"),
    "200.25": ("2.015625", "51.1969"),
    "202": ("2.125000", "53.9750"),
    "211": ("2.687500", "68.2625"),
    "300": ("3.000000", "76.2000"),
    "301": ("3.062500", "77.7875"),
    "303": ("3.187500", "80.9625"),
    "307": ("3.437500", "87.3125"),
    "401": ("4.062500", "103.1875"),
    "404": ("4.250000", "107.9500"),
    "408": ("4.500000", "114.3000"),
    "409": ("4.562500", "115.8875"),
    "411": ("4.687500", "119.0625"),
    "502": ("5.125000", "130.1750"),
    "603": ("6.187500", "157.1625"),
    "700": ("7.000000", "177.8000"),
    "1012": ("10.750000", "273.0500"),  # the Army's own example, 10-12/16 in
}


@pytest.mark.parametrize("code", CODES)
def test_can_codes_in_inches_and_millimeters(code: str) -> None:
    inches, mm = CODES[code]
    assert parse_size(code) == Fraction(inches)
    can = parse_can_code(f"307x{code}")
    assert float(can.height_mm) == pytest.approx(float(mm), abs=5.1e-5)


# Fraction of an inch -> decimal inch, mm, all exact (NIST SP 811, appendix B: 1 in = 25.4 mm exactly).
FRACTIONS = {
    "1/64": ("0.015625", "0.396875"),
    "1/32": ("0.03125", "0.79375"),
    "3/64": ("0.046875", "1.190625"),
    "1/16": ("0.0625", "1.5875"),
    "2/16": ("0.125", "3.175"),
    "3/16": ("0.1875", "4.7625"),
    "4/16": ("0.25", "6.35"),
    "5/16": ("0.3125", "7.9375"),
    "6/16": ("0.375", "9.525"),
    "7/16": ("0.4375", "11.1125"),
    "8/16": ("0.5", "12.7"),
    "9/16": ("0.5625", "14.2875"),
    "10/16": ("0.625", "15.875"),
    "11/16": ("0.6875", "17.4625"),
    "12/16": ("0.75", "19.05"),
    "13/16": ("0.8125", "20.6375"),
    "14/16": ("0.875", "22.225"),
    "15/16": ("0.9375", "23.8125"),
    "16/16": ("1", "25.4"),
}


@pytest.mark.parametrize("text", FRACTIONS)
def test_fractions_of_an_inch(text: str) -> None:
    inches, mm = FRACTIONS[text]
    length = parse_length(f"{text} in")
    assert length.inches == Fraction(inches)
    assert length.mm == Fraction(mm)


@pytest.mark.parametrize("text", ["5/64 in", "1/8 in", "0.055 in", "2 11/64 in", "1.40 mm", "24 mm"])
def test_unit_arithmetic_against_pint(text: str) -> None:
    # pint with exact fractions as oracle
    registry = pint.UnitRegistry(non_int_type=Fraction)
    length = parse_length(text)
    quantity = registry.Quantity(length.value, "inch" if length.unit == "in" else "millimeter")
    assert quantity.to("millimeter").magnitude == length.mm
    assert quantity.to("inch").magnitude == length.inches
