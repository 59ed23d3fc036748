from __future__ import annotations

from xml.etree import ElementTree as ET

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from seaming.twin import seeded
from tinwright.errors import SeamingError
from tinwright.seaming import FORMULAS, SYMBOLS

SEAM = {"CH": 0.076, "BH": 0.078, "Te": 0.010, "Tb": 0.010, "W": 0.118, "S": 0.055, "G": 0.004}
thousandths = st.integers(40, 90).map(lambda number: number / 1000)


@pytest.mark.parametrize("formula", FORMULAS.values(), ids=FORMULAS)
def test_arrays_and_floats_agree_bit_for_bit(formula) -> None:
    rng = seeded(3)
    rows = [[rng.uniform(0.05, 0.2) for _ in formula.symbols] for _ in range(500)]
    columns = np.array(rows).T
    evaluate = formula.arithmetic.evaluate
    assert evaluate(*columns).tolist() == [evaluate(*row) for row in rows]


@pytest.mark.parametrize("formula", FORMULAS.values(), ids=FORMULAS)
def test_partial_derivatives_match_small_steps(formula) -> None:
    for name in formula.symbols:
        step = 1e-7
        up, down = {**SEAM, name: SEAM[name] + step}, {**SEAM, name: SEAM[name] - step}
        slope = (formula.value(up) - formula.value(down)) / (2 * step)
        found = formula.arithmetic.partials[name](*(SEAM[symbol] for symbol in formula.symbols))
        assert found == pytest.approx(slope, rel=1e-5, abs=1e-6)


@pytest.mark.parametrize("formula", FORMULAS.values(), ids=FORMULAS)
def test_mathml_is_well_formed_and_keeps_the_reading_order(formula) -> None:
    root = ET.fromstring(formula.mathml)  # noqa: S314 - our own markup
    assert root.attrib["alttext"] == formula.text
    letters = "".join(root.itertext())
    places = [letters.index(symbol) for symbol in formula.symbols]
    assert places == sorted(places)


def test_overlap_reads_as_the_regulation_writes_it() -> None:
    assert FORMULAS["overlap-a"].text == "O = CH + BH + Te − W"


def test_numbers_are_put_in() -> None:
    formula = FORMULAS["percent-overlap-a"]
    assert formula.plain({"CH": "0.076", "W": "0.118"}) == "100 × (0.076 + BH + Te − 0.118) / (0.118 − (2 × Te + Tb))"


def test_every_formula_says_how_it_is_known() -> None:
    for formula in FORMULAS.values():
        assert formula.grade in {"source", "memory"}
        assert formula.grade_text
        assert (formula.grade != "source") or (formula.source and formula.where)
        assert set(formula.symbols) <= set(SYMBOLS)
        assert formula.unit in {"length", "percent"}
    assert FORMULAS["overlap-a"].grade == "source"
    assert FORMULAS["percent-overlap-a"].grade == "memory"


@given(cover=thousandths, body=thousandths, width=st.integers(100, 140).map(lambda number: number / 1000))
def test_evaluation_order_is_left_to_right(cover: float, body: float, width: float) -> None:
    assert FORMULAS["overlap-a"].arithmetic.evaluate(cover, body, 0.01, width) == ((cover + body) + 0.01) - width


def test_no_room_is_an_error_not_infinity() -> None:
    seam = {**SEAM, "W": 0.3, "Te": 0.1, "Tb": 0.1}
    assert not FORMULAS["percent-overlap-a"].is_defined({**seam, "W": 2 * 0.1 + 0.1})
    with pytest.raises(SeamingError, match="not defined"):
        FORMULAS["compactness"].value({**SEAM, "S": 0.0})
    with pytest.raises(SeamingError, match="not defined"):
        FORMULAS["compactness"].uncertainty({**SEAM, "S": 0.0}, {})


def test_what_is_missing_is_named() -> None:
    with pytest.raises(SeamingError, match="Free space needs Te, Tb"):
        FORMULAS["free-space"].value({"S": 0.055})


def test_overlap_is_negative_when_hooks_do_not_meet() -> None:
    assert FORMULAS["overlap-a"].value({**SEAM, "CH": 0.02, "BH": 0.02}) < 0
