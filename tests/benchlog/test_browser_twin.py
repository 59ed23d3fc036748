"""What the phone says is due and held, and what it charts, is what the Python half says; over random days."""

from __future__ import annotations

import dataclasses
import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from seaming.twin import plain, seeded
from seaming.twin import run_node as run_seaming
from tinwright.benchlog import (
    KINDS,
    Event,
    MeasuredPoint,
    Policy,
    Session,
    bad_cans,
    cans_before_end_check,
    cans_to_hold,
    clock_went_back,
    counter_went_back,
    held_from_day_before,
    in_order,
    last_written,
    missed_checks,
    problems_of,
    read_lines,
    still_held,
    unchecked_before_change,
    what_is_due,
)
from tinwright.benchlog.charts import FEWEST_CANS, RUN_RULE, charts_of
from tinwright.benchlog.events import RESULTS
from tinwright.benchlog.ranges import can_name
from tinwright.logbook.merging import most_cautious

if TYPE_CHECKING:
    import random
    from collections.abc import Mapping, Sequence

SCRIPTS = Path(__file__).parents[2] / "generator" / "tinwright" / "browser" / "benchlog"
_PARTS = ("rules", "writing", "late", "bench", "due", "holding", "charts", "sound", "merging")
_SCRIPTS = tuple(f"bench-log-{part}.js" for part in _PARTS)
_LOAD = f"""
for (const name of {json.dumps(_SCRIPTS)}) {{
  vm.runInThisContext(fs.readFileSync({json.dumps(str(SCRIPTS))} + "/" + name, "utf8"), name);
}}
const rules = {{}}, store = {{ ...tinwrightBenchLogSound, ...tinwrightBenchLogMerging }};
for (const part of ["", "Writing", "Due", "Holding", "Charts"]) Object.assign(rules, globalThis["tinwrightBenchLog" + part]);
const given = JSON.parse(input.toString());
"""
_ID = "const id = (event) => event && event.id;"

DAYS = 400
DISPOSITIONS = {
    "droop": "reject",
    "scratch": "cosmetic",
    "torn-flange": "discard-part",
    "vee": "hold",
    "smear": "watch",
}
DEFECTS = ("", "", "", "", "droop", "scratch", "torn-flange", "vee", "smear", "not-in-the-content")
REACHES = {"droop": 1, "scratch": 1, "torn-flange": 1, "vee": 3, "smear": 1}
POLICIES = (Policy(2, 24, 30), Policy(1, 6, 10, teardown_cans=20, end_check=3), Policy(3, 12, 240, 0, 60, 1))
KEY = Session("2026-11-14", "Mill Street", "bench-crank-sealer").key


def in_browser(script: str, given: Any) -> Any:
    found = run_seaming(f"{_LOAD}{_ID}\nprocess.stdout.write(JSON.stringify({script}));", json.dumps(given).encode())
    return json.loads(found)


def written(event: Event) -> dict[str, Any]:
    """An event as it stands in the file of a phone: blank entries left out."""
    entries = {field.name: getattr(event, field.name) for field in dataclasses.fields(event) if field.name != "session"}
    blank = {field.name: field.default for field in dataclasses.fields(event)}
    kept = {name: value for name, value in entries.items() if value != blank.get(name) or name == "revision"}
    if event.readings:
        kept["readings"] = [dataclasses.asdict(reading) for reading in event.readings]
    return kept


