"""Runs the browser's half of the bench log in Node, makes up days that both halves take, and asks both the same.

`ASKED` names what is asked. Both halves answer from plain values, so that what they were asked can lie in a file.
"""

from __future__ import annotations

import dataclasses
import json
from typing import TYPE_CHECKING, Any

from seaming.twin import files_of, plain, run_node
from tinwright.benchlog import (
    KINDS,
    Event,
    MeasuredPoint,
    Policy,
    Session,
    bad_cans,
    cans_to_hold,
    clock_went_back,
    counter_went_back,
    in_order,
    last_written,
    missed_checks,
    problems_of,
    read_lines,
    still_held,
    unchecked_before_change,
    what_is_due,
)
from tinwright.benchlog.charts import charts_of
from tinwright.benchlog.events import RESULTS
from tinwright.benchlog.ranges import can_name
from tinwright.logbook.merging import most_cautious

if TYPE_CHECKING:
    import random
    from collections.abc import Callable, Iterable, Mapping, Sequence

Plain = dict[str, Any]
Day = list[Plain]

_PARTS = ("rules", "writing", "late", "bench", "due", "holding", "charts", "sound", "merging")
_LOAD = f"""
load({files_of(f"bench-log-{part}.js" for part in _PARTS)});
const rules = {{}}, store = {{ ...tinwrightBenchLogSound, ...tinwrightBenchLogMerging }};
for (const part of ["", "Writing", "Due", "Holding", "Charts"]) Object.assign(rules, globalThis["tinwrightBenchLog" + part]);
const given = JSON.parse(input.toString());
const id = (event) => event && event.id;
"""
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
KINDS_AS_DATA = {name: {"needs": list(kind.needs), "may": list(kind.may)} for name, kind in KINDS.items()}
RESULTS_AS_DATA = {kind: list(results) for kind, results in RESULTS.items()}


def in_browser(script: str, given: Any) -> Any:
    """Work out an expression of `given` with the browser's half, in which `id` takes an event's id."""
    found = run_node(f"{_LOAD}\nprocess.stdout.write(JSON.stringify({script}));", json.dumps(given).encode())
    return json.loads(found)


def on_the_phone(asked: str, calls: Sequence[Sequence[Any]]) -> list[Any]:
    """Return what the browser's half answers to one of `ASKED`, once for each list of arguments."""
    found: list[Any] = in_browser(f"given.map((call) => ({ASKED[asked]})(...call))", calls)
    return found


def written(event: Event) -> Plain:
    """An event as it stands in the file of a phone: blank entries left out."""
    entries = {field.name: getattr(event, field.name) for field in dataclasses.fields(event) if field.name != "session"}
    blank = {field.name: field.default for field in dataclasses.fields(event)}
    kept = {name: value for name, value in entries.items() if value != blank.get(name) or name == "revision"}
    if event.readings:
        kept["readings"] = [dataclasses.asdict(reading) for reading in event.readings]
    return kept


def event_of(entries: Plain) -> Event:
    readings = tuple(MeasuredPoint(**reading) for reading in entries.get("readings", ()))
    return Event(**(entries | {"session": KEY, "readings": readings}))


def events_of(day: Day) -> list[Event]:
    return [event_of(entries) for entries in day]


def the_id(event: Event | None) -> str | None:
    return event.id if event else None


def pairs(ranges: Sequence[tuple[int, int]]) -> list[list[int]]:
    return [list(part) for part in ranges]


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


def season_as_written(season: Iterable[tuple[Session, list[Event]]]) -> list[Plain]:
    return [
        {**{k: v for k, v in dataclasses.asdict(session).items() if v}, "events": [written(e) for e in events]}
        for session, events in season
    ]


def spoiled(rng: random.Random, event: dict[str, Any]) -> dict[str, Any]:
    """Leave out, or put out of its range, one entry of every other event."""
    if rng.random() < 0.5:
        return event
    entry = rng.choice([name for name in event if name not in {"id", "readings", "revision", "struck"}])
    if entry in {"first", "last", "can_number"}:
        return event | {entry: rng.choice((0, 99999) if entry != "can_number" else (1, 5))}
    if entry in {"at", "kind"}:
        return event | {entry: rng.choice(("", "9:05", "25:00", "toString"))}
    return {name: value for name, value in event.items() if name != entry}


def due(day: Day, policy: Plain, now: str, dispositions: Mapping[str, str]) -> list[Plain]:
    return [
        plain(dataclasses.replace(each, asked_by=None)) | {"askedBy": the_id(each.asked_by)}
        for each in what_is_due(events_of(day), policy_of(policy), now, dispositions)
    ]


def missed(day: Day, policy: Plain, dispositions: Mapping[str, str]) -> list[list[Any]]:
    return [
        [one.check, list(one.reasons), one.at, list(one.cans), the_id(one.asked_by), the_id(one.made), one.times]
        for one in missed_checks(events_of(day), policy_of(policy), dispositions)
    ]


