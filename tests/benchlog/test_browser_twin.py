"""What the phone says is due and held, and what it charts, is what the Python half says; over random days."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from benchlog.twin import (
    ANSWERS,
    DISPOSITIONS,
    KINDS_AS_DATA,
    POLICIES,
    REACHES,
    RESULTS_AS_DATA,
    a_random_day,
    a_season,
    charts,
    event_of,
    in_browser,
    on_the_phone,
    pairs,
    season_as_written,
    spoiled,
    written,
)
from seaming.twin import plain, seeded
from tinwright.benchlog import (
    Event,
    cans_before_end_check,
    held_from_day_before,
    in_order,
    problems_of,
)
from tinwright.benchlog.charts import FEWEST_CANS, RUN_RULE
from tinwright.logbook.merging import most_cautious

DAYS = 400


@pytest.fixture(scope="module")
def days() -> list[list[Event]]:
    rng = seeded(20261114)
    return [a_random_day(rng) for _ in range(DAYS)]


def both(asked: str, given: list[list[Any]]) -> list[Any]:
    """Ask both halves, and return what they answer alike."""
    expected = [ANSWERS[asked](*each) for each in given]
    assert on_the_phone(asked, given) == expected
    return expected


def test_the_same_is_due_at_any_time(days: list[list[Event]]) -> None:
    rng = seeded(1)
    asked = [(day, POLICIES[n % 3], f"{rng.randint(8, 23):02}:{rng.randint(0, 59):02}") for n, day in enumerate(days)]
    found = both(
        "due", [[[written(event) for event in day], plain(policy), now, DISPOSITIONS] for day, policy, now in asked]
    )
    assert sum(map(bool, found)) > DAYS / 4


def test_the_same_checks_were_missed(days: list[list[Event]]) -> None:
    """In whole days, and as the day stood before each of its last events: what may still be made is not missed yet."""
    asked = [(day, POLICIES[n % 3]) for n, day in enumerate(days)]
    asked += [(in_order(day)[: -n % 7 or None], POLICIES[n % 3]) for n, day in enumerate(days)]
    found = both("missed", [[[written(event) for event in day], plain(policy), DISPOSITIONS] for day, policy in asked])
    missed = [one for day in found for one in day]
    assert {one[0] for one in missed} == {"test-cans", "next-can", "measure-again", "check", "teardown", "end-check"}
    assert 0.1 < sum(one[5] is None for one in missed) / len(missed) < 0.9
    assert any(one[6] > 1 for one in missed)


def test_the_same_cans_are_held_and_for_the_same_reason(days: list[list[Event]]) -> None:
    found = both("holding", [[[written(event) for event in day], DISPOSITIONS, REACHES] for day in days])
    assert sum(bool(day["held"]["notHeated"]) for day in found) > DAYS / 5
    assert sum(bool(day["unchecked"]) for day in found) > DAYS / 40


def test_the_same_order_runs_and_slips_of_the_clock(days: list[list[Event]]) -> None:
    found = both("reading", [[[written(event) for event in day]] for day in days])
    assert sum(bool(day["counter"]) for day in found) > DAYS / 20
    assert sum(bool(day["clock"]) for day in found) > DAYS / 4


def test_the_same_cans_wait_for_the_check_at_the_end(days: list[list[Event]]) -> None:
    asked = [(day, POLICIES[1 + n % 2]) for n, day in enumerate(days)]
    given = [[[written(event) for event in day], plain(policy), DISPOSITIONS] for day, policy in asked]
    expected = [cans_before_end_check(day, policy, DISPOSITIONS) for day, policy in asked]
    assert 0.1 < sum(cans is None for cans in expected) / DAYS < 0.9
    assert in_browser("given.map((day) => rules.cansBeforeEndCheck(...day))", given) == [
        cans and list(cans) for cans in expected
    ]


def test_the_same_cans_of_the_day_before_are_held(days: list[list[Event]]) -> None:
    two = list(zip(days[::2], days[1::2], strict=True))
    given = [[*([written(event) for event in day] for day in each), DISPOSITIONS, REACHES] for each in two]
    found = in_browser(
        "given.map((two) => rules.heldFromDayBefore(...two)).map((hold) => hold && [id(hold.event), hold.cans, hold.heated])",
        given,
    )
    holds = [held_from_day_before(*each, DISPOSITIONS, REACHES) for each in two]
    assert sum(hold is not None for hold in holds) > DAYS / 20
    assert found == [hold and [hold.event.id, pairs(hold.cans), pairs(hold.heated)] for hold in holds]


def test_the_same_charts_with_the_same_limits_and_signals() -> None:
    rng = seeded(7)
    given = [season_as_written(a_season(rng)) for _ in range(60)]
    found = on_the_phone("charts", [[season] for season in given])
    assert in_browser("[rules.FEWEST_CANS, rules.RUN]", None) == [FEWEST_CANS, RUN_RULE.length]
    with_limits = signals = 0
    for season, phone in zip(given, found, strict=True):
        expected = charts(season)
        stretches = [stretch for chart in expected for stretch in chart["stretches"]]
        assert phone == [
            chart | {"stretches": [_nearly(stretch) for stretch in chart["stretches"]]} for chart in expected
        ]
        with_limits += sum(stretch["limits"] is not None for stretch in stretches)
        signals += sum(bool(point[-1]) for stretch in stretches for point in stretch["points"])
    assert with_limits > 20
    assert signals > 20


def _nearly(stretch: dict[str, Any]) -> dict[str, Any]:
    """Means and what is computed from them need not agree to the last bit."""
    return {
        "limits": stretch["limits"] and pytest.approx(stretch["limits"], abs=1e-12),
        "points": [[*point[:5], pytest.approx(point[5]), point[6]] for point in stretch["points"]],
    }


def test_an_event_is_taken_by_the_phone_only_when_nothing_is_wrong_with_it(days: list[list[Event]]) -> None:
    rng = seeded(3)
    events = [event for day in days for event in day]
    sent = [spoiled(rng, written(event)) for event in events]
    found = in_browser(
        "given.events.map((event) => store.soundEvent(event, given.kinds, given.results))",
        {
            "events": sent,
            "kinds": KINDS_AS_DATA,
            "results": RESULTS_AS_DATA,
        },
    )
    taken = [event for event in found if event is not None]
    assert len(events) / 3 < len(taken) < len(events) * 0.95
    assert [problems_of(event_of(event)) for event in taken] == [[] for _ in taken]
    refused = [event_of(event) for event, kept in zip(sent, found, strict=True) if kept is None]
    assert [event for event in refused if not problems_of(event)] == []


@pytest.mark.parametrize(
    "spoiled_entry", [{}, {"kitchen": 5}, {"sealer": 5}, {"kitchen": ""}, {"sealer": ""}, {"date": "14"}]
)
def test_the_head_of_a_day_has_a_date_a_kitchen_and_a_sealer(spoiled_entry: dict[str, Any]) -> None:
    head = {"date": "2026-11-14", "kitchen": "Mill Street", "sealer": "bench-crank-sealer"}
    found = in_browser("store.soundHead(given)", head | spoiled_entry)
    assert found == (None if spoiled_entry else head | {"events": []})


def test_of_two_versions_the_phone_goes_by_one_that_the_office_would(days: list[list[Event]]) -> None:
    rng = seeded(7)
    events = [event for day in days for event in day]
    told = [(one, dataclasses.replace(rng.choice(events), id=one.id)) for one in events]
    told += [(one, dataclasses.replace(one, struck=not one.struck)) for one in events]
    told += [(one, dataclasses.replace(one, torn_down=not one.torn_down)) for one in events if one.kind == "test-can"]
    told += [(one, dataclasses.replace(one, can_number=rng.randint(0, 9))) for one in events if one.result]
    given = [[written(one), written(other)] for one, other in told]
    chosen = in_browser("given.map(([one, other]) => store.moreCautious(one, other) === one ? 0 : 1)", given)
    wrong = [
        pair
        for pair, place in zip(told, chosen, strict=True)
        if most_cautious([pair[place], pair[1 - place]]) is not pair[place]
    ]
    assert wrong == []
    assert 0.2 < sum(chosen) / len(chosen) < 0.8
