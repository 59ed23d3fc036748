"""Words of the reports: cans, events, results and reasons as an educator would write them."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from tinwright.benchlog import KINDS, REASONS
from tinwright.benchlog.checks import LOOKED_AT, MEASURED, TORN_DOWN
from tinwright.knowledge.linking import plain_text
from tinwright.knowledge.plain_words import say_adjusted
from tinwright.paper.press import day_in_words

if TYPE_CHECKING:
    from tinwright.benchlog import Event, Hold, Missed
    from tinwright.knowledge import KnowledgeBase
    from tinwright.logbook.entries import Version

__all__ = ["date_in_words", "fault_in_words", "missed_in_words", "name_of", "told_in_words", "what_in_words"]

_CHECKS = {
    "test-cans": "Row of good test cans",
    "next-can": "Look at the very next can",
    "measure-again": "Measure again",
    "check": "Look at a can",
    "teardown": "Tear down a can",
    "end-check": "Check at the end of the session",
}


def date_in_words(date: str) -> str:
    """Write a day as people do.

    >>> date_in_words("2026-11-14")
    'November 14, 2026'
    """
    return day_in_words(dt.date.fromisoformat(date))


def name_of(kb: KnowledgeBase, kind: str, id_: str) -> str:
    """Return the name of a record, or its id where it is gone from the content."""
    record = kb.of_kind(kind).get(id_)
    return record.name if record else id_


def what_in_words(kb: KnowledgeBase, event: Event) -> str:
    """Say what happened, without the time, the cans and the people."""
    told = [
        event.result.replace("-", " "),
        name_of(kb, "defect", event.defect) if event.defect else "",
        _adjusted(kb, event) if event.adjuster else "",
        f"{event.turns} turn" if event.turns else "",
        f"for {name_of(kb, 'cause', event.cause).lower()}" if event.cause and event.kind == "adjustment" else "",
        name_of(kb, "cause", event.cause) if event.cause and event.kind != "adjustment" else "",
        event.can,
        f"lot {event.lid_lot}" if event.lid_lot else "",
        "torn down" if event.torn_down else "",
    ]
    words = ", ".join(part for part in told if part)
    label = KINDS[event.kind].label if event.kind in KINDS else event.kind
    return f"{label}: {words}" if words else label


def _adjusted(kb: KnowledgeBase, event: Event) -> str:
    """Say what was done: in the words of the cause it was done for, where it was what they ask for."""
    cause = kb.causes.get(event.cause)
    if cause and (str(cause.adjuster), str(cause.correction.direction)) == (event.adjuster, event.direction):
        order = plain_text(kb, cause.correction.say).rstrip(".")
        return order[:1].lower() + order[1:]
    return say_adjusted(event.adjuster, event.direction)


def fault_in_words(hold: Hold) -> str:
    """Say which checks could have found the fault that holds cans; empty for an order to hold."""
    if hold.reach == TORN_DOWN and not hold.event.defect:
        return "The fault was not named, so only a can torn down counts as a good check."
    return {
        LOOKED_AT: "Each check could have found this fault.",
        MEASURED: "Only a can that was measured could have shown this fault.",
        TORN_DOWN: "Only a can torn down could have shown this fault.",
    }.get(hold.reach, "")


def missed_in_words(missed: Missed) -> str:
    """Say which check was missed and why it was asked for."""
    reasons = ", ".join(REASONS[reason] for reason in missed.reasons)
    times = f", {missed.times} times over" if missed.times > 1 else ""
    return f"{_CHECKS[missed.check]}{times}: {reasons}"


def told_in_words(kb: KnowledgeBase, told: Version) -> str:
    """Say how one source tells something."""
    if told.event is not None:
        event = told.event
        cans = f", cans {event.first} to {event.last}" if event.first else ""
        number = f", can {event.can_number}" if event.can_number else ""
        more = ", ".join(part for part in (event.by, event.reason, event.note) if part)
        struck = "struck out: " if event.struck else ""
        return f"{struck}{event.at[:5]} {what_in_words(kb, event)}{number}{cans}{f' ({more})' if more else ''}"
    head = told.head
    if head is None:
        return ""
    parts = [("can", head.can), ("lids", head.lid_lot), ("supervised by", head.supervisor), ("product", head.product)]
    return ", ".join(f"{name} {value}" for name, value in parts if value)