def a_random_day(rng: random.Random, key: tuple[str, str, str] = KEY, name: str = "a") -> list[Event]:
    """Make up a day of up to four writers in which anything may happen, also what should not."""
    events: list[Event] = []
    counter, now = 0, 8 * 3600
    writers = [name, "b2", "P04", "desk"][: rng.choice((1, 1, 2, 4))]
    for _ in range(1, rng.randint(0, 40)):
        now += rng.choice((0, 1, 20, 60, 300, 900, 2500, -1800))
        writer = rng.choice(writers)
        number = 1 + sum(event.id.startswith(f"{writer}-") for event in events)
        at = f"{now // 3600 % 24:02}:{now // 60 % 60:02}" + (f":{now % 60:02}" if rng.random() < 0.5 else "")
        kind = rng.choice([*KINDS, "sealed", "sealed", "sealed", "test-can", "visual-check", "measured-check"])
        entries: dict[str, Any] = {}
        if kind == "sealed":
            first = max(1, counter + rng.choice((1, 1, 1, 0, 3)))
            entries = {"first": first, "last": first + rng.choice((0, 0, 1, 5, 30))}
            counter = entries["last"] if rng.random() < 0.95 else 0
        elif kind in {"heated", "hold", "release", "discard"} or (kind == "defect" and rng.random() < 0.7):
            first = rng.randint(1, max(1, counter))
            entries = {"first": first, "last": first + rng.randint(0, 8)}
        if kind in RESULTS:
            entries |= {"result": rng.choice(RESULTS[kind]), "defect": rng.choice(DEFECTS)}
        if kind in {"visual-check", "measured-check"} and (kind == "visual-check" or rng.random() < 0.7):
            entries["can_number"] = rng.randint(0, counter + 1)
        if kind == "measured-check":
            entries["readings"] = tuple(_readings(rng))
        if kind == "release":
            entries |= {"reason": rng.choice(("Torn down", "")), "by": rng.choice(("AE", ""))}
        fixed: Mapping[str, dict[str, Any]] = {
            "set-up": {"can": "307x409"},
            "can-change": {"can": rng.choice(("401x411", "307x409"))},
            "lid-lot": {"lid_lot": "B2"},
            "adjustment": {"adjuster": "first-roller", "direction": "tighten"},
            "defect": {"defect": rng.choice(DEFECTS[4:])},
            "cause": {"cause": "first-roller-loose", "defect": "droop"},
        }
        entries |= fixed.get(kind, {})
        if kind in {"test-can", "measured-check"}:
            entries["torn_down"] = rng.random() < 0.3
        if rng.random() < 0.1:
            entries["run"] = rng.choice(("A", "B", "AA"))
        if rng.random() < 0.3:
            entries["after"] = last_written((event for event in events if rng.random() < 0.8), but=writer)
        if rng.random() < 0.1:
            entries["on"] = "2026-11-15"
        events.append(Event(f"{writer}-{number}", key, at, kind, struck=rng.random() < 0.08, **entries))
    rng.shuffle(events)
    return events


def _readings(rng: random.Random) -> list[MeasuredPoint]:
    dimensions = rng.sample(("seam-thickness", "seam-width", "countersink", "cover-hook"), rng.randint(0, 2))
    return [
        MeasuredPoint(dimension, str(point), round(rng.gauss(0.055, 0.001), 4))
        for dimension in dimensions
        for point in range(1, rng.randint(2, 5))
    ]


@pytest.fixture(scope="module")
def days() -> list[list[Event]]:
    rng = seeded(20261114)
    return [a_random_day(rng) for _ in range(DAYS)]


def the_id(event: Event | None) -> str | None:
    return event.id if event else None


def pairs(ranges: Sequence[tuple[int, int]]) -> list[list[int]]:
    return [list(part) for part in ranges]


def test_the_same_is_due_at_any_time(days: list[list[Event]]) -> None:
    rng = seeded(1)
    asked = [(day, POLICIES[n % 3], f"{rng.randint(8, 23):02}:{rng.randint(0, 59):02}") for n, day in enumerate(days)]
    given = [[[written(event) for event in day], plain(policy), now, DISPOSITIONS] for day, policy, now in asked]
    found = in_browser(
        "given.map((day) => rules.whatIsDue(...day).map((due) => ({ ...due, askedBy: id(due.askedBy) })))", given
    )
    expected = [
        [plain(dataclasses.replace(due, asked_by=None)) | {"askedBy": the_id(due.asked_by)} for due in dues]
        for day, policy, now in asked
        for dues in [what_is_due(day, policy, now, DISPOSITIONS)]
    ]
    assert sum(map(bool, expected)) > DAYS / 4
    assert found == expected


def test_the_same_checks_were_missed(days: list[list[Event]]) -> None:
    """In whole days, and as the day stood before each of its last events: what may still be made is not missed yet."""
    asked = [(day, POLICIES[n % 3]) for n, day in enumerate(days)]
    asked += [(in_order(day)[: -n % 7 or None], POLICIES[n % 3]) for n, day in enumerate(days)]
    given = [[[written(event) for event in day], plain(policy), DISPOSITIONS] for day, policy in asked]
    found = in_browser(
        """given.map((day) => rules.missedChecks(...day).map((one) =>
          [one.check, one.reasons, one.at, one.cans, id(one.askedBy), id(one.made), one.times]))""",
        given,
    )
    expected = [
        [
            [one.check, list(one.reasons), one.at, list(one.cans), the_id(one.asked_by), the_id(one.made), one.times]
            for one in missed_checks(day, policy, DISPOSITIONS)
        ]
        for day, policy in asked
    ]
    missed = [one for day in expected for one in day]
    assert {one[0] for one in missed} == {"test-cans", "next-can", "measure-again", "check", "teardown", "end-check"}
    assert 0.1 < sum(one[5] is None for one in missed) / len(missed) < 0.9
    assert any(one[6] > 1 for one in missed)
    assert found == expected


