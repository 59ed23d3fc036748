"""Every can that the rule in words does not clear is held: random days against a slow reading of `HOW_TO_HOLD`.

The reference below asks one can at a time, with the words of the rule beside each question. It shares no code with
`benchlog.holding` and `benchlog.writing`; it does not know the clock. Days are written by two phones, a paper sheet and
the office, with counters that go back, clocks that are set, files that were imported meanwhile, and slips struck out.
"""

from __future__ import annotations

import random
from dataclasses import replace
from typing import TYPE_CHECKING

from hypothesis import Phase, given, settings
from hypothesis import event as note
from hypothesis import strategies as st

from benchlog_days import KEY
from tinwright.benchlog import HOW_TO_HOLD, Event, MeasuredPoint, cans_to_hold, still_held, unchecked_before_change
from tinwright.benchlog.ranges import RUN

if TYPE_CHECKING:
    from collections.abc import Callable

PHASES = (Phase.explicit, Phase.reuse, Phase.generate)
"""Seeds have nothing to shrink."""
DISPOSITIONS = {"vee": "reject", "pleat": "reject", "deep": "hold", "knurl-print": "cosmetic", "print": "watch"}
REACHES = {"vee": 1, "pleat": 3, "deep": 2, "knurl-print": 1, "print": 1}
FAULTS = ("vee", "vee", "pleat", "deep", "", "unheard-of")
WRITERS = ("a", "b", "P04", "desk")
Can = tuple[int, int]
"""Run and number."""