def holding(written_day: Day, dispositions: Mapping[str, str], reaches: Mapping[str, int]) -> Plain:
    day = events_of(written_day)
    held, bad = still_held(day, dispositions, reaches), bad_cans(day, dispositions)
    return {
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
            for hold in cans_to_hold(day, dispositions, reaches)
        ],
        "held": {"notHeated": pairs(held.not_heated), "heated": pairs(held.heated)},
        "unchecked": [
            [each.change.id, pairs(each.cans), the_id(each.since)]
            for each in unchecked_before_change(day, dispositions, reaches)
        ],
        "bad": pairs(bad),
        "names": [can_name(first) for first, _ in bad],
    }


def reading(written_day: Day) -> Plain:
    day = events_of(written_day)
    lines = read_lines(day)
    return {
        "order": [event.id for event in in_order(day)],
        "lines": [
            [line.event.id, line.run, line.begins_run, line.cans and list(line.cans), line.can, line.shown, line.count]
            for line in lines
        ],
        "after": [sum(line.is_after(other) for other in lines) for line in lines],
        "counter": [line.event.id for line in counter_went_back(day)],
        "clock": [[above.id, event.id] for above, event in clock_went_back(day)],
        "last": last_written(day, but="a"),
    }


def charts(season: list[Plain]) -> list[Plain]:
    days = [
        (Session(**{name: value for name, value in day.items() if name != "events"}), events_of(day["events"]))
        for day in season
    ]
    return [
        {
            "of": [chart.sealer, chart.can, chart.dimension],
            "stretches": [
                {
                    "limits": plain(stretch.limits),
                    "points": [
                        [
                            *(point.session.date, point.event.id, point.value, point.low, point.high),
                            *(point.moving_range, list(point.signals)),
                        ]
                        for point in stretch.points
                    ],
                }
                for stretch in chart.stretches
            ],
            "marks": [[mark.before, mark.session.date, mark.event.id] for mark in chart.marks],
        }
        for chart in charts_of(days)
    ]


def sound(entries: Plain) -> bool:
    return not problems_of(event_of(entries))


def more_cautious(one: Plain, other: Plain) -> int:
    first = event_of(one)
    return 0 if most_cautious([first, event_of(other)]) is first else 1


def policy_of(policy: Plain) -> Policy:
    names = [field.name for field in dataclasses.fields(Policy)]
    return Policy(**dict(zip(names, policy.values(), strict=True)))


ANSWERS: dict[str, Callable[..., Any]] = {
    "due": due,
    "missed": missed,
    "holding": holding,
    "reading": reading,
    "charts": charts,
    "sound": sound,
    "more-cautious": more_cautious,
}
"""What the Python half answers."""
ASKED = {
    "due": "(...day) => rules.whatIsDue(...day).map((due) => ({ ...due, askedBy: id(due.askedBy) }))",
    "missed": """(...day) => rules.missedChecks(...day).map((one) =>
      [one.check, one.reasons, one.at, one.cans, id(one.askedBy), id(one.made), one.times])""",
    "holding": """(...day) => ({
      holds: rules.cansToHold(...day).map((hold) =>
        [id(hold.event), hold.cans, hold.heated, id(hold.since), id(hold.until), hold.lookedAt.map(id), hold.reach]),
      held: rules.stillHeld(...day),
      unchecked: rules.uncheckedBeforeChange(...day).map((each) => [id(each.change), each.cans, id(each.since)]),
      bad: rules.walk(...day).bad,
      names: rules.walk(...day).bad.map(([first]) => rules.canName(first)),
    })""",
    "reading": """(day) => ({
      order: rules.inOrder(day).map(id),
      lines: rules.linesOf(day).map((line) => [id(line.event), line.run, line.beginsRun, line.cans, line.can, line.shown, line.count]),
      after: rules.linesOf(day).map((line) => rules.linesOf(day).filter((other) => rules.isAfter(line, other)).length),
      counter: rules.counterWentBack(day).map((line) => id(line.event)),
      clock: rules.clockWentBack(day).map((both) => both.map(id)),
      last: rules.lastWritten(day, "a"),
    })""",
    "charts": """(season) => rules.chartsOf(season).map((chart) => ({
      of: [chart.sealer, chart.can, chart.dimension],
      stretches: chart.stretches.map((stretch) => ({
        limits: stretch.limits,
        points: stretch.points.map((point) => [point.session.date, id(point.event), point.value, point.low, point.high, point.movingRange, point.signals]),
      })),
      marks: chart.marks.map((mark) => [mark.before, mark.session.date, id(mark.event)]),
    }))""",
    "sound": f"(event) => store.soundEvent(event, {json.dumps(KINDS_AS_DATA)}, {json.dumps(RESULTS_AS_DATA)}) !== null",
    "more-cautious": "(one, other) => (store.moreCautious(one, other) === one ? 0 : 1)",
}
"""The same, asked of the browser's half."""