def test_the_same_cans_are_held_and_for_the_same_reason(days: list[list[Event]]) -> None:
    given = [[[written(event) for event in day], DISPOSITIONS, REACHES] for day in days]
    found = in_browser(
        """given.map((day) => ({
          holds: rules.cansToHold(...day).map((hold) =>
            [id(hold.event), hold.cans, hold.heated, id(hold.since), id(hold.until), hold.lookedAt.map(id), hold.reach]),
          held: rules.stillHeld(...day),
          unchecked: rules.uncheckedBeforeChange(...day).map((each) => [id(each.change), each.cans, id(each.since)]),
          bad: rules.walk(...day).bad,
          names: rules.walk(...day).bad.map(([first]) => rules.canName(first)),
        }))""",
        given,
    )
    expected = []
    for day in days:
        held, bad = still_held(day, DISPOSITIONS, REACHES), bad_cans(day, DISPOSITIONS)
        expected.append(
            {
                "holds": [
                    [
                        hold.event.id,
                        pairs(hold.cans),
                        pairs(hold.heated),
                        the_id(hold.since),
                        the_id(hold.until),
                        [event.id for event in hold.looked_at],
                        hold.reach,
                    ]
                    for hold in cans_to_hold(day, DISPOSITIONS, REACHES)
                ],
                "held": {"notHeated": pairs(held.not_heated), "heated": pairs(held.heated)},
                "unchecked": [
                    [each.change.id, pairs(each.cans), the_id(each.since)]
                    for each in unchecked_before_change(day, DISPOSITIONS, REACHES)
                ],
                "bad": pairs(bad),
                "names": [can_name(first) for first, _ in bad],
            }
        )
    assert sum(bool(day["held"]["notHeated"]) for day in expected) > DAYS / 5
    assert sum(bool(day["unchecked"]) for day in expected) > DAYS / 40
    assert found == expected


def test_the_same_order_runs_and_slips_of_the_clock(days: list[list[Event]]) -> None:
    given = [[written(event) for event in day] for day in days]
    found = in_browser(
        """given.map((day) => ({
          order: rules.inOrder(day).map(id),
          lines: rules.linesOf(day).map((line) => [id(line.event), line.run, line.beginsRun, line.cans, line.can, line.shown, line.count]),
          after: rules.linesOf(day).map((line) => rules.linesOf(day).filter((other) => rules.isAfter(line, other)).length),
          counter: rules.counterWentBack(day).map((line) => id(line.event)),
          clock: rules.clockWentBack(day).map((both) => both.map(id)),
          last: rules.lastWritten(day, "a"),
        }))""",
        given,
    )
    expected = []
    for day in days:
        lines = read_lines(day)
        expected.append(
            {
                "order": [event.id for event in in_order(day)],
                "lines": [
                    [
                        line.event.id,
                        line.run,
                        line.begins_run,
                        line.cans and list(line.cans),
                        line.can,
                        line.shown,
                        line.count,
                    ]
                    for line in lines
                ],
                "after": [sum(line.is_after(other) for other in lines) for line in lines],
                "counter": [line.event.id for line in counter_went_back(day)],
                "clock": [[above.id, event.id] for above, event in clock_went_back(day)],
                "last": last_written(day, but="a"),
            }
        )
    assert sum(bool(day["counter"]) for day in expected) > DAYS / 20
    assert sum(bool(day["clock"]) for day in expected) > DAYS / 4
    assert found == expected


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


def test_the_same_order(days: list[list[Event]]) -> None:
    found = in_browser("given.map((day) => rules.inOrder(day).map(id))", [[written(e) for e in day] for day in days])
    assert found == [[event.id for event in in_order(day)] for day in days]


def a_season(rng: random.Random) -> list[tuple[Session, list[Event]]]:
    """A few measured days of two sealers, some long enough for control limits."""
    found = []
    for day in range(1, rng.randint(2, 4)):
        for sealer in ("bench-crank-sealer", "bench-lever-sealer"):
            session = Session(
                f"2026-11-{day:02}", "Mill Street", sealer, can=rng.choice(("307x409", "307x409", "401x411"))
            )
            events, drift = [], 0.0
            for number in range(rng.randint(0, 30)):
                kind = rng.choices(("measured-check", "adjustment", "jam", "can-change", "lid-lot"), (30, 1, 2, 1, 1))[
                    0
                ]
                drift += rng.choice((0, 0, 0.0002))
                entries: dict[str, Any] = {
                    "measured-check": {
                        "result": "accept",
                        "readings": tuple(
                            MeasuredPoint("seam-thickness", str(p), round(rng.gauss(0.055 + drift, 0.0004), 4))
                            for p in range(1, rng.randint(3, 6))
                        ),
                    },
                    "adjustment": {"adjuster": "first-roller", "direction": "tighten"},
                    "can-change": {"can": rng.choice(("307x409", "401x411"))},
                    "lid-lot": {"lid_lot": "C"},
                }.get(kind, {})
                struck = rng.random() < 0.05
                events.append(Event(f"b-{number}", session.key, f"09:{number:02}", kind, struck=struck, **entries))
            found.append((session, events))
    rng.shuffle(found)
    return found