class Reader:
    """Reads a log as the words say, each question asked anew of the whole log."""

    def __init__(self, log: list[Event]) -> None:
        self.all = log
        self.knowing = self.all_known()
        self.runs: dict[str, int] = {}
        for event in sorted(log, key=lambda each: len(self.knowing[each.id])):
            self.runs[event.id] = self.run(event)
        self.lines = [event for event in log if not event.struck]

    # "What comes first is what was written first, on the same phone or sheet. A line of another counts as earlier only
    # if the writer had it already."

    def all_known(self) -> dict[str, set[str]]:
        known = {event.id: {other.id for other in self.all if self.had(event, other)} for event in self.all}
        while True:  # whoever had a line had what its writer had
            more = {id_: ids.union(*(known[other] for other in ids)) for id_, ids in known.items()}
            if more == known:
                return known
            known = more

    def had(self, event: Event, other: Event) -> bool:
        (source, number), (other_source, other_number) = event.id.split("-"), other.id.split("-")
        named = [part.split("-") for part in event.after.split()]
        return (other_source == source and int(other_number) < int(number)) or any(
            other_source == name and int(other_number) <= int(last) for name, last in named
        )

    def first(self, one: Event, other: Event) -> bool:
        return one.id in self.knowing[other.id]

    # "If the counter goes back, a new run begins." In a log, a number without a letter is of the run that was going on.

    def run(self, event: Event) -> int:
        known = [other for other in self.all if other.id in self.knowing[event.id] and not other.struck]
        shown = [self.shows(other) for other in known]
        count = max([(0, 0), *[can for can in shown if can]])
        if event.run:
            return ord(event.run) - ord("A")
        if event.kind == "new-run":
            return count[0] + 1
        if event.kind == "sealed":
            written = max([(0, 0), *[self.shows(other) or (0, 0) for other in known if other.kind == "sealed"]])
            late = (count[0], event.first) > written and (count[0], event.last) >= count
            if (count[0], event.first) <= count and not late:
                return count[0] + 1
        return count[0]

    def shows(self, event: Event) -> Can | None:
        numbers = [event.can_number or 0]
        if event.kind in {"sealed", "heated", "defect"}:
            numbers += [event.first or 0, event.last or 0]
        if max(numbers) or event.kind == "new-run":
            return self.runs[event.id], max(numbers)
        return None

    def cans(self, event: Event) -> set[Can]:
        return {(self.runs[event.id], number) for number in range(event.first or 1, (event.last or 0) + 1)}

    def sealed(self, lines: list[Event]) -> set[Can]:
        found: set[Can] = set()
        for event in lines:
            if shown := self.shows(event):
                found |= {(shown[0], number) for number in range(1, shown[1] + 1)}
        return found

    def sealed_as_known(self, event: Event) -> set[Can]:
        return self.sealed([other for other in self.lines if other is event or self.first(other, event)])

    def perhaps_sealed_before(self, event: Event) -> set[Can]:
        return self.sealed([other for other in self.lines if not self.first(event, other)])

    # "A check clears only what it can see. [...] Each wider check includes the narrower ones."

    def sees(self, event: Event) -> int:
        inside = {"body-hook", "cover-hook", "overlap", "tightness"}
        if event.torn_down or {reading.dimension for reading in event.readings} & inside:
            return 3
        return {"measured-check": 2}.get(event.kind, 1)

    def needs(self, event: Event) -> int:
        return REACHES.get(event.defect, 3)

    def is_check(self, event: Event) -> bool:
        return event.kind in {"test-can", "visual-check", "measured-check"}

    def is_bad(self, event: Event) -> bool:
        grave = bool(event.defect) and DISPOSITIONS.get(event.defect, "hold") not in {"cosmetic", "watch"}
        if event.kind == "defect":
            return grave
        return self.is_check(event) and (event.result in {"bad", "reject"} or grave)

    # "Take a reading that must be measured again as no check." "Take looks in one go as one look: if one is bad, those
    # found good just before it count for nothing."

    def is_good(self, event: Event) -> bool:
        if not self.is_check(event) or event.result not in {"good", "accept"} or self.is_bad(event):
            return False
        if DISPOSITIONS.get(event.defect) == "watch":
            return False
        return not any(self.is_bad(other) and self.in_one_go(event, other) for other in self.lines)

    def in_one_go(self, good: Event, bad: Event) -> bool:
        changes = {"set-up", "adjustment", "jam", "can-change", "close"}
        between = any(
            other.kind in changes and self.first(good, other) and self.first(other, bad) for other in self.lines
        )
        highest = max(self.sealed_as_known(good), default=(0, 0))
        newest = max([self.shows(other) or (0, 0) for other in self.lines if other is bad or self.first(other, bad)])
        return self.first(good, bad) and not between and newest <= max(highest, self.shown_run(good))

    def shown_run(self, event: Event) -> Can:
        known = [other for other in self.lines if other is event or self.first(other, event)]
        return max([(0, 0), *[self.shows(other) or (0, 0) for other in known]])

    def can_of(self, event: Event) -> Can | None:
        number = event.can_number
        if event.kind == "defect":
            number = event.first
        if event.kind == "test-can" or number is None:
            return None
        return self.runs[event.id], number

    # "A good check of a can clears the cans through that can. A good test can clears every can sealed before it."

    def clears(self, good: Event, can: Can) -> bool:
        through = self.can_of(good)
        return can <= (through if through is not None else self.shown_run(good))

    # "When a fault is found, hold every can after the last good check that could have found this fault, through the last
    # can sealed." "Hold what is sealed after the fault, too, until a test can or a can sealed later is found good by a
    # check that could have found this fault."

    def is_held_by(self, fault: Event, can: Can) -> bool:
        bad = self.can_of(fault)
        for good in self.lines:
            if not self.is_good(good) or self.sees(good) < self.needs(fault):
                continue
            through = self.can_of(good) if self.can_of(good) is not None else self.shown_run(good)
            if self.first(good, fault) and self.clears(good, can) and (bad is None or through < bad):
                return False
            if self.first(fault, good):
                checked = self.can_of(good)
                highest = max([(0, 0), *[self.shows(o) or (0, 0) for o in self.lines if not self.first(fault, o)]])
                if checked is not None and not checked > highest:
                    continue
                later = max([(0, 0), *[self.shows(o) or (0, 0) for o in self.lines if not self.first(good, o)]])
                if can > later:
                    return False
        return can in self.sealed(self.lines)

    # "Release a can only with a reason and a name. A release lets go what was held when it was written. A can that was
    # found bad is never released."

    def is_let_go(self, reason: Event, can: Can) -> bool:
        return any(
            release.kind == "release"
            and release.reason
            and release.by
            and self.first(reason, release)
            and can in self.cans(release)
            and (reason.kind == "hold" or can in self.sealed_as_known(release))
            for release in self.lines
        )

    def is_found_bad(self, can: Can) -> bool:
        for event in self.lines:
            if self.is_bad(event):
                if event.kind == "defect" and event.first is not None and can in self.cans(event):
                    return True
                if event.kind != "defect" and self.can_of(event) == can:
                    return True
        return False

    def is_held(self, can: Can) -> bool:
        if any(event.kind == "discard" and can in self.cans(event) for event in self.lines):
            return False
        if self.is_found_bad(can):
            return True
        for event in self.lines:
            by_order = event.kind == "hold" and can in self.cans(event)
            if (by_order or (self.is_bad(event) and self.is_held_by(event, can))) and not self.is_let_go(event, can):
                return True
        return False

    def held(self) -> set[Can]:
        asked = self.sealed(self.lines)
        for event in self.lines:
            if event.kind in {"hold", "defect"} and event.first is not None:
                asked |= self.cans(event)
            if can := self.can_of(event):
                asked.add(can)
        return {can for can in asked if can[1] >= 1 and self.is_held(can)}


