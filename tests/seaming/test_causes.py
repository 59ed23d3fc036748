from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seaming.direction_table import CAUSES, ROWS
from seaming.twin import a_cause, seeded, some_causes
from tinwright.seaming import (
    ADJUSTERS,
    Limit,
    Reading,
    SeamLimits,
    SeamReadings,
    Sign,
    Signs,
    find_directions,
    find_distinctions,
    find_posterior,
    judge,
    list_signs,
    rank,
    weigh,
)
from tinwright.seaming.signs import (
    CHANGE_LISTED,
    DEFECT_ABSENT,
    DEFECT_SEEN,
    DIRECTION_ALONG,
    DIRECTION_UNCLAIMED,
    DIRECTION_UNKNOWN,
    DIRECTION_VARIES,
    PLACE_LISTED,
    PLACE_OTHER,
    PLACE_UNKNOWN,
    UNKNOWN_ABSENT,
    UNKNOWN_SEEN,
    weigh_unknown,
)

DIMENSIONS = ("body-hook", "cover-hook", "countersink")


def found_first(ranking) -> set[str]:
    top = ranking.causes[0].share
    return {ranked.cause for ranked in ranking.causes if ranked.share == top}


@pytest.mark.parametrize(("name", "read", "expected"), ROWS, ids=[row[0] for row in ROWS])
def test_the_direction_table_is_reproduced(name: str, read: tuple[str | None, ...], expected: set[str]) -> None:
    directions = {dimension: way for dimension, way in zip(DIMENSIONS, read, strict=True) if way}
    ranking = rank(CAUSES, Signs(directions=directions))
    assert ranking.explained, name
    assert ranking.causes[0].cause in expected
    assert found_first(ranking) <= expected


MIDDLES = {"body-hook": 0.078, "cover-hook": 0.078, "countersink": 0.125}
LIMITS = SeamLimits(tuple(Limit(name, middle - 0.006, None, middle + 0.006) for name, middle in MIDDLES.items()))
MOVES = {"larger": 0.010, "smaller": -0.010, "normal": 0.0}


@pytest.mark.parametrize(("name", "read", "expected"), ROWS, ids=[row[0] for row in ROWS])
def test_readings_lead_to_the_cause_end_to_end(name: str, read: tuple[str | None, ...], expected: set[str]) -> None:
    readings = tuple(
        Reading(dimension, point, MIDDLES[dimension] + MOVES[way])
        for dimension, way in zip(DIMENSIONS, read, strict=True)
        if way
        for point in "123"
    )
    verdict = judge(SeamReadings("micrometer", readings), LIMITS, dict.fromkeys(DIMENSIONS, 0.0005))
    ranking = rank(CAUSES, Signs(directions=find_directions(verdict)))
    assert verdict.outcome in {"reject", "measure-again"}, name
    assert found_first(ranking) <= expected


def test_the_countersink_decides_between_roller_and_pressure() -> None:
    hooks = {"body-hook": "larger", "cover-hook": "smaller"}
    normal = rank(CAUSES, Signs(directions={**hooks, "countersink": "normal"}))
    deep = rank(CAUSES, Signs(directions={**hooks, "countersink": "larger"}))
    assert normal.causes[0].cause == "first-roller-loose"
    assert deep.causes[0].cause == "base-pressure-high"


def test_equal_causes_stand_in_the_order_of_adjustment_then_by_id() -> None:
    causes = [a_cause("b", adjuster) for adjuster in reversed(ADJUSTERS)] + [a_cause("a", "second-roller")]
    ranking = rank(causes, Signs(directions={"body-hook": "larger"}))
    placed = [ranked.cause for ranked in ranking.causes]
    second = ADJUSTERS.index("second-roller")
    assert placed == ["b"] * second + ["a"] + ["b"] * (len(ADJUSTERS) - second)


def test_no_sign_explains_nothing() -> None:
    assert not rank(CAUSES, Signs()).explained
    assert not rank(CAUSES, Signs(last_change="nothing")).explained
    assert not rank([], Signs(defects=("droop",))).explained


def test_signs_no_cause_brings_about_end_in_none_of_these() -> None:
    ranking = rank(CAUSES, Signs(defects=("droop", "vee")))
    assert not ranking.explained
    assert ranking.unknown_share > ranking.causes[0].share


def test_words_go_by_the_share_of_the_top() -> None:
    causes = [
        a_cause("often", "chuck", likelihoods={"droop": "common"}),
        a_cause("at-times", "chuck", likelihoods={"droop": "occasional"}),
        a_cause("seldom", "chuck", likelihoods={"droop": "rare"}),
        a_cause("never", "chuck"),
    ]
    ranking = rank(causes, Signs(defects=("droop",)))
    assert [ranked.word for ranked in ranking.causes] == ["likely", "likely", "possible", "unlikely"]


def test_reasons_for_and_against() -> None:
    signs = Signs(
        directions={"body-hook": "larger", "cover-hook": "larger", "countersink": "normal"}, defects=("droop",)
    )
    loose = next(ranked for ranked in rank(CAUSES, signs).causes if ranked.cause == "first-roller-loose")
    assert [(reason.sign.key, reason.stance) for reason in loose.reasons] == [
        ("droop", "contradicts"),
        ("countersink", "neutral"),
        ("body-hook", "supports"),
        ("cover-hook", "contradicts"),
    ]