def test_the_same_charts_with_the_same_limits_and_signals() -> None:
    rng = seeded(7)
    seasons = [a_season(rng) for _ in range(60)]
    given = [
        [
            {**{k: v for k, v in dataclasses.asdict(session).items() if v}, "events": [written(e) for e in events]}
            for session, events in season
        ]
        for season in seasons
    ]
    found = in_browser(
        """given.map((season) => rules.chartsOf(season).map((chart) => ({
          of: [chart.sealer, chart.can, chart.dimension],
          stretches: chart.stretches.map((stretch) => ({
            limits: stretch.limits,
            points: stretch.points.map((point) => [point.session.date, id(point.event), point.value, point.low, point.high, point.movingRange, point.signals]),
          })),
          marks: chart.marks.map((mark) => [mark.before, mark.session.date, id(mark.event)]),
        })))""",
        given,
    )
    assert in_browser("[rules.FEWEST_CANS, rules.RUN]", None) == [FEWEST_CANS, RUN_RULE.length]
    with_limits = signals = 0
    for season, charts in zip(seasons, found, strict=True):
        expected = charts_of(season)
        assert [chart["of"] for chart in charts] == [[c.sealer, c.can, c.dimension] for c in expected]
        for mine, theirs in zip(charts, expected, strict=True):
            assert mine["marks"] == [[mark.before, mark.session.date, mark.event.id] for mark in theirs.marks]
            assert len(mine["stretches"]) == len(theirs.stretches)
            for one, other in zip(mine["stretches"], theirs.stretches, strict=True):
                assert [point[:5] + point[6:] for point in one["points"]] == [
                    [p.session.date, p.event.id, p.value, p.low, p.high, list(p.signals)] for p in other.points
                ]
                assert [point[5] for point in one["points"]] == pytest.approx([p.moving_range for p in other.points])
                assert (one["limits"] is None) == (other.limits is None)
                if other.limits:
                    assert one["limits"] == pytest.approx(plain(other.limits), abs=1e-12)
                    with_limits += 1
                signals += sum(bool(point.signals) for point in other.points)
    assert with_limits > 20
    assert signals > 20


def test_an_event_is_taken_by_the_phone_only_when_nothing_is_wrong_with_it(days: list[list[Event]]) -> None:
    rng = seeded(3)
    events = [event for day in days for event in day]
    spoiled = [_spoiled(rng, written(event)) for event in events]
    found = in_browser(
        "given.events.map((event) => store.soundEvent(event, given.kinds, given.results))",
        {
            "events": spoiled,
            "kinds": {name: {"needs": kind.needs, "may": kind.may} for name, kind in KINDS.items()},
            "results": dict(RESULTS),
        },
    )
    taken = [event for event in found if event is not None]
    assert len(events) / 3 < len(taken) < len(events) * 0.95
    assert [problems_of(event_of(event)) for event in taken] == [[] for _ in taken]
    refused = [event_of(event) for event, kept in zip(spoiled, found, strict=True) if kept is None]
    assert [event for event in refused if not problems_of(event)] == []


def event_of(entries: dict[str, Any]) -> Event:
    readings = tuple(MeasuredPoint(**reading) for reading in entries.get("readings", ()))
    return Event(**(entries | {"session": KEY, "readings": readings}))


def _spoiled(rng: random.Random, event: dict[str, Any]) -> dict[str, Any]:
    """Leave out, or put out of its range, one entry of every other event."""
    if rng.random() < 0.5:
        return event
    entry = rng.choice([name for name in event if name not in {"id", "readings", "revision", "struck"}])
    if entry in {"first", "last", "can_number"}:
        return event | {entry: rng.choice((0, 99999) if entry != "can_number" else (1, 5))}
    if entry in {"at", "kind"}:
        return event | {entry: rng.choice(("", "9:05", "25:00", "toString"))}
    return {name: value for name, value in event.items() if name != entry}


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