class Writers:
    """Two phones, a sheet and the office write one day, as `rng` has it."""

    def __init__(self, rng: random.Random, *, alone: bool) -> None:
        self.rng = rng
        self.log: list[Event] = []
        self.counter = 0
        self.clocks = {writer: rng.randint(8, 11) * 3600 for writer in WRITERS}
        self.writers = WRITERS[:1] if alone else WRITERS

    def write(self, kind: str, **entries: object) -> None:
        rng = self.rng
        writer = rng.choice(self.writers)
        self.clocks[writer] += rng.choice((0, 20, 60, 300, 900, -3600, 3600))
        at = self.clocks[writer] % 86400
        number = 1 + sum(event.id.startswith(f"{writer}-") for event in self.log)
        others = sorted({event.id.split("-")[0] for event in self.log} - {writer})
        imported = others if writer == "desk" else [other for other in others if rng.random() < 0.3]
        after = " ".join(
            f"{other}-{max(int(event.id.split('-')[1]) for event in self.log if event.id.startswith(f'{other}-'))}"
            for other in imported
        )
        run = rng.choice(("", "", "", "", "", "A", "B")) if kind not in {"sealed", "new-run"} else ""
        struck = rng.random() < 0.06
        entries = {"run": run, "after": after, "struck": struck} | entries
        clock = f"{at // 3600:02}:{at // 60 % 60:02}"
        self.log.append(Event(f"{writer}-{number}", KEY, clock, kind, **entries))  # type: ignore[arg-type]

    def seal(self) -> None:
        if self.rng.random() < 0.15:
            self.counter = 0
            if self.rng.random() < 0.4:
                self.write("new-run")
        first = max(1, self.counter + self.rng.choice((1, 1, 1, 1, 1, 0, 2)))
        self.counter = first + self.rng.randint(0, 4)
        self.write("sealed", first=first, last=self.counter)

    def near(self) -> int:
        return max(0, self.counter - self.rng.randint(0, 3))

    def check(self) -> None:
        rng = self.rng
        kind = rng.choice(("test-can", "visual-check", "visual-check", "measured-check"))
        bad = rng.random() < 0.25
        results = {"measured-check": ("reject",) if bad else ("accept", "accept", "measure-again")}
        entries: dict[str, object] = {"result": rng.choice(results.get(kind, ("bad",) if bad else ("good",)))}
        entries["defect"] = rng.choice(FAULTS) if bad else rng.choice(("", "", "", "", "knurl-print", "print", "vee"))
        if kind == "visual-check" or rng.random() < 0.5:
            entries["can_number"] = self.near()
        if kind != "visual-check":
            entries["torn_down"] = rng.random() < 0.4
        if kind == "measured-check" and rng.random() < 0.3:
            entries["readings"] = (MeasuredPoint("cover-hook", "1", 0.078),)
        self.write(kind, **entries)

    def deal(self) -> None:
        kind = self.rng.choice(("heated", "hold", "release", "release", "discard", "defect"))
        first = self.rng.randint(1, max(1, self.counter))
        entries: dict[str, object] = {
            "first": first,
            "last": min(first + self.rng.randint(0, 5), max(first, self.counter)),
        }
        if kind == "release":
            entries |= {"reason": self.rng.choice(("Torn down", "Torn down", "")), "by": "AE"}
        if kind == "defect":
            entries["defect"] = self.rng.choice(("vee", "pleat", "knurl-print", "print"))
            if self.rng.random() < 0.3:
                entries |= {"first": None, "last": None}
        self.write(kind, **entries)

    def change(self) -> None:
        kind = self.rng.choice(("adjustment", "jam", "can-change", "lid-lot", "close"))
        self.write(kind)


