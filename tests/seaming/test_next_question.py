from __future__ import annotations

from seaming.direction_table import CAUSES
from seaming.twin import a_cause
from tinwright.seaming import Ask, Signs, find_next, list_questions, rank

HOOKS = {"body-hook": "larger", "cover-hook": "smaller"}


def test_the_countersink_is_asked_for_when_the_hooks_are_known() -> None:
    asked = find_next(CAUSES, Signs(directions=HOOKS, extent="all-round", repeats="every-can"))
    assert asked is not None
    assert (asked.kind, asked.key) == ("direction", "countersink")


def test_nothing_is_asked_that_cannot_change_the_advice() -> None:
    only = [a_cause("first-roller-loose", "first-roller", effects={"body-hook": "larger", "cover-hook": "smaller"})]
    signs = Signs(directions=HOOKS)
    for ask in list_questions(only, signs):
        if ask.kind in {"repeats", "extent"}:
            assert find_next(only, signs, [ask]) is None
    assert (
        find_next(CAUSES, Signs(directions={**HOOKS, "countersink": "normal"}, extent="all-round", repeats="x")) is None
    )


def test_the_quickest_that_can_change_it_is_asked() -> None:
    causes = [
        a_cause("a", "chuck", likelihoods={"droop": "common"}, repeats=("same-place",)),
        a_cause("b", "operation", likelihoods={"droop": "common", "vee": "common"}, repeats=("wanders",)),
    ]
    asked = find_next(causes, Signs(defects=("droop",)))
    assert asked is not None
    assert asked.kind == "repeats"
    after = find_next(causes, Signs(defects=("droop",), repeats="every-can"))
    assert after == Ask("defect", "vee", 3.0, ("seen", "not-seen"))


def test_every_question_asked_has_an_answer_that_changes_the_top() -> None:
    signs = Signs(directions={"body-hook": "smaller"})
    asked = find_next(CAUSES, signs)
    assert asked is not None
    tops = set()
    for answer in asked.answers:
        ranking = rank(CAUSES, Signs(directions={**signs.directions, asked.key: answer}))
        tops.add(ranking.causes[0].cause if ranking.explained else None)
    assert len(tops) > 1


def test_all_that_can_be_asked_is_listed_quickest_first() -> None:
    causes = [a_cause("a", "chuck", likelihoods={"droop": "rare"}, effects={"body-hook": "varies"}, after=("chuck",))]
    kinds = [ask.kind for ask in list_questions(causes, Signs())]
    assert kinds == ["repeats", "last-change", "extent", "defect", "direction"]
    known = Signs(("droop",), (), {"body-hook": "normal"}, "all-round", "wanders", "nothing")
    assert list_questions(causes, known) == ()
    assert find_next(causes, known) is None