def test_a_disputed_effect_speaks_neither_way() -> None:
    disputed = a_cause("second-roller-loose", "second-roller", effects={"body-hook": "disputed"})
    for answer in ("larger", "smaller", "normal", "varies"):
        ranking = rank([disputed], Signs(directions={"body-hook": answer}))
        assert ranking.causes[0].reasons[0].stance == "neutral"


def test_the_same_place_of_the_chuck_speaks_for_the_chuck() -> None:
    behind = {"spinner": "common"}
    causes = [
        a_cause(
            "chuck-broken",
            "chuck",
            likelihoods=behind,
            repeats=("same-place",),
            extents=("one-place",),
            after=("chuck",),
        ),
        a_cause("can-slips", "operation", likelihoods=behind, repeats=("wanders", "one-can"), extents=("part-round",)),
    ]
    signs = Signs(("spinner",), repeats="same-place", extent="one-place", last_change="chuck")
    ranking = rank(causes, signs)
    assert ranking.causes[0].cause == "chuck-broken"
    assert {reason.stance for reason in ranking.causes[0].reasons} == {"supports"}


def test_what_was_looked_for_and_not_found_speaks_against() -> None:
    behind = {"vee": "common"}
    causes = [
        a_cause("a", "chuck", likelihoods={**behind, "droop": "common"}),
        a_cause("b", "operation", likelihoods=behind),
    ]
    assert rank(causes, Signs(("vee",), absent=("droop",))).causes[0].cause == "b"


def test_what_would_tell_two_apart() -> None:
    loose, high = CAUSES[1], CAUSES[3]
    hooks = Signs(directions={"body-hook": "larger", "cover-hook": "smaller"})
    [apart] = find_distinctions(loose, high, hooks)
    assert (apart.kind, apart.key, apart.first, apart.second) == ("direction", "countersink", ("normal",), ("larger",))
    assert find_distinctions(loose, high, Signs(directions={"countersink": "normal"})) == ()


def test_the_clearest_distinction_comes_first() -> None:
    one = a_cause(
        "a", "chuck", likelihoods={"droop": "common", "vee": "rare"}, extents=("one-place",), repeats=("every-can",)
    )
    other = a_cause("b", "chuck", likelihoods={"vee": "occasional"}, extents=("all-round",), repeats=("wanders",))
    assert [(each.kind, each.key) for each in find_distinctions(one, other, Signs())] == [
        ("defect", "droop"),
        ("extent", ""),
        ("repeats", ""),
        ("defect", "vee"),
    ]
    given_already = Signs(defects=("droop",), absent=("vee",), extent="one-place", repeats="wanders")
    assert find_distinctions(one, other, given_already) == ()


def test_weights_are_probabilities_over_the_answers() -> None:
    for word in ("common", "occasional", "rare"):
        assert DEFECT_SEEN[word] + DEFECT_ABSENT[word] == pytest.approx(1)
    assert pytest.approx(1) == UNKNOWN_SEEN + UNKNOWN_ABSENT
    for row in DIRECTION_ALONG.values():
        assert sum(row) == pytest.approx(1)
    for row in (DIRECTION_VARIES, DIRECTION_UNKNOWN):
        assert sum(row.values()) == pytest.approx(1)
    assert pytest.approx(1) == 4 * PLACE_UNKNOWN


def test_what_a_cause_says_nothing_of_weighs_no_more_than_an_unknown_cause_does() -> None:
    assert DEFECT_ABSENT[""] == UNKNOWN_ABSENT
    assert DIRECTION_UNCLAIMED["normal"] == DIRECTION_UNKNOWN["normal"]
    assert PLACE_OTHER < PLACE_UNKNOWN < PLACE_LISTED


def test_every_sign_is_weighed() -> None:
    cause = a_cause("a", "chuck", effects={"body-hook": "varies", "cover-hook": "larger"}, after=("chuck",))
    assert weigh(cause, Sign("direction", "body-hook", "varies")) == 0.55
    assert weigh(cause, Sign("direction", "cover-hook", "varies")) == 0.04
    assert weigh(cause, Sign("direction", "cover-hook", "normal")) == 0.34
    assert weigh(cause, Sign("last-change", "", "chuck")) == CHANGE_LISTED
    assert weigh(cause, Sign("extent", "", "one-place")) == 0.25
    signs = Signs(("droop",), ("vee",), {"overlap": "smaller"}, "one-place", "wanders", "chuck")
    assert [weigh_unknown(sign) for sign in list_signs(signs)] == [0.05, 0.95, 0.15, 0.25, 0.25, 0.1]


@given(st.integers(0, 10_000))
def test_shares_add_up_and_order_does_not_depend_on_input_order(seed: int) -> None:
    rng = seeded(seed)
    causes = some_causes(rng, ADJUSTERS)
    signs = Signs(defects=("droop",), directions={"body-hook": "smaller"}, repeats="every-can")
    ranking = rank(causes, signs)
    assert sum(ranked.share for ranked in ranking.causes) + ranking.unknown_share == pytest.approx(1)
    shuffled = causes[:]
    rng.shuffle(shuffled)
    assert rank(shuffled, signs) == ranking


@given(st.lists(st.floats(0.01, 1), min_size=2, max_size=6), st.data())
def test_a_sign_that_all_causes_share_changes_nothing(priors: list[float], data: st.DataObject) -> None:
    weight = data.draw(st.floats(0.01, 1))
    before = find_posterior(priors, [[]] * len(priors))
    after = find_posterior(priors, [[weight]] * len(priors))
    assert after == pytest.approx(before)
