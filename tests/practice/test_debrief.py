from __future__ import annotations

import pytest

from practice.small_bench import a_scenario
from tinwright.practice import MUST, RUBRIC, Action, Debrief, Fault, Round, debrief

LOOK = (Action("test-can"), Action("look"), Action("tear-down"))
EIGHTH = Action("turn", "second-roller", 1)
MENDED = (*LOOK, EIGHTH, EIGHTH, EIGHTH, *LOOK, Action("test-can"), Action("look"))
END = (Action("declare-cause", "second-roller-loose"), Action("declare-fit"))


def played(*actions: Action, drive: str = "crank-cam", food_before: int = 0) -> Debrief:
    bench = Round.start(a_scenario(Fault("second-roller-loose", 3), drive=drive, food_before=food_before))
    for action in actions:
        bench.do(action)
    return debrief(bench)


def broken(judged: Debrief) -> dict[str, int | None]:
    return {line.line: line.at for line in judged.lines if not line.is_kept}


def test_a_careful_round_keeps_every_line() -> None:
    judged = played(*MENDED, Action("seal-food", amount=6), *END)
    assert broken(judged) == {}
    assert (judged.points, judged.has_passed, judged.causes) == (100.0, True, ("second-roller-loose",))


@pytest.mark.parametrize(
    ("actions", "expected"),
    [
        pytest.param((EIGHTH, EIGHTH, EIGHTH, *LOOK, *END), {"can-first": 0}, id="sealer first"),
        pytest.param((*LOOK, Action("turn", "second-roller", 3), *LOOK, *END), {"step": 3}, id="three eighths at once"),
        pytest.param((*LOOK, EIGHTH, EIGHTH, EIGHTH, *END), {"retest": 7}, id="no test can at the end"),
        pytest.param((*LOOK, EIGHTH, Action("clean", "chuck"), EIGHTH, EIGHTH, *LOOK, *END), {"retest": 4, "order": 4}, id="two changes"),
        pytest.param((*MENDED, Action("swap", "first-roller"), *LOOK, *END), {"order": 11}, id="first roller after second"),
        pytest.param((*LOOK, Action("seal-food", amount=1), *MENDED, *END), {"no-food": 3, "cans": 16}, id="food in a bad sealer"),
        pytest.param((*LOOK, EIGHTH, EIGHTH, EIGHTH, *LOOK, Action("seal-food", amount=1), *END), {"no-food": 9}, id="one good can"),
        pytest.param((*MENDED, Action("declare-cause", "chuck-worn"), *END), {"cause": 13}, id="two causes named"),
        pytest.param((*LOOK, *END), {"fit": 4}, id="still loose"),
        pytest.param((*MENDED, END[0], Action("give-up")), {"fit": 12}, id="given up"),
    ],
)  # fmt: skip
def test_each_slip_breaks_its_line_where_it_was_made(actions: tuple[Action, ...], expected: dict[str, int]) -> None:
    judged = played(*actions)
    assert broken(judged) == expected
    assert judged.has_passed is not bool(MUST & expected.keys())


def test_cans_sealed_before_are_held_before_anything_is_changed() -> None:
    hold = (Action("hold", amount=1), Action("throw-away", amount=2))
    assert broken(played(*hold, *MENDED, *END, food_before=2)) == {}
    assert broken(played(*MENDED, *hold, *END, food_before=2)) == {"can-first": 3}
    assert broken(played(hold[0], *MENDED, *END, food_before=2)) == {"can-first": 4, "cans": 13}


def test_hands_in_a_sealer_with_power_fail_the_round() -> None:
    judged = played(Action("test-can"), Action("gauge", "first-roller"), drive="motor")
    assert broken(judged)["safe"] == 1
    assert not judged.has_passed


def test_the_educator_says_what_a_line_weighs() -> None:
    bench = Round.start(a_scenario())
    bench.do(Action("give-up"))
    lost = {"cause", "fit"}
    assert debrief(bench).points == pytest.approx(100 * (len(RUBRIC) - 2) / len(RUBRIC))
    assert debrief(bench, {line: float(line in lost) for line in RUBRIC}).points == 0.0
    assert debrief(bench, dict.fromkeys(RUBRIC, 0.0)).points == 0.0
