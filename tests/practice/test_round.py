from __future__ import annotations

import pytest

from practice.small_bench import a_scenario
from tinwright.errors import PracticeError
from tinwright.practice import Action, Fault, Round


def test_a_loose_second_roller_shows_and_an_eighth_at_a_time_puts_it_right() -> None:
    bench = Round.start(a_scenario(Fault("second-roller-loose", 3)))
    bench.do(Action("test-can"))
    assert [shown.defect for shown in bench.do(Action("look")).shown] == ["no-pressure-ridge", "loose-seam"]
    assert bench.do(Action("gauge", "second-roller")).feel == "loose"
    thick = [r.value for r in bench.do(Action("measure")).readings if r.dimension == "seam-thickness"]
    for _ in range(3):
        bench.do(Action("turn", "second-roller", 1))
    assert bench.do(Action("gauge", "second-roller")).feel == "drags"
    bench.do(Action("test-can"))
    assert bench.do(Action("look")).shown == ()
    thin = [r.value for r in bench.do(Action("measure")).readings if r.dimension == "seam-thickness"]
    assert max(thin) < min(thick)
    assert [can.is_good for can in bench.cans] == [False, True]
    assert bench.is_repaired


def test_what_cannot_be_done_is_refused_and_costs_nothing() -> None:
    bench = Round.start(a_scenario(budget_cans=1))
    assert bench.do(Action("look")).refused == "no-can"
    bench.do(Action("test-can"))
    assert bench.do(Action("test-can")).refused == "no-budget"
    assert bench.do(Action("turn", "second-roller", 0)).refused == "unknown"
    assert bench.do(Action("gauge", "lid-lot")).refused == "unknown"
    bench.do(Action("tear-down"))
    assert bench.do(Action("measure")).refused == "no-can"
    assert (bench.minutes, bench.cans_spent) == (2.0, 1)
    bench.do(Action("declare-fit"))
    assert bench.do(Action("test-can")).refused == "finished"
    with pytest.raises(PracticeError, match="expected one of test-can"):
        bench.do(Action("hit-it"))


def test_minutes_are_those_of_the_records_and_run_out() -> None:
    bench = Round.start(a_scenario(minutes={"test-can": 4.0}, budget_minutes=4.0))
    assert bench.do(Action("test-can")).minutes == 4.0
    assert bench.do(Action("look")).refused == "no-budget"
    assert bench.do(Action("give-up")).refused == ""
    assert bench.is_finished


def test_hands_in_a_motor_sealer_with_power_end_the_round_with_the_caution() -> None:
    bench = Round.start(a_scenario(drive="motor"))
    assert bench.do(Action("unplug")).refused == ""
    assert bench.do(Action("test-can")).refused == "unplugged"
    assert bench.do(Action("gauge", "first-roller")).feel == "drags"
    bench.do(Action("plug-in"))
    assert bench.do(Action("turn", "second-roller", 1)).caution == "motor-start"
    assert bench.is_finished
    assert bench.turned["second-roller"] == 0


def test_a_hand_sealer_has_no_power_to_cut() -> None:
    bench = Round.start(a_scenario())
    bench.do(Action("plug-in"))
    assert bench.do(Action("turn", "second-roller", 1)).caution == ""


@pytest.mark.parametrize(
    ("kind", "verb", "target"),
    [
        ("chuck-worn", "swap", "chuck"),
        ("chuck-base-distance-small", "restack", "base-height"),
        ("flange-bent", "swap", "can-lot"),
        ("lid-misplaced", "redo", "operation"),
    ],
)
def test_looking_at_the_part_finds_what_its_remedy_puts_right(kind: str, verb: str, target: str) -> None:
    bench = Round.start(a_scenario(Fault(kind, 5)))
    assert bench.do(Action("look-at-part", target)).found == (kind,)
    bench.do(Action("swap", "second-roller"))
    assert not bench.is_repaired
    bench.do(Action(verb, target))
    assert bench.is_repaired
    bench.do(Action("test-can"))
    assert bench.cans[-1].is_good


def test_food_cans_sealed_before_are_on_the_bench_and_can_be_held() -> None:
    bench = Round.start(a_scenario(food_before=3))
    assert [(can.is_food, can.is_good) for can in bench.cans] == [(True, False)] * 3
    bench.do(Action("hold", amount=2))
    assert [can.fate for can in bench.cans] == ["", "held", ""]
    assert bench.do(Action("hold", amount=4)).refused == "unknown"


def test_the_first_operation_alone_tells_of_the_first_roller() -> None:
    bench = Round.start(a_scenario(Fault("first-roller-tight", 4)))
    assert bench.do(Action("first-operation")).feel == "tight"
    assert not bench.cans[0].is_finished
    assert not bench.cans[0].is_good


def test_the_same_seed_gives_the_same_round() -> None:
    def told(seed: int) -> object:
        bench = Round.start(a_scenario(Fault("can-slips", 4), seed=seed))
        return [bench.do(Action(verb)) for verb in ("test-can", "look", "measure", "tear-down")]

    assert told(5) == told(5)
    assert told(5) != told(6)
