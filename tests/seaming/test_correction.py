from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tinwright.errors import SeamingError
from tinwright.seaming import RETEST, SECOND_CANNOT_MEND, Screw, correct

SCREW = Screw("first-roller", "Turn it clockwise.", "Turn it counterclockwise.", 0.05, Fraction(1, 8))


@pytest.mark.parametrize(
    ("direction", "how"),
    [
        ("tighten", "Turn it clockwise."),
        ("raise", "Turn it clockwise."),
        ("loosen", "Turn it counterclockwise."),
        ("lower", "Turn it counterclockwise."),
        ("replace", None),
    ],
)
def test_the_direction_picks_how_this_sealer_is_moved(direction: str, how: str | None) -> None:
    assert correct("first-roller", direction, SCREW, 0.01).how == how


def test_turns_are_capped_at_one_safe_step() -> None:
    assert correct("first-roller", "tighten", SCREW, 0.1).turns == Fraction(1, 8)


def test_turns_are_rounded_down_to_the_safe_step() -> None:
    assert correct("first-roller", "tighten", SCREW, 0.00625).turns == Fraction(1, 8)
    less = correct("first-roller", "tighten", SCREW, 0.006)
    assert (less.turns, less.amount) == (None, "Move it a little, less than 1/8 turn.")


@pytest.mark.parametrize(
    ("screw", "out_by", "amount"),
    [
        (Screw("first-roller", travel_per_turn_in=0.05), 0.01, "Move it as little as you can."),
        (Screw("first-roller", safe_step=Fraction(1, 8)), 0.01, "Move it no more than 1/8 turn."),
        (SCREW, None, "Move it no more than 1/8 turn."),
        (None, 0.01, "Move it as little as you can."),
    ],
)
def test_no_number_the_record_does_not_support(screw: Screw | None, out_by: float | None, amount: str) -> None:
    advice = correct("first-roller", "loosen", screw, out_by)
    assert (advice.turns, advice.amount) == (None, amount)


def test_the_second_operation_cannot_mend_the_first() -> None:
    assert SECOND_CANNOT_MEND in correct("first-roller", "tighten").notes
    assert SECOND_CANNOT_MEND not in correct("second-roller", "tighten").notes


def test_a_change_of_the_set_up_moves_what_comes_after() -> None:
    assert any("check the first operation" in note for note in correct("base-pressure", "lower").notes)


@pytest.mark.parametrize(("adjuster", "direction"), [("can-and-lid", "sort-out"), ("operation", "redo")])
def test_sorting_out_and_doing_again_turn_nothing(adjuster: str, direction: str) -> None:
    advice = correct(adjuster, direction)
    assert (advice.amount, advice.notes) == ("", ())


def test_the_screw_of_a_loose_chuck_is_no_adjuster_to_move_a_little() -> None:
    advice = correct("chuck", "tighten")
    assert (advice.amount, advice.turns) == ("", None)


@given(
    st.floats(0, 1),
    st.sampled_from([None, 0.01, 0.03125, 0.05]),
    st.sampled_from([None, Fraction(1, 16), Fraction(1, 8), Fraction(1, 4)]),
)
def test_it_never_goes_past_the_safe_step_and_always_retests(
    out_by: float, travel: float | None, step: Fraction | None
) -> None:
    advice = correct("second-roller", "tighten", Screw("second-roller", "T", "L", travel, step), out_by)
    assert advice.retest == RETEST
    assert advice.turns is None or (step is not None and travel is not None and advice.turns <= step)
    if advice.turns is not None and travel is not None:
        assert float(advice.turns) * travel <= out_by * (1 + 1e-6)


@pytest.mark.parametrize(
    ("given_", "message"),
    [
        (("elsewhere", "tighten"), "known adjuster"),
        (("first-roller", "sideways"), "known adjuster"),
        (("first-roller", "tighten", SCREW, -1), "zero or more"),
        (("first-roller", "tighten", Screw("first-roller", travel_per_turn_in=0.0)), "above zero"),
    ],
)
def test_impossible_input_is_refused(given_: tuple, message: str) -> None:
    with pytest.raises(SeamingError, match=message):
        correct(*given_)