def a_day(seed: int, *, alone: bool) -> list[Event]:
    rng = random.Random(seed)  # noqa: S311 - days, not secrets
    day = Writers(rng, alone=alone)
    steps: list[Callable[[], None]] = [
        day.seal,
        day.seal,
        day.seal,
        day.check,
        day.check,
        day.check,
        day.deal,
        day.change,
    ]
    for _ in range(rng.randint(0, 26)):
        rng.choice(steps)()
    return day.log


def cans_in(ranges: tuple[tuple[int, int], ...]) -> set[Can]:
    return {divmod(can, RUN) for first, last in ranges for can in range(first, last + 1)}


@settings(max_examples=250, deadline=None, phases=PHASES)
@given(seed=st.integers(0, 2**40), alone=st.booleans(), order=st.randoms(use_true_random=False))
def test_every_can_that_the_rule_in_words_does_not_clear_is_held(seed: int, alone: bool, order: random.Random) -> None:
    day = a_day(seed, alone=alone)
    order.shuffle(day)  # as files come in
    expected = Reader(day).held()
    note("some held" if expected else "none held")
    assert cans_in(still_held(day, DISPOSITIONS, REACHES).cans) == expected


@settings(max_examples=60, deadline=None, phases=PHASES)
@given(seed=st.integers(0, 2**40), clocks=st.randoms(use_true_random=False))
def test_the_clock_changes_nothing_of_what_is_held(seed: int, clocks: random.Random) -> None:
    day = a_day(seed, alone=False)
    other = [replace(event, at=f"{clocks.randint(0, 23):02}:{clocks.randint(0, 59):02}") for event in day]
    assert still_held(day, DISPOSITIONS, REACHES) == still_held(other, DISPOSITIONS, REACHES)


@settings(max_examples=60, deadline=None, phases=PHASES)
@given(seed=st.integers(0, 2**40), alone=st.booleans())
def test_no_can_is_both_to_be_held_and_unchecked(seed: int, alone: bool) -> None:
    day = a_day(seed, alone=alone)
    known = (DISPOSITIONS, REACHES)
    to_hold = {can for hold in cans_to_hold(day, *known) for can in cans_in(hold.cans)}
    listed = [can for each in unchecked_before_change(day, *known) for can in cans_in(each.cans)]
    assert not to_hold & set(listed)
    assert len(listed) == len(set(listed))


def test_each_part_of_the_reference_quotes_the_rule() -> None:
    text = " ".join(HOW_TO_HOLD)
    for words in (
        "A check clears only what it can see.",
        "hold every can after the last good check that could have found this fault, through the last can sealed.",
        "A good check of a can clears the cans through that can. A good test can clears every can sealed before it.",
        "Take looks in one go as one look",
        "If the counter goes back, a new run begins.",
        "What comes first is what was written first, on the same phone or sheet.",
        "A release lets go what was held when it was written. A can that was found bad is never released.",
    ):
        assert words in text
