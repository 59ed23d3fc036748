"""What may stand in one line of the log."""

from __future__ import annotations

import pytest

from tinwright.benchlog import KINDS, Event, Session, in_order, problems_of

KEY = Session("2026-11-28", "Mill Street", "bench-crank-sealer").key


def an_event(kind: str, **entries: object) -> Event:
    return Event("a-1", KEY, "09:05", kind, **entries)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("event", "entry"),
    [
        (an_event("visual-check", result="good"), "can_number"),
        (an_event("visual-check", result="accept", can_number=3), "result"),
        (an_event("sealed", first=9, last=3), "last"),
        (an_event("sealed", first=0, last=3), "first"),
        (an_event("jam", defect="droop"), "defect"),
        (an_event("release", first=1, last=3, reason="looked at again"), "by"),
        (an_event("explosion"), "kind"),
    ],
)
def test_an_entry_that_is_missing_or_does_not_belong_is_named(event: Event, entry: str) -> None:
    assert [entry] == [name for name, _ in problems_of(event)]


def test_every_kind_can_be_written_with_what_it_needs() -> None:
    values = {"result": "good", "can_number": 3, "first": 1, "last": 3}
    for name, kind in KINDS.items():
        entries = {entry: values.get(entry, "x") for entry in kind.needs}
        if name == "measured-check":
            entries["result"] = "accept"
        assert problems_of(an_event(name, **entries)) == []


def test_events_of_one_minute_stand_in_the_order_in_which_they_were_written() -> None:
    at = [Event(f"a-{number}", KEY, "09:05", "jam") for number in (10, 9, 2)]
    early = Event("b-1", KEY, "09:04:59", "jam")
    assert [event.id for event in in_order([*at, early])] == ["b-1", "a-2", "a-9", "a-10"]
